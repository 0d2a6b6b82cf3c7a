"""The flights of the course: what is flown once its lessons are done on the ground."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["FLIGHTS", "CourseFlight"]


@dataclass(frozen=True)
class CourseFlight:
    """A flight: its number, which the lessons name, its title, and what is flown in order."""

    number: int
    title: str
    flown: str


# Common practice, from memory: position before courses, courses before stations, then all of it.
FLIGHTS = (
    CourseFlight(
        1, "Find yourself, and go there", "identify, find your radial, go direct to a station"
    ),
    CourseFlight(
        2, "Onto a course and along it", "intercept inbound, bracket the wind, hold the course"
    ),
    CourseFlight(3, "Over the station", "passage, outbound to a field, fix yourself on the way"),
    CourseFlight(4, "A route over two stations", "all of it, planned, flown and debriefed"),
)
