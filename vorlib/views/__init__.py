"""views."""
