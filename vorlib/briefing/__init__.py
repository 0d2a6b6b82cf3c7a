"""Prepare a lesson near home: stations, fields, tasks, and the ground below."""
