"""Questions about what the indicator shows and means."""
