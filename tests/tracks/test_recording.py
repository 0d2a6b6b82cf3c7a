"""A recorded flight is the same in whatever order and form its points were written down."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracks.written import gpx, north, row, table
from vorlib.aircraft.flight import Aircraft, advance, record, start
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import difference_deg
from vorlib.earth.geodesic import Position
from vorlib.io.text import FileError
from vorlib.tracks import read_track


def read(text, **options):
    return read_track(text.encode(), **options)


def read_gpx(*tracks, **options):
    return read(gpx(*tracks), **options)


def assert_same(one, other):
    assert one.start == other.start
    np.testing.assert_array_equal(one.flight.time_s, other.flight.time_s)
    for name in ("lat_deg", "lon_deg", "altitude_ft"):
        np.testing.assert_array_equal(
            getattr(one.flight.position, name), getattr(other.flight.position, name)
        )
    np.testing.assert_array_equal(one.flight.true_track_deg, other.flight.true_track_deg)


CURVED = [(1.0 * i, 46.0 + i * 5e-4, -30.0 + i * i * 2e-5, 900.0 + i) for i in range(12)]
DOUBTFUL = [*CURVED, (3.0, 46.2, -30.1, 700.0), (3.0, 46.2, -30.2, 700.0), CURVED[5]]


@settings(max_examples=30)
@given(st.permutations(DOUBTFUL))
def test_shuffled_points_make_the_same_flight(shuffled):
    assert_same(read_gpx(shuffled), read_gpx(DOUBTFUL))


@settings(max_examples=30)
@given(st.permutations([row(*point) for point in CURVED]))
def test_shuffled_rows_make_the_same_flight(shuffled):
    assert_same(read(table(*shuffled)), read_gpx(CURVED))


def test_disorder_and_doubles_are_told():
    notes = read_gpx([*north()[2:], *north()[:3]]).notes
    assert "The points were not in order of time (1 step back): they were sorted." in notes
    assert "Left out: 1 point with the time of another." in notes


@settings(max_examples=30)
@given(
    lat=st.floats(-80.0, 80.0),
    lon=st.floats(-180.0, 180.0),
    heading=st.floats(0.0, 360.0),
    bank=st.floats(-30.0, 30.0),
    wind_kt=st.floats(0.0, 40.0),
)
def test_a_written_flight_is_read_back_within_rounding(lat, lon, heading, bank, wind_kt):
    aircraft, wind = Aircraft(110.0, 30.0), Wind(250.0, wind_kt)
    states = [start(Position(lat, lon, 4000.0), heading)]
    for _ in range(30):
        states.append(advance(states[-1], aircraft, 1.0, bank, wind))
    flown = record(states, aircraft, wind)
    place = flown.position
    meters = place.altitude_ft * 0.3048
    points = list(zip(flown.time_s, place.lat_deg, place.lon_deg, meters, strict=True))
    points = [tuple(round(float(value), 7) for value in point) for point in points]
    for back in (read_gpx(points), read(table(*(row(*point) for point in points)))):
        np.testing.assert_allclose(back.flight.time_s, flown.time_s, atol=1e-6)
        np.testing.assert_allclose(back.flight.position.lat_deg, place.lat_deg, atol=1e-7)
        east = difference_deg(back.flight.position.lon_deg, place.lon_deg)
        np.testing.assert_allclose(east, 0.0, atol=1e-7)
        np.testing.assert_allclose(back.flight.position.altitude_ft, 4000.0, atol=1e-3)
        inside = slice(7, -3)  # once rolled in, and with as much before as after
        off = difference_deg(back.flight.true_track_deg, flown.true_track_deg)[inside]
        np.testing.assert_allclose(off, 0.0, atol=0.5)


# Gaps, standing, and wrong points.


def test_a_silence_of_the_recorder_is_kept_with_its_place_and_length():
    recording = read_gpx([*north(60), *north(60, begin_s=150.0)])
    (gap,) = recording.gaps
    assert gap == (59.0, 91.0)
    assert recording.notes == ()


def test_points_too_far_apart_to_tell_anything_between_them_are_refused():
    with pytest.raises(FileError, match=r"mostly 60 s apart: one at least every 30 s"):
        read_gpx(north(40, step_s=60.0))
    assert read_gpx(north(40, step_s=30.0)).gaps == ()


def test_an_aircraft_that_stands_keeps_the_track_it_came_with():
    came = [(float(s), 46.0, -30.0 + s * 1e-3, 100.0) for s in range(10)]
    stands = [(float(s), 46.0, came[-1][2], 100.0) for s in range(10, 20)]
    track = read_gpx([*came, *stands]).flight.true_track_deg
    np.testing.assert_allclose(track, 90.0, atol=0.01)


def test_an_aircraft_that_never_moves_has_some_track_and_no_error():
    recording = read_gpx([(float(s), 46.0, -30.0, 100.0) for s in range(5)])
    assert np.all(np.isfinite(recording.flight.true_track_deg))


@pytest.mark.parametrize("bad", [[4], [0], [8], [0, 1, 5]])
def test_a_point_that_no_aircraft_can_have_reached_is_left_out_and_counted(bad):
    points = north(9)
    for i in bad:
        points[i] = (float(i), -30.0, 46.0 - i, 1000.0)
    found = read_gpx(points)
    assert found.flight.time_s.size == 9 - len(bad)
    assert np.ptp(found.flight.position.lon_deg) == 0.0
    (note,) = found.notes
    assert note.startswith(f"Left out: {len(bad)} point")
    assert f"the first in line {bad[0] + 4}. They are wrong" in note


def test_fixes_at_0_0_are_left_out_and_counted_but_for_a_flight_there():
    points = [(0.0, 0.0, 0.0, 0.0), (1.0, 0.0, 0.0, 0.0), *north(9, begin_s=1500.0)]
    found = read_gpx(points)
    assert found.notes == ("Left out: 2 points at latitude 0, longitude 0, without a fix.",)
    assert found.flight.position.lat_deg.min() == 46.0
    there = [(s, lat - 46.0, 0.0, m) for s, lat, _, m in north(9)]
    assert read_gpx(there).notes == ()


def test_no_altitude_at_all_must_be_given():
    points = [(s, lat, lon, None) for s, lat, lon, _ in north()]
    with pytest.raises(FileError, match="no altitude was recorded"):
        read_gpx(points)
    altitude = read_gpx(points, altitude_ft=2500.0).flight.position.altitude_ft
    np.testing.assert_array_equal(altitude, 2500.0)


def test_a_route_without_times_is_no_flight():
    with pytest.raises(FileError, match="no point has a time"):
        read_gpx([(None, lat, lon, m) for _, lat, lon, m in north()])


def test_one_point_is_no_flight():
    with pytest.raises(FileError, match="one point"):
        read_gpx(north(1))


# Several flights in one file.

TWO = (north(5), north(9, begin_s=4 * 3600.0))


@pytest.mark.parametrize("tracks", [TWO, ([*TWO[0], *TWO[1]],), TWO[::-1]])
def test_two_flights_are_listed_and_one_is_chosen_by_its_number(tracks):
    with pytest.raises(FileError) as caught:
        read_gpx(*tracks)
    assert caught.value.messages[0] == "the file holds 2 flights: choose one by its number"
    assert "1: from 2026-06-01 09:00 UTC, 0 min, line" in caught.value.messages[1]
    assert "2: from 2026-06-01 13:00 UTC, 0 min, line" in caught.value.messages[2]
    second = read_gpx(*tracks, number=2)
    assert second.flight.time_s.size == 9
    assert second.start.hour == 13
    assert "Flight 2 of 2 in the file." in second.notes


@pytest.mark.parametrize("number", [0, 3, -1])
def test_a_number_that_no_flight_has_is_refused_with_the_list(number):
    with pytest.raises(FileError, match=f"2 flights: there is no number {number}"):
        read_gpx(*TWO, number=number)


def test_the_only_flight_is_number_one():
    assert_same(read_gpx(north(), number=1), read_gpx(north()))


def test_flights_at_the_same_time_stay_apart():
    with pytest.raises(FileError, match="2 flights"):
        read_gpx(north(), [(s, lat + 1.0, lon, m) for s, lat, lon, m in north()])


def test_a_flight_in_two_tracks_with_a_short_pause_is_one():
    recording = read_gpx(north(60), north(60, begin_s=200.0))
    assert recording.flight.time_s.size == 120
    assert len(recording.gaps) == 1


def test_a_stray_point_is_left_out_and_told():
    recording = read_gpx([*north(), (9 * 3600.0, 46.0, -30.0, 0.0)])
    assert recording.flight.time_s.size == 5
    assert recording.notes[0] == "Left out, points hours from any other: 1, in line 9."


# The edges of the map.


def test_a_flight_over_the_antimeridian_is_read_and_told():
    recording = read_gpx([(float(s), 46.0, 179.99 + s * 1e-3, 900.0) for s in range(20)])
    assert recording.flight.position.lon_deg.max() <= 180.0
    assert recording.flight.position.lon_deg.min() < -179.9
    np.testing.assert_allclose(recording.flight.true_track_deg, 90.0, atol=0.05)
    assert "The flight crosses the antimeridian, longitude 180." in recording.notes
    assert not any("faster" in note for note in recording.notes)


def test_longitudes_counted_to_360_are_the_same_places():
    east = read_gpx([(float(s), 46.0, 330.0 + s * 1e-3, 900.0) for s in range(9)])
    west = read_gpx([(float(s), 46.0, -30.0 + s * 1e-3, 900.0) for s in range(9)])
    np.testing.assert_allclose(east.flight.position.lon_deg, west.flight.position.lon_deg)


@pytest.mark.parametrize("pole", [90.0, -90.0])
def test_a_flight_over_a_pole_is_read_and_told(pole):
    lat = [pole * (1 - abs(s) * 5e-6) for s in range(-20, 21)]
    lon = [40.0 if s <= 0 else -140.0 for s in range(-20, 21)]
    recording = read_gpx([(float(i), lat[i], lon[i], 9000.0) for i in range(41)])
    assert any("nears a pole" in note for note in recording.notes)
    assert not any("faster" in note for note in recording.notes)
    track = recording.flight.true_track_deg
    there, back = (360.0, 180.0) if pole > 0 else (180.0, 360.0)
    np.testing.assert_allclose(difference_deg(track[:17], there), 0.0, atol=1e-3)
    np.testing.assert_allclose(difference_deg(track[24:], back), 0.0, atol=1e-3)
