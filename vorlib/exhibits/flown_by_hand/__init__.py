"""Flights that the learner flies by hand."""
