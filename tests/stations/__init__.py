"""Stations."""
