"""The bench of the receiver check: which check it is, where, and what the receivers there show."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property

import numpy as np

from vorlib.core.angles import format_direction
from vorlib.receiver_check.check import (
    TEST_SIGNAL_RADIAL_DEG,
    receivers_apart_deg,
)
from vorlib.receiver_check.rules import RULES, CheckKind
from vorlib.stations.archipelago import AIRFIELDS, STATIONS, TODAY
from vorlib.vor.bearing_errors import BearingErrors
from vorlib.vor.receiver import Reading, Receiver
from vorlib.vor.station import Station

__all__ = ["CENTERED_DOTS", "Bench", "ReceiverCheckState"]

TEST_FREQUENCY = "108.00"  # usual for a repair station's signal: AIM 1-1-4 e (read in a copy)
CENTERED_DOTS = 0.26  # half a degree: as near as a ring in whole degrees comes

# Where each kind is made: idents of station and airfield. The points are invented, as is all there.
PLACES = {
    "test signal": (("QLN", "9QUI"), ("PLX", "9PEL")),
    "ground checkpoint": (("QLN", "9QUI"), ("PLX", "9PEL"), ("HTX", "9HAT"), ("QLN", "9MAR")),
    "airborne checkpoint": (("TSX", "9TES"), ("QLN", "9MAR"), ("HTX", "9HAT")),
    "airway": (("OBL", "9OMB"), ("PLX", "9MAR"), ("TSX", "9MAR")),
    "two receivers": (("QLN", "9QUI"), ("TSX", "9TES"), ("PLX", "9PEL")),
}
# Errors about the limits, where the two limits part; of two receivers such that each of them and
# their difference mostly say different things.
ERRORS_DEG = (1, -2, 3, -4, 4, 5, -5, 6, -6, 7, -8)
PAIRS_DEG = ((5, 6), (-3, 3), (4, -2), (-6, -5), (2, -1), (3, -2), (7, 4))
DAYS_AGO = (12, 29, 30, 31, 31, 44)  # since the last check; 31 is a calendar month before TODAY
SIGNAL_HEIGHT_FT = 2500.0  # well inside reception: no check hangs on height


@dataclass(frozen=True)
class Bench:
    """What is found at one place: nothing of it depends on what the pilot does.

    Attributes
    ----------
    station
        The station tuned; for a test signal its generator, with the radial that it always gives.
    field
        Name of the airfield there.
    published_radial_deg
        The radial that is right there.
    errors_deg
        Of the first and the second receiver.
    last_made_on
        Date of the last check in the aircraft's log.
    """

    station: Station
    field: str
    published_radial_deg: float
    errors_deg: tuple[float, float]
    last_made_on: date

    @classmethod
    def of(cls, kind: str, seed: int) -> Bench:
        """Return the bench that a seed decides."""
        chance = np.random.default_rng((seed, list(PLACES).index(kind)))
        ident, airfield = PLACES[kind][chance.integers(len(PLACES[kind]))]
        station, field = STATIONS[ident], AIRFIELDS[airfield]
        radial_deg = float(round(float(station.radial_deg(field.position))))
        if kind == "test signal":
            radial_deg = TEST_SIGNAL_RADIAL_DEG
        if RULES.kind(kind).compares_receivers:
            first, second = PAIRS_DEG[chance.integers(len(PAIRS_DEG))]
        else:
            first, second = ERRORS_DEG[chance.integers(len(ERRORS_DEG))], 0
        ago = timedelta(days=DAYS_AGO[chance.integers(len(DAYS_AGO))])
        return cls(station, field.name, radial_deg, (float(first), float(second)), TODAY - ago)


@dataclass(frozen=True)
class ReceiverCheckState:
    """A receiver check under way.

    Attributes
    ----------
    kind, seed
        Which check, and what decides where and with what errors.
    course_deg, second_course_deg
        Selected courses of the two receivers; only a check of two uses the second.
    error_deg
        The error (or difference) that was read, or None.
    decision
        "pass", "fail", or empty.
    last_check
        Whether the last check in the log still holds: "good", "out of date", or empty.
    marked
        Whether it was marked.
    place, signature
        For the log entry.
    log_answer
        What the log answered to the last entry.
    """

    kind: str = "test signal"
    seed: int = 1
    course_deg: float = 30.0
    second_course_deg: float = 30.0
    error_deg: float | None = None
    decision: str = ""
    last_check: str = ""
    marked: bool = False
    place: str = ""
    signature: str = ""
    log_answer: str = ""

    def __post_init__(self) -> None:
        RULES.kind(self.kind)

    @property
    def check(self) -> CheckKind:
        """The kind of check, with its limit."""
        return RULES.kind(self.kind)

    @cached_property
    def bench(self) -> Bench:
        """Where it is made, and with what errors."""
        return Bench.of(self.kind, self.seed)

    @property
    def courses_deg(self) -> tuple[float, ...]:
        """Selected course of each receiver that takes part."""
        both = (self.course_deg, self.second_course_deg)
        return both if self.check.compares_receivers else both[:1]

    @cached_property
    def readings(self) -> tuple[Reading, ...]:
        """What each receiver shows."""
        bench = self.bench
        height_ft = bench.station.position.altitude_ft + SIGNAL_HEIGHT_FT
        there = bench.station.position_on(bench.published_radial_deg, 10.0, height_ft)
        return tuple(
            Receiver(course, errors=BearingErrors(receiver_deg=error)).read(bench.station, there)
            for course, error in zip(self.courses_deg, bench.errors_deg, strict=False)
        )

    @property
    def centered(self) -> bool:
        """Whether every needle is centered, and the flags of two agree."""
        near = all(abs(float(reading.dots)) < CENTERED_DOTS for reading in self.readings)
        return near and len({int(reading.flag) for reading in self.readings}) == 1

    @property
    def right_error_deg(self) -> float:
        """The error to be read from centered needles, or the difference of two receivers."""
        if self.check.compares_receivers:
            return float(receivers_apart_deg(*self.bench.errors_deg))
        return self.bench.errors_deg[0]

    @property
    def where(self) -> str:
        """Place of the check in words."""
        field = self.bench.field
        return {
            "airborne checkpoint": f"over {field}",
            "airway": f"over the pier of {field}",
        }.get(self.kind, f"at {field}")

    @property
    def tuned(self) -> str:
        """What is tuned, and what is published there, in words."""
        if self.kind == "test signal":
            return f"Test signal on {TEST_FREQUENCY}: the same radial everywhere."
        station = self.bench.station
        radial = format_direction(self.bench.published_radial_deg)
        name = f"{station.name} {station.ident} {station.frequency_mhz:.2f}"
        return f"{name}: the published radial here is {radial}."
