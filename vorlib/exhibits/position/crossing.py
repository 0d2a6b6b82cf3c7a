"""Station passage seen from above and from the side, with the cone of confusion to scale.

The aircraft flies the selected course, on the course line or beside it.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from vorlib.core.angles import format_direction, spoken_side
from vorlib.core.words import LEAST_TOLD, spoken_count, spoken_knots
from vorlib.exhibits.base.controls import ChoiceControl, Number
from vorlib.exhibits.base.exhibit import Grip
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.position.crossing_state import (
    RANGE_NM,
    SIDE_ALONE,
    SIDE_WITH_PLAN,
    TOP_FT,
    CrossingState,
)
from vorlib.exhibits.replay.playback import Playback
from vorlib.exhibits.scene import at_station, grips
from vorlib.views.drawing.picture import Group, Picture, above, beside
from vorlib.views.drawing.scaling import resized
from vorlib.views.drawing.theme import PROJECTOR, Theme
from vorlib.views.flight.profile import ProfileScene, profile, profile_scale
from vorlib.views.instrument.indicator import CENTER, IndicatorScene, indicator
from vorlib.views.instrument.indicator import WIDTH as INDICATOR_WIDTH
from vorlib.views.plan.plan import SIZE, Overlay, plan, projection
from vorlib.views.sentence import (
    flag_words,
    needle_words,
    off_sentence,
    unassured_sentence,
    volume_words,
)

__all__ = ["CrossingState", "crossing", "draw", "sentence"]

WIDEST_NM = 3.0
LOWEST_FT, SLOWEST_KT, FASTEST_KT = 1000.0, 60.0, 250.0
SLOWEST_DOTS_S = 0.0005  # a dot in half an hour: slower counts as still
FAST_DOTS_S = 1.5
IN_MINUTES_S = 100  # give more seconds a dot than this in minutes
NEAR_NM = 3.0  # within this of the station the sentence mentions its cone
ALONG_STEP_NM, ALTITUDE_STEP_FT = 0.05, 100.0
VIEWS = {"above and the side": "both", "above": "above", "the side": "side"}
SMALL_WIDTH = 210.0  # of the indicator above the side view
BESIDE_PLAN = (400.0, SIZE)  # size of the side view in large type, beside the indicator
FROM_THE_SIDE = "aircraft from the side"

Changes = dict[str, Any]


def draw(state: CrossingState, theme: Theme) -> Picture:
    """Return the indicator with the plan view, the side view or both."""
    shown = IndicatorScene.of(state.course_deg, state.reading)
    side = profile(_side_view(state, theme), theme)
    side = replace(side, items=tuple(_named_apart(item) for item in side.items))
    if state.view == "side":
        return beside(side, indicator(shown, theme), at_station.GAP)
    scene = state.plan_scene(Overlay.ALL)
    if state.view == "above":
        return at_station.plan_and_indicator(scene, shown, theme)
    if theme is PROJECTOR:
        pictured = beside(side, indicator(shown, theme), at_station.GAP)
        return beside(plan(scene, theme), pictured, at_station.GAP)
    small = resized(indicator(shown, PROJECTOR), SMALL_WIDTH)  # shrunk, so drawn with large type
    return beside(plan(scene, theme), above(small, side, 0.0), at_station.GAP)


def _side_view(state: CrossingState, theme: Theme) -> ProfileScene:
    """Return the side view, with more room for large type when it is beside the plan."""
    if state.view == "both" and theme is PROJECTOR:
        return replace(state.side_view, width=BESIDE_PLAN[0], height=BESIDE_PLAN[1])
    return state.side_view


def _named_apart(item: Any) -> Any:
    """Rename the aircraft of the side view, so that the two aircraft have separate grips."""
    if isinstance(item, Group) and item.grab == "aircraft":
        return replace(item, grab=FROM_THE_SIDE)
    return item


def sentence(state: CrossingState) -> str:
    """Say where the aircraft is, what the needle does and, once near, where the flag changes."""
    near = abs(state.along_nm) <= NEAR_NM
    return " ".join(filter(None, (_place(state), _shown(state), _passage(state) if near else "")))


def _place(state: CrossingState) -> str:
    place = f"{abs(state.along_nm):.1f} NM {'before' if state.along_nm < 0 else 'beyond'}"
    if abs(state.along_nm) < LEAST_TOLD:
        place = "abeam" if state.offset_nm else "over"
    course = format_direction(state.course_deg)
    line = f"on the {course} course line"
    if abs(state.offset_nm) >= LEAST_TOLD:
        side = spoken_side(state.offset_nm)
        line = f"{abs(state.offset_nm):.1f} NM {side} of the {course} course line"
    return f"You are {place} {state.tuned.name} at {state.altitude_ft:,.0f} feet, {line}."


def _shown(state: CrossingState) -> str:
    volume = volume_words(state.tuned, state.there)
    words = (_needle(state), unassured_sentence(state.reading, volume))
    return " ".join(filter(None, words))


def _needle(state: CrossingState) -> str:
    reading, rate = state.reading, state.needle_rate_dots_s
    words = f"The {flag_words(reading).removeprefix('the ')}, {needle_words(reading)}"
    if reading.reason:
        return f"{words}. {off_sentence(reading)}"
    if rate is None or bool(reading.pegged):
        return f"{words}."
    if abs(rate) < SLOWEST_DOTS_S:
        return f"{words} and is still."
    return f"{words} and moves {spoken_side(rate)} {rate_words(rate)}."


def rate_words(dots_s: float) -> str:
    """Return how fast a needle moves as a pilot sees it, such as "a dot in 20 seconds".

    >>> rate_words(0.0054), rate_words(-0.048), rate_words(2.2)
    ('a dot in 3 minutes', 'a dot in 21 seconds', '2 dots a second')
    """
    rate = abs(dots_s)
    if rate >= FAST_DOTS_S:
        return f"{rate:.0f} dots a second"
    seconds = round(1.0 / rate)
    if seconds >= IN_MINUTES_S:
        return f"a dot in {seconds / 60.0:.0f} minutes"
    return "a dot in a second" if seconds <= 1 else f"a dot in {seconds} seconds"


def _passage(state: CrossingState) -> str:
    seconds = round(state.seconds_in_cone)
    if not seconds:
        return "You pass outside the cone of confusion: TO gives way to FROM abeam the station."
    cone = f"The cone of confusion is {state.cone_nm:.1f} NM in radius at this height"
    duration = spoken_count(seconds, "second")
    took = "you were in it for" if state.along_nm > state.cone_nm else "you are in it for"
    return (
        f"{cone}: at {spoken_knots(state.groundspeed_kt)} {took} {duration}, with TO before it and "
        "FROM beyond."
    )


def _clamped(along_nm: float, offset_nm: float) -> Changes:
    return {
        "along_nm": round(min(max(along_nm, -RANGE_NM), RANGE_NM), 2),
        "offset_nm": round(min(max(offset_nm, -WIDEST_NM), WIDEST_NM), 2),
    }


def _moved(state: CrossingState, right: float, down: float, theme: Theme) -> Changes:
    """Move the aircraft on the plan view by picture units."""
    layout = projection(state.plan_scene(Overlay.NONE), theme)
    radial_deg, distance_nm = grips.moved_from(state, layout, right, down)
    off = math.radians(radial_deg - state.course_deg)
    return _clamped(distance_nm * math.cos(off), distance_nm * math.sin(off))


def _from_the_side(along_nm: float, altitude_ft: float) -> Changes:
    return {
        "along_nm": _clamped(along_nm, 0.0)["along_nm"],
        "altitude_ft": min(max(10.0 * round(altitude_ft / 10.0), LOWEST_FT), TOP_FT),
    }


def _drag_from_the_side(state: CrossingState, drag: Drag, theme: Theme) -> Changes:
    scale = profile_scale(_side_view(state, theme), theme)
    x, y = scale.to_xy(state.along_nm, state.altitude_ft)
    return _from_the_side(*scale.to_distance_altitude(x + drag.x - drag.x0, y + drag.y - drag.y0))


def _step_from_the_side(state: CrossingState, steps: Steps) -> Changes:
    return _from_the_side(
        state.along_nm + ALONG_STEP_NM * steps.right,
        state.altitude_ft + ALTITUDE_STEP_FT * steps.up,
    )


def _ring_center(state: CrossingState, theme: Theme) -> tuple[float, float]:
    """Return where the middle of the course ring is on the picture."""
    x, y = CENTER
    if state.view == "above":
        return grips.RING_CENTER
    if state.view == "side":
        return SIDE_ALONE[0] + at_station.GAP + x, y
    if theme is PROJECTOR:
        return SIZE + BESIDE_PLAN[0] + 2 * at_station.GAP + x, y
    factor = SMALL_WIDTH / INDICATOR_WIDTH
    left = SIZE + at_station.GAP + (SIDE_WITH_PLAN[0] - SMALL_WIDTH) / 2
    return left + factor * x, factor * y


def _turn_ring(state: CrossingState, drag: Drag, theme: Theme) -> Changes:
    turned_deg = grips.turned_deg(drag, _ring_center(state, theme))
    return {"course_deg": float(round(state.course_deg - turned_deg))}


@exhibit(lesson="08", state=CrossingState)
def crossing(station: str = "QLN", **start: Any) -> Playback[CrossingState]:
    """Return the exhibit of the station passage.

    Parameters
    ----------
    station
        Ident of the station.
    **start
        Fields of `CrossingState` to start from, such as ``along_nm=-3`` or ``altitude_ft=8000``.
    """
    controls = [
        Number(
            "along_nm", "Along the course", "NM", -RANGE_NM, RANGE_NM, ALONG_STEP_NM, decimals=2
        ),
        Number("offset_nm", "Right of course", "NM", -WIDEST_NM, WIDEST_NM, 0.05, decimals=2),
        Number("altitude_ft", "Altitude", "feet", LOWEST_FT, TOP_FT, ALTITUDE_STEP_FT),
        Number("groundspeed_kt", "Groundspeed", "knots", SLOWEST_KT, FASTEST_KT, 5.0),
        at_station.course_number(),
        at_station.station_choice().put_away(),
        ChoiceControl("view", "Seen from", VIEWS),
    ]
    made = Playback(
        CrossingState(station, **start),
        draw,
        sentence,
        controls,
        {
            "aircraft": grips.moved_by_hand(_moved),
            FROM_THE_SIDE: Grip(_drag_from_the_side, _step_from_the_side),
            "ring": Grip(_turn_ring, grips.step_ring, wheel=True),
        },
    )
    made.control("time_s").consequences = lambda state, time_s: {
        "along_nm": state.along_at_nm(time_s)
    }
    return made
