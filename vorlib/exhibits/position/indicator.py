"""The indicator beside the plan view: what course, needle and flag show at each position."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from vorlib.core.angles import format_direction
from vorlib.exhibits.base.controls import Switch
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.scene import at_station, grips
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument.indicator import IndicatorScene
from vorlib.views.plan.plan import Overlay
from vorlib.views.sentence import CENTERED_DOTS
from vorlib.views.sentence import sentence as reading_in_words
from vorlib.vor.sensing import is_reverse_sensing
from vorlib.vor.station import Station

__all__ = ["IndicatorState", "draw", "indicator", "sentence"]


@dataclass(frozen=True)
class IndicatorState(at_station.AtStation):
    """An aircraft round a station with a course selected.

    Attributes
    ----------
    on_the_air
        Whether the station transmits.
    """

    on_the_air: bool = True

    @property
    def tuned(self) -> Station:
        """The station, on or off the air."""
        return replace(super().tuned, on_the_air=self.on_the_air)


def draw(state: IndicatorState, theme: Theme) -> Picture:
    """Return the plan view with the indicator beside it."""
    shown = IndicatorScene.of(state.course_deg, state.reading)
    return at_station.plan_and_indicator(state.plan_scene(Overlay.ALL), shown, theme)


def sentence(state: IndicatorState) -> str:
    """Say where the aircraft is, what the indicator shows, and whether sensing is reverse."""
    shown = reading_in_words(state.tuned, state.there, state.course_deg, state.reading)
    return f"{shown} {sensing_remark(state)}".strip()


def sensing_remark(state: IndicatorState) -> str:
    """Say that sensing is reverse, and why.

    Empty when sensing is normal, and when the needle is centered and there is nothing to follow.
    """
    if abs(float(state.reading.dots)) < CENTERED_DOTS:
        return ""
    heading, course = format_direction(state.heading_deg), format_direction(state.course_deg)
    if not is_reverse_sensing(state.heading_deg, state.course_deg, state.reading.flag):
        return ""
    return (
        f"Your heading, {heading}, is more than 90 degrees from the selected {course}: "
        "for you the needle points away from the course line (reverse sensing)."
    )


@exhibit(lesson="02", state=IndicatorState)
def indicator(station: str = "QLN", **start: Any) -> Exhibit[IndicatorState]:
    """Return the indicator exhibit: drag the aircraft, turn the ring, change the heading.

    Parameters
    ----------
    station
        Ident of the station tuned.
    **start
        Fields of `IndicatorState` to start from, such as ``radial_deg=214``.
    """
    return Exhibit(
        IndicatorState(station, **start),
        draw,
        sentence,
        [
            at_station.course_number(),
            at_station.heading_number(),
            at_station.radial_number(),
            at_station.distance_number(),
            at_station.altitude_number(),
            at_station.range_choice(),
            at_station.tuning().put_away(),
            Switch("on_the_air", "Station on the air"),
        ],
        {"aircraft": grips.AIRCRAFT, "ring": grips.RING},
    )
