"""Positions from radials and distances, against geographiclib and published fixes."""

import csv
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import vorlib as v
from vorlib.procedures.dme_fixing import fixes_from_radial_and_other_dme, ground_distance_nm
from vorlib.procedures.fixing import fix

QUILLON = v.Station("QLN", v.Position(46.0, -30.0), -9.0, 113.4, "Quillon", "H")
EASTER = v.Station("ETR", v.Position(46.2, -29.0, 800.0), -12.0, 114.6, "Easter Head", "H")
SOUTH = v.Station("SUT", v.Position(45.3, -29.6), -10.0, 112.2, "Suttle", "H")
DATA = Path(__file__).parents[1] / "data"


def meters(one: v.Position, other: v.Position) -> float:
    """Distance by geographiclib, so that the check does not lean on vorlib's inverse."""
    line = Geodesic.WGS84.Inverse(one.lat_deg, one.lon_deg, other.lat_deg, other.lon_deg)
    return line["s12"]


@settings(deadline=None)
@given(st.floats(-1.2, 1.2), st.floats(-1.2, 1.2))
def test_radials_taken_at_a_place_fix_that_place(north: float, east: float) -> None:
    there = v.Position(46.0 + north, -29.5 + east)
    pair = (QUILLON, EASTER)
    lines = [(s, float(s.radial_deg(there))) for s in pair]
    cut = np.sin(np.radians(float(np.subtract(*[s.inverse(there)[2] for s in pair]))))
    assume(abs(cut) > 0.1)
    assume(min(float(s.distance_nm(there)) for s in pair) > 0.5)
    assert meters(v.fix_from_radials(lines), there) < 0.01


def test_the_fix_lies_on_both_geodesics_of_geographiclib() -> None:
    place = v.fix_from_radials([(QUILLON, 100.0), (EASTER, 230.0)])
    for station, radial in ((QUILLON, 100.0), (EASTER, 230.0)):
        here = station.position
        line = Geodesic.WGS84.Inverse(here.lat_deg, here.lon_deg, place.lat_deg, place.lon_deg)
        azimuth = radial + station.declination_deg
        assert abs(v.wrap_180(line["azi1"] - azimuth)) * line["s12"] < 0.1


def test_a_flat_earth_would_miss_by_what_the_ellipsoid_bends() -> None:
    lines = [(QUILLON, 100.0), (EASTER, 230.0)]
    flat = np.array([[np.sin(a), np.cos(a)] for a in np.radians([91.0, 218.0])]).T
    scale = np.array([60.0 * np.cos(np.radians(46.1)), 60.0])
    apart = np.array([1.0, 0.2]) * scale
    along = np.linalg.solve(np.column_stack([flat[:, 0], -flat[:, 1]]), apart)[0]
    east, north = along * flat[:, 0]
    guess = v.Position(46.0 + north / 60.0, -30.0 + east / scale[0])
    assert meters(v.fix_from_radials(lines), guess) > 300.0


def test_published_fixes_are_found_again_from_radial_and_distance() -> None:
    # FAA, NASR and CIFP effective 2026-05-14 (tests/data/README.md); suspect rows counted apart.
    with (DATA / "faa_stations.csv").open() as file:
        rows = {(r["ident"], r["type"]): r for r in csv.DictReader(file)}
    off = []
    with (DATA / "faa_published_radials.csv").open() as file:
        published = [r for r in csv.DictReader(file) if r["suspect"] != "yes"]
    for row in published:
        at = rows[row["station_ident"], row["station_type"]]
        station = v.Station(
            at["ident"],
            v.Position(float(at["lat_deg"]), float(at["lon_deg"])),
            float(at["declination_deg"]),
            float(at["frequency_mhz"]),
        )
        radial, distance = float(row["published_radial_deg"]), float(row["published_distance_nm"])
        place = station.position_on(radial, distance)
        fix_at = v.Position(float(row["fix_lat_deg"]), float(row["fix_lon_deg"]))
        off.append(meters(place, fix_at) / 1852.0)
    assert len(off) == 295
    tenth_of_degree_nm = np.array([float(r["published_distance_nm"]) for r in published]) * 0.0018
    assert np.all(np.array(off) <= 0.1 + tenth_of_degree_nm)
    assert np.mean(np.array(off) <= 0.1) > 0.97


def test_three_stations_in_disagreement_share_the_error_out() -> None:
    there = v.Position(45.8, -29.4)
    lines = [(s, float(s.radial_deg(there))) for s in (QUILLON, EASTER, SOUTH)]
    agreed = fix(lines)
    assert np.abs(agreed.residuals_deg).max() < 1e-6
    wrong = fix([(QUILLON, lines[0][1] + 3.0), *lines[1:]])
    assert 0.3 < np.abs(wrong.residuals_deg).max() < 3.0
    assert meters(wrong.position, there) > 500.0
    assert 0.0 < wrong.cut_deg <= 90.0


def test_radial_and_dme_correct_the_slant_range_for_height() -> None:
    # ICAO Doc 8168, volume II, part I, section 4, chapter 3, appendix C: D^2 = Ds^2 - 0.027 h^2
    # (NM, thousands of feet).
    assert ground_distance_nm(10.0, 30000.0) == pytest.approx(
        np.sqrt(100.0 - 0.027 * 900.0), abs=6e-3
    )
    there = QUILLON.position_on(214.0, 12.0, 30000.0)
    slant = float(QUILLON.slant_range_nm(there))
    place = v.fix_from_radial_and_dme(QUILLON, 214.0, slant, 30000.0)
    assert meters(place, there) < 0.01
    naive = QUILLON.position_on(214.0, slant)
    assert meters(naive, there) > 1500.0


def test_one_radial_and_another_stations_dme_may_fix_two_places() -> None:
    places = fixes_from_radial_and_other_dme((QUILLON, 90.0), EASTER, 25.0, 6000.0)
    assert len(places) == 2
    for place in places:
        assert QUILLON.radial_deg(place) == pytest.approx(90.0, abs=1e-6)
        assert EASTER.slant_range_nm(place) == pytest.approx(25.0, abs=1e-4)
    near, far = (float(QUILLON.distance_nm(place)) for place in places)
    assert near < far


def test_from_inside_the_circle_there_is_one_place() -> None:
    assert len(fixes_from_radial_and_other_dme((QUILLON, 90.0), EASTER, 60.0, 6000.0)) == 1


def test_many_radials_are_fixed_at_once() -> None:
    places = v.fix_from_radials([(QUILLON, np.linspace(95.0, 110.0, 50)), (EASTER, 230.0)])
    assert places.shape == (50,)
    np.testing.assert_allclose(QUILLON.radial_deg(places), np.linspace(95.0, 110.0, 50), atol=1e-6)


def test_across_the_antimeridian_a_fix_is_a_fix() -> None:
    one = v.Station("ONE", v.Position(10.0, 179.5), 0.0, 113.4)
    two = v.Station("TWO", v.Position(9.5, -179.7), 0.0, 113.4)
    there = v.Position(10.3, -179.9)
    place = v.fix_from_radials([(s, float(s.radial_deg(there))) for s in (one, two)])
    assert meters(place, there) < 0.01


BAD = [
    (lambda: v.fix_from_radials([(QUILLON, 40.0)]), "at least two radials, got 1"),
    (lambda: v.fix_from_radials([(QUILLON, 40.0), (QUILLON, 90.0)]), "from two stations"),
    (lambda: v.fix_from_radials([(QUILLON, 40.0), (QUILLON, 40.0)]), "from two stations"),
    (lambda: v.fix_from_radials([(QUILLON, 20.0), (EASTER, 23.7)]), "parallel or nearly so"),
    (lambda: v.fix_from_radials([(QUILLON, 280.0), (EASTER, 230.0)]), "far side of Quillon"),
    (lambda: v.fix_from_radials([(QUILLON, 100.0), (EASTER, 50.0)]), "far side of Easter Head"),
    (lambda: v.fix_from_radials([(QUILLON, np.nan), (EASTER, 50.0)]), "radial of Quillon"),
    (
        lambda: v.fix_from_radial_and_dme(QUILLON, 40.0, 0.9, 6000.0),
        r"slant_range_nm must be at least the height, 0\.99 NM, got 0\.90",
    ),
    (
        lambda: fixes_from_radial_and_other_dme((QUILLON, 180.0), EASTER, 20.0, 6000.0),
        "never comes within|leads away",
    ),
    (
        lambda: fixes_from_radial_and_other_dme((QUILLON, 270.0), EASTER, 20.0, 6000.0),
        "leads away from the circle",
    ),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[m for _, m in BAD])
def test_what_fixes_nothing_is_refused_in_words(call, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
