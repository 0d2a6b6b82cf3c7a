"""Core."""
