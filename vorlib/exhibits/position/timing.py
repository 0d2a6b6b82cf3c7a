"""Time to the station: time a run, apply the rule, and compare it with the flight there."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import Wind
from vorlib.core.angles import format_direction, reciprocal_deg, wrap_360
from vorlib.core.words import spoken_knots, spoken_time, stopwatch
from vorlib.exhibits.base.controls import ChoiceControl, Number
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.scene import at_station, grips
from vorlib.exhibits.scene.figures import FigureImage, figures
from vorlib.exhibits.scene.wind_controls import (
    FASTEST_KT,
    SLOWEST_KT,
    STRONGEST_KT,
    wind_direction_number,
    wind_speed_number,
)
from vorlib.procedures.timed_runs import TimedRun, isosceles_run, timed_run
from vorlib.stations.archipelago import AIRFIELDS, ISLANDS, STATIONS
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.plan import Overlay, PlanScene, Trace, plan, projection
from vorlib.vor.station import Station

__all__ = ["TimingState", "draw", "sentence", "timing"]

WING_TIP, ISOSCELES = "wing tip", "isosceles"
RULES = {"Wing tip": WING_TIP, "Isosceles triangle": ISOSCELES}
NEAREST_NM, FARTHEST_NM = 3.0, 30.0
SMALLEST_DEG, LARGEST_DEG = 2.0, 60.0
ROSES_NM = (5.0, 7.5, 10.0, 15.0, 20.0, 30.0, 50.0)  # ranges that the map may have
SHOWN = Overlay.ROSE | Overlay.RINGS
AGREES_PERCENT, RIGHT = 0.5, "right"

Changes = dict[str, Any]


@dataclass(frozen=True)
class TimingState:
    """A timed run past a station, and the rule applied to it.

    Attributes
    ----------
    station
        Ident of the station, which stays on the left.
    rule
        "wing tip" or "isosceles".
    distance_nm
        Distance to the station at the start of the run.
    angle_deg
        Degrees by which the bearing changes during the run; by the isosceles rule also the
        relative bearing, left of the nose, at the start.
    heading_deg
        Magnetic heading of the run.
    airspeed_kt
        True airspeed.
    wind_from_deg, wind_kt
        The wind, its direction magnetic.

    Raises
    ------
    ValueError
        If the station or the rule is unknown, or the wind keeps the aircraft from finishing the
        run or from reaching the station.
    """

    station: str = "QLN"
    rule: str = WING_TIP
    distance_nm: float = 12.0
    angle_deg: float = 10.0
    heading_deg: float = 360.0
    airspeed_kt: float = 110.0
    wind_from_deg: float = 270.0
    wind_kt: float = 0.0

    def __post_init__(self) -> None:
        if self.station not in STATIONS:
            raise ValueError(f"station must be one of {', '.join(STATIONS)}, got {self.station!r}")
        if self.rule not in RULES.values():
            raise ValueError(f"rule must be one of {', '.join(RULES.values())}, got {self.rule!r}")
        _ = self.run  # raises if the station cannot be reached

    @property
    def tuned(self) -> Station:
        """The station itself."""
        return STATIONS[self.station]

    @property
    def left_deg(self) -> float:
        """How far left of the nose the station is at the start."""
        return 90.0 if self.rule == WING_TIP else self.angle_deg

    @property
    def radial_deg(self) -> float:
        """The radial on which the run starts."""
        return float(reciprocal_deg(self.heading_deg - self.left_deg))

    @cached_property
    def run(self) -> TimedRun:
        """The timed run, the rule's answer, and the flight to the station."""
        fly = timed_run if self.rule == WING_TIP else isosceles_run
        east = self.tuned.declination_deg
        wind = Wind(self.wind_from_deg + east, self.wind_kt)
        aircraft = Aircraft(self.airspeed_kt)
        return fly(
            self.tuned,
            self.distance_nm,
            self.angle_deg,
            aircraft,
            wind,
            self.heading_deg + east,
        )

    @property
    def range_nm(self) -> float:
        """Distance from the station to the edge of a map that holds the whole run."""
        farthest_nm = max(
            self.distance_nm, float(np.max(self.tuned.distance_nm(self.run.run_track)))
        )
        fitting = (r for r in ROSES_NM if 1.1 * farthest_nm <= r)
        return next(fitting, 2.0 * ROSES_NM[-1])

    @property
    def plan_scene(self) -> PlanScene:
        """The map round the station, with the run and the flight to it."""
        return PlanScene(
            self.tuned,
            range_nm=self.range_nm,
            position=self.tuned.position_on(self.radial_deg, self.distance_nm),
            heading_deg=self.heading_deg,
            overlays=SHOWN,
            islands=ISLANDS,
            airfields=tuple(AIRFIELDS.values()),
            stations=tuple(STATIONS.values()),
            traces=(
                Trace("timed run", self.run.run_track),
                Trace("way to the station", self.run.home_track, dashed=True),
            ),
            wind=Wind(self.wind_from_deg, self.wind_kt),
        )


def draw(state: TimingState, theme: Theme) -> Picture:
    """Return the plan view, with the rule's answer and the true one beside it."""
    return beside(plan(state.plan_scene, theme), figures(_figures(state), theme), at_station.GAP)


def _figures(state: TimingState) -> tuple[FigureImage, ...]:
    run = state.run
    change = f"while the bearing changed {state.angle_deg:g}°"
    return (
        FigureImage("Timed", stopwatch(60.0 * run.run_min), change),
        FigureImage("Rule: time to go", f"{run.rule_min:.1f} min", _formula(state)),
        FigureImage("Flown", f"{run.actual_min:.1f} min", "turn and wind included", strong=True),
        FigureImage("Rule: distance", f"{run.rule_nm:.1f} NM", "airspeed x time to go"),
        FigureImage(
            "True distance", f"{run.actual_nm:.1f} NM", "from the end of the run", strong=True
        ),
    )


def _formula(state: TimingState) -> str:
    return "60 x minutes / degrees" if state.rule == WING_TIP else "the minutes flown"


def sentence(state: TimingState) -> str:
    """Say what was timed, what the rule answers, and how long the flight takes."""
    run = state.run
    if state.rule == WING_TIP:
        begin = f"{state.distance_nm:.1f} NM from {state.tuned.name} with it on your left wing tip"
        timed = f"the bearing changes by {state.angle_deg:g} degrees"
    else:
        begin = (
            f"{state.distance_nm:.1f} NM from {state.tuned.name} with it {state.angle_deg:g} "
            "degrees left of the nose"
        )
        timed = f"the relative bearing doubles to {2 * state.angle_deg:g}"
    return (
        f"You fly {format_direction(state.heading_deg)} at {spoken_knots(state.airspeed_kt)}, "
        f"{begin}. After {spoken_time(60.0 * run.run_min)} {timed}. The rule says "
        f"{run.rule_min:.1f} minutes and {run.rule_nm:.1f} NM to go. {_truth(state)}"
    )


def _truth(state: TimingState) -> str:
    run = state.run
    air = "calm air"
    if state.wind_kt:
        wind = f"{format_direction(state.wind_from_deg)}/{state.wind_kt:.0f}"
        air = f"the wind of {wind}"
    flown = (
        f"Turned and flown in {air} it takes {run.actual_min:.1f} minutes, for {run.actual_nm:.1f} "
        "NM"
    )
    too_far_percent = 100.0 * (run.rule_nm / run.actual_nm - 1.0)
    time, distance = _how_right(run.error_percent), _how_right(too_far_percent)
    if time == distance:
        return f"{flown}: the rule's time and distance are {'both ' * (time == RIGHT)}{time}."
    return f"{flown}: the rule's time is {time}, its distance {distance}."


def _how_right(error_percent: float) -> str:
    if abs(error_percent) < AGREES_PERCENT:
        return RIGHT
    return f"{abs(error_percent):.0f} percent too {'long' if error_percent > 0 else 'short'}"


def _moved(state: TimingState, right: float, down: float, theme: Theme) -> Changes:
    """Move the start of the run by picture units; the station stays on the left."""
    layout = projection(state.plan_scene, theme)
    radial_deg, distance_nm = grips.moved_from(state, layout, right, down)
    distance_nm = min(max(distance_nm, NEAREST_NM), FARTHEST_NM)
    heading_deg = float(wrap_360(radial_deg + 180.0 + state.left_deg))
    return {"distance_nm": round(distance_nm, 1), "heading_deg": float(round(heading_deg))}


@exhibit(lesson="10", state=TimingState)
def timing(station: str = "QLN", **start: Any) -> Exhibit[TimingState]:
    """Return the exhibit of the timed run.

    Parameters
    ----------
    station
        Ident of the station.
    **start
        Other fields of `TimingState` to start from, such as ``angle_deg=20`` or
        ``rule="isosceles"``.
    """
    return Exhibit(
        TimingState(station, **start),
        draw,
        sentence,
        [
            ChoiceControl("rule", "Rule", RULES),
            Number(
                "distance_nm", "Distance at start", "NM", NEAREST_NM, FARTHEST_NM, 0.1, decimals=1
            ),
            Number("angle_deg", "Bearing change", "degrees", SMALLEST_DEG, LARGEST_DEG, 1.0),
            Number("heading_deg", "Heading", direction=True),
            Number("airspeed_kt", "Airspeed", "knots", SLOWEST_KT, FASTEST_KT, 5.0),
            wind_direction_number(),
            wind_speed_number(STRONGEST_KT),
            at_station.station_choice().put_away(),
        ],
        {"aircraft": grips.moved_by_hand(_moved)},
    )
