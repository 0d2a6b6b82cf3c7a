"""Draw pictures from numbers, and say each in a sentence."""
