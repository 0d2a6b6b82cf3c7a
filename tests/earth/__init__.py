"""Earth."""
