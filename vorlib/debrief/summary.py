"""Summarize a flight: all that was found, and the flight as a whole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from vorlib.core.words import spoken_time, spoken_times
from vorlib.debrief.amounts import spoken_crossings
from vorlib.debrief.findings import (
    SHORTEST_S,
    Found,
    Intercepted,
    Passage,
    Phase,
    Unassured,
    WrongTurn,
)
from vorlib.debrief.habits.kinds import ReverseFollowed

__all__ = ["Debrief"]


@dataclass(frozen=True)
class Debrief:
    """The findings of a flight and its whole in numbers.

    Attributes
    ----------
    duration_s, established_s
        How long it was, and how long established on a course.
    outside_two_dots_s, outside_full_scale_s
        How long the needle was beyond two dots, and beyond its last, while established.
    crossings, corrections
        How often the needle crossed the center, and how often a turn corrected a deviation, either
        way.
    intercepts, phases, passages, wrong_turns, unassured
        One for each, in the order flown.
    habits
        What a pilot should unlearn, where station and course were recorded as they were set.
    """

    duration_s: float = 0.0
    established_s: float = 0.0
    outside_two_dots_s: float = 0.0
    outside_full_scale_s: float = 0.0
    crossings: int = 0
    corrections: int = 0
    intercepts: tuple[Intercepted, ...] = ()
    phases: tuple[Phase, ...] = ()
    passages: tuple[Passage, ...] = ()
    wrong_turns: tuple[WrongTurn, ...] = ()
    unassured: tuple[Unassured, ...] = ()
    habits: tuple[Found, ...] = ()

    @property
    def sentences(self) -> tuple[str, ...]:
        """The flight as a whole in words, then the findings in order of time."""
        if self.duration_s < SHORTEST_S:
            lasted = spoken_time(self.duration_s)
            return (f"The flight is too short to say anything about it: it lasted {lasted}.",)
        return (*self.overall, *(part.words for part in self.in_order))

    @property
    def in_order(self) -> tuple[Found, ...]:
        """All that was found, in order of time; turns under reverse sensing are told together."""
        together = any(isinstance(habit, ReverseFollowed) for habit in self.habits)
        parts: tuple[Found, ...] = (
            *self.intercepts,
            *self.phases,
            *self.passages,
            *(turn for turn in self.wrong_turns if not (together and turn.reverse_sensing)),
            *self.unassured,
            *self.habits,
        )
        return tuple(sorted(parts, key=lambda part: part.at_s))

    @property
    def overall(self) -> tuple[str, ...]:
        """The flight as a whole in words."""
        return tuple(self._overall())

    def _overall(self) -> Iterator[str]:
        flown = f"You flew for {spoken_time(self.duration_s)}"
        if not self.established_s:
            yield f"{flown} and were never established on a selected course."
            return
        off = [
            f"{words} for {spoken_time(seconds)}"
            for words, seconds in (
                ("beyond two dots", self.outside_two_dots_s),
                ("pegged", self.outside_full_scale_s),
            )
            if round(seconds)
        ]
        needle = f"was {' and '.join(off)}" if off else "was never beyond two dots"
        yield (
            f"{flown}, established on a selected course for {spoken_time(self.established_s)}. In "
            f"that time the needle {needle}; in the whole flight it "
            f"{spoken_crossings(self.crossings)}."
        )
        wrong = len(self.wrong_turns)
        if wrong:
            times = spoken_times(wrong)
            yield f"You turned away from the course line {times} when a correction was due."
        elif self.corrections:
            yield "Every correction was toward the course line."
