"""What every exhibit is made of: controls, a picture widget, a page and a clock."""
