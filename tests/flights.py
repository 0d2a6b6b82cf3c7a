"""A flight whose truth is known, as a recorder would leave it: for the tests of debriefs."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from vorlib.aircraft.flight import Aircraft, Flight, FlightState, start
from vorlib.aircraft.wind import Wind
from vorlib.earth.geodesic import Position
from vorlib.procedures.flying import Flown, fly
from vorlib.procedures.panel import Command, Panel
from vorlib.procedures.pilots import Intercepting
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks.selections import Selection

QLN, TSX = STATIONS["QLN"], STATIONS["TSX"]
AIRCRAFT, WIND = Aircraft(100.0), Wind(250.0, 20.0)
METERS_PER_DEG = 111_200.0
LOOKS_PER_S = 10


class Made(NamedTuple):
    """A recording at one point a second, what was selected, and the flight as it was."""

    flight: Flight
    selections: tuple[Selection, ...]
    truth: Flight


@lru_cache
def flown_with_noise(noise_m: float = 6.0, *, heading: bool = False) -> Made:
    """To Quillon on 040, over it and on, then to Tessarin on 120, over it, on and back.

    Without a heading, as most recorders leave it, heading is the track.
    """
    truth = _flown()
    some = slice(None, None, LOOKS_PER_S)
    rng, n = np.random.default_rng(3), truth.time_s[some].size
    place = truth.position
    lat = place.lat_deg[some] + rng.normal(0.0, noise_m / METERS_PER_DEG, n)
    wide = METERS_PER_DEG * np.cos(np.radians(lat))
    lon = place.lon_deg[some] + rng.normal(0.0, noise_m, n) / wide
    track = truth.true_track_deg[some]
    flight = Flight(
        truth.time_s[some],
        Position(lat, lon, place.altitude_ft[some]),
        truth.true_heading_deg[some] + rng.normal(0.0, 1.0, n) if heading else track,
        track,
        truth.bank_deg[some],
    )
    return Made(flight, (Selection(0.0, QLN, 40.0), Selection(1300.0, TSX, 120.0)), truth)


@lru_cache
def _flown() -> Flight:
    """Return the flight as it was, ten moments a second."""
    begin = start(QLN.position_on(235.0, 17.0, 3500.0), 85.0 + QLN.declination_deg)
    first = fly(Intercepting(85.0), AIRCRAFT, begin, QLN, 40.0, 1300.0, wind=WIND)
    second = fly(Intercepting(60.0), AIRCRAFT, _last(first), TSX, 120.0, 1800.0, wind=WIND)
    back = fly(_westward, AIRCRAFT, _last(second), TSX, 120.0, 400.0, wind=WIND)
    return _joined([first.flight, second.flight, back.flight])


def _westward(panel: Panel) -> Command:
    return Command(270.0, panel.course_deg)


def cut(flight: Flight, begin_s: float, end_s: float) -> Flight:
    """Return a flight without what was between two times."""
    kept = (flight.time_s < begin_s) | (flight.time_s > end_s)
    place = flight.position
    return replace(
        flight,
        time_s=flight.time_s[kept],
        position=Position(place.lat_deg[kept], place.lon_deg[kept], place.altitude_ft[kept]),
        true_heading_deg=flight.true_heading_deg[kept],
        true_track_deg=flight.true_track_deg[kept],
        bank_deg=flight.bank_deg[kept],
    )


def _last(flown: Flown) -> FlightState:
    flight, place = flown.flight, flown.flight.position
    lat, lon = float(place.lat_deg[-1]), float(place.lon_deg[-1])
    bank = float(flight.bank_deg[-1])
    return FlightState(0.0, lat, lon, 3500.0, float(flight.true_heading_deg[-1]), bank)


def _joined(flights: list[Flight]) -> Flight:
    """Return flights one after the other, each without its last moment, which the next begins."""
    columns: dict[str, list[object]] = {}
    begin_s = 0.0
    for flight in flights:
        place, most = flight.position, slice(0, -1)
        values = {
            "time_s": flight.time_s + begin_s,
            "lat_deg": place.lat_deg,
            "lon_deg": place.lon_deg,
            "altitude_ft": np.broadcast_to(place.altitude_ft, flight.time_s.shape),
            "true_heading_deg": flight.true_heading_deg,
            "true_track_deg": flight.true_track_deg,
            "bank_deg": flight.bank_deg,
        }
        for name, value in values.items():
            columns.setdefault(name, []).append(value[most])
        begin_s += float(flight.time_s[-1])
    whole = {name: np.concatenate(parts) for name, parts in columns.items()}
    place = Position(*(whole.pop(name) for name in ("lat_deg", "lon_deg", "altitude_ft")))
    return Flight(position=place, **whole)
