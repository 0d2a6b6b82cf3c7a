"""Procedures."""
