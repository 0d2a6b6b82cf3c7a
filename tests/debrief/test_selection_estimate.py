"""What was selected, estimated from tracks whose selections are known."""

from dataclasses import replace

import numpy as np
import pytest
from flights import QLN, cut, flown_with_noise

from debrief.test_wind_estimate import flown
from vorlib.aircraft.flight import Flight
from vorlib.debrief.selection_estimate import estimate_selections
from vorlib.earth.geodesic import Position
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks.example import example_flight

ALL = tuple(STATIONS.values())


def test_a_radial_held_for_minutes_tells_station_and_course():
    made = flown_with_noise()
    found = estimate_selections(made.flight, ALL)
    assert [(s.station.ident, s.inbound) for s in found.legs] == [
        ("QLN", True),
        ("QLN", False),
        ("TSX", True),
        ("TSX", False),
    ]
    courses = [s.course_deg for s in found.legs]
    assert courses == pytest.approx([40.0, 40.0, 120.0, 120.0], abs=1.0)


def test_a_station_flown_over_keeps_one_course():
    to, away, *_ = estimate_selections(flown_with_noise().flight, ALL).legs
    assert to.course_deg == away.course_deg


def test_of_the_example_flight_the_long_legs_are_estimated_within_a_degree():
    recording, known = example_flight()
    found = {(s.station.ident, s.course_deg) for s in _estimated(recording.flight)}
    wanted = {(s.station.ident, s.course_deg) for s in known if s.course_deg != 110.0}
    # the leg on 110 is cut in two short ones by the recorder's silence
    assert {ident for ident, _ in found} == {"QLN", "PLX"}
    for ident, course in wanted:
        assert any(i == ident and abs(c - course) <= 1.0 for i, c in found)


def _estimated(flight):
    return estimate_selections(flight, ALL).selections


def test_an_estimate_says_that_it_is_one_and_how_sure_it_is():
    words = estimate_selections(flown_with_noise().flight, ALL).words
    assert "estimated from the track" in words[0]
    assert words[1].endswith("fairly sure.")
    assert "to Quillon" in words[1]


def test_a_learner_who_goes_from_one_side_of_the_line_to_the_other_still_keeps_to_it():
    begin = QLN.position_on(39.0, 4.5)  # and ends on the 041 radial, 11 miles out
    (leg,) = estimate_selections(flown(begin, [42.3 + QLN.declination_deg], [4.0]), [QLN]).legs
    assert abs(leg.course_deg - 40.0) <= 1.0
    assert not leg.inbound
    assert "likely, not sure" in leg.words


def test_a_second_station_in_the_same_line_is_named():
    double = QLN.__class__(
        "DBL", QLN.position_on(42.0, 8.0), QLN.declination_deg, 115.0, service="L"
    )
    begin = QLN.position_on(222.0, 16.0)
    flight = flown(begin, [42.0 + QLN.declination_deg], [6.0])
    (leg,) = estimate_selections(flight, [QLN, double]).legs
    assert leg.station.ident == "QLN"
    assert leg.rival == "DBL"
    assert "in doubt, DBL fits as well" in leg.words


def test_a_straight_leg_that_leads_over_no_station_tells_nothing():
    flight = flown(QLN.position_on(300.0, 15.0), [40.0 + QLN.declination_deg], [12.0])
    found = estimate_selections(flight, [QLN])
    assert found.selections == ()
    assert "so enter it" in found.words[0]


def test_no_stretch_goes_across_a_gap():
    flight = cut(flown_with_noise().flight, 700.0, 800.0)
    for leg in estimate_selections(flight, ALL).legs:
        assert not leg.begin_s < 700.0 < 800.0 < leg.end_s


def test_a_station_beyond_line_of_sight_is_not_taken():
    flight = flown_with_noise().flight
    place = flight.position
    low = Position(place.lat_deg, place.lon_deg, np.full_like(place.lat_deg, 3500.0))
    assert low.shape == flight.time_s.shape
    far = QLN.__class__("FAR", QLN.position_on(40.0, 200.0), -9.0, 115.0)
    assert estimate_selections(flight, [far]).legs == ()


def test_a_station_outside_its_service_volume_is_not_taken():
    flight = flown_with_noise().flight
    there = QLN.position_on(40.0, 60.0)  # in sight, and the first leg leads to it
    far, near = (QLN.__class__("FAR", there, -9.0, 115.0, service=s) for s in ("L", "VH"))
    assert estimate_selections(flight, [far]).legs == ()
    high = Position(flight.position.lat_deg, flight.position.lon_deg, 9000.0)
    (leg, *_) = estimate_selections(replace(flight, position=high), [near]).legs
    assert (leg.station, leg.inbound) == (near, True)


def test_two_looks_far_apart_are_no_stretch():
    begin, end = QLN.position_on(85.0, 1.6), QLN.position_on(93.0, 3.0)
    lat, lon = ([float(getattr(p, name)) for p in (begin, end)] for name in ("lat_deg", "lon_deg"))
    place, level = Position(np.array(lat), np.array(lon), np.array([3000.0, 3000.0])), np.zeros(2)
    flight = Flight(np.array([0.0, 29.0]), place, level, level, level)
    assert estimate_selections(flight, [QLN]).selections == ()
