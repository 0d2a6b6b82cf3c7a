"""The check flight in a notebook, and its report."""
