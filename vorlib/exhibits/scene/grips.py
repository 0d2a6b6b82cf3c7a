"""Grips for pictures about one station: move the aircraft and turn the ring by drag or key."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, Protocol, TypeVar

from vorlib.exhibits.base.exhibit import Grip
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.scene.at_station import GAP, RoundStation, farthest_nm
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.instrument.indicator import CENTER
from vorlib.views.plan.plan import SIZE, Overlay, projection
from vorlib.views.plan.projection import StationProjection
from vorlib.vor.station import Station

KEY_STEP = 2.0  # picture units one arrow key moves the aircraft

Changes = dict[str, Any]
S = TypeVar("S")


class Placed(Protocol):
    """Something on a radial of a station, at a distance."""

    @property
    def tuned(self) -> Station: ...
    @property
    def radial_deg(self) -> float: ...
    @property
    def distance_nm(self) -> float: ...


def moved_from(
    placed: Placed, layout: StationProjection, right: float, down: float
) -> tuple[float, float]:
    """Return the radial and the distance of a place some picture units from another."""
    station = placed.tuned
    azimuth_deg = placed.radial_deg + station.declination_deg
    x, y = layout.polar_to_xy(azimuth_deg, placed.distance_nm)
    line = station.inverse(layout.to_position(x + right, y + down))
    return float(station.radial_of_azimuth_deg(line.true_azimuth_deg)), float(line.distance_nm)


def _moved(state: RoundStation, right: float, down: float, theme: Theme) -> Changes:
    """Return the radial and distance of a place some picture units from where the aircraft is."""
    layout = projection(state.plan_scene(Overlay.NONE), theme)
    radial_deg, distance_nm = moved_from(state, layout, right, down)
    distance_nm = round(min(distance_nm, farthest_nm(state)), 2)
    if distance_nm == 0.0:
        return {"distance_nm": 0.0}  # overhead there is no radial: keep the last one
    return {"radial_deg": round(radial_deg, 1), "distance_nm": distance_nm}


def moved_by_hand(moved: Callable[[S, float, float, Theme], Changes]) -> Grip[S]:
    """Return a grip that moves a thing on the map by drag or key: right is east, up is north.

    Parameters
    ----------
    moved
        Takes the state, picture units right and down, and the theme; returns the changes.
    """
    return Grip(
        lambda state, drag, theme: moved(state, drag.x - drag.x0, drag.y - drag.y0, theme),
        lambda state, steps: moved(state, KEY_STEP * steps.right, -KEY_STEP * steps.up, SCREEN),
    )


def turned_deg(drag: Drag, center: tuple[float, float]) -> float:
    """Return how far a drag has turned about a point, clockwise positive."""
    x, y = center
    begun = math.atan2(drag.x0 - x, y - drag.y0)
    now = math.atan2(drag.x - x, y - drag.y)
    return math.degrees(now - begun)


RING_CENTER = (SIZE + GAP + CENTER[0], CENTER[1])  # the indicator stands to the right of the plan


def turn_ring(state: RoundStation, drag: Drag, theme: Theme) -> Changes:
    """Turn the course ring by a drag: clockwise brings lower courses to the index."""
    return {"course_deg": float(round(state.course_deg - turned_deg(drag, RING_CENTER)))}


def step_ring(state: RoundStation, steps: Steps) -> Changes:
    """Change the selected course by a degree for each step: right or up is more."""
    return {"course_deg": state.course_deg + steps.right + steps.up}


AIRCRAFT = moved_by_hand(_moved)
RING = Grip(turn_ring, step_ring, wheel=True)
