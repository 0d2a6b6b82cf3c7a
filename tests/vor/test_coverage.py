"""Where a station is received: published ranges, radii and bands."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.core.units import FEET_PER_NM, METERS_PER_FOOT, METERS_PER_NM
from vorlib.vor.coverage import (
    HORIZON_NM_PER_ROOT_FT,
    SERVICE_VOLUMES,
    cone_radius_nm,
    line_of_sight_nm,
    service_radius_nm,
)

# FS-1037C, "radio horizon range", and that formula at round heights.
HORIZONS = [(1000.0, 38.9), (5000.0, 87.0), (10000.0, 123.0)]


@pytest.mark.parametrize(("height", "expected"), HORIZONS)
def test_the_radio_horizon_grows_with_the_root_of_the_height(
    height: float, expected: float
) -> None:
    assert line_of_sight_nm(height) == pytest.approx(expected, abs=0.05)


def test_the_published_constant_is_that_of_an_earth_a_third_larger() -> None:
    # sqrt(2 k R h) with k = 4/3 and R = 6371 km: FS-1037C names the origin.
    exact = np.sqrt(2 * 4 / 3 * 6371000.0 * METERS_PER_FOOT) / METERS_PER_NM
    assert exact == pytest.approx(1.2287, abs=1e-4)
    assert pytest.approx(exact, rel=2e-3) == HORIZON_NM_PER_ROOT_FT


def test_either_antenna_may_be_the_higher_one() -> None:
    assert line_of_sight_nm(900.0, 2500.0) == line_of_sight_nm(2500.0, 900.0)
    assert line_of_sight_nm(-50.0) == 0.0


# AIM 1-1-8, table 1-1-1.
VOLUMES = [
    ("T", 12000, 25),
    ("T", 12001, 0),
    ("L", 18000, 40),
    ("L", 18001, 0),
    ("H", 14499, 40),
    ("H", 14500, 100),
    ("H", 18000, 130),
    ("H", 45000, 130),
    ("H", 45001, 100),
    ("H", 60001, 0),
    ("VL", 1000, 40),
    ("VL", 4999, 40),
    ("VL", 5000, 70),
    ("VL", 17999, 70),
    ("VL", 18000, 0),
    ("VH", 4999, 40),
    ("VH", 14499, 70),
    ("VH", 14500, 100),
    ("VH", 18000, 130),
    ("VH", 45001, 100),
    ("VH", 60000, 100),
    ("VH", 60001, 0),
]


@pytest.mark.parametrize(("service", "height", "radius"), VOLUMES)
def test_a_service_volume_ends_where_it_is_published_to_end(
    service: str, height: float, radius: float
) -> None:
    assert service_radius_nm(service, height) == radius


@pytest.mark.parametrize("service", SERVICE_VOLUMES)
def test_below_a_thousand_feet_the_horizon_shortens_the_lowest_band(service: str) -> None:
    heights = np.array([-100.0, 0.0, 250.0, 999.0])
    radius = service_radius_nm(service, heights)
    assert radius[0] == radius[1] == 0.0
    assert np.all(np.diff(radius) >= 0.0)
    assert radius[-1] <= SERVICE_VOLUMES[service][0].radius_nm


def test_an_unknown_service_volume_is_refused_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match="one of T, L, H, VL, VH, got 'X'"):
        service_radius_nm("X", 5000.0)


def test_the_cone_is_two_miles_wide_at_ten_thousand_feet() -> None:
    # ICAO Doc 8168, volume I, part I, section 2, chapter 2, 2.4.4.1: 50 degrees from the vertical.
    assert cone_radius_nm(10000.0) == pytest.approx(1.961, abs=1e-3)
    assert cone_radius_nm(0.0) == 0.0


@given(st.floats(1.0, 60000.0), st.floats(1.0, 85.0))
def test_the_edge_of_the_cone_is_seen_at_the_half_angle(height: float, half_angle: float) -> None:
    radius = cone_radius_nm(height, half_angle)
    seen = np.degrees(np.arctan2(radius * FEET_PER_NM, height))
    assert seen == pytest.approx(half_angle, abs=1e-9)


def test_a_cone_needs_a_height_above_the_station_and_less_than_a_right_angle() -> None:
    with pytest.raises(ValueError, match="height_ft must be 0 ft or more, got -1"):
        cone_radius_nm(-1.0)
    with pytest.raises(ValueError, match=r"half_angle_deg must be from 0 to 89.9 degrees, got 90"):
        cone_radius_nm(1000.0, 90.0)
