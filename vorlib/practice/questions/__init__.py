"""Questions."""
