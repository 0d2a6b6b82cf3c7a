"""Sheets for whoever teaches: lesson plans, the syllabus, the briefing before a flight."""
