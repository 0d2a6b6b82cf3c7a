"""A flight far from every station is said to be, and why, where that can be told."""

import pytest

from tracks.written import gpx, north
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks import read_track
from vorlib.tracks.reach import out_of_reach


def words(points):
    return out_of_reach(read_track(gpx(points).encode()).flight, STATIONS.values())


def test_a_flight_among_its_stations_needs_no_words():
    assert words(north()) == ""


def test_swapped_coordinates_that_are_both_possible_show_against_the_stations():
    swapped = [(s, lon, lat, meters) for s, lat, lon, meters in north()]
    said = words(swapped)
    assert said.startswith("The nearest station, ")
    assert said.endswith(" NM from the flight: latitude and longitude seem to be swapped.")


@pytest.mark.parametrize("lon", [-120.0, 120.0])
def test_a_flight_elsewhere_is_not_called_swapped(lon):
    assert words([(s, lat, lon, m) for s, lat, _, m in north()]).endswith(
        "choose stations near it."
    )


def test_a_long_flight_that_ends_at_a_station_belongs_there():
    points = [(30.0 * i, 45.0 - 8.0 * (1.0 - i / 480.0), -30.0, 1000.0) for i in range(481)]
    assert words(points) == ""
