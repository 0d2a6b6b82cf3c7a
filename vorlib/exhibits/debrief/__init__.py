"""The debrief of a recorded flight in a notebook."""
