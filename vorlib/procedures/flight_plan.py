"""A flight plan along radials: courses, headings in the forecast wind, distances, times, leads.

Courses are those set on the indicator, from the station's own north; headings are by the compass,
from the magnetic north of the day. For training on the ground, not for navigation.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.wind import Wind, wind_triangle
from vorlib.core.angles import difference_deg, format_direction, mean_direction_deg, wrap_360
from vorlib.core.arguments import ArgumentError
from vorlib.core.words import spoken_declination
from vorlib.earth.geodesic import Position, inverse
from vorlib.morse import encode
from vorlib.procedures.intercept import Intercept, plan_intercept
from vorlib.vor.station import Station

__all__ = ["FlightPlan", "LegPlan", "PlannedLeg"]


@dataclass(frozen=True)
class PlannedLeg:
    """A leg along one course.

    Attributes
    ----------
    name
        Where it leads, such as "to Quillon".
    station, course_deg, inbound
        The station tuned, the course selected, and whether it leads to the station.
    begin, end
        Where the leg begins and ends.
    """

    name: str
    station: Station
    course_deg: float
    inbound: bool
    begin: Position
    end: Position


class LegPlan(NamedTuple):
    """What to expect on a leg: true track, compass heading, NM, groundspeed in knots, minutes."""

    true_track_deg: float
    heading_deg: float
    distance_nm: float
    groundspeed_kt: float
    minutes: float


@dataclass(frozen=True)
class FlightPlan:
    """A route in a forecast wind.

    Attributes
    ----------
    legs
        One or more, in the order flown.
    aircraft, altitude_ft
        Performance of the aircraft, and altitude in feet.
    wind
        Forecast wind, true.
    variation_deg
        Variation of the compass on the day, positive east.
    """

    legs: tuple[PlannedLeg, ...]
    aircraft: Aircraft
    altitude_ft: float
    wind: Wind
    variation_deg: float

    def __post_init__(self) -> None:
        if not self.legs:
            raise ArgumentError("legs must hold at least one leg", argument="legs")

    def expected(self, leg: PlannedLeg) -> LegPlan:
        """Return what to expect on a leg.

        Raises
        ------
        ValueError
            If no heading holds the course in this wind.
        """
        line = inverse(leg.begin.lat_deg, leg.begin.lon_deg, leg.end.lat_deg, leg.end.lon_deg)
        track = float(mean_direction_deg([line.true_azimuth_deg, line.true_azimuth_end_deg]))
        speed = self.aircraft.true_airspeed_kt
        hold = wind_triangle(track, speed, self.wind.from_deg, self.wind.speed_kt)
        distance, over_ground = float(line.distance_nm), float(hold.groundspeed_kt)
        heading = float(wrap_360(hold.heading_deg - self.variation_deg))
        return LegPlan(track, heading, distance, over_ground, distance / over_ground * 60.0)

    def lead(self, leg: PlannedLeg, begin: Position, heading_deg: float | None = None) -> Intercept:
        """Return the intercept of a leg's course from a place, by heading or double-angle rule.

        Parameters
        ----------
        leg
            The leg whose course is to be met.
        begin
            Where the aircraft is.
        heading_deg
            Compass heading to the course; by default the double-angle rule gives it.
        """
        angle = None
        if heading_deg is not None:
            by_station = heading_deg + self.variation_deg - leg.station.declination_deg
            angle = abs(float(difference_deg(by_station, leg.course_deg)))
        here = start(begin.at_altitude(self.altitude_ft), 360.0)
        return plan_intercept(
            leg.station,
            here,
            self.aircraft,
            leg.course_deg,
            inbound=leg.inbound,
            angle_deg=angle,
            wind=self.wind,
        )

    def lead_words(self, leg: PlannedLeg, met: Intercept) -> str:
        """Return the intercept of a leg's course as a line of text, with the compass heading."""
        north = leg.station.declination_deg - self.variation_deg
        heading = format_direction(met.heading_deg + north)
        return (
            f"Meet {format_direction(leg.course_deg)} {leg.name} on heading {heading}, "
            f"{met.distance_nm:.1f} NM out; begin the turn {met.lead_deg:.1f} degrees or "
            f"{met.lead_s:.0f} s before."
        )

    @property
    def card(self) -> str:
        """The plan as a table in plain text."""
        return "\n".join([self._weather, "", *self._stations, "", *self._table])

    @property
    def _weather(self) -> str:
        true = float(self.wind.from_deg)
        return (
            f"Forecast wind {format_direction(true)} true, which is "
            f"{format_direction(true - self.variation_deg)} by the compass, "
            f"{float(self.wind.speed_kt):.0f} kt\n"
            f"True airspeed {self.aircraft.true_airspeed_kt:.0f} kt, altitude "
            f"{self.altitude_ft:,.0f} ft, variation of the day "
            f"{spoken_declination(self.variation_deg)}"
        )

    @property
    def _stations(self) -> list[str]:
        stations = {leg.station.ident: leg.station for leg in self.legs}
        return [
            f"{s.ident}  {s.name:9} {s.frequency_mhz:6.2f}   {encode(s.ident):16} "
            f"declination {spoken_declination(s.declination_deg)}"
            for s in stations.values()
        ]

    @property
    def _table(self) -> list[str]:
        rows = [f"{'leg':26}select  flag  heading     NM   kt   min"]
        plans = [self.expected(leg) for leg in self.legs]
        for leg, plan in zip(self.legs, plans, strict=True):
            rows.append(
                f"{leg.name:26}{format_direction(leg.course_deg):>6}"
                f"{'TO' if leg.inbound else 'FROM':>6}{format_direction(plan.heading_deg):>9}"
                f"{plan.distance_nm:7.1f}{plan.groundspeed_kt:5.0f}{plan.minutes:6.1f}"
            )
        total_nm, total_min = sum(p.distance_nm for p in plans), sum(p.minutes for p in plans)
        return [*rows, f"{'in all':47}{total_nm:7.1f}{total_min:11.1f}"]
