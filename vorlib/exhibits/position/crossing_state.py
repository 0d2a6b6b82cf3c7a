"""The state of a station passage: an aircraft that flies over a station or past it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.exhibits.replay.playback import Played
from vorlib.exhibits.replay.replay import Replay
from vorlib.exhibits.replay.straight import hold_heading
from vorlib.exhibits.scene import at_station
from vorlib.views.flight.profile import ProfileScene
from vorlib.vor.coverage import CONE_HALF_ANGLE_DEG, cone_radius_nm
from vorlib.vor.receiver import Receiver

__all__ = ["RANGE_NM", "SIDE_ALONE", "SIDE_WITH_PLAN", "TOP_FT", "CrossingState"]

RANGE_NM = 6.0
TOP_FT = 12_000.0
SIDE_ALONE, SIDE_WITH_PLAN = (490.0, 480.0), (352.0, 226.0)  # sizes of the side view


@dataclass(frozen=True)
class CrossingState(Played, at_station.RoundStation):
    """An aircraft that flies the selected course over a station or past it.

    Its position gives the time: a passage begins 6 NM before the station.

    Attributes
    ----------
    along_nm
        Distance along the course: negative before the station, positive beyond.
    offset_nm
        Distance to the side of the course line, positive right.
    course_deg
        Selected course, which is also the heading.
    groundspeed_kt
        Speed over the ground.
    view
        Where the picture is seen from: "both", "above" or "side".
    """

    along_nm: float = -2.0
    offset_nm: float = 0.2
    groundspeed_kt: float = 120.0
    view: str = "both"
    range_nm: float = RANGE_NM
    course_deg: float = 40.0

    @property
    def shown_s(self) -> float:
        """Time in seconds since the passage began, 6 NM before the station."""
        return self.duration_s * (self.along_nm + RANGE_NM) / (2.0 * RANGE_NM)

    @property
    def duration_s(self) -> float:
        """Time in seconds for the whole passage."""
        return 2.0 * RANGE_NM / self.groundspeed_kt * SECONDS_PER_HOUR

    def along_at_nm(self, time_s: float) -> float:
        """Return the distance along the course at a time, kept within the passage."""
        share = min(max(time_s / self.duration_s, 0.0), 1.0)
        return RANGE_NM * (2.0 * share - 1.0)

    @cached_property
    def replays(self) -> tuple[tuple[str, Replay], ...]:
        """The whole passage, as a flight."""
        begin = CrossingState(
            self.station,
            altitude_ft=self.altitude_ft,
            along_nm=-RANGE_NM,
            offset_nm=self.offset_nm,
            groundspeed_kt=self.groundspeed_kt,
            course_deg=self.course_deg,
        )
        return (("the passage", _flown(begin)),)

    @property
    def radial_deg(self) -> float:
        """The radial that the aircraft is on."""
        return self.course_deg + math.degrees(math.atan2(self.offset_nm, self.along_nm))

    @property
    def distance_nm(self) -> float:
        """Its distance from the station."""
        return math.hypot(self.along_nm, self.offset_nm)

    @property
    def heading_deg(self) -> float:
        """The heading: the course."""
        return self.course_deg

    @cached_property
    def cone_nm(self) -> float:
        """Radius of the cone of confusion at the aircraft's height."""
        height_ft = max(0.0, float(self.tuned.height_ft(self.there)))
        return float(cone_radius_nm(height_ft))

    @property
    def needle_rate_dots_s(self) -> float | None:
        """How fast the needle moves, positive right; None overhead, where there is no limit."""
        if self.distance_nm == 0.0:
            return None
        track_deg = self.course_deg + self.tuned.declination_deg
        receiver = Receiver(self.course_deg)
        speed_kt = self.groundspeed_kt
        return float(receiver.needle_rate_dots_s(self.tuned, self.there, track_deg, speed_kt))

    @property
    def seconds_in_cone(self) -> float:
        """Time to cross the cone on this track; 0 when it passes outside."""
        half_nm = math.sqrt(max(0.0, self.cone_nm**2 - self.offset_nm**2))
        return 2.0 * half_nm / self.groundspeed_kt * SECONDS_PER_HOUR

    @property
    def side_view(self) -> ProfileScene:
        """What is seen from the side."""
        return ProfileScene(
            self.along_nm,
            self.altitude_ft,
            float(self.tuned.position.altitude_ft),
            CONE_HALF_ANGLE_DEG,
            RANGE_NM,
            TOP_FT,
            self.tuned.name,
            self.offset_nm,
            *(SIDE_ALONE if self.view == "side" else SIDE_WITH_PLAN),
        )


@lru_cache(maxsize=8)
def _flown(begin: CrossingState) -> Replay:
    return hold_heading(
        begin.tuned,
        begin.there,
        begin.heading_deg,
        begin.course_deg,
        begin.groundspeed_kt,
        begin.duration_s,
    )
