"""Pictures of a flight against time and from the side."""
