"""Real stations for lessons near home, from published files. Not for navigation."""

from vorlib.stationdata.loading import load_stations
from vorlib.stationdata.rows import ListedStation
from vorlib.stationdata.station_list import (
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
