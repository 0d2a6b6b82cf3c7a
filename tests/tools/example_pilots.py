"""The example flight, flown by the library's own pilots: over two stations, away and back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np

from vorlib.aircraft.flight import Aircraft, Flight, FlightState, start
from vorlib.aircraft.wind import Wind
from vorlib.earth.geodesic import Position
from vorlib.earth.variation import variation_deg
from vorlib.procedures.flying import Flown, fly
from vorlib.procedures.panel import Command, Panel, Pilot
from vorlib.procedures.pilots import Intercepting
from vorlib.stations.archipelago import STATIONS, TODAY
from vorlib.vor.receiver import Flag
from vorlib.vor.station import Station

AIRCRAFT = Aircraft(true_airspeed_kt=105.0)
ALTITUDE_FT = 3500.0
WIND = Wind(240.0, 20.0)  # true; the pilot knows nothing of it
LOOKS_PER_S = 5
QLN, PLX = STATIONS["QLN"], STATIONS["PLX"]
VARIATION_DEG = float(variation_deg(QLN.position, TODAY))


class Leg(NamedTuple):
    """Something flown with one selection."""

    name: str
    station: Station
    course_deg: float
    pilot: Pilot
    seconds: float
    until: Callable[[Panel], bool] | None = None


def past(panel: Panel) -> bool:
    """Return whether the flag says that the station is behind."""
    return panel.flag is Flag.FROM


def legs() -> list[Leg]:
    """Return what is flown: over Quillon, over Pelladine, away from it and back."""
    late = Intercepting(90.0, lead=False)  # turns when the needle is centered, and so overshoots
    second = Intercepting(135.0)
    return [
        Leg("to Quillon", QLN, 30.0, late, 1500.0, past),
        Leg("past Quillon", QLN, 30.0, late, 20.0),
        Leg("from Quillon", QLN, 110.0, Intercepting(150.0), 480.0),
        Leg("to Pelladine", PLX, 180.0, second, 1500.0, past),
        Leg("past Pelladine", PLX, 180.0, second, 12.0),
        Leg("from Pelladine", PLX, 133.0, Intercepting(95.0), 300.0),
        Leg("turning round", PLX, 133.0, lambda panel: Command(225.0, panel.course_deg), 40.0),
        Leg("back to Pelladine", PLX, 313.0, Intercepting(345.0), 270.0),
    ]


@dataclass(frozen=True)
class Whole:
    """A flight in one piece, at every look: the leg flown and what the indicator showed."""

    legs: list[Leg]
    leg: Any
    flight: Flight
    flag: Any


def fly_all() -> Whole:
    """Fly the legs one after the other."""
    now = start(QLN.position_on(240.0, 15.0, ALTITUDE_FT), 90.0 + VARIATION_DEG)
    flown = []
    for leg in legs():
        flown.append(
            fly(
                leg.pilot,
                AIRCRAFT,
                now,
                leg.station,
                leg.course_deg,
                leg.seconds,
                wind=WIND,
                variation_deg=VARIATION_DEG,
                until=leg.until,
                looks_per_s=LOOKS_PER_S,
            )
        )
        last, place = flown[-1].flight, flown[-1].flight.position
        now = FlightState(
            round(float(last.time_s[-1]), 6),
            float(place.lat_deg[-1]),
            float(place.lon_deg[-1]),
            ALTITUDE_FT,
            float(last.true_heading_deg[-1]),
            float(last.bank_deg[-1]),
        )

    def whole(of: Callable[[Flown], Any]) -> Any:
        # A leg begins with the moment at which the one before ended.
        return np.concatenate([of(one)[:-1] for one in flown])

    flight = Flight(
        whole(lambda one: one.flight.time_s),
        Position(
            whole(lambda one: one.flight.position.lat_deg),
            whole(lambda one: one.flight.position.lon_deg),
            ALTITUDE_FT,
        ),
        whole(lambda one: one.flight.true_heading_deg),
        whole(lambda one: one.flight.true_track_deg),
        whole(lambda one: one.flight.bank_deg),
    )
    number = np.repeat(np.arange(len(flown)), [one.course_deg.size - 1 for one in flown])
    return Whole(legs(), number, flight, whole(lambda one: one.reading.flag))
