"""Browser."""
