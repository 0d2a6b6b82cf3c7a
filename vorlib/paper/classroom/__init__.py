"""Sheets about a class."""
