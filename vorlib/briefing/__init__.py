"""Briefing."""
