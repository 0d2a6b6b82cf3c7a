"""Error areas of a fix by radial and DME: bounds, ellipse and trials."""

import numpy as np
import pytest
from dme_trials import sample_dme_fixes
from hypothesis import given, settings
from hypothesis import strategies as st

import vorlib as v
from vorlib.core.units import FEET_PER_NM
from vorlib.procedures.dme_error_area import (
    dme_area,
    dme_bound_nm,
    dme_cut_deg,
    dme_ellipse,
)
from vorlib.procedures.error_area import share_within

QUILLON = v.Station("QLN", v.Position(46.0, -30.0, 640.0), -9.0, 113.4, "Quillon", "H")
EASTER = v.Station("ETR", v.Position(46.2, -29.0, 200.0), -12.0, 114.6, "Easter Head", "H")
THERE = v.Position(45.75, -29.35, 6000.0)
BETWEEN = v.Position(46.05, -29.45, 6000.0)  # radial and circle cut well there
# The outline runs along the outer arc and back along the inner one.
CORNERS = [0, 12, 13, 25]


def test_the_dme_bound_is_a_quarter_mile_and_one_and_a_quarter_per_cent():
    # ICAO Doc 8168, volume I, part I, section 2, chapter 2, 2.4.2.
    assert dme_bound_nm([0.0, 20.0, 40.0]) == pytest.approx([0.25, 0.50, 0.75])


@pytest.mark.parametrize("dme", [QUILLON, EASTER], ids=["one site", "another site"])
def test_every_point_of_the_outline_is_measured_just_at_a_bound(dme):
    area = dme_area(QUILLON, dme, BETWEEN, 4.0, 0.5)
    there = v.Position(area.lat_deg, area.lon_deg, BETWEEN.altitude_ft)
    off = v.difference_deg(QUILLON.radial_deg(there), QUILLON.radial_deg(BETWEEN))
    slant = dme.slant_range_nm(there) - dme.slant_range_nm(BETWEEN)
    np.testing.assert_allclose(off[CORNERS], [-4.0, 4.0, 4.0, -4.0], atol=2e-3)
    np.testing.assert_allclose(slant, np.repeat([0.5, -0.5], 13), atol=2e-4)


def test_a_radial_and_its_own_dme_always_cut_squarely():
    assert dme_cut_deg(QUILLON, QUILLON, THERE) == 90.0
    ellipse = dme_ellipse(QUILLON, QUILLON, THERE, 1.0, 0.1)
    across = np.radians(1.0) * float(QUILLON.distance_nm(THERE))
    assert ellipse.semi_major_nm == pytest.approx(across)
    assert ellipse.semi_minor_nm == pytest.approx(0.1, rel=1e-3)  # far out the slope is flat
    azimuth = float(QUILLON.inverse(THERE).true_azimuth_end_deg) - 90.0
    assert np.tan(np.radians(ellipse.true_azimuth_deg - azimuth)) == pytest.approx(0.0, abs=1e-6)


def test_high_and_near_a_small_error_of_the_dme_is_a_large_one_over_the_ground():
    # Slant range s, height h: over the ground the error is s / sqrt(s^2 - h^2) times as large.
    near = v.direct(QUILLON.position, 80.0, 2.0)
    high = v.Position(near.lat_deg, near.lon_deg, 640.0 + 2.0 * FEET_PER_NM)
    ellipse = dme_ellipse(QUILLON, QUILLON, high, 0.1, 0.2)
    assert ellipse.semi_major_nm == pytest.approx(0.2 * np.sqrt(2.0), rel=1e-6)


def test_the_ellipse_of_another_stations_dme_stretches_as_one_over_the_sine_of_the_cut():
    # With equal widths w the root-mean-square error is sqrt(2) w / sin(cut).
    dme = v.Station("DME", v.direct(THERE, 200.0, 20.0), 0.0, 113.4, service="H")
    low = v.Position(THERE.lat_deg, THERE.lon_deg, 0.0)
    for cut in (80.0, 40.0, 15.0):
        station = v.Station("ONE", v.direct(low, 200.0 + 90.0 - cut, 20.0), 0.0, 113.4)
        ellipse = dme_ellipse(station, dme, low, 1.0, 20.0 * np.radians(1.0))
        expected = np.sqrt(2.0) * 20.0 * np.radians(1.0) / np.sin(np.radians(cut))
        assert float(dme_cut_deg(station, dme, low)) == pytest.approx(cut)
        assert ellipse.radial_error_nm == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("dme", [QUILLON, EASTER], ids=["one site", "another site"])
def test_trials_agree_with_the_ellipse_where_errors_are_small(dme):
    ellipse = dme_ellipse(QUILLON, dme, BETWEEN, 0.5, 0.1)
    trials = sample_dme_fixes(QUILLON, dme, BETWEEN, 0.5, 0.1, 200_000, seed=3)
    assert trials.lost == 0.0
    assert share_within(trials, BETWEEN, ellipse) == pytest.approx(0.95, abs=0.003)
    apart = v.inverse(
        BETWEEN.lat_deg, BETWEEN.lon_deg, trials.position.lat_deg, trials.position.lon_deg
    )
    rms = float(np.sqrt(np.mean(apart.distance_nm**2)))
    assert rms == pytest.approx(ellipse.radial_error_nm, rel=0.01)


def test_trials_leave_the_ellipse_where_the_radial_only_touches_the_circle():
    place = EASTER.inverse(QUILLON.position)
    touching = EASTER.position_on(
        float(EASTER.radial_of_azimuth_deg(place.true_azimuth_deg + 80.0)), 9.0, 6000.0
    )
    assert float(dme_cut_deg(QUILLON, EASTER, touching)) < 25.0
    ellipse = dme_ellipse(QUILLON, EASTER, touching, 2.0, 0.3)
    trials = sample_dme_fixes(QUILLON, EASTER, touching, 2.0, 0.3, 50_000, seed=3)
    assert trials.lost > 0.0
    assert share_within(trials, touching, ellipse) < 0.93


@settings(max_examples=25, deadline=None)
@given(radial=st.floats(0.0, 360.0), out=st.floats(2.0, 40.0), bound=st.floats(0.5, 8.0))
def test_the_area_of_a_fix_by_one_station_is_as_large_as_its_sector(radial, out, bound):
    place = QUILLON.position_on(radial, out, 640.0)
    area = dme_area(QUILLON, QUILLON, place, bound, 0.4)
    line = v.inverse(place.lat_deg, place.lon_deg, area.lat_deg, area.lon_deg)
    azimuth = np.radians(line.true_azimuth_deg)
    east, north = line.distance_nm * np.sin(azimuth), line.distance_nm * np.cos(azimuth)
    measured = 0.5 * abs(np.dot(east, np.roll(north, -1)) - np.dot(north, np.roll(east, -1)))
    sector = np.radians(bound) * ((out + 0.4) ** 2 - (out - 0.4) ** 2)
    assert measured == pytest.approx(sector, rel=5e-3)


def test_over_the_station_the_area_reaches_in_to_the_station():
    near = QUILLON.position_on(90.0, 0.3, 640.0 + 2.0 * FEET_PER_NM)
    area = dme_area(QUILLON, QUILLON, near, 4.0, 0.5)
    assert float(np.min(QUILLON.distance_nm(area))) == pytest.approx(0.0, abs=1e-6)


def test_what_has_no_error_area_is_refused():
    with pytest.raises(ValueError, match="bound_nm must be more than 0 NM"):
        dme_area(QUILLON, EASTER, THERE, 4.0, 0.0)
    with pytest.raises(ValueError, match="sigma_deg must be more than 0 degrees"):
        dme_ellipse(QUILLON, EASTER, THERE, -1.0, 0.2)
    with pytest.raises(ValueError, match="one over Quillon"):
        dme_ellipse(QUILLON, QUILLON, QUILLON.position, 1.0, 0.2)
    beside = EASTER.position_on(float(EASTER.radial_deg(QUILLON.position)) + 85.0, 10.0, 6000.0)
    with pytest.raises(ValueError, match="may miss the circle of Easter Head"):
        dme_area(QUILLON, EASTER, beside, 6.0, 0.5)
    with pytest.raises(ValueError, match="parallel there"):
        dme_ellipse(QUILLON, EASTER, THERE, 1.0, 0.2)  # where the radial touches the circle
