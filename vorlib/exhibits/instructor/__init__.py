"""Instructor."""
