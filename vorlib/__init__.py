"""vorlib: the geometry of VOR navigation, for learning and teaching on the ground.

For training on the ground only, not for navigation: current charts and publications, local rules
and a licensed instructor come first.
"""

from vorlib.angles import difference_deg, format_direction, reciprocal_deg, wrap_180, wrap_360
from vorlib.bearing_errors import BearingErrors
from vorlib.coverage import cone_radius_nm, line_of_sight_nm, service_radius_nm
from vorlib.earth import Position, direct, inverse
from vorlib.magnetism import variation_deg
from vorlib.receiver import Flag, Reading, Reason, Receiver
from vorlib.sensing import is_reverse_sensing
from vorlib.station import Station

__version__ = "0.1.0"

__all__ = [
    "BearingErrors",
    "Flag",
    "Position",
    "Reading",
    "Reason",
    "Receiver",
    "Station",
    "cone_radius_nm",
    "difference_deg",
    "direct",
    "format_direction",
    "inverse",
    "is_reverse_sensing",
    "line_of_sight_nm",
    "reciprocal_deg",
    "service_radius_nm",
    "variation_deg",
    "wrap_180",
    "wrap_360",
]
