"""Where a straight flight meets a radial, and how far a turn onto it reaches."""

import math

import numpy as np

from vorlib.aircraft.flight import Aircraft, FlightState, advance
from vorlib.aircraft.stretch import Steering
from vorlib.aircraft.turns import bank_for_rate_deg, turn_rate_deg_s
from vorlib.aircraft.wind import Wind, components_kt
from vorlib.core.angles import difference_deg, format_direction
from vorlib.core.arguments import ArgumentError, N
from vorlib.core.roots import crossing
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.earth.geodesic import Position
from vorlib.procedures.panel import first_true
from vorlib.vor.station import Station

__all__ = ["meet_radial", "turn_across_nm"]

LOOK_S = 10.0  # the flight is searched for the radial in steps of this length
FIRST_LOOKS = 32  # at once, and then twice as many each time: most meet it in five minutes
LONGEST_INTERCEPT_S = 4.0 * SECONDS_PER_HOUR


def meet_radial(
    station: Station, level: FlightState, aircraft: Aircraft, target: float, wind: Wind
) -> FlightState:
    """Return where a straight flight meets a radial.

    Parameters
    ----------
    station, level, aircraft, wind
        The station; where the flight begins, wings level; how it flies, and in what true wind.
    target
        The radial in degrees.

    Raises
    ------
    ValueError
        If the radial is not met within four hours, the station is passed before, or the flight
        nears a pole.
    """

    def to_go(there: Position[N]) -> N:
        return difference_deg(target, station.radial_deg(there))

    def on(here: FlightState, seconds: float) -> FlightState:
        return advance(here, aircraft, seconds, 0.0, wind)

    def met_after(here: FlightState) -> FlightState:
        met_s = crossing(lambda s: float(to_go(on(here, s).position)), 0.0, LOOK_S, 1e-6)
        return on(here, met_s)

    steering, here, first = Steering(aircraft, LOOK_S), level, float(to_go(level.position))
    before, left, ahead = first, int(LONGEST_INTERCEPT_S / LOOK_S), FIRST_LOOKS
    while left > 0:
        looks = steering.stretch(here, level.true_heading_deg, min(ahead, left), wind)
        now = to_go(Position(looks[1], looks[2]))
        # the reciprocal radial, where the station was passed, or flown round
        wrong = (abs(now) > 170.0) & (now * np.concatenate(([before], now[:-1])) < 0.0)
        end = first_true(wrong | (now * first <= 0.0))
        if end < now.size:
            if wrong[end]:
                break
            return met_after(FlightState(*looks[:, end - 1].tolist()) if end else here)
        here, before = FlightState(*looks[:, -1].tolist()), float(now[-1])
        left, ahead = left - now.size, 2 * ahead
    heading = format_direction(level.true_heading_deg - station.declination_deg)
    raise ArgumentError(
        f"heading {heading} does not meet the {format_direction(target)} radial: choose another "
        "angle, or go to the station first",
        argument="angle_deg",
    )


def turn_across_nm(
    heading: float, hold: float, course: float, aircraft: Aircraft, wind: Wind
) -> float:
    """Return the way made across a course in a turn, at standard rate if the bank allows it.

    Parameters
    ----------
    heading, hold, course
        Before the turn, after it, and the course, in degrees from one north.
    aircraft, wind
        How it flies, and the wind in knots from the same north.

    Returns
    -------
    float
        The way in NM, never negative.
    """
    speed = aircraft.true_airspeed_kt
    bank = min(aircraft.bank_limit_deg, float(bank_for_rate_deg(speed)))
    rate = math.radians(float(turn_rate_deg_s(speed, bank))) * SECONDS_PER_HOUR  # radians an hour
    begin, end = (math.radians(float(difference_deg(h, course))) for h in (heading, hold))
    through_the_air = speed / rate * (math.cos(begin) - math.cos(end))
    if end < begin:
        through_the_air = -through_the_air
    _, cross_kt = components_kt(course, wind)
    return abs(through_the_air - float(cross_kt) * abs(end - begin) / rate)
