"""The indicator, the compass card and the signal."""
