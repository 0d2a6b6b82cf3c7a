"""The station: radials, distances, what can be built and what cannot."""

from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import vorlib as v
from vorlib.vor.station import check_frequency

TODAY = date(2026, 6, 1)
HERE = v.Position(46.0, -30.0)


def station(declination_deg: float = -9.0, position: v.Position = HERE, **more) -> v.Station:
    """A station of the archipelago's middle."""
    arguments = {"ident": "QLN", "frequency_mhz": 113.4} | more
    return v.Station(position=position, declination_deg=declination_deg, **arguments)


@given(st.floats(0.0, 360.0), st.floats(0.1, 150.0), st.floats(-30.0, 30.0))
def test_a_place_put_on_a_radial_is_found_on_it(
    radial: float, distance: float, declination: float
) -> None:
    quillon = station(declination)
    there = quillon.position_on(radial, distance, altitude_ft=5000.0)
    assert abs(v.difference_deg(quillon.radial_deg(there), radial)) < 1e-7
    assert quillon.distance_nm(there) == pytest.approx(distance, abs=1e-7)
    assert there.altitude_ft == 5000.0


@given(st.floats(0.0, 360.0), st.floats(-30.0, 30.0), st.floats(-180.0, 180.0))
def test_turning_the_station_turns_its_radials_the_other_way(
    radial: float, declination: float, turn: float
) -> None:
    there = station(declination).position_on(radial, 20.0)
    turned = station(float(v.wrap_180(declination + turn)))
    assert abs(v.difference_deg(turned.radial_deg(there), radial - turn)) < 1e-7


@given(st.floats(1.0, 359.0), st.floats(1.0, 100.0), st.floats(-180.0, 180.0))
def test_turning_the_world_about_the_pole_changes_no_radial(
    radial: float, distance: float, turn: float
) -> None:
    there = station().position_on(radial, distance)
    moved = station(position=v.Position(46.0, -30.0 + turn))
    there_moved = v.Position(there.lat_deg, there.lon_deg + turn)
    assert abs(v.difference_deg(moved.radial_deg(there_moved), radial)) < 1e-7


def test_a_radial_counts_from_the_stations_own_north_not_todays() -> None:
    old = station(declination_deg=-14.0)
    drift = float(old.declination_drift_deg(TODAY))
    assert drift == pytest.approx(-14.0 - float(v.variation_deg(HERE, TODAY)))
    there = old.position_on(90.0, 30.0)
    bearing = float(old.magnetic_bearing_deg(there, TODAY))
    assert bearing == pytest.approx(90.0 + drift)
    assert abs(drift) > 3.0


def test_dme_overhead_shows_the_height() -> None:
    # Pilot's Handbook (FAA-H-8083-25C), chapter 16, DME: about 1.0 NM at 6,076 ft.
    overhead = v.Position(46.0, -30.0, 6000.0)
    assert station().slant_range_nm(overhead) == pytest.approx(0.987, abs=1e-3)


def test_slant_range_differs_little_from_a_mile_for_each_thousand_feet_on() -> None:
    # At 1 NM for each 1,000 ft the error is 1.345 percent (computed), called negligible in
    # Instrument Flying Handbook (FAA-H-8083-15B), chapter 9, DME errors.
    there = station().position_on(90.0, 10.0, altitude_ft=10000.0)
    assert station().slant_range_nm(there) / 10.0 == pytest.approx(1.01345, abs=1e-5)


def test_slant_range_follows_the_design_formula() -> None:
    # ICAO Doc 8168, volume II, part I, section 4, chapter 3, appendix C: Ds^2 = D^2 - 0.027 h^2, NM
    # and thousands of feet.
    there = station().position_on(200.0, 15.0, altitude_ft=20000.0)
    slant = float(station().slant_range_nm(there))
    assert np.sqrt(slant**2 - 0.027 * 20.0**2) == pytest.approx(15.0, abs=2e-3)


def test_height_counts_from_the_antenna() -> None:
    high = station(position=v.Position(46.0, -30.0, 1500.0))
    assert high.height_ft(v.Position(46.1, -30.0, 4500.0)) == 3000.0


def test_exactly_over_the_station_distance_is_zero_and_the_radial_is_defined() -> None:
    assert station().distance_nm(HERE) == 0.0
    assert station(-9.0).radial_deg(HERE) == 9.0


@pytest.mark.parametrize("lat", [90.0, -90.0])
def test_a_station_at_a_pole_has_radials(lat: float) -> None:
    polar = station(0.0, v.Position(lat, 0.0))
    radials = polar.radial_deg(v.Position(np.sign(lat) * 89.0, [0.0, 90.0, 180.0, -90.0]))
    expected = [180.0, 90.0, 360.0, 270.0] if lat > 0 else [360.0, 90.0, 180.0, 270.0]
    np.testing.assert_allclose(np.abs(v.difference_deg(radials, expected)), 0.0, atol=1e-9)


def test_one_station_answers_a_million_places_in_their_shape() -> None:
    there = v.Position(np.full((1000, 1000), 46.5), np.linspace(-31, -29, 1000))
    assert station().radial_deg(there).shape == (1000, 1000)


@pytest.mark.parametrize("mhz", [108.0, 113.4, 115.05, 117.95])
def test_a_channel_of_the_vor_band_is_taken(mhz: float) -> None:
    assert check_frequency(mhz) == mhz


def test_below_112_mhz_a_vor_is_on_an_even_tenth_or_just_above_and_a_localizer_between() -> None:
    # Instrument Flying Handbook (FAA-H-8083-15B), chapter 9, VOR components: 108.0 to 117.95 MHz,
    # on even tenths in the part shared with the instrument landing system. Localizers start at
    # 108.10 and end at 111.95 (from memory).
    channels = [round(108.0 + 0.05 * i, 2) for i in range(80)]
    taken = [mhz for mhz in channels if int(mhz * 10.0 + 0.01) % 2 == 0]
    assert [check_frequency(mhz) for mhz in taken] == taken
    assert len(taken) == 40
    for mhz in set(channels) - set(taken):
        with pytest.raises(ValueError, match=f"got {mhz:g}, a localizer's channel"):
            check_frequency(mhz)


BAD = [
    ({"frequency_mhz": 107.95}, "frequency_mhz must be from 108 to 117.95 MHz, got 107.95"),
    ({"frequency_mhz": 118.0}, "frequency_mhz must be from 108 to 117.95 MHz, got 118"),
    ({"frequency_mhz": 113.42}, "frequency_mhz must be a whole multiple of 0.05 MHz, got 113.42"),
    ({"frequency_mhz": 108.1}, "below 112 MHz must be an even tenth, or 0.05 above one: got 108.1"),
    ({"frequency_mhz": 110.3}, "got 110.3, a localizer's channel"),
    ({"frequency_mhz": 111.95}, "got 111.95, a localizer's channel"),
    ({"frequency_mhz": float("nan")}, "frequency_mhz must be finite"),
    ({"declination_deg": 181.0}, "declination_deg must be from -180 to 180 degrees, got 181"),
    ({"declination_deg": [1.0, 2.0]}, "declination_deg must be one number"),
    ({"ident": "qln"}, "ident must be one to four capital letters, got 'qln'"),
    ({"ident": ""}, "ident must be one to four capital letters"),
    ({"service": "XL"}, "service must be one of T, L, H, VL, VH, got 'XL'"),
    ({"position": v.Position([46.0, 47.0], -30.0)}, "position must be one place"),
]


@pytest.mark.parametrize(("change", "message"), BAD, ids=[m for _, m in BAD])
def test_a_station_that_cannot_be_is_refused(change: dict, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        station(**change)


def test_a_place_behind_the_station_is_refused() -> None:
    with pytest.raises(ValueError, match="distance_nm must be 0 NM or more, got -3"):
        station().position_on(40.0, -3.0)
