"""Over the station: from above and from the side, with the cone of confusion to scale.

The aircraft flies the selected course, on its line or beside it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from vorlib.angles import format_direction
from vorlib.coverage import CONE_HALF_ANGLE_DEG, cone_radius_nm
from vorlib.exhibits import around
from vorlib.exhibits.controls import Choice, Number
from vorlib.exhibits.exhibit import Exhibit, Grip
from vorlib.exhibits.widget import Drag, Steps
from vorlib.receiver import Receiver
from vorlib.units import SECONDS_PER_HOUR
from vorlib.views.indicator import CENTRE, IndicatorScene, indicator
from vorlib.views.picture import Group, Picture, beside
from vorlib.views.plan import Overlay, projection
from vorlib.views.profile import WIDTH as SIDE_WIDTH
from vorlib.views.profile import ProfileScene, profile, profile_scale
from vorlib.views.sentence import flag_words, needle_words, off_sentence
from vorlib.views.theme import SCREEN, Theme

__all__ = ["State", "crossing", "draw", "sentence"]

RANGE_NM = 6.0
WIDEST_NM = 3.0
TOP_FT = 12_000.0
LOWEST_FT, SLOWEST_KT, FASTEST_KT = 1000.0, 60.0, 250.0
SLOWEST_DOTS_S = 0.0005  # a dot in half an hour: still
ALONG_STEP_NM, ALTITUDE_STEP_FT = 0.05, 100.0
VIEWS = {"above and the side": "both", "above": "above", "the side": "side"}
FROM_THE_SIDE = "aircraft from the side"

Changes = dict[str, Any]


@dataclass(frozen=True)
class State(around.Around):
    """An aircraft that flies the selected course over a station or past it.

    Attributes
    ----------
    along_nm
        Distance along the course: negative before the station, positive beyond.
    offset_nm
        Distance to the side of the course line, positive right; `along_nm` and this one take the
        place of `radial_deg` and `distance_nm`, and the heading is the course.
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

    def __post_init__(self) -> None:
        super().__post_init__()
        off_deg = math.degrees(math.atan2(self.offset_nm, self.along_nm))
        object.__setattr__(self, "radial_deg", self.course_deg + off_deg)
        object.__setattr__(self, "distance_nm", math.hypot(self.along_nm, self.offset_nm))
        object.__setattr__(self, "heading_deg", self.course_deg)

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
        )


def draw(state: State, theme: Theme) -> Picture:
    """Return the indicator with the plan view, the side view or both."""
    shown = IndicatorScene.of(state.course_deg, state.reading)
    side = profile(state.side_view, theme)
    side = replace(side, items=tuple(_named_apart(item) for item in side.items))
    if state.view == "side":
        return beside(side, indicator(shown, theme), around.GAP)
    upper = around.plan_and_indicator(state.plan_scene(Overlay.ALL), shown, theme)
    return upper if state.view == "above" else _above(upper, side)


def _above(upper: Picture, lower: Picture) -> Picture:
    """Put one picture above another, middle to middle; the upper keeps its coordinates."""
    top = upper.height + around.GAP
    return replace(
        upper,
        height=top + lower.height,
        items=(Group(upper.items), Group(lower.items, (upper.width - lower.width) / 2, top)),
        title=f"{upper.title}; {lower.title}",
        description=f"{upper.description} {lower.description}",
    )


def _named_apart(item: Any) -> Any:
    """Give the aircraft of the side view a name of its own, so that a hand can tell the two."""
    if isinstance(item, Group) and item.grab == "aircraft":
        return replace(item, grab=FROM_THE_SIDE)
    return item


def sentence(state: State) -> str:
    """Say where the aircraft is, what the needle does, and where the flag changes."""
    return f"{_place(state)} {_shown(state)} {_passage(state)}"


def _place(state: State) -> str:
    place = f"{abs(state.along_nm):.1f} NM {'before' if state.along_nm < 0 else 'beyond'}"
    if abs(state.along_nm) < 0.05:
        place = "abeam" if state.offset_nm else "over"
    course = format_direction(state.course_deg)
    line = f"on the line of course {course}"
    if state.offset_nm:
        side = "right" if state.offset_nm > 0 else "left"
        line = f"{abs(state.offset_nm):.1f} NM {side} of the line of course {course}"
    return f"You are {place} {state.tuned.name} at {state.altitude_ft:,.0f} feet, {line}."


def _shown(state: State) -> str:
    reading, rate = state.reading, state.needle_rate_dots_s
    words = f"The {flag_words(reading).removeprefix('the ')}, {needle_words(reading)}"
    if reading.reason:
        return f"{words}. {off_sentence(reading)}"
    if rate is None or bool(reading.pegged):
        return f"{words}."
    if abs(rate) < SLOWEST_DOTS_S:
        return f"{words} and is still."
    side = "right" if rate > 0 else "left"
    return f"{words} and moves {side} by {abs(rate):.2g} dots a second."


def _passage(state: State) -> str:
    cone = f"The cone of confusion is {state.cone_nm:.1f} NM in radius at this height"
    if not state.seconds_in_cone:
        return f"{cone}: you pass outside it, and TO gives way to FROM abeam the station."
    return (
        f"{cone}: at {state.groundspeed_kt:.0f} knots you are in it for "
        f"{state.seconds_in_cone:.0f} seconds, with TO before it and FROM beyond."
    )


def _clamped(along_nm: float, offset_nm: float) -> Changes:
    return {
        "along_nm": round(min(max(along_nm, -RANGE_NM), RANGE_NM), 2),
        "offset_nm": round(min(max(offset_nm, -WIDEST_NM), WIDEST_NM), 2),
    }


def _moved(state: State, right: float, down: float, theme: Theme) -> Changes:
    """Move the aircraft on the plan view by picture units."""
    scale = projection(state.plan_scene(Overlay.NONE), theme).units_per_nm
    course = math.radians(state.course_deg + state.tuned.declination_deg)
    east, north = right / scale, -down / scale
    return _clamped(
        state.along_nm + north * math.cos(course) + east * math.sin(course),
        state.offset_nm + east * math.cos(course) - north * math.sin(course),
    )


def _drag(state: State, drag: Drag, theme: Theme) -> Changes:
    return _moved(state, drag.x - drag.x0, drag.y - drag.y0, theme)


def _step(state: State, steps: Steps) -> Changes:
    return _moved(state, around.KEY_STEP * steps.right, -around.KEY_STEP * steps.up, SCREEN)


def _from_the_side(state: State, along_nm: float, climb_ft: float) -> Changes:
    altitude_ft = 10.0 * round((state.altitude_ft + climb_ft) / 10.0)
    return {
        "along_nm": _clamped(state.along_nm + along_nm, 0.0)["along_nm"],
        "altitude_ft": min(max(altitude_ft, LOWEST_FT), TOP_FT),
    }


def _drag_from_the_side(state: State, drag: Drag, theme: Theme) -> Changes:
    scale = profile_scale(state.side_view, theme)
    along_nm = (drag.x - drag.x0) / scale.units_per_nm
    return _from_the_side(state, along_nm, (drag.y0 - drag.y) / scale.units_per_ft)


def _step_from_the_side(state: State, steps: Steps) -> Changes:
    return _from_the_side(state, ALONG_STEP_NM * steps.right, ALTITUDE_STEP_FT * steps.up)


def _turn_ring(state: State, drag: Drag, theme: Theme) -> Changes:
    if state.view != "side":
        return around.turn_ring(state, drag, theme)
    centre = (SIDE_WIDTH + around.GAP + CENTRE[0], CENTRE[1])
    return {"course_deg": float(round(state.course_deg - around.turned_deg(drag, centre)))}


def crossing(station: str = "QLN", **start: Any) -> Exhibit[State]:
    """Return the exhibit of the station passage.

    Parameters
    ----------
    station
        Ident of the station.
    **start
        Fields of `State` to start from, such as ``along_nm=-3`` or ``altitude_ft=8000``.
    """
    controls = [
        Number(
            "along_nm", "Along the course", "NM", -RANGE_NM, RANGE_NM, ALONG_STEP_NM, decimals=2
        ),
        Number("offset_nm", "Right of course", "NM", -WIDEST_NM, WIDEST_NM, 0.05, decimals=2),
        Number("altitude_ft", "Altitude", "feet", LOWEST_FT, TOP_FT, ALTITUDE_STEP_FT),
        Number("groundspeed_kt", "Groundspeed", "knots", SLOWEST_KT, FASTEST_KT, 5.0),
        around.course_number(),
        around.station_choice(),
        Choice("view", "Seen from", VIEWS),
    ]
    return Exhibit(
        State(station, **start),
        draw,
        sentence,
        controls,
        {
            "aircraft": Grip(_drag, _step),
            FROM_THE_SIDE: Grip(_drag_from_the_side, _step_from_the_side),
            "ring": Grip(_turn_ring, around.step_ring, wheel=True),
        },
    )
