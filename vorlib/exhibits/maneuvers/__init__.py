"""Maneuvers."""
