"""vorlib: the geometry of VOR navigation, for learning and teaching on the ground.

For training on the ground only, not for navigation: current charts and publications, local rules
and a licensed instructor come first.
"""

from vorlib.aircraft.turns import turn_radius_nm, turn_rate_deg_s
from vorlib.aircraft.wind import Wind, track, wind_from, wind_triangle
from vorlib.core.angles import difference_deg, format_direction, reciprocal_deg, wrap_180, wrap_360
from vorlib.earth.geodesic import Position, Positions, direct, inverse
from vorlib.earth.variation import variation_deg
from vorlib.procedures.dme_fixing import fix_from_radial_and_dme
from vorlib.procedures.fixing import fix_from_radials
from vorlib.procedures.intercept import intercept_angle_deg, plan_intercept
from vorlib.procedures.orientation import direct_to, orient, sensing_steps
from vorlib.procedures.timing import time_to_station_min
from vorlib.procedures.tracking import hold_course, off_course_nm
from vorlib.receiver_check.error_budget import ROUTE_BUDGET, ErrorBudget, half_width_nm
from vorlib.signal import SAMPLE_RATE_HZ, CompositeSignal, measure_radial, radial_bound_deg
from vorlib.vor.bearing_errors import BearingErrors
from vorlib.vor.coverage import cone_radius_nm, line_of_sight_nm, service_radius_nm
from vorlib.vor.receiver import Flag, Reading, Readings, Reason, Receiver
from vorlib.vor.sensing import is_reverse_sensing
from vorlib.vor.station import Station

__version__ = "0.1.0"

__all__ = [
    "ROUTE_BUDGET",
    "SAMPLE_RATE_HZ",
    "BearingErrors",
    "CompositeSignal",
    "ErrorBudget",
    "Flag",
    "Position",
    "Positions",
    "Reading",
    "Readings",
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
    "half_width_nm",
    "hold_course",
    "intercept_angle_deg",
    "inverse",
    "is_reverse_sensing",
    "line_of_sight_nm",
    "measure_radial",
    "off_course_nm",
    "orient",
    "plan_intercept",
    "radial_bound_deg",
    "reciprocal_deg",
    "sensing_steps",
    "service_radius_nm",
    "time_to_station_min",
    "track",
    "turn_radius_nm",
    "turn_rate_deg_s",
    "variation_deg",
    "wind_from",
    "wind_triangle",
    "wrap_180",
    "wrap_360",
]
