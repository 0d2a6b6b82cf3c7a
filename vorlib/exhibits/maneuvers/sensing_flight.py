"""A flight along a course line by a pilot who follows the needle, reversed or not."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from vorlib.aircraft.flight import Aircraft, start
from vorlib.core.angles import difference_deg, reciprocal_deg
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.exhibits.maneuvers.intercept_flight import LOOKS_PER_S
from vorlib.exhibits.maneuvers.tracking_flight import AIRSPEED_KT
from vorlib.exhibits.replay.replay import Replay
from vorlib.procedures.flying import fly
from vorlib.procedures.panel import Command, Panel, Panels, first_true
from vorlib.procedures.pilots import Reversed, Tracking
from vorlib.stations.archipelago import STATIONS

__all__ = ["SensingCase", "fly_sensing"]

LONGEST_S = 480.0
SHORT_NM = 1.5  # of the station a flight toward it ends


@dataclass(frozen=True)
class SensingCase:
    """The set-up of a flight along a course line.

    Attributes
    ----------
    station, radial_deg, distance_nm, altitude_ft
        Where it starts.
    course_deg, heading_deg
        The course selected at first, and the way flown: that course or its reciprocal.
    toward
        Whether that is toward the station.
    reciprocal_at_s
        When the pilot selects the reciprocal; None for never.
    """

    station: str
    radial_deg: float
    distance_nm: float
    altitude_ft: float
    course_deg: float
    heading_deg: float
    toward: bool
    reciprocal_at_s: float | None


@dataclass
class Following:
    """A pilot who follows the needle as if it were never reversed.

    Attributes
    ----------
    heading_deg
        The way to fly: the selected course or its reciprocal.
    reciprocal_at_s
        When to select the reciprocal of the course selected first; None for never.
    """

    heading_deg: float
    reciprocal_at_s: float | None = None
    selected_reciprocal: bool = False
    along: Tracking = field(default_factory=Tracking)
    against: Reversed = field(default_factory=Reversed)
    _course_deg: float | None = None
    _reversed: bool = False

    def __call__(self, panel: Panel) -> Command:
        """Turn toward the needle, whichever way the selected course runs."""
        due = self.reciprocal_at_s is not None and panel.time_s >= self.reciprocal_at_s
        if due and not self.selected_reciprocal:
            self.selected_reciprocal = True
            return Command(self.heading_deg, float(reciprocal_deg(panel.course_deg)))
        if panel.course_deg != self._course_deg:
            self._course_deg = panel.course_deg
            apart_deg = abs(float(difference_deg(self.heading_deg, panel.course_deg)))
            self._reversed = apart_deg > 90.0
        return self.against(panel) if self._reversed else self.along(panel)

    def unmoved(self, panels: Panels, begin: int) -> int:
        """Return the next look that may matter; see `vorlib.procedures.panel.Patient`."""
        if panels.course_deg != self._course_deg:
            return begin
        if self.reciprocal_at_s is not None and not self.selected_reciprocal:
            due = first_true(panels.time_s >= self.reciprocal_at_s)
            if due <= begin:
                return begin
            panels = panels.first(due)
        return (self.against if self._reversed else self.along).unmoved(panels, begin)


@lru_cache(maxsize=8)
def fly_sensing(case: SensingCase) -> Replay:
    """Fly along the course line in calm air for some minutes, not as far as the station."""
    tuned, seconds = STATIONS[case.station], LONGEST_S
    if case.toward:
        seconds = min(seconds, (case.distance_nm - SHORT_NM) / AIRSPEED_KT * SECONDS_PER_HOUR)
    flown = fly(
        Following(case.heading_deg, case.reciprocal_at_s),
        Aircraft(AIRSPEED_KT),
        start(
            tuned.position_on(case.radial_deg, case.distance_nm, case.altitude_ft),
            case.heading_deg + tuned.declination_deg,
        ),
        tuned,
        case.course_deg,
        seconds,
        looks_per_s=LOOKS_PER_S,
    )
    return Replay(tuned, flown)
