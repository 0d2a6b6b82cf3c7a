"""How near to the station and how far from it a replayed flight may begin."""

__all__ = ["CLEAR_OF_CONE_NM", "FARTHEST_NM", "NEAREST_NM"]

NEAREST_NM, FARTHEST_NM = 2.0, 25.0
CLEAR_OF_CONE_NM = 4.0  # where the flight leads to the station, so that there is some of it
