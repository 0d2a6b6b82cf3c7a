"""The flight exhibit: fly by heading bug or by bank, tune stations, and turn the course ring."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from vorlib.aircraft.wind import Wind
from vorlib.core.angles import difference_deg, format_direction, spoken_side, wrap_360
from vorlib.core.words import spoken_time
from vorlib.exhibits.base.control import Changes, Control
from vorlib.exhibits.base.controls import Number, Switch
from vorlib.exhibits.base.exhibit import Grip
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.flown_by_hand.flight_exhibit import STEP_DEG, FlightExhibit, turned
from vorlib.exhibits.flown_by_hand.hand_flight import STEEPEST_DEG, FlightTask, HandFlightState
from vorlib.exhibits.scene import at_station, grips
from vorlib.exhibits.scene.wind_controls import (
    FASTEST_KT,
    SLOWEST_KT,
    STRONGEST_KT,
    wind_direction_number,
    wind_speed_number,
)
from vorlib.stations.archipelago import AIRFIELDS, ISLANDS, STATIONS
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.heading import HeadingScene, heading_indicator
from vorlib.views.instrument.indicator import CENTER, WIDTH, IndicatorScene, indicator
from vorlib.views.plan.plan import SIZE, Overlay, PlanScene, plan
from vorlib.views.sentence import reading_sentence, volume_words, where_sentence
from vorlib.vor.coverage import cone_radius_nm, service_radius_nm

__all__ = ["FlightTask", "HandFlightState", "draw", "flight", "sentence"]

OVERLAYS = Overlay.ROSE | Overlay.RINGS | Overlay.COURSE | Overlay.CONE


def draw(state: HandFlightState, theme: Theme) -> Picture:
    """Return the plan view, unless it is hidden, with the indicator and the heading indicator."""
    shown = indicator(IndicatorScene.of(state.course_deg, state.reading), theme)
    bug = None if state.by_bank else state.wanted_heading_deg
    scene = HeadingScene(state.heading_deg, bug, _lines(state))
    panel = beside(shown, heading_indicator(scene, theme), at_station.GAP)
    return (
        beside(plan(_plan_scene(state), theme), panel, at_station.GAP) if state.show_plan else panel
    )


def _plan_scene(state: HandFlightState) -> PlanScene:
    station, there = state.tuned, state.moment.position
    height_ft = max(0.0, float(station.height_ft(there)))
    wind = Wind(state.wind_from_deg, state.wind_kt) if state.show_wind else None
    return PlanScene(
        station,
        range_nm=state.range_nm,
        position=there,
        # cancels the station's declination: on the map the nose points along the true heading
        heading_deg=state.moment.true_heading_deg - station.declination_deg,
        course_deg=state.course_deg,
        cone_radius_nm=float(cone_radius_nm(height_ft)),
        service_nm=float(service_radius_nm(station.service, height_ft)),
        overlays=OVERLAYS,
        islands=ISLANDS,
        airfields=tuple(AIRFIELDS.values()),
        stations=tuple(STATIONS.values()),
        track=state.track if state.begun else None,
        wind=wind,
    )


def _lines(state: HandFlightState) -> tuple[str, ...]:
    bank = state.moment.bank_deg
    side = spoken_side(bank)
    banked = f"bank {abs(bank):.0f} {side}" if abs(bank) >= 0.5 else "wings level"
    return (_wanted(state), banked, f"{spoken_time(state.moment.time_s)} flown")


def _wanted(state: HandFlightState) -> str:
    if not state.by_bank:
        return f"turn to {format_direction(state.wanted_heading_deg)}"
    bank = state.wanted_bank_deg
    return f"hold bank {abs(bank):.0f} {spoken_side(bank)}" if bank else "hold level"


def sentence(state: HandFlightState) -> str:
    """Say what the instruments show, where the aircraft is if the plan shows it, and what to do."""
    return " ".join(filter(None, _sentences(state)))


def _sentences(state: HandFlightState) -> tuple[str, ...]:
    task = state.task
    if task is not None:
        asked = f"Task {state.tasks_done + 1} of {len(state.tasks)}: {task.words}"
    else:
        asked = "All tasks are done." if state.tasks else ""
    place = where_sentence(state.tuned, state.moment.position) if state.show_plan else ""
    off_deg = float(difference_deg(state.wanted_heading_deg, state.heading_deg))
    heading = f"Your heading is {format_direction(state.heading_deg)}"
    if not state.by_bank and abs(off_deg) >= 1.0:
        side = spoken_side(off_deg)
        heading += f", to be turned {side} to {format_direction(state.wanted_heading_deg)}"
    windy = state.wind_kt >= state.true_airspeed_kt
    gale = "The wind is as strong as your airspeed: against it you make no way." if windy else ""
    over = "The flight ends here: it has lasted three hours." if state.over else ""
    ident = f"You hear the ident {state.heard}." if state.heard else ""
    if state.silent:
        ident = f"You listen for {state.tuned.name} and hear no ident. Do not use it."
    volume = volume_words(state.tuned, state.moment.position)
    reading = reading_sentence(state.course_deg, state.reading, volume)
    return (over, reading, f"{heading}.", ident, place, gale, asked)


def _step_heading(state: HandFlightState, steps: Steps) -> Changes:
    return turned(state, STEP_DEG * steps.right + steps.up)


def _left_of_panel(state: HandFlightState) -> float:
    return SIZE + at_station.GAP if state.show_plan else 0.0


def _drag_heading(state: HandFlightState, drag: Drag, theme: Theme) -> Changes:
    x = _left_of_panel(state) + WIDTH + at_station.GAP + CENTER[0]
    return turned(state, grips.turned_deg(drag, (x, CENTER[1])))


def _drag_ring(state: HandFlightState, drag: Drag, theme: Theme) -> Changes:
    turned_deg = grips.turned_deg(drag, (_left_of_panel(state) + CENTER[0], CENTER[1]))
    return {"course_deg": float(wrap_360(round(state.course_deg - turned_deg)))}


def _step_ring(state: HandFlightState, steps: Steps) -> Changes:
    return {"course_deg": float(wrap_360(state.course_deg + steps.right + steps.up))}


def _stay(state: HandFlightState, drag: Drag, theme: Theme) -> Changes:
    return {}  # an aircraft in flight cannot be dragged; it has a grip for its keys


GRIPS = {
    "aircraft": Grip(_stay, _step_heading),
    "heading": Grip(_drag_heading, _step_heading, wheel=True),
    "ring": Grip(_drag_ring, _step_ring, wheel=True),
}


def _controls() -> list[Control]:
    in_flight = [
        Number("wanted_heading_deg", "Turn to heading", direction=True),
        at_station.course_number(),
        at_station.station_choice(),
        Switch("show_plan", "Plan view"),
    ]
    # Chosen before a flight, so folded away: in flight the learner has to find the wind.
    before = [
        wind_direction_number(),
        wind_speed_number(STRONGEST_KT),
        Number("start_radial_deg", "Start on radial", direction=True),
        Number("start_distance_nm", "Start", "NM out", 0.0, 60.0, 0.5, decimals=1),
        Number("altitude_ft", "Start altitude", "feet", 0.0, at_station.HIGHEST_FT, 100.0),
        Number("true_airspeed_kt", "True airspeed", "knots", SLOWEST_KT, FASTEST_KT, 5.0),
        Number("wanted_bank_deg", "Bank, right +", "degrees", -STEEPEST_DEG, STEEPEST_DEG),
        Switch("by_bank", "Steer by bank"),
        Switch("show_wind", "Show the wind"),
    ]
    return [*in_flight, at_station.range_choice(), *(control.put_away() for control in before)]


def _state(
    station: str = "QLN", *, tasks: Sequence[FlightTask] = (), **start: Any
) -> HandFlightState:
    return HandFlightState(station, tasks=tuple(tasks), **{"start_station": station} | start)


@exhibit(lesson="13", state=_state)
def flight(
    station: str = "QLN", *, tasks: Sequence[FlightTask] = (), **start: Any
) -> FlightExhibit:
    """Return the flight exhibit: fly by hand, then get a debrief.

    Parameters
    ----------
    station
        Ident of the station tuned at first. The start is measured from it, unless
        ``start_station`` names another.
    tasks
        What to do, in order; see `vorlib.exhibits.flown_by_hand.tasks`.
    **start
        Other fields of `HandFlightState` to start from, such as ``start_radial_deg=220`` or
        ``show_plan=False`` for a flight by instruments alone.
    """
    return FlightExhibit(_state(station, tasks=tasks, **start), draw, sentence, _controls(), GRIPS)
