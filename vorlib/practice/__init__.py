"""practice."""
