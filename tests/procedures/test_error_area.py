"""Error areas of a fix: bounds, ellipse, trials, and the best pair of stations."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import vorlib as v
from vorlib.procedures.error_area import (
    NINETY_FIVE_PERCENT,
    ellipse_outline,
    error_ellipse,
    error_quadrilateral,
    rank_pairs,
    sample_fixes,
)

QUILLON = v.Station("QLN", v.Position(46.0, -30.0), -9.0, 113.4, "Quillon", "H")
EASTER = v.Station("ETR", v.Position(46.2, -29.0), -12.0, 114.6, "Easter Head", "H")
SOUTH = v.Station("SUT", v.Position(45.3, -29.6), -10.0, 112.2, "Suttle", "H")
THERE = v.Position(45.75, -29.35, 6000.0)


def lines(*stations: v.Station) -> list[tuple[v.Station, float]]:
    """Error-free radials at the place."""
    return [(s, float(s.radial_deg(THERE))) for s in stations]


def offsets(places: v.Position) -> tuple[np.ndarray, np.ndarray]:
    """NM east and north of the place."""
    line = v.inverse(THERE.lat_deg, THERE.lon_deg, places.lat_deg, places.lon_deg)
    azimuth = np.radians(line.true_azimuth_deg)
    return line.distance_nm * np.sin(azimuth), line.distance_nm * np.cos(azimuth)


@pytest.mark.parametrize("sigma", [0.2, 1.0])
def test_trials_agree_with_the_ellipse_where_errors_are_small(sigma: float) -> None:
    ellipse = error_ellipse((QUILLON, EASTER), THERE, sigma)
    trials = sample_fixes(lines(QUILLON, EASTER), sigma, 200_000, seed=4)
    east, north = offsets(trials.position)
    azimuth = np.radians(ellipse.true_azimuth_deg)
    along = east * np.sin(azimuth) + north * np.cos(azimuth)
    across = east * np.cos(azimuth) - north * np.sin(azimuth)
    assert along.std() == pytest.approx(ellipse.semi_major_nm, rel=0.02)
    assert across.std() == pytest.approx(ellipse.semi_minor_nm, rel=0.02)
    inside = (along / ellipse.semi_major_nm) ** 2 + (across / ellipse.semi_minor_nm) ** 2
    assert (inside < NINETY_FIVE_PERCENT**2).mean() == pytest.approx(0.95, abs=0.005)
    assert trials.lost == 0.0


def test_trials_leave_the_ellipse_where_the_cut_is_fine() -> None:
    # Nearly along the line between the stations, with errors as large as the cut.
    near_line = v.Position(46.12, -29.55)
    pair = [(s, float(s.radial_deg(near_line))) for s in (QUILLON, EASTER)]
    trials = sample_fixes(pair, 4.0, 100_000, seed=4)
    ellipse = error_ellipse((QUILLON, EASTER), near_line, 4.0)
    line = v.inverse(46.12, -29.55, trials.position.lat_deg, trials.position.lon_deg)
    inside = (line.distance_nm < NINETY_FIVE_PERCENT * ellipse.semi_major_nm).mean()
    assert trials.lost > 0.2 or abs(inside - 0.95) > 0.03


def test_a_right_angle_cut_is_best_and_a_fine_cut_stretches_the_ellipse() -> None:
    # Two stations at equal distance: along the sharper bisector the error grows as 1 / sin.
    sizes = {}
    for cut in (90.0, 60.0, 30.0, 15.0):
        here = v.Position(46.0, -30.0, 6000.0)
        pair = [
            v.Station(ident, v.direct(here, azimuth, 20.0), 0.0, 113.4)
            for ident, azimuth in (("ONE", 10.0), ("TWO", 10.0 + cut))
        ]
        sizes[cut] = error_ellipse(pair, here, 1.0)
    assert sizes[90.0].semi_major_nm == pytest.approx(sizes[90.0].semi_minor_nm, rel=1e-3)
    assert sizes[90.0].semi_major_nm == pytest.approx(20.0 * np.radians(1.0), rel=1e-3)
    for cut, ellipse in sizes.items():
        expected = np.sqrt(2.0) * 20.0 * np.radians(1.0) / np.sin(np.radians(cut))
        assert ellipse.radial_error_nm == pytest.approx(expected, rel=1e-3)
    # Drawn out halfway between the two radials, and not to the other side of north.
    assert sizes[30.0].true_azimuth_deg == pytest.approx(10.0 + 15.0, abs=0.1)


def test_a_third_station_makes_the_fix_better() -> None:
    two = error_ellipse((QUILLON, EASTER), THERE, 2.0)
    three = error_ellipse((QUILLON, EASTER, SOUTH), THERE, 2.0)
    assert three.radial_error_nm < two.radial_error_nm


def test_the_corners_of_the_bounds_lie_on_the_bounding_radials() -> None:
    corners = error_quadrilateral(lines(QUILLON, EASTER), (2.0, 3.0))
    off = v.difference_deg(QUILLON.radial_deg(corners), QUILLON.radial_deg(THERE))
    np.testing.assert_allclose(np.sort(off), [-2.0, -2.0, 2.0, 2.0], atol=1e-6)
    east, north = offsets(corners)
    # Were the corners out of order the two halves would cancel.
    area = 0.5 * abs(np.dot(east, np.roll(north, -1)) - np.dot(north, np.roll(east, -1)))
    assert area > 1.0


def test_the_ellipse_outline_is_as_long_and_as_wide_as_the_ellipse() -> None:
    ellipse = error_ellipse((QUILLON, EASTER), THERE, 1.0)
    east, north = ellipse_outline(ellipse, scale=1.0, points=721)
    assert np.hypot(east, north).max() == pytest.approx(ellipse.semi_major_nm)
    assert np.hypot(east, north).min() == pytest.approx(ellipse.semi_minor_nm)
    longest = np.hypot(east, north).argmax()
    azimuth = np.degrees(np.arctan2(east[longest], north[longest])) % 180.0
    assert azimuth == pytest.approx(ellipse.true_azimuth_deg % 180.0, abs=0.5)


@settings(max_examples=20, deadline=None)
@given(st.floats(0.1, 5.0))
def test_the_ellipse_grows_with_the_error(sigma: float) -> None:
    one, other = (error_ellipse((QUILLON, EASTER), THERE, s) for s in (sigma, 2 * sigma))
    assert other.semi_major_nm == pytest.approx(2 * one.semi_major_nm)


def test_pairs_are_ranked_by_the_error_of_their_fix() -> None:
    ranked = rank_pairs((QUILLON, EASTER, SOUTH), THERE)
    errors = [pair.ellipse.radial_error_nm for pair in ranked]
    assert len(ranked) == 3
    assert errors == sorted(errors)
    for pair in ranked:
        again = error_ellipse(pair.stations, THERE, 2.0)
        assert again == pair.ellipse


def test_a_station_not_received_there_or_that_nobody_promises_is_no_help() -> None:
    silent = v.Station("SUT", SOUTH.position, -10.0, 112.2, "Suttle", "H", on_the_air=False)
    # Of class T, promised to 25 NM: 29 NM out its flag still lives.
    small = v.Station("SUT", SOUTH.position, -10.0, 112.2, "Suttle", "T")
    assert small.distance_nm(THERE) > 25.0
    assert v.Receiver(small.radial_deg(THERE)).read(small, THERE).flag is v.Flag.FROM
    for third in (silent, small):
        ranked = rank_pairs((QUILLON, EASTER, third), THERE)
        assert [tuple(s.ident for s in pair.stations) for pair in ranked] == [("QLN", "ETR")]


def test_what_has_no_error_area_is_refused() -> None:
    with pytest.raises(ValueError, match="sigma_deg must be more than 0 degrees"):
        error_ellipse((QUILLON, EASTER), THERE, 0.0)
    with pytest.raises(ValueError, match="parallel there"):
        error_ellipse((QUILLON,), THERE, 1.0)
    with pytest.raises(ValueError, match="one over Quillon"):
        error_ellipse((QUILLON, EASTER), QUILLON.position, 1.0)
    with pytest.raises(ValueError, match="two radials and a bound for each"):
        error_quadrilateral(lines(QUILLON), (2.0,))
