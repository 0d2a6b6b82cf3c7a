"""Aircraft."""
