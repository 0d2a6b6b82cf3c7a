"""Which stations a recorded flight may have tuned."""

import numpy as np

from vorlib.aircraft.flight import Flight
from vorlib.debrief.files import stations_near
from vorlib.earth.geodesic import Position
from vorlib.stations import listed
from vorlib.vor.station import Station


def station(ident, lat_deg, lon_deg, name=""):
    return Station(ident, Position(lat_deg, lon_deg), 0.0, 113.4, name)


def northward(begin_lat_deg, end_lat_deg):
    lat, level = np.linspace(begin_lat_deg, end_lat_deg, 241), np.zeros(241)
    return Flight(60.0 * np.arange(241.0), Position(lat, level - 30.0, level), level, level, level)


def test_a_long_flight_may_have_tuned_the_stations_at_either_end():
    start, end, elsewhere = (
        station("STA", 40.1, -30.0),
        station("FIN", 49.8, -30.0),
        station("OFF", 40.0, -60.0),
    )
    found = stations_near(listed([end, elsewhere, start], "a test"), northward(40.0, 50.0))
    assert set(found) == {"STA", "FIN"}


def test_the_stations_of_a_flight_come_nearest_first():
    far, near = station("FAR", 45.0, -31.0), station("NEA", 41.25, -30.1)
    assert list(stations_near(listed([far, near], "a test"), northward(40.0, 50.0))) == [
        "NEA",
        "FAR",
    ]


def test_of_two_stations_with_one_ident_the_one_nearest_to_the_flight_is_meant():
    beside = station("DUP", 45.0, -31.0, "Beside the middle")
    on_way = station("DUP", 41.25, -30.1, "On the way")
    found = stations_near(listed([beside, on_way], "a test"), northward(40.0, 50.0))
    assert found["DUP"].name == "On the way"
