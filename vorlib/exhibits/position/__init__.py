"""Position."""
