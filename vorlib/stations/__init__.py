"""Real stations for lessons near home, from published files. Not for navigation."""

from vorlib.stations.loading import load_stations
from vorlib.stations.rows import ListedStation
from vorlib.stations.station_list import (
    OLD_DAYS,
    Near,
    StationList,
    declination_words,
    east_or_west,
    listed,
)

__all__ = [
    "OLD_DAYS",
    "ListedStation",
    "Near",
    "StationList",
    "declination_words",
    "east_or_west",
    "listed",
    "load_stations",
]
