"""Fly an aircraft: wind, turns, and a flight through time."""
