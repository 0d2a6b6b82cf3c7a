"""Debrief."""
