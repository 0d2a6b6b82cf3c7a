"""The wind that a track tells, and how it was corrected for."""
