"""Where a geodesic leads: against geographiclib and pyproj, anywhere on earth and any distance."""

import numpy as np
import pyproj
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given
from hypothesis import strategies as st

from vorlib.core.angles import wrap_180
from vorlib.core.blocks import BLOCK
from vorlib.core.units import METERS_PER_NM
from vorlib.earth.direct import FARTHEST_NM
from vorlib.earth.geodesic import Position, direct, inverse

ROUND_THE_EARTH_NM = 21_639.0  # more than the longest way round, the equator
ONE_DEGREE_M = 111_320.0
TOLERANCE_M = 1e-7  # 1e-12 degrees of latitude; the arithmetic leaves a tenth of it

latitudes = st.floats(-90.0, 90.0)
longitudes = st.floats(-180.0, 180.0)
azimuths = st.floats(-720.0, 720.0)


def truth(
    lat: np.ndarray, lon: np.ndarray, azimuth: np.ndarray, distance_nm: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Return the places that geographiclib reaches."""
    rows = np.broadcast(lat, lon, azimuth, distance_nm)
    lines = [Geodesic.WGS84.Direct(a, o, t, d * METERS_PER_NM) for a, o, t, d in rows]
    return np.array([i["lat2"] for i in lines]), np.array([i["lon2"] for i in lines])


def apart_m(there: Position, lat: np.ndarray, lon: np.ndarray) -> np.ndarray:
    """Return how far places are apart that all but coincide."""
    east = wrap_180(there.lon_deg - lon) * np.cos(np.radians(lat))
    return np.hypot(there.lat_deg - lat, east) * ONE_DEGREE_M


@pytest.mark.parametrize("lat", [-90.0, -89.999, -46.0, -1e-9, 0.0, 1e-12, 46.0, 89.9999, 90.0])
@pytest.mark.parametrize("lon", [0.0, -30.0, 179.9, -180.0])
def test_the_place_reached_is_that_of_geographiclib(lat: float, lon: float) -> None:
    rng = np.random.default_rng(46)
    azimuth = np.concatenate([rng.uniform(0.0, 360.0, 50), np.tile([0.0, 90.0, 180.0, 270.0], 12)])
    for reach in (0.0, 1e-4, 1.0, 300.0, 5_400.0, ROUND_THE_EARTH_NM):
        distance = reach * rng.uniform(0.9, 1.0, azimuth.size)
        there = direct(Position(lat, lon), azimuth, distance)
        assert apart_m(there, *truth(lat, lon, azimuth, distance)).max() < TOLERANCE_M


def test_within_300_nm_the_degrees_themselves_agree() -> None:
    rng = np.random.default_rng(30)
    lat, lon = rng.uniform(-80.0, 80.0, 2000), rng.uniform(-180.0, 180.0, 2000)
    azimuth, distance = rng.uniform(0.0, 360.0, 2000), rng.uniform(0.0, 300.0, 2000)
    there = direct(Position(lat, lon), azimuth, distance)
    lat2, lon2 = truth(lat, lon, azimuth, distance)
    assert np.abs(there.lat_deg - lat2).max() < 1e-12
    assert np.abs(wrap_180(there.lon_deg - lon2)).max() < 1e-12


def test_ten_times_the_tolerance_too_far_along_is_seen() -> None:
    there = direct(Position(46.0, -30.0), [40.0], 20.0 + 10.0 * TOLERANCE_M / METERS_PER_NM)
    apart = apart_m(there, *truth(np.array([46.0]), np.array([-30.0]), 40.0, 20.0))
    assert apart[0] == pytest.approx(10.0 * TOLERANCE_M, rel=0.1)


def test_pyproj_reaches_the_same_places() -> None:
    rng = np.random.default_rng(7)
    lat, lon = 46.0 + rng.uniform(-4, 4, 2000), -30.0 + rng.uniform(-6, 6, 2000)
    azimuth, distance = rng.uniform(0.0, 360.0, 2000), rng.uniform(0.0, 300.0, 2000)
    there = direct(Position(lat, lon), azimuth, distance)
    lon2, lat2, _ = pyproj.Geod(ellps="WGS84").fwd(lon, lat, azimuth, distance * METERS_PER_NM)
    assert apart_m(there, lat2, lon2).max() < TOLERANCE_M


@given(latitudes, longitudes, azimuths, st.floats(0.0, FARTHEST_NM))
def test_one_place_is_reached_as_exactly_as_many(
    lat: float, lon: float, azimuth: float, distance: float
) -> None:
    one = direct(Position(lat, lon), azimuth, distance)
    many = direct(Position([lat], [lon]), [azimuth], [distance])
    assert isinstance(one.lat_deg, float)
    assert isinstance(one.lon_deg, float)
    # Hundreds of radians around the earth are rounded to hundreds of the smallest steps.
    tolerance_m = TOLERANCE_M * (1.0 + distance / ROUND_THE_EARTH_NM)
    assert apart_m(many, *truth(lat, lon, azimuth, distance)).max() < tolerance_m
    assert apart_m(many, one.lat_deg, one.lon_deg).max() < tolerance_m


@given(st.floats(-89.0, 89.0), longitudes, azimuths, st.floats(0.01, 10_000.0))
def test_the_way_back_is_the_way_out_reversed(
    lat: float, lon: float, azimuth: float, distance: float
) -> None:
    there = direct(Position(lat, lon), azimuth, distance)
    end = Geodesic.WGS84.Direct(lat, lon, azimuth, distance * METERS_PER_NM)["azi2"]
    back = direct(there, end + 180.0, distance)
    # Near a pole the direction on arrival turns as fast as the longitude is uncertain.
    assert apart_m(back, np.array([lat]), np.array([lon])).max() < 1e-5


@given(latitudes, longitudes, azimuths, st.floats(0.01, 9_000.0))
def test_the_distance_measured_is_the_distance_gone(
    lat: float, lon: float, azimuth: float, distance: float
) -> None:
    there = direct(Position([lat], [lon]), azimuth, distance)
    found = inverse(lat, lon, there.lat_deg, there.lon_deg)
    assert found.distance_nm[0] == pytest.approx(distance, abs=1e-7)


@given(latitudes, longitudes, azimuths)
def test_no_distance_leads_nowhere(lat: float, lon: float, azimuth: float) -> None:
    there = direct(Position([lat], [lon], 9000.0), azimuth, 0.0)
    assert apart_m(there, np.array([lat]), np.array([lon])).max() < 1e-7
    assert there.altitude_ft == 9000.0


def test_a_geodesic_over_the_pole_comes_down_on_the_opposite_meridian() -> None:
    there = direct(Position(80.0, -30.0), 0.0, [1200.0])
    assert there.lon_deg[0] == pytest.approx(150.0, abs=1e-9)
    assert 79.0 < there.lat_deg[0] < 81.0


def test_the_equator_is_a_geodesic() -> None:
    for azimuth, lon in ((90.0, 1.0), (270.0, -1.0)):
        there = direct(Position([0.0], 0.0), azimuth, np.radians(1.0) * 6378137.0 / METERS_PER_NM)
        assert there.lat_deg[0] == pytest.approx(0.0, abs=1e-12)
        assert there.lon_deg[0] == pytest.approx(lon, abs=1e-12)


def test_crossing_the_antimeridian_changes_the_sign_of_longitude() -> None:
    east = direct(Position([10.0, 10.0], [179.9, -179.9]), [90.0, 270.0], 30.0)
    assert east.lon_deg[0] == pytest.approx(-east.lon_deg[1])
    assert -180.0 < east.lon_deg[0] < -179.0


def test_starts_azimuths_and_distances_broadcast_block_after_block() -> None:
    lat = np.linspace(45.0, 47.0, 3)[:, None]
    distance = np.linspace(0.0, 300.0, BLOCK)
    fan = direct(Position(lat, -30.0, 2000.0), 40.0, distance)
    assert fan.shape == fan.lat_deg.shape == (3, BLOCK)
    one = direct(Position(47.0, -30.0), 40.0, 300.0)
    assert fan.lat_deg[2, -1] == pytest.approx(one.lat_deg, abs=1e-12)
    assert fan.lon_deg[2, -1] == pytest.approx(one.lon_deg, abs=1e-12)


def test_whole_numbers_and_single_element_arrays_are_taken() -> None:
    one, several = direct(Position(46, -30), 90, 10), direct(Position([46], [-30]), 90, 10)
    assert several.lat_deg.shape == several.lon_deg.shape == (1,)
    assert several.lat_deg[0] == pytest.approx(one.lat_deg, abs=1e-12)


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("distance", [2.0 * FARTHEST_NM, 1e9, 1e12])
def test_distances_beyond_all_use_are_geographiclibs(distance: float) -> None:
    lat2, lon2 = truth(46.0, -30.0, 40.0, np.array([distance, 20.0]))
    there = direct(Position(46.0, -30.0), 40.0, [distance, 20.0])
    np.testing.assert_allclose(there.lat_deg, lat2, atol=1e-12)
    np.testing.assert_allclose(there.lon_deg, lon2, atol=1e-12)
    one = direct(Position(46.0, -30.0), 40.0, distance)
    assert (one.lat_deg, one.lon_deg) == (there.lat_deg[0], there.lon_deg[0])


@pytest.mark.parametrize("distance", [1e308, [1e308]])
def test_a_distance_beyond_all_sizes_gives_no_silent_nan(distance: float | list[float]) -> None:
    with pytest.raises(ValueError, match="distance_nm must be a size that occurs"):
        direct(Position(46.0, -30.0), 40.0, distance)


BAD = [
    ((40.0, np.nan), "distance_nm must be finite, got nan"),
    ((40.0, np.inf), "distance_nm must be finite, got inf"),
    (([40.0, -np.inf], 1.0), "true_azimuth_deg must be finite, got -inf at index 1"),
    ((40.0, [1.0, 2.0, -3.0]), "distance_nm must be 0 NM or more, got -3 at index 2"),
    (([1.0, 2.0], [1.0, 2.0, 3.0]), r"do not broadcast.*true_azimuth_deg \(2,\)"),
    (("north", 1.0), "true_azimuth_deg must be a number"),
]


@pytest.mark.parametrize(("arguments", "message"), BAD, ids=[m for _, m in BAD])
def test_what_leads_nowhere_is_refused_with_its_name(arguments, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        direct(Position(46.0, -30.0), *arguments)
