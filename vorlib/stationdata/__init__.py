"""Real stations for lessons near home, from published files. Not for navigation."""

from vorlib.stationdata.loading import load_stations
from vorlib.stationdata.rows import ListedStation
from vorlib.stationdata.station_list import (
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
