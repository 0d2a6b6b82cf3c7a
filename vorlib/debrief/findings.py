"""What a debrief can find in a flight: phases, intercepts, passages, turns the wrong way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from vorlib.core.angles import format_direction, format_tenths
from vorlib.debrief.amounts import spoken_dots, spoken_off, spoken_side, spoken_time, spoken_times
from vorlib.vor.receiver import FULL_SCALE_DEG, Flag

CROSSED_DOTS = 0.2  # the needle has crossed when it stands so far on the other side
SHORTEST_S, SHORTEST_PHASE_S = 10.0, 20.0  # a flight, or a phase of tracking, that tells something
HELD_DEG = 15.0  # a heading that wanders less than this is held

# The limit of a training standard, told as information and never as a verdict: no more than three
# quarters of full scale (FAA, Instrument Rating Airman Certification Standards, area V, task A;
# read in a third party's copy, edition not checked. The private pilot's standards, area VI, task B,
# have no such limit).
LIMIT_SHARE = 0.75
LIMIT_DEG = LIMIT_SHARE * FULL_SCALE_DEG
LIMIT_SOURCE = (
    "FAA Instrument Rating Airman Certification Standards, area V, task A: no more than three "
    "quarters of full scale (from a third party's copy, edition not checked; the private pilot's "
    "standards set no such limit)"
)


@dataclass(frozen=True)
class Phase:
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
        How often the needle crossed the centre.
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
            f"{self._tracked}: on average {abs(self.mean_off_deg):.1f} degrees off, on the "
            f"{format_direction(self.mean_radial_deg)} radial; at most "
            f"{self.largest_off_deg:.1f} degrees off, {self.largest_at_nm:.1f} NM from the station."
        )

    @property
    def measured_words(self) -> str:
        """The phase in sentences, with all that was measured and the training standard's limit."""
        return (
            f"{self._tracked} and held {format_tenths(self.mean_radial_deg)}: on average "
            f"{spoken_off(self.mean_away_deg, self.mean_away_nm)} from the line, at most "
            f"{spoken_off(self.largest_off_deg, self.largest_off_nm)}; the needle crossed the "
            f"centre {spoken_times(self.crossings)}. It was within three quarters of full scale "
            f"for {100.0 * self.within_limit:.0f} % of the time."
        )

    @property
    def _tracked(self) -> str:
        wanted = format_direction(self.course_deg + 180.0 * (self.flag == Flag.TO))
        way = "inbound" if self.flag == Flag.TO else "outbound"
        begin, end = spoken_time(self.begin_s), spoken_time(self.end_s)
        return f"From {begin} to {end} you tracked the {wanted} radial of {self.station_name} {way}"


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
    def words(self) -> str:
        """The intercept in a sentence."""
        time, course = spoken_time(self.time_s), format_direction(self.course_deg)
        met = f"At {time} you met the {course} course of {self.station_name}"
        if self.overshoot_dots < CROSSED_DOTS:
            return f"{met} without overshooting it."
        pegged = self.overshoot_deg > FULL_SCALE_DEG
        dots = "more than full scale" if pegged else spoken_dots(self.overshoot_dots)
        return (
            f"{met} and overshot it by {dots}, {self.overshoot_deg:.1f} degrees, "
            f"{self.overshoot_nm:.2f} NM."
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
    def held_heading(self) -> bool:
        """Whether the heading was held toward the station, and the needle not chased."""
        return self.heading_swing_deg <= HELD_DEG

    @property
    def words(self) -> str:
        """The passage in a sentence or two."""
        place = (
            "over the station"
            if self.overhead
            else f"abeam the station, {self.distance_nm:.1f} NM from it"
        )
        held = "held your heading"
        if not self.held_heading:
            held = f"let the heading wander through {self.heading_swing_deg:.0f} degrees"
        early = self.course_changed_s is not None and self.course_changed_s < 0.0
        if early and not self.held_heading:
            held = f"turned {self.heading_swing_deg:.0f} degrees for the next course before that"
        if self.course_changed_s is None:
            acted = "left the course selector as it was"
        elif self.course_changed_s < 0.0:
            acted = "had selected the next course by then"
        else:
            acted = f"selected the next course {self.course_changed_s:.0f} s later"
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
    def words(self) -> str:
        """The turn in a sentence."""
        side, needle = spoken_side(self.turned_deg), spoken_side(self.dots)
        time, amount = spoken_time(self.time_s), f"{abs(self.turned_deg):.0f} degrees"
        why = ", under reverse sensing" if self.reverse_sensing else ""
        return (
            f"At {time}, with the needle {spoken_dots(self.dots)} {needle}, you turned {amount} "
            f"{side}, away from the course line{why}."
        )


@dataclass(frozen=True)
class Unassured:
    """A time outside a station's service volume, flag and needle live but promised by nobody."""

    station_name: str
    begin_s: float
    end_s: float

    @property
    def words(self) -> str:
        """The time in a sentence."""
        begin, end = spoken_time(self.begin_s), spoken_time(self.end_s)
        return (
            f"From {begin} to {end} you were outside the service volume of {self.station_name}: "
            "flag and needle may well have lived on, but nobody promises them there."
        )


@dataclass(frozen=True)
class Debrief:
    """What there is to say about a flight.

    Attributes
    ----------
    duration_s, established_s
        How long it was, and how long established on a course.
    outside_two_dots_s, outside_full_scale_s
        How long the needle was beyond two dots, and beyond its last, while established.
    crossings
        How often the needle crossed the centre.
    intercepts, phases, passages, wrong_turns, unassured
        One for each, in the order flown.
    """

    duration_s: float = 0.0
    established_s: float = 0.0
    outside_two_dots_s: float = 0.0
    outside_full_scale_s: float = 0.0
    crossings: int = 0
    intercepts: tuple[Intercepted, ...] = ()
    phases: tuple[Phase, ...] = ()
    passages: tuple[Passage, ...] = ()
    wrong_turns: tuple[WrongTurn, ...] = ()
    unassured: tuple[Unassured, ...] = ()

    @property
    def sentences(self) -> tuple[str, ...]:
        """The findings in words, what mattered most first."""
        if self.duration_s < SHORTEST_S:
            lasted = spoken_time(self.duration_s)
            return (f"The flight is too short to say anything about it: it lasted {lasted}.",)
        return (
            *self.overall,
            *(part.words for part in self.unassured),
            *(part.words for part in self.intercepts),
            *(part.words for part in self.phases),
            *(part.words for part in self.passages),
            *(part.words for part in self.wrong_turns),
        )

    @property
    def overall(self) -> tuple[str, ...]:
        """The flight as a whole in words."""
        return tuple(self._overall())

    def _overall(self) -> Iterator[str]:
        flown = f"You flew for {spoken_time(self.duration_s)}"
        if not self.established_s:
            yield f"{flown} and were never established on a selected course."
            return
        established, beyond, stop = (
            spoken_time(seconds)
            for seconds in (
                self.established_s,
                self.outside_two_dots_s,
                self.outside_full_scale_s,
            )
        )
        yield (
            f"{flown}, established on a selected course for {established}. Of that the needle was "
            f"beyond two dots for {beyond} and at its stop for {stop}; it crossed the centre "
            f"{spoken_times(self.crossings)}."
        )
        wrong = len(self.wrong_turns)
        yield (
            f"You turned away from the course line {spoken_times(wrong)} when a correction was due."
            if wrong
            else "Every correction was toward the course line."
        )
