"""The check flight: its plan, its session, its store and its report."""
