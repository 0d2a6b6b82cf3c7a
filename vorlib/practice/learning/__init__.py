"""Learning."""
