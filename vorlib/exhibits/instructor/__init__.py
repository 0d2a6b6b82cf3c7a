"""The instructor's pages: prepare, print, ask, and read a class's results."""
