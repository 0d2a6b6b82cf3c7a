"""The quick geodesics and the meridian's arc, against geographiclib."""

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

import vorlib as v
from vorlib.earth.meridian import latitude_rad, meridian_m
from vorlib.earth.nearby import Nearby

LATITUDES = [-85.0, -46.3, 0.0, 20.0, 46.0, 70.0]


@pytest.mark.parametrize("lat_deg", LATITUDES)
@pytest.mark.parametrize(
    ("distance_nm", "azimuth_within_deg", "length_within_nm"),
    [(0.5, 1e-9, 1e-9), (10.0, 2e-9, 1e-8), (60.0, 1e-7, 6e-7), (300.0, 1e-5, 3e-4)],
)
def test_a_geodesic_nearby_is_the_exact_one_as_closely_as_it_says(
    lat_deg: float, distance_nm: float, azimuth_within_deg: float, length_within_nm: float
) -> None:
    here = v.Position(lat_deg, 179.9)  # places on both sides of the 180th meridian
    ends = [
        Geodesic.WGS84.Direct(lat_deg, 179.9, azimuth, distance_nm * 1852.0)
        for azimuth in range(3, 360, 17)
    ]
    lat, lon, azimuth = np.array([(e["lat2"], e["lon2"], e["azi1"]) for e in ends]).T
    length, found = Nearby(here).line(lat, lon)
    assert np.abs(v.difference_deg(found, azimuth)).max() < azimuth_within_deg
    assert np.abs(length - distance_nm).max() < length_within_nm
    one = Nearby(here).line(float(lat[0]), float(lon[0]))
    assert one == pytest.approx((length[0], found[0]), abs=1e-9)


def test_a_place_lies_north_of_itself_at_no_distance() -> None:
    assert Nearby(v.Position(46.0, -30.0)).line(46.0, -30.0) == pytest.approx((0.0, 0.0))


@pytest.mark.parametrize("lat_deg", [*LATITUDES, 90.0])
def test_the_arc_of_a_meridian_leads_to_its_latitude_and_back(lat_deg: float) -> None:
    arc = math.copysign(Geodesic.WGS84.Inverse(0.0, 0.0, lat_deg, 0.0)["s12"], lat_deg)
    assert meridian_m(math.radians(lat_deg)) == pytest.approx(arc, abs=1e-6)
    assert math.degrees(latitude_rad(arc)) == pytest.approx(lat_deg, abs=1e-11)
