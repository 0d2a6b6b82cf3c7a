"""Flown by hand."""
