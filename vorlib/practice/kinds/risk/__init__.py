"""Decisions in flight, each with what becomes of it: the situations of risk management."""
