"""What a plan view shows, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Flag, auto
from typing import Protocol

from vorlib.aircraft.wind import Wind
from vorlib.core.arguments import finite, not_negative, positive, within
from vorlib.earth.geodesic import Position, Positions
from vorlib.vor.station import Station

__all__ = ["Coast", "Intended", "NamedPlace", "Overlay", "PlanScene", "Trace"]


class Coast(Protocol):
    """An island: the points of its outline in order, the last joined to the first."""

    @property
    def outline(self) -> Positions: ...


class NamedPlace(Protocol):
    """Anything with a name and one position."""

    @property
    def name(self) -> str: ...
    @property
    def position(self) -> Position: ...


class Overlay(Flag):
    """What to draw over the map."""

    NONE = 0
    ROSE = auto()
    RINGS = auto()
    RADIAL = auto()
    COURSE = auto()
    ABEAM = auto()
    HALVES = auto()
    WEDGE = auto()
    CONE = auto()
    ALL = ROSE | RINGS | RADIAL | COURSE | ABEAM | HALVES | WEDGE | CONE


@dataclass(frozen=True)
class Trace:
    """Where an aircraft has been, with a name to tell it from others.

    Attributes
    ----------
    name
        Label beside the end of the line; empty for none.
    track
        Positions of shape (n,), in order of time.
    dashed
        Whether to draw the line dashed.
    heading_deg
        Magnetic heading of a hollow aircraft drawn at the end, or None to draw none.
    """

    name: str
    track: Positions
    dashed: bool = False
    heading_deg: float | None = None


@dataclass(frozen=True)
class Intended:
    """A straight line over the ground that is intended but not flown yet.

    Attributes
    ----------
    start, end
        Where it begins and ends.
    name
        Label beside it, such as "heading 100"; empty for none.
    meets
        Label beside its end, which a ring marks; empty for no label and no ring.
    onto_deg
        Magnetic course to turn onto at its end; the angle of the turn is drawn and labeled. None
        draws no angle.
    """

    start: Position
    end: Position
    name: str = ""
    meets: str = ""
    onto_deg: float | None = None


@dataclass(frozen=True)
class PlanScene:
    """What a plan view shows.

    Attributes
    ----------
    station
        The station in the middle.
    range_nm
        Distance from the station to the compass rose.
    position
        Where the aircraft is; None hides it.
    heading_deg
        Magnetic heading by the station's declination: true heading = heading + declination.
    course_deg
        The selected course; None draws nothing that depends on it.
    full_scale_deg
        Half the width of the wedge in which the needle is off its stops.
    cone_radius_nm
        Radius of the cone of confusion at the aircraft's height; 0 draws none.
    service_nm
        Radius of the station's service volume at the aircraft's height, drawn with the cone where
        the map holds it; 0 draws none.
    overlays
        What to draw over the map.
    islands, airfields, stations
        What the map shows: islands have an `outline`, airfields a `name` and a `position`.
    track
        Where the aircraft has been, as positions of shape (n,), or None.
    traces
        Named tracks, of this aircraft or of others.
    intended
        Intended lines, drawn dashed.
    wind
        A wind to show, its direction from the station's north like the heading; None for none.
    by_hand
        Whether the learner can drag the aircraft.

    Raises
    ------
    ValueError
        If a quantity is not finite or out of range, or `position` is not one place.
    """

    station: Station
    range_nm: float = 25.0
    position: Position | None = None
    heading_deg: float = 360.0
    course_deg: float | None = None
    full_scale_deg: float = 10.0
    cone_radius_nm: float = 0.0
    service_nm: float = 0.0
    overlays: Overlay = Overlay.ALL
    islands: tuple[Coast, ...] = ()
    airfields: tuple[NamedPlace, ...] = ()
    stations: tuple[Station, ...] = ()
    track: Positions | None = None
    traces: tuple[Trace, ...] = ()
    intended: tuple[Intended, ...] = ()
    wind: Wind | None = None
    by_hand: bool = True

    def __post_init__(self) -> None:
        positive("range_nm", self.range_nm, "NM")
        within("full_scale_deg", self.full_scale_deg, 0.1, 89.9, "degrees")
        finite("heading_deg", self.heading_deg)
        not_negative("cone_radius_nm", self.cone_radius_nm, "NM")
        not_negative("service_nm", self.service_nm, "NM")
        if self.course_deg is not None:
            finite("course_deg", self.course_deg)
        if self.position is not None and self.position.shape != ():
            raise ValueError(f"position must be one place, got shape {self.position.shape}")
