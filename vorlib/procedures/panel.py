"""What a pilot sees and does: the panel, the command, and when the flight ends.

A pilot who flies by the instrument and nothing else knows the heading, the selected course, needle
and flag, as a pilot does, and neither position, wind nor distance.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple, Protocol, runtime_checkable

import numpy as np

from vorlib.core.angles import fold_360
from vorlib.core.arguments import BoolArray, FloatArray, IntArray
from vorlib.vor.receiver import Flag

FLAGS = OFF, TO, FROM = tuple(Flag)  # at hand: Python 3.11 takes long to find them


class Panel(NamedTuple):
    """What a pilot sees: time, magnetic heading, selected course, needle in dots, flag."""

    time_s: float
    heading_deg: float
    course_deg: float
    dots: float
    flag: Flag


@dataclass(frozen=True, eq=False)
class Panels:
    """What a pilot sees look after look with one course selected, in arrays of shape (n,).

    Attributes
    ----------
    time_s, heading_deg, dots, flag
        As in `Panel`, but the heading counts on past north; the flags are the numbers of `Flag`.
    course_deg
        The course selected.
    """

    time_s: FloatArray
    heading_deg: FloatArray
    course_deg: float
    dots: FloatArray
    flag: IntArray

    @property
    def count(self) -> int:
        """How many looks there are."""
        return self.time_s.size

    @cached_property
    def received(self) -> BoolArray:
        """Whether the flag is not OFF."""
        received: BoolArray = self.flag != int(OFF)
        return received

    def first(self, count: int) -> "Panels":
        """Return the first of the looks, so many."""
        if count >= self.count:
            return self
        time_s, heading_deg = self.time_s[:count], self.heading_deg[:count]
        return Panels(
            time_s, heading_deg, self.course_deg, self.dots[:count], self.flag[:count]
        )  # fmt: skip

    def at(self, look: int) -> Panel:
        """Return one look."""
        time_s, heading_deg, dots, flag = self._lists
        shown = FLAGS[flag[look]]
        heading = fold_360(heading_deg[look])
        return Panel(time_s[look], heading, self.course_deg, dots[look], shown)

    @cached_property
    def _lists(self) -> tuple[list[float], list[float], list[float], list[int]]:
        return (
            self.time_s.tolist(), self.heading_deg.tolist(), self.dots.tolist(), self.flag.tolist()
        )  # fmt: skip


class Command(NamedTuple):
    """What a pilot does: the magnetic heading to fly and the course to select."""

    heading_deg: float
    course_deg: float


Pilot = Callable[[Panel], Command]


@runtime_checkable
class Patient(Protocol):
    """A pilot who can say which of many looks change nothing."""

    def __call__(self, panel: Panel) -> Command:
        """Answer one look."""

    def unmoved(self, panels: Panels, begin: int) -> int:
        """Return the next look, from *begin* on, that may bring another command than the last.

        The looks before it are taken as seen, as if each had been answered with the last command;
        the look itself is still to be answered. `Panels.count` if there is none.
        """


@dataclass(frozen=True)
class Passed:
    """Ends a flight when the flag reads FROM, once it has lasted longer than `after_s`."""

    after_s: float = -math.inf

    def __call__(self, panel: Panel) -> bool:
        """Whether the flight ends at a look."""
        return panel.flag is FROM and panel.time_s > self.after_s

    def first(self, panels: Panels) -> int:
        """Return the look at which it ends, or how many there are."""
        passed = panels.flag == int(FROM)
        late = passed if self.after_s < panels.time_s[0] else panels.time_s > self.after_s
        return first_true(passed & late)


def first_true(found: BoolArray) -> int:
    """Return the first index that is true, or how many there are."""
    index = int(np.argmax(found)) if found.size else 0
    return index if found.size and found[index] else found.size
