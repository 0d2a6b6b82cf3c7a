"""Indicator."""
