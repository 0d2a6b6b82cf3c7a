"""Course."""
