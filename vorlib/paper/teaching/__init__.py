"""Sheets for the instructor: lesson plans, the syllabus, the preflight briefing."""
