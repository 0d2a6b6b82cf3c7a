"""vorlib: the geometry of VOR navigation, for learning and teaching on the ground.

For training on the ground only, not for navigation: current charts and publications, local rules
and a licensed instructor come first.
"""

import importlib
from typing import TYPE_CHECKING, Any

from vorlib.angles import difference_deg, format_direction, reciprocal_deg, wrap_180, wrap_360
from vorlib.bearing_errors import BearingErrors
from vorlib.coverage import cone_radius_nm, line_of_sight_nm, service_radius_nm
from vorlib.earth import Position, direct, inverse
from vorlib.magnetism import variation_deg
from vorlib.receiver import Flag, Reading, Reason, Receiver
from vorlib.sensing import is_reverse_sensing
from vorlib.station import Station

if TYPE_CHECKING:
    from vorlib.fixing import fix_from_radial_and_dme, fix_from_radials
    from vorlib.intercept import intercept_angle_deg, plan_intercept
    from vorlib.orientation import direct_to, orient
    from vorlib.signal import CompositeSignal, measure_radial, radial_bound_deg
    from vorlib.timing import time_to_station_min
    from vorlib.turns import turn_radius_nm, turn_rate_deg_s
    from vorlib.wind import Wind, wind_from, wind_triangle

__version__ = "0.1.0"

__all__ = [
    "BearingErrors",
    "CompositeSignal",
    "Flag",
    "Position",
    "Reading",
    "Reason",
    "Receiver",
    "Station",
    "Wind",
    "cone_radius_nm",
    "difference_deg",
    "direct",
    "direct_to",
    "fix_from_radial_and_dme",
    "fix_from_radials",
    "format_direction",
    "intercept_angle_deg",
    "inverse",
    "is_reverse_sensing",
    "line_of_sight_nm",
    "measure_radial",
    "orient",
    "plan_intercept",
    "radial_bound_deg",
    "reciprocal_deg",
    "service_radius_nm",
    "time_to_station_min",
    "turn_radius_nm",
    "turn_rate_deg_s",
    "variation_deg",
    "wind_from",
    "wind_triangle",
    "wrap_180",
    "wrap_360",
]

# What a flight, a procedure or the signal is made of is loaded when first asked for, so that
# reading a needle costs no more to import than it needs.
_LATER = {
    "CompositeSignal": "signal",
    "Wind": "wind",
    "direct_to": "orientation",
    "fix_from_radial_and_dme": "fixing",
    "fix_from_radials": "fixing",
    "intercept_angle_deg": "intercept",
    "measure_radial": "signal",
    "orient": "orientation",
    "plan_intercept": "intercept",
    "radial_bound_deg": "signal",
    "time_to_station_min": "timing",
    "turn_radius_nm": "turns",
    "turn_rate_deg_s": "turns",
    "wind_from": "wind",
    "wind_triangle": "wind",
}


def __getattr__(name: str) -> Any:
    if name not in _LATER:
        raise AttributeError(f"module 'vorlib' has no attribute {name!r}")
    value = getattr(importlib.import_module(f"vorlib.{_LATER[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
