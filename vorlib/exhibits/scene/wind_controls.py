"""Controls for wind and airspeed, the same in every exhibit that flies."""

from __future__ import annotations

from vorlib.exhibits.base.controls import Number

__all__ = [
    "FASTEST_KT",
    "SLOWEST_KT",
    "STRONGEST_KT",
    "airspeed_number",
    "wind_direction_number",
    "wind_speed_number",
]

SLOWEST_KT, FASTEST_KT = 70.0, 200.0
STRONGEST_KT = 60.0  # the limit unless an exhibit sets its own


def wind_direction_number() -> Number:
    """Return the control for the direction the wind blows from."""
    return Number("wind_from_deg", "Wind from", direction=True, feeds=("from_deg",))


def wind_speed_number(most_kt: float) -> Number:
    """Return the control for the wind's speed."""
    return Number("wind_kt", "Wind speed", "knots", 0.0, most_kt, feeds=("speed_kt",))


def airspeed_number() -> Number:
    """Return the control for the true airspeed."""
    return Number(
        "airspeed_kt", "True airspeed", "knots", SLOWEST_KT, FASTEST_KT, 5.0,
        feeds=("true_airspeed_kt",),
    )  # fmt: skip
