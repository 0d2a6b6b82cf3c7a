"""vorlib's radials against those an authority publishes.

FAA, 28 Day NASR Subscription and Coded Instrument Flight Procedures, effective 2026-05-14: a
random extract of 300 points (tests/data/README.md). The publisher's own bad records are marked
suspect; they are counted and reported, not judged.
"""

from pathlib import Path

import numpy as np
import pytest
from published import Comparison, compare, report

DATA = Path(__file__).parents[1] / "data"


@pytest.fixture(scope="module")
def result() -> Comparison:
    return compare(DATA / "faa_stations.csv", DATA / "faa_published_radials.csv")


def test_published_radials_and_distances_are_reproduced(result: Comparison) -> None:
    sound = ~result.suspect
    assert sound.sum() == 295
    assert np.abs(result.radial_error_deg[sound]).max() <= 0.1
    assert np.abs(result.distance_error_nm[sound]).max() <= 0.06


def test_fixes_published_to_a_hundredth_agree_to_thousandths(result: Comparison) -> None:
    fixes = (result.source == "FIX_NAV") & ~result.suspect
    assert np.median(np.abs(result.radial_error_deg[fixes])) < 0.005
    assert np.median(np.abs(result.distance_error_nm[fixes])) < 0.002


def test_suspect_rows_are_counted_and_reported(result: Comparison) -> None:
    assert result.suspect.sum() == 5
    assert "suspect: 5 rows" in report(result)


def test_todays_variation_in_place_of_station_declination_is_wrong_by_degrees(
    result: Comparison,
) -> None:
    error = np.abs(result.variation_error_deg[~result.suspect])
    assert np.median(error) > 2.0
    assert (error > 0.1).mean() > 0.95
