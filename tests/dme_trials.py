"""Fixes by radial and DME tried with random errors, to test the areas reckoned of them."""

import numpy as np

from vorlib.earth.geodesic import Position
from vorlib.procedures.dme_error_area import meet_circle
from vorlib.procedures.error_area import Samples
from vorlib.vor.station import Station


def sample_dme_fixes(
    station: Station,
    dme: Station,
    position: Position,
    sigma_deg: float,
    sigma_nm: float,
    count: int,
    seed: int = 0,
) -> Samples:
    """Return fixes with normal errors, seeded; those that do not meet are left out."""
    rng = np.random.default_rng(seed)
    radial = station.radial_deg(position) + sigma_deg * rng.standard_normal(count)
    slant = dme.slant_range_nm(position) + sigma_nm * rng.standard_normal(count)
    place, met = meet_circle(station, radial, dme, slant, position)
    return Samples(Position(place.lat_deg[met], place.lon_deg[met]), float(1.0 - met.mean()))
