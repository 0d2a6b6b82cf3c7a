"""Tracks."""
