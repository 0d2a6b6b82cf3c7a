"""The findings of a debriefed flight in order of time, numbered as pictures and pages show them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from vorlib.core.words import spoken_time
from vorlib.debrief.findings import Phase
from vorlib.debrief.recorded import RecordedDebrief

__all__ = ["Finding", "findings_of"]


class Finding(NamedTuple):
    """A finding at a moment, numbered in order of time."""

    number: int
    time_s: float
    words: str


def findings_of(debrief: RecordedDebrief) -> tuple[Finding, ...]:
    """Return what was found, in order of time."""
    return tuple(Finding(n, *one) for n, one in enumerate(sorted(_found(debrief)), 1))


def _found(debrief: RecordedDebrief) -> Iterator[tuple[float, str]]:
    found, seen = debrief.found, debrief.seen
    yield from ((one.at_s, one.words) for one in found.in_order if not isinstance(one, Phase))
    for i in (np.flatnonzero(np.diff(seen.segment)) + 1).tolist():
        before, after = seen.time_s[i - 1 : i + 1].tolist()
        yield (
            before,
            f"From {spoken_time(before)} to {spoken_time(after)} nothing was recorded: "
            "nothing is judged across that gap.",
        )
