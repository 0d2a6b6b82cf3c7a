"""Habits that a flight shows, each with its numbers and its words."""

from __future__ import annotations

from dataclasses import dataclass

from vorlib.core.angles import format_direction
from vorlib.core.words import spoken_degrees, spoken_time, spoken_times
from vorlib.debrief.findings import Lasting

__all__ = ["FixPassed", "FlownThrough", "Homed", "NotIdentified", "ReverseFollowed"]


@dataclass(frozen=True)
class Homed(Lasting):
    """A time of homing: the ring re-centered again and again, and the nose turned after it."""

    station_name: str
    begin_s: float
    end_s: float
    times: int
    courses_deg: tuple[float, float]

    @property
    def words(self) -> str:
        """The time in a sentence or two."""
        first, last = map(format_direction, self.courses_deg)
        return (
            f"{self.span_words} you re-centered the ring {spoken_times(self.times)}, from {first} "
            f"to {last}, and turned the nose after it: that is homing to {self.station_name}. To "
            "track, leave the ring and correct with the heading."
        )


@dataclass(frozen=True)
class ReverseFollowed(Lasting):
    """A time of flying against the selected course and turning toward the needle."""

    heading_deg: float
    course_deg: float
    begin_s: float
    end_s: float
    times: int

    @property
    def words(self) -> str:
        """The time in a sentence or two."""
        course, cure = format_direction(self.course_deg), format_direction(self.course_deg + 180.0)
        led = "and it led" if self.times == 1 else "and each time it led"
        return (
            f"{self.span_words} you flew heading {format_direction(self.heading_deg)} with "
            f"{course} selected: reverse sensing. You followed the needle "
            f"{spoken_times(self.times)}, {led} away from the course line. Select {cure}, and read "
            "the needle again."
        )


@dataclass(frozen=True)
class FlownThrough:
    """A course that was crossed at an angle and never turned onto."""

    station_name: str
    course_deg: float
    at_s: float
    angle_deg: float

    @property
    def words(self) -> str:
        """The crossing in a sentence."""
        return (
            f"At {spoken_time(self.at_s)} you crossed the {format_direction(self.course_deg)} "
            f"course of {self.station_name} at {spoken_degrees(self.angle_deg)} and flew on: you "
            "never turned onto it."
        )


@dataclass(frozen=True)
class FixPassed:
    """A radial met as a fix, the turn there begun late."""

    station_name: str
    radial_deg: float
    at_s: float
    late_s: float
    past_deg: float

    @property
    def words(self) -> str:
        """The fix in a sentence."""
        return (
            f"At {spoken_time(self.at_s)} you met the {format_direction(self.radial_deg)} radial "
            f"of {self.station_name}, and turned {spoken_time(self.late_s)} later, "
            f"{spoken_degrees(self.past_deg)} past it: you flew through the fix."
        )


@dataclass(frozen=True)
class NotIdentified(Lasting):
    """A time for which a station was tuned and not identified."""

    station_name: str
    begin_s: float
    end_s: float

    @property
    def words(self) -> str:
        """The time in a sentence."""
        return (
            f"{self.span_words} {self.station_name} was tuned and you did not identify it: "
            "listen to the ident each time you tune a station."
        )
