"""The station, its radials and coverage, the receiver and its indicator."""
