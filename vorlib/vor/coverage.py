"""Where a station can be received: line of sight, service volume, cone of confusion."""

from functools import lru_cache
from typing import Any, NamedTuple, overload

from numpy.typing import ArrayLike

from vorlib.core.arguments import ArgumentError, FloatArray, N, bounded, not_negative, within
from vorlib.core.scalars import namespace
from vorlib.core.units import FEET_PER_NM

# FS-1037C, "radio horizon range" (read in a copy): 4/3 earth radius; feet to nautical miles.
HORIZON_NM_PER_ROOT_FT = 1.23

# ICAO Doc 8168, volume I, part I, section 2, chapter 2, 2.4.4.1 (read in a copy, edition not
# checked): 50 degrees or less.
CONE_HALF_ANGLE_DEG = 50.0

# AIM 1-1-8, table 1-1-1 (read in a copy): below it the volume is a curve, not a band.
LOWEST_PUBLISHED_FT = 1000.0


class Band(NamedTuple):
    """Heights above the antenna in feet, from floor to ceiling, served out to a radius."""

    floor_ft: float
    ceiling_ft: float
    radius_nm: float
    includes_ceiling: bool


# Of the United States: AIM 1-1-8, table 1-1-1 (read in a copy). Where two bands hold, the larger
# radius does. Other states publish a range for each station instead of a class.
SERVICE_VOLUMES: dict[str, tuple[Band, ...]] = {
    "T": (Band(1000, 12000, 25.0, True),),
    "L": (Band(1000, 18000, 40.0, True),),
    "H": (
        Band(1000, 14500, 40.0, False),
        Band(14500, 60000, 100.0, True),
        Band(18000, 45000, 130.0, True),
    ),
    "VL": (Band(1000, 5000, 40.0, False), Band(5000, 18000, 70.0, False)),
    "VH": (
        Band(1000, 5000, 40.0, False),
        Band(5000, 14500, 70.0, False),
        Band(14500, 60000, 100.0, True),
        Band(18000, 45000, 130.0, True),
    ),
}


def check_service(service: str) -> str:
    """Return *service* if it is a known volume, or raise ValueError that lists them."""
    if service not in SERVICE_VOLUMES:
        raise ArgumentError(
            f"service must be one of {', '.join(SERVICE_VOLUMES)}, got {service!r}",
            argument="service",
        )
    return service


@overload
def line_of_sight_nm(height_ft: float, other_height_ft: float = 0.0) -> float: ...
@overload
def line_of_sight_nm(height_ft: ArrayLike, other_height_ft: ArrayLike = 0.0) -> FloatArray: ...
def line_of_sight_nm(height_ft: ArrayLike, other_height_ft: ArrayLike = 0.0) -> float | FloatArray:
    """Return how far apart two antennas above a smooth sea can still see each other, in NM.

    Heights below the sea count as 0. Ground that stands between shortens the range. Source:
    FS-1037C, "radio horizon range" (read in a copy).

    >>> round(line_of_sight_nm(1000.0), 1)
    38.9
    """
    one = bounded("height_ft", height_ft, "ft")
    other = bounded("other_height_ft", other_height_ft, "ft")
    range_nm: float | FloatArray = sight_nm(one, other)
    return range_nm


def sight_nm(height_ft: Any, other_height_ft: Any) -> Any:
    """Return what `line_of_sight_nm` does, unchecked."""
    m = namespace(height_ft, other_height_ft)
    roots = m.sqrt(m.maximum(height_ft, 0.0)) + m.sqrt(m.maximum(other_height_ft, 0.0))
    return HORIZON_NM_PER_ROOT_FT * roots


@overload
def service_radius_nm(service: str, height_ft: float) -> float: ...
@overload
def service_radius_nm(service: str, height_ft: ArrayLike) -> FloatArray: ...
def service_radius_nm(service: str, height_ft: ArrayLike) -> float | FloatArray:
    """Return the radius of a standard service volume at a height above the antenna, in NM.

    The volumes are those of the United States: AIM 1-1-8, table 1-1-1 (read in a copy). 0 where the
    volume offers no service. Below 1,000 ft the published volume is a curve that was not read:
    there the lowest band's radius stands in, shortened to the line of sight from the antenna's own
    height.

    Raises
    ------
    ValueError
        If *service* is not one of T, L, H, VL, VH, or a height is not finite.

    >>> service_radius_nm("VH", [14499.0, 14500.0, 18000.0, 45001.0]).tolist()
    [70.0, 100.0, 130.0, 100.0]
    """
    return served_nm(check_service(service), bounded("height_ft", height_ft, "ft"))


def served_nm(service: str, height_ft: N) -> N:
    """Return what `service_radius_nm` does, unchecked."""
    bands = SERVICE_VOLUMES[service]
    m = namespace(height_ft)
    low = m.minimum(bands[0].radius_nm, sight_nm(height_ft, 0.0))
    radius: N = m.where(height_ft < LOWEST_PUBLISHED_FT, low, 0.0)
    for band in bands:
        capped = band.includes_ceiling
        below = height_ft <= band.ceiling_ft if capped else height_ft < band.ceiling_ft
        radius = m.where((height_ft >= band.floor_ft) & below, band.radius_nm, radius)
    return radius


@overload
def cone_radius_nm(height_ft: float, half_angle_deg: float = CONE_HALF_ANGLE_DEG) -> float: ...
@overload
def cone_radius_nm(
    height_ft: ArrayLike, half_angle_deg: ArrayLike = CONE_HALF_ANGLE_DEG
) -> FloatArray: ...
def cone_radius_nm(
    height_ft: ArrayLike, half_angle_deg: ArrayLike = CONE_HALF_ANGLE_DEG
) -> float | FloatArray:
    """Return the radius of the cone of confusion at a height above the station, in NM.

    The half-angle counts from the vertical, from 0 to less than 90 degrees.

    >>> round(cone_radius_nm(10000.0), 3)
    1.961
    """
    height = not_negative("height_ft", height_ft, "ft")
    half_angle = within("half_angle_deg", half_angle_deg, 0.0, 89.9, "degrees")
    radius: float | FloatArray = cone_nm(height, half_angle)
    return radius


def cone_nm(height_ft: Any, half_angle_deg: Any) -> Any:
    """Return what `cone_radius_nm` does, unchecked."""
    m = namespace(height_ft, half_angle_deg)
    return height_ft / FEET_PER_NM * m.tan(m.radians(half_angle_deg))


def reaches_nm(
    service: str, altitude_ft: Any, antenna_ft: float, cone_half_angle_deg: float
) -> tuple[Any, Any, Any]:
    """Return how far from a station it is promised, the cone reaches, and it can be seen."""
    reaches = _reaches_of_one if isinstance(altitude_ft, float) else _reaches_nm
    return reaches(service, altitude_ft, antenna_ft, cone_half_angle_deg)


def _reaches_nm(
    service: str, altitude_ft: Any, antenna_ft: float, cone_half_angle_deg: float
) -> tuple[Any, Any, Any]:
    height = altitude_ft - antenna_ft
    above = namespace(height).maximum(height, 0.0)
    cone = cone_nm(above, cone_half_angle_deg)
    return served_nm(service, height), cone, sight_nm(altitude_ft, antenna_ft)


_reaches_of_one = lru_cache(maxsize=256)(_reaches_nm)  # a flight mostly stays at its altitude


def one_for_all(altitude_ft: Any) -> Any:
    """Return a single altitude where all are the same, as in level flight: it costs less."""
    if isinstance(altitude_ft, float) or not altitude_ft.size:
        return altitude_ft
    first = altitude_ft.flat[0]
    return float(first) if (altitude_ft == first).all() else altitude_ft
