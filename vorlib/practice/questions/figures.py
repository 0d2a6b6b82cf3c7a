"""Figures of questions as plain values; `vorlib.views` draws them."""

from __future__ import annotations

from dataclasses import dataclass

from vorlib.core.angles import wrap_360
from vorlib.core.arguments import finite, positive, within
from vorlib.vor.receiver import DOTS_FULL_SCALE, Flag, Reading
from vorlib.vor.station import Station


@dataclass(frozen=True)
class Dial:
    """An indicator.

    Attributes
    ----------
    course_deg
        The selected course.
    flag
        What the flag reads.
    dots
        The needle, positive right, -5 to 5.
    label
        A letter to call it by, where there are several.

    Raises
    ------
    ValueError
        If the course is not finite or the needle beyond its full scale.
    """

    course_deg: float
    flag: Flag
    dots: float = 0.0
    label: str = ""

    def __post_init__(self) -> None:
        finite("course_deg", self.course_deg)
        within("dots", self.dots, -DOTS_FULL_SCALE, DOTS_FULL_SCALE, "dots")

    @classmethod
    def of(cls, course_deg: float, reading: Reading, label: str = "") -> Dial:
        """Return the dial of one reading, its needle rounded to a tenth of a dot."""
        dots = round(float(reading.dots), 1)
        return cls(float(wrap_360(course_deg)), Flag(int(reading.flag)), dots, label)


@dataclass(frozen=True)
class Spot:
    """A place on a map.

    Attributes
    ----------
    radial_deg, distance_nm
        Where it lies from the map's station.
    label
        A letter to call it by; without one it is the aircraft.
    heading_deg
        Magnetic heading of the aircraft, by the station's declination.

    Raises
    ------
    ValueError
        If a direction is not finite or the distance not above 0.
    """

    radial_deg: float
    distance_nm: float
    label: str = ""
    heading_deg: float = 360.0

    def __post_init__(self) -> None:
        finite("radial_deg", self.radial_deg)
        finite("heading_deg", self.heading_deg)
        positive("distance_nm", self.distance_nm, "NM")


@dataclass(frozen=True)
class Map:
    """A map about a station with its compass rose, true north up.

    Attributes
    ----------
    station
        The station in the middle; its own north is where the rose reads 360.
    spots
        The aircraft, or several places to choose from.
    range_nm
        Distance from the station to the rose.
    """

    station: Station
    spots: tuple[Spot, ...]
    range_nm: float = 25.0


@dataclass(frozen=True)
class QuestionFigure:
    """What is shown with a question: a map, dials, or both.

    Raises
    ------
    ValueError
        If it shows nothing.
    """

    dials: tuple[Dial, ...] = ()
    map: Map | None = None

    def __post_init__(self) -> None:
        if not self.dials and self.map is None:
            raise ValueError("figure must show dials or a map, got neither")

    @property
    def spelled(self) -> str:
        """The whole figure as text, the same on every machine."""
        shown = [
            # plus 0: a centered needle may be -0
            f"{dial.label} {dial.course_deg:.1f} {dial.flag.name} {dial.dots + 0.0:.1f}"
            for dial in self.dials
        ]
        if self.map is not None:
            shown.append(f"{self.map.station.ident} {self.map.range_nm:.1f}")
            shown += [
                f"{spot.label} {spot.radial_deg:.1f} {spot.distance_nm:.1f} {spot.heading_deg:.1f}"
                for spot in self.map.spots
            ]
        return "; ".join(shown)
