"""Exhibits about where you are: radials, the indicator, fixes, time to the station."""
