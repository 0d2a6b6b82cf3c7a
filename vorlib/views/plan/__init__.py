"""The map seen from above, and what is drawn on it."""
