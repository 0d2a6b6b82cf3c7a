"""Geodesics on the ellipsoid against geographiclib, published geodesics and pyproj."""

import numpy as np
import pyproj
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given
from hypothesis import strategies as st

from vorlib.core.angles import wrap_180
from vorlib.core.units import METERS_PER_NM
from vorlib.earth.geodesic import Position, direct, inverse

TRUTH = Geodesic.WGS84

# C. F. F. Karney, "Test set for geodesics" (2010), doi:10.5281/zenodo.32156, nine lines:
# lat1, lon1, azi1, lat2, lon2, azi2, s12.
KARNEY = """
26.010745808687 0 .001066006762 64.958396828764391273 .001576658648546905 .002258602266785352 4328675.605565
.002776960941 0 90.004934285837 -.002670966075003864 57.164518655793700538 90.00499207004449665 6363525.1342937
.000227056052 0 90.002708094472 -.000342923983172007 176.956361997998361364 89.997304044626702539 19698692.1099486
23.225828498891 0 90 -23.225828498891 179.44518683104154539 90 19975528.4919571414229
.004857951054 0 89.99505820439 .006687014175916661 60.946393738465005896 90.001856403871962433 6784521.4815083
18.725775553796 0 98.927919777265 18.724785210853172866 .006615636046166963 98.930043600815390181 706.2676803
47.900780879363 0 148.758779524609 47.899309788344023215 .001327005894209747 148.759764131627358008 191.3088022
2.514600234503 0 166.362139719401 2.506446532968658234 .00196695535966103 166.362225877709852834 927.7647972
60.077425015363 0 81.639916890942 60.078197903525388982 .010531670881733178 81.649044728416379082 592.5766309
"""  # noqa: E501
KARNEY_ROWS = np.array([line.split() for line in KARNEY.split("\n") if line], dtype=float)

STARTS = [
    (46.0, -30.0, "mid ocean"),
    (0.0, 0.0, "equator"),
    (1e-9, 5.0, "a hair off the equator"),
    (10.0, 179.9, "beside the antimeridian"),
    (-17.0, -180.0, "on the antimeridian"),
    (89.9, 10.0, "close to the north pole"),
    (-89.99, 0.0, "close to the south pole"),
    (90.0, 0.0, "at the north pole"),
    (-90.0, 30.0, "at the south pole"),
]


def errors(
    lat1: float, lon1: float, lat2: np.ndarray, lon2: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Distance error (m), azimuth error (deg) and true distance (m) of the vectorized inverse."""
    result = inverse(lat1, lon1, lat2, lon2)
    lines = [TRUTH.Inverse(lat1, lon1, a, o) for a, o in zip(lat2, lon2, strict=True)]
    meters = np.array([line["s12"] for line in lines])
    azimuth = np.array([[line["azi1"], line["azi2"]] for line in lines]).T
    found = np.array([result.true_azimuth_deg, result.true_azimuth_end_deg])
    azimuth_error = np.abs(wrap_180(found - azimuth)).max(axis=0)
    return np.abs(result.distance_nm * METERS_PER_NM - meters), azimuth_error, meters


@pytest.mark.parametrize(("lat", "lon", "why"), STARTS, ids=[w for *_, w in STARTS])
def test_the_inverse_equals_geographiclib_out_to_400_nm(lat: float, lon: float, why: str) -> None:
    rng = np.random.default_rng(46)
    azimuth = np.concatenate([rng.uniform(0.0, 360.0, 300), np.tile([0.0, 90.0, 180.0, 270.0], 25)])
    meters = METERS_PER_NM * 10 ** rng.uniform(-4.0, np.log10(400.0), azimuth.size)
    ends = [TRUTH.Direct(lat, lon, a, s) for a, s in zip(azimuth, meters, strict=True)]
    lat2, lon2 = (np.array([end[key] for end in ends]) for key in ("lat2", "lon2"))
    distance_error, azimuth_error, distance = errors(lat, lon, lat2, lon2)
    assert distance_error.max() < 1e-4
    assert (np.radians(azimuth_error) * distance).max() < 1e-4
    assert azimuth_error[distance > METERS_PER_NM].max() < 1e-8


def test_the_inverse_would_fail_that_check_on_a_sphere() -> None:
    lat2 = np.array([47.0])
    sphere_m = np.radians(1.0) * 6371008.8
    assert abs(sphere_m - TRUTH.Inverse(46.0, -30.0, lat2[0], -30.0)["s12"]) > 10.0


def test_published_geodesics_are_reproduced_both_ways() -> None:
    lat1, lon1, azi1, lat2, lon2, azi2, meters = KARNEY_ROWS.T
    found = inverse(lat1, lon1, lat2, lon2)
    np.testing.assert_allclose(found.distance_nm * METERS_PER_NM, meters, atol=1e-3)
    short = meters < 1e6
    across_m = np.radians(wrap_180(found.true_azimuth_deg - azi1)) * meters
    assert np.abs(across_m[short]).max() < 1e-4
    assert np.abs(np.radians(wrap_180(found.true_azimuth_end_deg - azi2))[short]).max() < 1e-6
    reached = direct(Position(lat1, lon1), azi1, meters / METERS_PER_NM)
    np.testing.assert_allclose(reached.lat_deg, lat2, atol=1e-11)
    np.testing.assert_allclose(reached.lon_deg, lon2, atol=1e-11)


def test_pyproj_agrees_over_the_archipelago() -> None:
    rng = np.random.default_rng(30)
    lat, lon = 46.0 + rng.uniform(-3, 3, 2000), -30.0 + rng.uniform(-4, 4, 2000)
    start = np.full(2000, 46.0), np.full(2000, -30.0)
    azimuth, _, meters = pyproj.Geod(ellps="WGS84").inv(start[1], start[0], lon, lat)
    found = inverse(46.0, -30.0, lat, lon)
    np.testing.assert_allclose(found.distance_nm * METERS_PER_NM, meters, atol=1e-4)
    assert np.abs(wrap_180(found.true_azimuth_deg - azimuth)).max() < 1e-8


@pytest.mark.filterwarnings("error")
def test_nearly_antipodal_places_fall_back_to_geographiclib() -> None:
    lat2, lon2 = np.array([0.3, -46.0, 0.0, -45.9]), np.array([179.7, 150.0, 179.9, 149.9])
    lat1, lon1 = np.array([0.0, 46.0, 0.0, 46.0]), np.array([0.0, -30.0, 0.0, -30.0])
    found = inverse(lat1, lon1, lat2, lon2)
    truth = [TRUTH.Inverse(*place)["s12"] for place in zip(lat1, lon1, lat2, lon2, strict=True)]
    np.testing.assert_allclose(found.distance_nm * METERS_PER_NM, truth, atol=1e-3)


def test_coinciding_places_are_no_distance_apart_and_face_north() -> None:
    for lat, lon in [(46.0, -30.0), (0.0, 180.0), (90.0, 0.0), (-90.0, 12.0)]:
        assert inverse(lat, lon, lat, lon)[:2] == (0.0, 360.0)


def test_longitude_180_and_minus_180_are_one_meridian() -> None:
    assert inverse(10.0, 180.0, 10.0, -180.0).distance_nm == 0.0
    assert Position(10.0, -180.0).lon_deg == Position(10.0, 180.0).lon_deg == 180.0
    assert Position(10.0, 190.0).lon_deg == pytest.approx(-170.0)


@given(
    st.floats(-89.0, 89.0), st.floats(-180.0, 180.0), st.floats(0.0, 360.0), st.floats(0.01, 400.0)
)
def test_going_out_and_measuring_back_is_the_same(
    lat: float, lon: float, azimuth: float, distance: float
) -> None:
    there = direct(Position(lat, lon), azimuth, distance)
    found = inverse(lat, lon, there.lat_deg, there.lon_deg)
    assert found.distance_nm == pytest.approx(distance, abs=1e-7)
    assert abs(wrap_180(found.true_azimuth_deg - azimuth)) * distance < 1e-5
    back = inverse(there.lat_deg, there.lon_deg, lat, lon)
    assert back.distance_nm == pytest.approx(distance, abs=1e-7)
    turned = wrap_180(back.true_azimuth_deg - found.true_azimuth_end_deg - 180.0)
    assert abs(turned) * distance < 1e-5


def test_one_start_serves_a_grid_of_ends_block_after_block() -> None:
    lat, lon = np.meshgrid(np.linspace(45, 47, 150), np.linspace(-31, -29, 140))
    grid = inverse(46.0, -30.0, lat, lon)
    assert grid.distance_nm.shape == lat.shape
    one = inverse(46.0, -30.0, lat[139, 149], lon[139, 149])
    assert grid.distance_nm[139, 149] == one.distance_nm
    ends_to_one = inverse(lat, lon, 46.0, -30.0)
    np.testing.assert_allclose(ends_to_one.distance_nm, grid.distance_nm, atol=1e-9)


def test_no_places_give_no_distances() -> None:
    assert inverse(46.0, -30.0, [], []).distance_nm.shape == (0,)
    assert direct(Position([], []), 90.0, 10.0).shape == (0,)


BAD = [
    (lambda: Position(91.0, 0.0), "lat_deg must be from -90 to 90 degrees, got 91"),
    (lambda: Position(0.0, 361.0), "lon_deg must be from -360 to 360 degrees, got 361"),
    (lambda: Position(np.nan, 0.0), "lat_deg must be finite, got nan"),
    (lambda: Position(0.0, [0.0, np.inf]), "lon_deg must be finite, got inf at index 1"),
    (lambda: Position(0.0, 0.0, np.nan), "altitude_ft must be finite"),
    (lambda: Position([1, 2], [1, 2, 3]), r"do not broadcast.*lat_deg \(2,\), lon_deg \(3,\)"),
    (lambda: Position("north", 0.0), "lat_deg must be a number"),
    (lambda: inverse(0.0, 0.0, 91.0, 0.0), "lat2_deg"),
    (lambda: inverse(0.0, 0.0, [1.0, 2.0], [1.0, 2.0, 3.0]), "do not broadcast"),
    (lambda: direct(Position(0.0, 0.0), 90.0, -1.0), "distance_nm must be 0 NM or more, got -1"),
    (lambda: direct(Position(0.0, 0.0), np.nan, 1.0), "true_azimuth_deg must be finite"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[m for _, m in BAD])
def test_a_bad_place_is_refused_with_its_name_and_what_is_allowed(call, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
