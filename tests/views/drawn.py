"""A small invented island group for pictures, apart from the course's own."""

from dataclasses import dataclass, replace
from math import cos, radians, sin

import numpy as np

from vorlib.earth.geodesic import Position
from vorlib.views.drawing.picture import Group, Item, Picture, Text, beside
from vorlib.views.instrument.indicator import IndicatorScene, indicator
from vorlib.views.plan.plan import plan
from vorlib.views.plan.scene import PlanScene
from vorlib.vor.receiver import Flag, Reading, Receiver
from vorlib.vor.station import Station


@dataclass(frozen=True)
class Land:
    outline: Position


@dataclass(frozen=True)
class Field:
    name: str
    position: Position


STATION = Station("VAR", Position(46.0, -30.0, 500.0), -9.0, 113.4, "Varrow")
OTHER = Station("DUN", Position(46.2, -29.7, 100.0), -10.0, 115.0, "Dunmere")


def island(lat_deg: float, lon_deg: float, size_nm: float) -> Land:
    """Return a lumpy island of twenty points."""
    turns = np.radians(np.arange(0, 360, 18))
    size_deg = size_nm / 60 * (1 + 0.2 * np.sin(3 * turns))
    return Land(
        Position(
            lat_deg + size_deg * np.cos(turns),
            lon_deg + size_deg * np.sin(turns) / cos(radians(46.0)),
        )
    )


ISLANDS = tuple(
    island(46 + 0.3 * cos(a), -30 + 0.5 * sin(a), 4.0) for a in (0.3, 1.4, 2.6, 3.7, 4.9, 6.0)
)
FIELDS = (
    Field("Varrow Field", Position(46.05, -30.1, 100.0)),
    Field("Sallow Cove", Position(45.85, -29.9, 20.0)),
)


def scene_at(radial_deg: float, distance_nm: float, course_deg: float, **others) -> PlanScene:
    """Return a plan scene with the aircraft on a radial, all overlays shown."""
    parts = {
        "position": STATION.position_on(radial_deg, distance_nm, 4500.0),
        "heading_deg": 30.0,
        "cone_radius_nm": 0.8,
        "islands": ISLANDS,
        "airfields": FIELDS,
        "stations": (STATION, OTHER),
    }
    return PlanScene(STATION, course_deg=course_deg, **(parts | others))


def read(
    radial_deg: float, distance_nm: float, course_deg: float, altitude_ft: float = 4500.0
) -> tuple[Position, Reading]:
    """Return a place on a radial, and what the indicator shows there."""
    there = STATION.position_on(radial_deg, distance_nm, altitude_ft)
    return there, Receiver(course_deg).read(STATION, there)


def groups(items: tuple[Item, ...]) -> list[Group]:
    """Return every group, the inner ones too."""
    found = [item for item in items if isinstance(item, Group)]
    return found + [inner for group in found for inner in groups(group.items)]


def grabbed(picture: Picture, name: str) -> Group:
    """Return the one group that can be grabbed by this name."""
    (group,) = [g for g in groups(picture.items) if g.grab == name]
    return group


def texts(items: tuple[Item, ...], x: float = 0.0, y: float = 0.0) -> list[Text]:
    """Return the upright texts of unturned groups, where they stand in the picture."""
    found: list[Text] = []
    for item in items:
        if isinstance(item, Text):
            found.append(replace(item, x=item.x + x, y=item.y + y))
        elif isinstance(item, Group) and not item.rotate_deg:
            found += texts(item.items, x + item.x, y + item.y)
    return found


def lesson_picture() -> Picture:
    """Return a plan and an indicator side by side, as a lesson shows them."""
    ring = indicator(IndicatorScene(40, -3, Flag.TO))
    return beside(plan(scene_at(214, 12.4, 40)), ring)
