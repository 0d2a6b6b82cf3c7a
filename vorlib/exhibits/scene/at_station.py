"""Share the state and the controls of exhibits with one aircraft round one station.

The state keeps the position of the aircraft as a radial and a distance.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from vorlib.earth.geodesic import Position, direct
from vorlib.exhibits.base.controls import ChoiceControl, Number
from vorlib.stations.archipelago import AIRFIELDS, ISLANDS, STATIONS
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene, indicator
from vorlib.views.plan.plan import Intended, Overlay, PlanScene, plan
from vorlib.vor.coverage import cone_radius_nm, service_radius_nm
from vorlib.vor.receiver import Reading, Receiver
from vorlib.vor.station import Station

MAP_RANGES_NM = (5.0, 12.5, 25.0, 50.0, 100.0, 200.0)
FARTHEST_NM = 60.0  # by hand; after tuning another station it may be farther out
HIGHEST_FT = 18_000.0
GAP = 16.0  # between plan and indicator, in picture units
STATION_NAMES = {f"{s.name} {s.ident} {s.frequency_mhz:.2f}": i for i, s in STATIONS.items()}

Changes = dict[str, Any]


@dataclass(frozen=True)
class RoundStation:
    """An aircraft round a station; a subclass gives its position, heading and course.

    A subclass defines each of radial, distance, heading and course either as a field or as a
    property that follows from other fields.

    Attributes
    ----------
    station
        Ident of the station tuned.
    altitude_ft
        The aircraft's altitude.
    range_nm
        Distance from the station to the edge of the map's compass rose.
    """

    station: str = "QLN"
    altitude_ft: float = 3500.0
    range_nm: float = 25.0

    @property
    def radial_deg(self) -> float:
        """The radial that the aircraft is on."""
        raise NotImplementedError

    @property
    def distance_nm(self) -> float:
        """Its distance from the station."""
        raise NotImplementedError

    @property
    def heading_deg(self) -> float:
        """Magnetic heading."""
        raise NotImplementedError

    @property
    def course_deg(self) -> float:
        """Selected course."""
        raise NotImplementedError

    def __post_init__(self) -> None:
        if self.station not in STATIONS:
            raise ValueError(f"station must be one of {', '.join(STATIONS)}, got {self.station!r}")

    @property
    def tuned(self) -> Station:
        """The station itself."""
        return STATIONS[self.station]

    @cached_property
    def there(self) -> Position:
        """Where the aircraft is."""
        return self.tuned.position_on(self.radial_deg, self.distance_nm, self.altitude_ft)

    @cached_property
    def reading(self) -> Reading:
        """What the indicator shows."""
        return Receiver(self.course_deg).read(self.tuned, self.there)

    def plan_scene(
        self, overlays: Overlay, *, with_course: bool = True, with_aircraft: bool = True
    ) -> PlanScene:
        """Return the map round the station, with or without the aircraft and the course."""
        height_ft = max(0.0, float(self.tuned.height_ft(self.there)))
        return PlanScene(
            self.tuned,
            range_nm=self.range_nm,
            position=self.there if with_aircraft else None,
            heading_deg=self.heading_deg,
            course_deg=self.course_deg if with_course else None,
            cone_radius_nm=float(cone_radius_nm(height_ft)),
            service_nm=float(service_radius_nm(self.tuned.service, height_ft)),
            overlays=overlays,
            islands=ISLANDS,
            airfields=tuple(AIRFIELDS.values()),
            stations=tuple(STATIONS.values()),
        )

    def nose_line(
        self, length_nm: float, name: str = "", there: Position | None = None
    ) -> Intended:
        """Return a line straight ahead of the aircraft's nose, from here or from another place."""
        here = self.there if there is None else there
        true_deg = self.heading_deg + self.tuned.declination_deg
        return Intended(here, direct(here, true_deg, length_nm), name)


@dataclass(frozen=True)
class AtStation(RoundStation):
    """An aircraft round a station, whose position, heading and course are fields.

    Attributes
    ----------
    radial_deg, distance_nm
        Position of the aircraft.
    heading_deg
        Magnetic heading.
    course_deg
        Selected course.
    """

    radial_deg: float = 214.0
    distance_nm: float = 12.4
    heading_deg: float = 40.0
    course_deg: float = 40.0


def farthest_nm(state: RoundStation) -> float:
    """Return the greatest distance allowed by hand, or the present one if it is greater."""
    return max(FARTHEST_NM, state.distance_nm)


def retuned(state: RoundStation, ident: str) -> Changes:
    """Return the changes for another station that leave the aircraft in place and on the map."""
    station = STATIONS[ident]
    line = station.inverse(state.there)
    distance_nm = float(line.distance_nm)
    return {
        "radial_deg": float(station.radial_of_azimuth_deg(line.true_azimuth_deg)),
        "distance_nm": distance_nm,
        "range_nm": range_showing_nm(distance_nm, state.range_nm),
    }


def range_showing_nm(distance_nm: float, least_nm: float) -> float:
    """Return the smallest map range that holds a distance and is not below a least one."""
    wide_enough = (r for r in MAP_RANGES_NM if r >= max(distance_nm, least_nm))
    return next(wide_enough, MAP_RANGES_NM[-1])


def plan_and_indicator(scene: PlanScene, shown: IndicatorScene, theme: Theme) -> Picture:
    """Return the plan view with the indicator to its right."""
    return beside(plan(scene, theme), indicator(shown, theme), GAP)


class Distance(Number):
    """The control for the aircraft's distance from the station."""

    def __init__(self) -> None:
        super().__init__("distance_nm", "Distance", "NM", 0.0, FARTHEST_NM, 0.1, decimals=2)

    def follow(self, state: Any) -> None:
        """Let the slider reach at least to where the aircraft is."""
        self.high = float(math.ceil(farthest_nm(state)))
        with self._quietly():  # lowering the maximum changes the slider's value
            self.slider.max = self.high


def station_choice() -> ChoiceControl:
    """Return the control for the station about which the aircraft is placed."""
    return ChoiceControl("station", "Station", STATION_NAMES)


def tuning(consequences: Callable[[Any, str], Changes] = retuned) -> ChoiceControl:
    """Return the control for the station tuned, which leaves the aircraft where it is."""
    return ChoiceControl("station", "Station", STATION_NAMES, consequences)


def radial_number() -> Number:
    """Return the control for the radial the aircraft is on."""
    return Number("radial_deg", "Aircraft on radial", decimals=1, direction=True)


def distance_number() -> Distance:
    """Return the control for the aircraft's distance from the station."""
    return Distance()


def altitude_number() -> Number:
    """Return the control for the aircraft's altitude."""
    return Number("altitude_ft", "Altitude", "feet", 0.0, HIGHEST_FT, 100.0)


def heading_number() -> Number:
    """Return the control for the aircraft's heading."""
    return Number("heading_deg", "Heading", direction=True)


def course_number() -> Number:
    """Return the control for the selected course."""
    return Number("course_deg", "Selected course", direction=True)


def range_choice() -> ChoiceControl:
    """Return the control for the range of the map."""
    ranges = {f"{r:g} NM": r for r in MAP_RANGES_NM}
    return ChoiceControl("range_nm", "Map out to", ranges).put_away()
