"""The scene of a lesson's tasks: where they begin, their station, and the wind."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

from vorlib.aircraft.wind import WindTriangle, wind_triangle
from vorlib.briefing.card import CardPlace, LessonCard, Seen, StationNotes, place_notes
from vorlib.core.angles import format_direction, wrap_360
from vorlib.core.units import NO_BREAK
from vorlib.earth.geodesic import direct
from vorlib.vor.station import Station

NEAREST_START_NM = 5.0  # nearer to the station there is no time for an intercept
# Starts to try if the middle of the area is too near a station: shares of its radius, directions.
START_SHARES, START_AZIMUTHS_DEG = (0.7, 0.35, 0.15), (225.0, 135.0, 315.0, 45.0)


@dataclass(frozen=True)
class LessonScene:
    """What all tasks of a lesson have in common.

    Attributes
    ----------
    card, notes
        The lesson's numbers, and those of its station.
    begin, seen
        Where the tasks start, and how the station is received there.
    """

    card: LessonCard
    notes: StationNotes
    begin: CardPlace
    seen: Seen

    @property
    def station(self) -> Station:
        """The station."""
        return self.notes.listed.station

    @property
    def in_wind(self) -> str:
        """Words for the wind in the figures: "in the wind" or "in calm air"."""
        return "in the wind" if self.card.lesson.wind.speed_kt else "in calm air"

    def holding(self, course_deg: float) -> WindTriangle:
        """Return the heading from the station's north that holds a course in the forecast wind.

        Raises
        ------
        ValueError
            If there is no such heading, or the aircraft would make no headway.
        """
        lesson = self.card.lesson
        wind, speed_kt = lesson.wind, lesson.aircraft.true_airspeed_kt
        from_deg = wind.from_deg - self.station.declination_deg
        try:
            return wind_triangle(course_deg, speed_kt, from_deg, float(wind.speed_kt))
        except ValueError:
            raise ValueError(
                f"in a wind of {float(wind.speed_kt):.0f} kt from "
                f"{format_direction(float(wind.from_deg))} true no heading makes headway along "
                f"course {format_direction(course_deg)} at {speed_kt:.0f} kt true airspeed"
            ) from None

    def compass_deg(self, course_deg: float, turned_deg: float = 0.0) -> float:
        """Return the compass heading for a course from the station's north, after a turn off it.

        Each step is in whole degrees, as a pilot reckons, so that the steps on the card add up.
        """
        off = round(course_deg + round(turned_deg))
        return float(wrap_360(off + round(self.notes.drift_deg)))

    def by_compass(self, heading_deg: float) -> str:
        """Return a heading from the station's north as today's compass shows it."""
        return format_direction(self.compass_deg(heading_deg))

    def heading(self, course_deg: float) -> str:
        """Return the compass heading that holds a course, with the steps from course to heading."""
        correction_deg = float(self.holding(course_deg).correction_deg)
        return self.compass_steps(course_deg, correction_deg, "wind")

    def compass_steps(self, course_deg: float, turned_deg: float, why: str) -> str:
        """Return a compass heading with the steps to it: course, turn, difference of norths."""
        turned, north = round(turned_deg), round(self.notes.drift_deg)
        own = format_direction(course_deg + turned)
        steps = (format_direction(course_deg), _signed(turned), why, "=", f"{own};")
        last = NO_BREAK.join((_signed(north), "north"))
        heading = format_direction(self.compass_deg(course_deg, turned))
        return f"{heading} ({NO_BREAK.join(steps)} {last})"

    def distance(self, seen: Seen) -> str:
        """Return a distance over the ground and, for a station with DME, the DME reading."""
        shown = "" if self.notes.listed.kind == "VOR" else f", DME {seen.dme_nm:.1f}"
        return f"{seen.distance_nm:.1f} NM{shown}"

    def minutes(self, distance_nm: float, course_deg: float) -> str:
        """Return the time for a distance along a course, and the groundspeed."""
        speed = float(self.holding(course_deg).groundspeed_kt)
        return f"{distance_nm / speed * 60.0:.1f} min at {speed:.0f} kt over the ground"


def _signed(degrees: int) -> str:
    return f"{'-' if degrees < 0 else '+'}{NO_BREAK}{abs(degrees)}"


def start_of(card: LessonCard) -> CardPlace:
    """Return where the tasks start: the middle of the area, or beside it if a station is near."""
    return scene_of(card).begin


def scene_of(card: LessonCard) -> LessonScene:
    """Return the scene of a lesson's tasks.

    Raises
    ------
    ValueError
        If no station is received in the practice area at the planned altitude.
    """
    begin = card.center
    if not begin.received or begin.received[0].distance_nm < NEAREST_START_NM:
        lesson = card.lesson
        for share, true_azimuth_deg in product(START_SHARES, START_AZIMUTHS_DEG):
            off = direct(lesson.center, true_azimuth_deg, share * lesson.radius_nm)
            begin = place_notes("start", off, lesson)
            if begin.received and begin.received[0].distance_nm >= NEAREST_START_NM:
                break
    if not begin.received:
        raise ValueError(
            "no station is received in the practice area at the planned altitude: choose another "
            f"area, or a higher altitude{_too_low(card)}"
        )
    nearest = begin.received[0]
    notes = next(n for n in card.stations if n.listed.station is nearest.station)
    return LessonScene(card, notes, begin, nearest)


def _too_low(card: LessonCard) -> str:
    """Return a remark if the nearest station is higher than the planned altitude, else nothing."""
    nearest = min(card.center.seen, key=lambda one: one.distance_nm).station
    antenna_ft, altitude_ft = float(nearest.position.altitude_ft), card.lesson.altitude_ft
    if altitude_ft > antenna_ft:
        return ""
    return f": {nearest.name} stands at {antenna_ft:,.0f} ft, above the {altitude_ft:,.0f} planned"
