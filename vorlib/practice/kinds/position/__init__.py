"""Questions about radials, fixes and distances."""
