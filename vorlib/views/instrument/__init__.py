"""Instrument."""
