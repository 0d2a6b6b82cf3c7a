"""The radials exhibit: radial, bearing and heading; true and magnetic; declination, variation."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import ipywidgets as widgets

from vorlib.core.angles import east_or_west, format_direction, reciprocal_deg
from vorlib.core.words import spoken_declination
from vorlib.earth.variation import variation_deg
from vorlib.exhibits.base.controls import Number, Switch
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.plain import put_away
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.scene import at_station, grips
from vorlib.exhibits.scene.figures import FigureImage, figures
from vorlib.stations.archipelago import DECLINATION_YEARS, TODAY
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.plan import Overlay, plan
from vorlib.views.sentence import where_sentence

__all__ = ["RadialsState", "draw", "radials", "sentence"]

NOSE_SHARE = 0.3  # length of the line ahead of the nose, as a share of the map's range
HIDDEN = "hidden: place the aircraft by eye"


@dataclass(frozen=True)
class RadialsState(at_station.AtStation):
    """An aircraft round a station, and what the exhibit shows.

    Attributes
    ----------
    rose, rings, radial
        Whether to draw the compass rose, the range rings and the line of the radial.
    true_north
        Whether to give the figures from true north, with declination and variation.
    figures
        Whether to give any figures, in the picture, in the sentence and in the controls; without
        them the learner places the aircraft by eye.
    """

    rose: bool = True
    rings: bool = True
    radial: bool = True
    true_north: bool = False
    figures: bool = True

    @property
    def overlays(self) -> Overlay:
        """What is drawn over the map."""
        chosen = Overlay.NONE
        for wanted, overlay in (
            (self.rose, Overlay.ROSE),
            (self.rings, Overlay.RINGS),
            (self.radial and self.figures, Overlay.RADIAL),
        ):
            if wanted:
                chosen |= overlay
        return chosen

    @property
    def variation_deg(self) -> float:
        """Magnetic variation at the station on the day of the lessons, positive east."""
        return float(variation_deg(self.tuned.position, TODAY))


def draw(state: RadialsState, theme: Theme) -> Picture:
    """Return the plan view, with a line along the nose, and the figures beside it."""
    scene = replace(
        state.plan_scene(state.overlays, with_course=False),
        intended=(state.nose_line(NOSE_SHARE * state.range_nm),),
    )
    return beside(plan(scene, theme), figures(_figures(state), theme), at_station.GAP)


def _figures(state: RadialsState) -> tuple[FigureImage, ...]:
    station, there = state.tuned, state.there
    if not state.figures:
        return (FigureImage("Radial", "?", HIDDEN), FigureImage("Distance", "?", HIDDEN))
    rows = (
        FigureImage(
            "Radial", format_direction(state.radial_deg), "from the station to you", strong=True
        ),
        FigureImage(
            "Bearing to station", format_direction(_bearing_deg(state)), "from you to the station"
        ),
        FigureImage("Heading", format_direction(state.heading_deg), "where your nose points"),
    )
    if not state.true_north:
        return rows
    year = DECLINATION_YEARS[state.station]
    return (
        *rows,
        FigureImage(
            "True azimuth",
            format_direction(float(station.true_azimuth_deg(there))),
            "the radial, by true north",
        ),
        FigureImage(
            "Declination", east_or_west(station.declination_deg), f"of the station, set in {year}"
        ),
        FigureImage(
            "Variation", east_or_west(state.variation_deg), f"here, on {TODAY.day} {TODAY:%B %Y}"
        ),
        FigureImage(
            "Magnetic bearing",
            format_direction(float(station.magnetic_bearing_deg(there, TODAY))),
            "from the station, by variation",
        ),
    )


def _bearing_deg(state: RadialsState) -> float:
    return float(reciprocal_deg(state.radial_deg))


def sentence(state: RadialsState) -> str:
    """Say where the aircraft is, and give its radial, bearing and heading."""
    station, there = state.tuned, state.there
    if not state.figures:
        return f"You are somewhere around {station.name}. Say where, then switch Figures on."
    bearing, heading = map(format_direction, (_bearing_deg(state), state.heading_deg))
    words = (
        f"{where_sentence(station, there)} The bearing to the station is {bearing}; "
        f"your heading is {heading}."
    )
    if not state.true_north:
        return words
    azimuth = format_direction(float(station.true_azimuth_deg(there)))
    today = format_direction(float(station.magnetic_bearing_deg(there, TODAY)))
    return (
        f"{words} Counted from true north the same line is {azimuth}, because the station's "
        f"declination is {spoken_declination(station.declination_deg)}; by today's variation, "
        f"{spoken_declination(state.variation_deg)}, it is {today} magnetic."
    )


class _Told:
    """A control whose value gives a figure away, so it shows only when figures do."""

    widget: widgets.Widget

    def follow(self, state: RadialsState) -> None:
        """Show or hide the control."""
        super().follow(state)  # type: ignore[misc]
        put_away(self.widget, not state.figures)


class _Radial(_Told, Number):
    """The radial that the aircraft is on."""


class _Distance(_Told, at_station.Distance):
    """The aircraft's distance from the station."""


@exhibit(lesson="01", state=RadialsState)
def radials(station: str = "QLN", **start: Any) -> Exhibit[RadialsState]:
    """Return the radials exhibit: drag the aircraft round a station.

    Parameters
    ----------
    station
        Ident of the station.
    **start
        Fields of `RadialsState` to start from, such as ``radial_deg=214``.
    """
    return Exhibit(
        RadialsState(station, **start),
        draw,
        sentence,
        [
            _Radial("radial_deg", "Aircraft on radial", decimals=1, direction=True),
            _Distance(),
            at_station.heading_number(),
            at_station.range_choice(),
            at_station.tuning().put_away(),
            Switch("figures", "Figures"),
            Switch("rose", "Compass rose"),
            Switch("rings", "Range rings"),
            Switch("radial", "Radial"),
            Switch("true_north", "True north, declination and variation"),
        ],
        {"aircraft": grips.AIRCRAFT},
    )
