"""Coordinated turns: rate, radius, bank, and the lead that ends a turn on a line."""

from typing import overload

from numpy.typing import ArrayLike

from vorlib.core.arguments import FloatArray, not_negative, positive, within
from vorlib.core.scalars import namespace
from vorlib.core.units import METERS_PER_NM, METERS_PER_SECOND_PER_KNOT

STANDARD_GRAVITY_M_S2 = 9.80665  # SI brochure (from memory)
STANDARD_RATE_DEG_S = 3.0  # common practice

STEEPEST_BANK_DEG = 89.0  # short of 90, where a level turn would need endless lift


@overload
def turn_rate_deg_s(speed_kt: float, bank_deg: float) -> float: ...
@overload
def turn_rate_deg_s(speed_kt: ArrayLike, bank_deg: ArrayLike) -> FloatArray: ...
def turn_rate_deg_s(speed_kt: ArrayLike, bank_deg: ArrayLike) -> float | FloatArray:
    """Return the rate of a level coordinated turn in degrees per second; 0 with the wings level.

    Parameters
    ----------
    speed_kt
        True airspeed, more than 0.
    bank_deg
        Angle of bank from -89 to 89, positive to the right, as is the rate.

    Notes
    -----
    rate = g tan(bank) / speed. Pilot's Handbook (FAA-H-8083-25C), chapter 5, rate of turn (read in
    a copy) prints it as 1,091 tan(bank) / knots.

    >>> round(float(turn_rate_deg_s(120, 30)), 2)
    5.25
    """
    speed = positive("speed_kt", speed_kt, "kt") * METERS_PER_SECOND_PER_KNOT
    bank = within("bank_deg", bank_deg, -STEEPEST_BANK_DEG, STEEPEST_BANK_DEG, "degrees")
    m = namespace(speed, bank)
    rate: FloatArray = m.degrees(STANDARD_GRAVITY_M_S2 * m.tan(m.radians(bank)) / speed)
    return rate


@overload
def turn_radius_nm(speed_kt: float, bank_deg: float) -> float: ...
@overload
def turn_radius_nm(speed_kt: ArrayLike, bank_deg: ArrayLike) -> FloatArray: ...
def turn_radius_nm(speed_kt: ArrayLike, bank_deg: ArrayLike) -> float | FloatArray:
    """Return the radius of a level coordinated turn in NM.

    Raises
    ------
    ValueError
        If the bank is 0, which is no turn, or not between 0 and 89 degrees, or the speed is 0.

    Notes
    -----
    radius = speed^2 / (g tan(bank)). Pilot's Handbook (FAA-H-8083-25C), chapter 5, radius of turn
    (read in a copy) prints it as knots^2 / (11.26 tan(bank)) feet.

    >>> round(float(turn_radius_nm(120, 30)) * 6076.12)
    2208
    """
    speed = positive("speed_kt", speed_kt, "kt") * METERS_PER_SECOND_PER_KNOT
    bank = positive("bank_deg", within("bank_deg", bank_deg, 0.0, 89.0, "degrees"), "degrees")
    m = namespace(speed, bank)
    radius: FloatArray = speed**2 / (STANDARD_GRAVITY_M_S2 * m.tan(m.radians(bank)))
    return radius / METERS_PER_NM


@overload
def bank_for_rate_deg(speed_kt: float, rate_deg_s: float = STANDARD_RATE_DEG_S) -> float: ...
@overload
def bank_for_rate_deg(
    speed_kt: ArrayLike, rate_deg_s: ArrayLike = STANDARD_RATE_DEG_S
) -> FloatArray: ...
def bank_for_rate_deg(
    speed_kt: ArrayLike, rate_deg_s: ArrayLike = STANDARD_RATE_DEG_S
) -> float | FloatArray:
    """Return the bank that turns at a rate, in degrees.

    >>> [round(float(bank_for_rate_deg(speed)), 2) for speed in (100, 120, 180)]
    [15.36, 18.24, 26.31]
    """
    speed = not_negative("speed_kt", speed_kt, "kt") * METERS_PER_SECOND_PER_KNOT
    rate = not_negative("rate_deg_s", rate_deg_s, "degrees per second")
    m = namespace(speed, rate)
    bank: FloatArray = m.degrees(m.arctan2(m.radians(rate) * speed, STANDARD_GRAVITY_M_S2))
    return bank


@overload
def turn_lead_nm(radius_nm: float, angle_deg: float) -> float: ...
@overload
def turn_lead_nm(radius_nm: ArrayLike, angle_deg: ArrayLike) -> FloatArray: ...
def turn_lead_nm(radius_nm: ArrayLike, angle_deg: ArrayLike) -> float | FloatArray:
    """Return how far before a line, measured square to it, a turn onto it must begin, in NM.

    A circle of the radius is tangent to the line after a turn through the angle at which the line
    is met, 0 to 180 degrees: radius (1 - cos(angle)). No wind.

    Notes
    -----
    Checked with US Navy P-1215 (read in a copy): the lead for 45 degrees is about a third of that
    for 90.

    >>> round(float(turn_lead_nm(1.0, 45) / turn_lead_nm(1.0, 90)), 3)
    0.293
    """
    radius = not_negative("radius_nm", radius_nm, "NM")
    angle = within("angle_deg", angle_deg, 0.0, 180.0, "degrees")
    m = namespace(radius, angle)
    lead: FloatArray = radius * (1.0 - m.cos(m.radians(angle)))
    return lead
