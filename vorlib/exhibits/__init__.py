"""exhibits."""
