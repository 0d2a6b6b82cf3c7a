"""Questions about courses and headings to fly."""
