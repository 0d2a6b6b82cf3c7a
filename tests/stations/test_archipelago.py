"""The invented islands are fit to teach in: plausible, reproducible and real nowhere."""

from itertools import combinations

import numpy as np
import pytest

from vorlib.earth.geodesic import inverse
from vorlib.earth.variation import variation_deg
from vorlib.stations.archipelago import (
    AIRFIELDS,
    DECLINATION_YEARS,
    ISLANDS,
    NAME,
    PEOPLE,
    STATIONS,
    TODAY,
)

STATION_ROWS = pytest.mark.parametrize("station", STATIONS.values(), ids=STATIONS)


def is_on_land(place):
    """Tell by the crossing rule whether a place lies within an island's coast."""
    return any(_encloses(island.outline, place) for island in ISLANDS)


def _encloses(coast, place):
    lat, lon = coast.lat_deg, coast.lon_deg
    next_lat, next_lon = np.roll(lat, -1), np.roll(lon, -1)
    straddles = (lat > place.lat_deg) != (next_lat > place.lat_deg)
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = lon + (place.lat_deg - lat) * (next_lon - lon) / (next_lat - lat)
    return np.count_nonzero(straddles & (place.lon_deg < crossing)) % 2 == 1


def test_quillon_is_the_station_of_the_lessons():
    quillon = STATIONS["QLN"]
    assert (quillon.name, quillon.declination_deg, quillon.service) == ("Quillon", -9, "L")
    assert quillon.frequency_mhz == pytest.approx(113.40)


def test_five_stations_cover_the_services_that_are_taught():
    assert sorted(station.service for station in STATIONS.values()) == ["H", "L", "L", "T", "VH"]


def test_any_two_stations_are_25_to_70_nm_apart():
    for one, other in combinations(STATIONS.values(), 2):
        assert 25 <= one.distance_nm(other.position) <= 70, (one.ident, other.ident)


def test_the_islands_stretch_about_120_by_90_nm_around_46_north_30_west():
    lat = np.concatenate([island.outline.lat_deg for island in ISLANDS])
    lon = np.concatenate([island.outline.lon_deg for island in ISLANDS])
    assert inverse(46.0, lon.min(), 46.0, lon.max()).distance_nm == pytest.approx(120, abs=5)
    assert inverse(lat.min(), -30.0, lat.max(), -30.0).distance_nm == pytest.approx(90, abs=5)
    assert (lat.mean(), lon.mean()) == pytest.approx((46.0, -30.0), abs=0.2)


@STATION_ROWS
def test_a_station_declination_is_whole_degrees_and_0_to_5_off_todays_variation(station):
    assert station.declination_deg == int(station.declination_deg)
    assert abs(station.declination_deg - variation_deg(station.position, TODAY)) < 5.0


def test_some_declinations_have_aged_and_others_have_not():
    aged = {
        ident: abs(station.declination_deg - float(variation_deg(station.position, TODAY)))
        for ident, station in STATIONS.items()
    }
    assert min(aged.values()) < 0.5
    assert max(aged.values()) > 4.0


def test_the_longer_ago_a_declination_was_set_the_further_west_it_is():
    by_year = sorted(STATIONS, key=DECLINATION_YEARS.__getitem__)
    declinations = [STATIONS[ident].declination_deg for ident in by_year]
    assert declinations == sorted(declinations)


@STATION_ROWS
def test_a_frequency_is_one_a_vor_may_have(station):
    # ICAO Annex 10, volume I, 3.3.2: 111.975 to 117.975 MHz, 50 kHz apart; below 112 on even
    # tenths: Instrument Flying Handbook (FAA-H-8083-15B), chapter 9, VOR components.
    channel = station.frequency_mhz / 0.05
    assert channel == pytest.approx(round(channel), abs=1e-6)
    assert 108.0 <= station.frequency_mhz <= 117.95
    if station.frequency_mhz < 112.0:
        assert round(station.frequency_mhz * 10, 6) % 2 == 0


@STATION_ROWS
def test_an_ident_is_three_letters_that_morse_can_carry(station):
    assert len(station.ident) == 3
    assert station.ident.isascii()
    assert station.ident.isalpha()
    assert station.ident.isupper()


def test_frequencies_are_all_different():
    assert len({station.frequency_mhz for station in STATIONS.values()}) == len(STATIONS)


@STATION_ROWS
def test_a_station_stands_on_land(station):
    assert is_on_land(station.position)
    assert station.position.altitude_ft > 0


@pytest.mark.parametrize("airfield", AIRFIELDS.values(), ids=AIRFIELDS)
def test_an_airfield_stands_on_land_and_its_ident_is_no_real_code(airfield):
    # A location indicator is four letters (ICAO Doc 7910, from memory): none begins with a digit.
    assert is_on_land(airfield.position)
    assert airfield.ident[0].isdigit()
    assert airfield.ident[1:].isalpha()


def test_an_island_is_an_outline_of_12_to_24_points():
    assert len(ISLANDS) == 6
    for island in ISLANDS:
        assert 12 <= island.outline.shape[0] <= 24


def test_today_is_within_the_years_of_the_magnetic_model():
    assert 2025 <= TODAY.year < 2030


def test_there_is_an_instructor_and_there_are_learners():
    assert NAME == "Corvane Islands"
    roles = sorted(person.role for person in PEOPLE)
    assert roles == ["instructor", "learner", "learner"]


def test_the_islands_cannot_be_changed_by_accident():
    with pytest.raises(TypeError):
        STATIONS["QLN"] = STATIONS["OBL"]
