"""Today's variation against the model's published test values."""

import csv
from datetime import date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from vorlib.core.units import METERS_PER_FOOT
from vorlib.earth.geodesic import Position
from vorlib.earth.variation import variation_deg

# NOAA/NCEI, World Magnetic Model 2025 test values (tests/data/README.md).
TEST_VALUES = Path(__file__).parents[1] / "data" / "wmm2025_declination.csv"
PUBLISHED_TO_DEG = 0.005  # two decimals
HALF_DAY_DEG = 0.006  # the year's middle falls between two days, where the field moves fastest


def test_variation_equals_the_published_test_values() -> None:
    with TEST_VALUES.open() as file:
        rows = [[float(cell) for cell in row] for row in list(csv.reader(file))[1:]]
    assert len(rows) == 100
    for year, altitude_km, lat, lon, declination in rows:
        whole = int(year)
        on = date(whole, 1, 1) + timedelta(days=round((year - whole) * 365))
        position = Position(lat, lon, altitude_km * 1000.0 / METERS_PER_FOOT)
        error = abs(float(variation_deg(position, on)) - declination)
        assert error <= PUBLISHED_TO_DEG + HALF_DAY_DEG, (year, lat, lon)


def test_west_variation_is_negative() -> None:
    assert variation_deg(Position(46.0, -30.0), date(2026, 6, 1)) < 0.0


def test_positions_of_any_shape_are_answered_in_that_shape() -> None:
    grid = Position(np.full((2, 3), 46.0), np.full((2, 3), -30.0))
    assert variation_deg(grid, date(2026, 6, 1)).shape == (2, 3)
    assert variation_deg(Position([], []), date(2026, 6, 1)).shape == (0,)


@pytest.mark.parametrize("on", [date(2024, 12, 31), date(2030, 1, 1)])
def test_a_day_outside_the_model_is_refused(on: date) -> None:
    with pytest.raises(ValueError, match="2025-01-01 to 2029-12-31"):
        variation_deg(Position(46.0, -30.0), on)


def test_the_first_and_last_day_of_the_model_are_answered() -> None:
    for on in (date(2025, 1, 1), date(2029, 12, 31), datetime(2029, 12, 31, 23, 59)):
        assert np.isfinite(variation_deg(Position(46.0, -30.0), on))


def test_what_is_not_a_day_is_refused() -> None:
    with pytest.raises(ValueError, match=r"must be a datetime\.date, got 2026\.5"):
        variation_deg(Position(46.0, -30.0), 2026.5)  # type: ignore[arg-type]
