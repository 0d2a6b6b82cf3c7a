"""Classroom."""
