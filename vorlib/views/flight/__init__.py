"""Flight."""
