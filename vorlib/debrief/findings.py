"""What a debrief can find in a flight: phases, intercepts, passages, turns the wrong way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from vorlib.core.angles import format_direction, format_tenths, spoken_side
from vorlib.core.words import rounded, spoken_degrees, spoken_dots, spoken_time
from vorlib.debrief.amounts import spoken_crossings, spoken_off
from vorlib.vor.receiver import FULL_SCALE_DEG, Flag

__all__ = [
    "CROSSED_DOTS",
    "LIMIT_DEG",
    "LIMIT_SHARE",
    "LIMIT_SOURCE",
    "SHORTEST_PHASE_S",
    "SHORTEST_S",
    "Found",
    "Intercepted",
    "Lasting",
    "Passage",
    "Phase",
    "Unassured",
    "WrongTurn",
]

CROSSED_DOTS = 0.2  # the needle has crossed when it stands so far on the other side
SHORTEST_S, SHORTEST_PHASE_S = 10.0, 20.0  # a flight, or a phase of tracking, that tells something
HELD_DEG = 15.0  # a heading that wanders less than this is held

# The limit of a training standard, told as information and never as a verdict: no more than three
# quarters of full scale: Instrument Rating ACS (FAA-S-ACS-8C), area V, task A (read in a copy,
# edition not checked). Private Pilot ACS (FAA-S-ACS-6C), area VI, task B has no such limit.
LIMIT_SHARE = 0.75
LIMIT_DEG = LIMIT_SHARE * FULL_SCALE_DEG
LIMIT_SOURCE = (
    "Instrument Rating ACS (FAA-S-ACS-8C), area V, task A: no more than three quarters of full "
    "scale (read in a copy, edition not checked; the private pilot's standards set no such limit)"
)


class Found(Protocol):
    """Something found in a flight."""

    @property
    def at_s(self) -> float:
        """When it was, or began."""

    @property
    def words(self) -> str:
        """What it was, in a sentence or two."""


class Lasting:
    """Something found that lasted from one moment to another."""

    begin_s: float
    end_s: float

    @property
    def at_s(self) -> float:
        """When it began."""
        return self.begin_s

    @property
    def span_words(self) -> str:
        """From when to when."""
        return f"From {spoken_time(self.begin_s)} to {spoken_time(self.end_s)}"


@dataclass(frozen=True)
class Phase(Lasting):
    """A time of tracking one course with one flag, the needle off its stops.

    Attributes
    ----------
    mean_radial_deg, mean_off_deg
        The radial held on average over time, and how far it is from the course, signed as the
        needle.
    mean_away_deg, mean_away_nm
        How far from the course line on average, to whichever side.
    largest_off_deg, largest_at_nm
        The largest deviation, and how far from the station it was.
    largest_off_nm
        The largest distance from the course line, which may have been elsewhere.
    within_limit
        Share of the time within `LIMIT_SHARE` of full scale, 0 to 1.
    crossings
        How often the needle crossed the center.
    """

    station_name: str
    course_deg: float
    flag: Flag
    begin_s: float
    end_s: float
    mean_radial_deg: float
    mean_off_deg: float
    mean_away_deg: float
    mean_away_nm: float
    largest_off_deg: float
    largest_at_nm: float
    largest_off_nm: float
    within_limit: float
    crossings: int

    @property
    def words(self) -> str:
        """The phase in a sentence."""
        return (
            f"{self._tracked}, on average within {spoken_degrees(self.mean_away_deg, 1)} of it "
            f"(mean radial {format_direction(self.mean_radial_deg)}); the largest deviation, "
            f"{spoken_degrees(self.largest_off_deg, 1)}, was {rounded(self.largest_at_nm)} NM from "
            "the station."
        )

    @property
    def measured_words(self) -> str:
        """The phase in sentences, with all that was measured and the training standard's limit."""
        return (
            f"{self._tracked} and held {format_tenths(self.mean_radial_deg)}: on average "
            f"{spoken_off(self.mean_away_deg, self.mean_away_nm)} from the line, at most "
            f"{spoken_off(self.largest_off_deg, self.largest_off_nm)}; the needle "
            f"{spoken_crossings(self.crossings)}. It was within three quarters of full scale "
            f"for {100.0 * self.within_limit:.0f} % of the time."
        )

    @property
    def _tracked(self) -> str:
        wanted = format_direction(self.course_deg + 180.0 * (self.flag == Flag.TO))
        way = "inbound" if self.flag == Flag.TO else "outbound"
        return f"{self.span_words} you tracked the {wanted} radial of {self.station_name} {way}"


@dataclass(frozen=True)
class Intercepted:
    """A course line met from beyond two dots: when, and how far past it the aircraft went."""

    station_name: str
    course_deg: float
    time_s: float
    overshoot_dots: float
    overshoot_deg: float
    overshoot_nm: float

    @property
    def at_s(self) -> float:
        """When it was."""
        return self.time_s

    @property
    def words(self) -> str:
        """The intercept in a sentence."""
        time, course = spoken_time(self.time_s), format_direction(self.course_deg)
        met = f"At {time} you met the {course} course of {self.station_name}"
        if self.overshoot_dots < CROSSED_DOTS:
            return f"{met} without overshooting it."
        pegged = self.overshoot_deg > FULL_SCALE_DEG
        dots = "more than full scale" if pegged else spoken_dots(self.overshoot_dots)
        return (
            f"{met} and overshot it by {dots}, {spoken_degrees(self.overshoot_deg, 1)}, "
            f"{rounded(self.overshoot_nm, 2)} NM."
        )


@dataclass(frozen=True)
class Passage:
    """A station passed, and what the pilot did about it.

    It shows by the flag's first complete reversal, from TO to FROM; over the station also by the
    radial, whichever course was selected.

    Attributes
    ----------
    time_s
        When the flag first showed again: FROM, if the course leads on.
    nearest_s, distance_nm
        When the aircraft was nearest, and how near.
    overhead
        Whether it went through the cone of confusion; otherwise it passed abeam.
    flags
        What the flag showed before and after.
    heading_swing_deg
        How far the heading wandered in the half minute before.
    course_changed_s
        How long after FROM another course was selected, below 0 for before; None if it was not
        within two minutes.
    """

    station_name: str
    time_s: float
    nearest_s: float
    distance_nm: float
    overhead: bool
    flags: tuple[Flag, Flag]
    heading_swing_deg: float
    course_changed_s: float | None

    @property
    def at_s(self) -> float:
        """When it was."""
        return self.time_s

    @property
    def held_heading(self) -> bool:
        """Whether the heading was held toward the station, and the needle not chased."""
        return self.heading_swing_deg <= HELD_DEG

    @property
    def words(self) -> str:
        """The passage in a sentence or two."""
        place = (
            "over the station"
            if self.overhead
            else f"abeam the station, {rounded(self.distance_nm)} NM from it"
        )
        held, swing = "held your heading", spoken_degrees(self.heading_swing_deg)
        if not self.held_heading:
            held = f"let the heading wander through {swing}"
        early = self.course_changed_s is not None and self.course_changed_s < 0.0
        if early and not self.held_heading:
            held = f"turned {swing} for the next course before that"
        if self.course_changed_s is None:
            acted = "left the course selector as it was"
        elif self.course_changed_s < 0.0:
            acted = "had selected the next course by then"
        else:
            acted = f"selected the next course {spoken_time(self.course_changed_s)} later"
        before, after = (flag.name for flag in self.flags)
        flag = f"the flag reversed from {before} to {after}"
        if before == after:
            flag = f"the flag read {before} before it and after it"
        return (
            f"At {spoken_time(self.time_s)} you passed {self.station_name}, {place}: {flag}. You "
            f"{held} and {acted}."
        )


@dataclass(frozen=True)
class WrongTurn:
    """A turn away from the course line while a correction was due."""

    time_s: float
    turned_deg: float
    dots: float
    reverse_sensing: bool

    @property
    def at_s(self) -> float:
        """When it was."""
        return self.time_s

    @property
    def words(self) -> str:
        """The turn in a sentence."""
        side, needle = spoken_side(self.turned_deg), spoken_side(self.dots)
        time, amount = spoken_time(self.time_s), spoken_degrees(self.turned_deg)
        why = ", under reverse sensing" if self.reverse_sensing else ""
        return (
            f"At {time}, with the needle {spoken_dots(self.dots)} {needle}, you turned {amount} "
            f"{side}, away from the course line{why}."
        )


@dataclass(frozen=True)
class Unassured(Lasting):
    """A time outside a station's service volume, with flag and needle live but not promised."""

    station_name: str
    begin_s: float
    end_s: float

    @property
    def words(self) -> str:
        """The time in a sentence."""
        return (
            f"{self.span_words} you were outside the service volume of {self.station_name}: "
            "flag and needle may have worked, but nobody promises them there."
        )
