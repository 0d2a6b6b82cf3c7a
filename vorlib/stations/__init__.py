"""Real stations for lessons near home, from published files. Not for navigation."""

from vorlib.stations.loading import load_stations
from vorlib.stations.rows import ListedStation
from vorlib.stations.station_list import (
    OLD_DAYS,
    Near,
    StationList,
    declination_words,
    listed,
)

__all__ = [
    "OLD_DAYS",
    "ListedStation",
    "Near",
    "StationList",
    "declination_words",
    "listed",
    "load_stations",
]
