"""What an indicator shows, as plain values."""

from __future__ import annotations

from dataclasses import dataclass

from vorlib.core.arguments import finite
from vorlib.views.sentence import is_overhead
from vorlib.vor.receiver import DOTS_FULL_SCALE, NO_SIGNAL, Flag, Reading, Reason

__all__ = ["IndicatorScene"]


@dataclass(frozen=True)
class IndicatorScene:
    """What an indicator shows.

    Attributes
    ----------
    course_deg
        The selected course, at the top index of the ring.
    dots
        Deflection of the needle: positive right, at most five dots either way.
    flag, reason
        TO, FROM or OFF, and why it is OFF. Without a signal the needle is centered and dashed
        whatever `dots` says, because such a needle means nothing.
    cover
        Words on a panel over face and flag, to hide them until a prediction is made.
    by_hand
        Whether the course ring can be turned.
    overhead
        Whether the aircraft is straight over the station, where the needle has nothing to show and
        is drawn as it is without a signal.
    assured
        Whether reception is assured; if not, a live needle is drawn in long dashes and words below
        the flag say so.
    heading_deg
        The magnetic heading, shown in figures beside the course; None to hide it.
    wanted_heading_deg
        The heading to fly, shown below it; the learner can turn it, as "heading". None where the
        learner does not steer.
    nose_on_ring
        Whether a pointer outside the ring marks the heading on it: in the upper half of the ring
        the nose points along the selected course, in the lower half against it.

    Raises
    ------
    ValueError
        If a number is not finite, or `dots` is beyond five.
    """

    course_deg: float
    dots: float = 0.0
    flag: Flag = Flag.OFF
    reason: Reason = Reason.NONE
    cover: str = ""
    by_hand: bool = True
    overhead: bool = False
    assured: bool = True
    heading_deg: float | None = None
    wanted_heading_deg: float | None = None
    nose_on_ring: bool = False

    def __post_init__(self) -> None:
        finite("course_deg", self.course_deg)
        if abs(float(finite("dots", self.dots))) > DOTS_FULL_SCALE:
            raise ValueError(f"dots must be from -5 to 5, got {self.dots:g}")

    @classmethod
    def of(
        cls,
        course_deg: float,
        reading: Reading,
        cover: str = "",
        *,
        by_hand: bool = True,
        heading_deg: float | None = None,
    ) -> IndicatorScene:
        """Return the scene of one reading."""
        flag, reason = Flag(int(reading.flag)), Reason(int(reading.reason))
        dots, overhead = float(reading.dots), is_overhead(reading)
        assured = bool(reading.assured)
        return cls(course_deg, dots, flag, reason, cover, by_hand, overhead, assured, heading_deg)

    @property
    def doubtful(self) -> bool:
        """Whether flag and needle are live but reception is not assured."""
        return not self.assured and self.flag != Flag.OFF

    @property
    def silent(self) -> bool:
        """Whether the needle has nothing to show."""
        return self.overhead or self.reason in NO_SIGNAL
