"""What a VOR indicator shows: needle, flag, and why there is none."""

from dataclasses import dataclass
from enum import IntEnum

from vorlib.core.arguments import BoolArray, FloatArray, IntArray

__all__ = ["NO_SIGNAL", "OUTSIDE_VOLUME", "Flag", "Reading", "Readings", "Reason"]


class Flag(IntEnum):
    """What the TO/FROM window shows."""

    OFF = 0
    TO = 1
    FROM = 2


class Reason(IntEnum):
    """Why the flag is OFF; NONE, which counts as false, while it is not.

    Outside the service volume is no reason: there a receiver usually goes on showing a live flag
    and needle, which nobody promises. That is what `Reading.assured` tells.
    """

    NONE = 0
    ABEAM = 1
    CONE = 2
    LINE_OF_SIGHT = 3
    OFF_THE_AIR = 4

    def __str__(self) -> str:
        return _REASON_WORDS[self]


NO_SIGNAL = (Reason.LINE_OF_SIGHT, Reason.OFF_THE_AIR)
OUTSIDE_VOLUME = "outside the service volume"

_REASON_WORDS = {
    Reason.NONE: "",
    Reason.ABEAM: "abeam the station for the selected course",
    Reason.CONE: "inside the cone of confusion",
    Reason.LINE_OF_SIGHT: "beyond line of sight",
    Reason.OFF_THE_AIR: "station off the air",
}


@dataclass(frozen=True)
class Reading:
    """What the indicator shows at one place with one course.

    Attributes
    ----------
    flag
        What the TO/FROM window shows.
    deviation_deg
        Angle from the selected course line, -90 to 90: positive when the needle is to the right.
        It is the geometry's, also where the flag is OFF and the needle means nothing.
    dots
        Needle in dots, -5 to 5, positive right; it stops at full scale.
    pegged
        True where the deviation is beyond full scale.
    radial_deg
        Radial as received, (0, 360], with the bearing error if there is one.
    distance_nm
        Distance over the ground from the station, which a VOR alone does not show.
    reason
        Why the flag is OFF; NONE for a live flag, assured or not.
    assured
        Whether the station's class promises the signal here: True inside its service volume, by
        height above the antenna. False outside, where flag and needle usually live on but are not
        to be relied on, and False where no usable signal is received: below the horizon, in the
        cone, off the air. Abeam, where the signal is good and only the flag cannot show, it is
        that of the volume.
    """

    flag: Flag
    deviation_deg: float
    dots: float
    pegged: bool
    radial_deg: float
    distance_nm: float
    reason: Reason
    assured: bool

    @property
    def caveat(self) -> str:
        """Why flag and needle cannot be relied on, in words; empty where they can."""
        return str(self.reason) if self.reason or self.assured else OUTSIDE_VOLUME


@dataclass(frozen=True, eq=False)
class Readings:
    """What the indicator shows at many places or courses: as `Reading`, in arrays of one shape.

    `flag` and `reason` hold the numbers of `Flag` and `Reason`, which they compare with.
    """

    flag: IntArray
    deviation_deg: FloatArray
    dots: FloatArray
    pegged: BoolArray
    radial_deg: FloatArray
    distance_nm: FloatArray
    reason: IntArray
    assured: BoolArray
