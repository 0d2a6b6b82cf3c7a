"""The receiver check in a notebook, and its log."""
