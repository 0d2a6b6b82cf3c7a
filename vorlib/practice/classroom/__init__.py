"""A class's records read together: results, progress, what to teach again."""
