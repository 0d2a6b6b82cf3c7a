"""Let a pilot fly for some time with one station tuned, ten looks a second unless told otherwise.

While a command stands the looks ahead are worked out together, and a patient pilot says which of
them is the first to change it.
"""

import math
from collections.abc import Callable
from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np

from vorlib.aircraft.flight import Aircraft, Flight, FlightState, advance, record_rows, row_of
from vorlib.aircraft.stretch import Looks, Steering, bank_toward
from vorlib.aircraft.wind import CALM, Wind, WindLayers
from vorlib.core.angles import difference_deg, fold_360
from vorlib.core.arguments import FloatArray, positive
from vorlib.earth.nearby import Nearby
from vorlib.procedures.panel import FLAGS, Command, Panel, Panels, Passed, Patient, Pilot
from vorlib.vor.coverage import one_for_all
from vorlib.vor.receiver import Readings, Receiver
from vorlib.vor.station import Station

# Looks worked out together: so many of the first command; of another as many as the last one has
# stood for, and as many again, within these bounds; and twice as many as before while one stands.
FIRST_AHEAD, FEWEST_AHEAD, MOST_AHEAD = 512, 48, 128

End = Callable[[Panel], bool]


class Flown(NamedTuple):
    """A flight with the course selected at each moment and what the indicator showed."""

    flight: Flight
    course_deg: FloatArray
    reading: Readings


def fly(
    pilot: Pilot,
    aircraft: Aircraft,
    state: FlightState,
    station: Station,
    course_deg: float,
    seconds: float,
    *,
    wind: Wind | WindLayers = CALM,
    variation_deg: float | None = None,
    until: End | None = None,
    looks_per_s: float = 10.0,
) -> Flown:
    """Let a pilot fly for some time with one station tuned.

    Parameters
    ----------
    pilot
        Called with the panel at every look, but for those of which a patient one says that they
        change nothing.
    aircraft, state
        What is flown, and the moment it starts from.
    station, course_deg
        The station tuned and the course selected at first, magnetic.
    seconds
        Longest time to fly, more than 0.
    wind
        True wind, or layers of it.
    variation_deg
        Variation of the compass, positive east; the station's declination if none is given.
    until
        Ends the flight when it says so of the panel; `vorlib.procedures.panel.Passed` is quickest.
    looks_per_s
        How often the pilot looks and corrects.
    """
    looks, selected = fly_looks(
        pilot, aircraft, state, station, course_deg, seconds,
        wind=wind, variation_deg=variation_deg, until=until, looks_per_s=looks_per_s,
    )  # fmt: skip
    return flown(looks, selected, aircraft, station, wind)


def flown(
    looks: Looks,
    selected_deg: FloatArray,
    aircraft: Aircraft,
    station: Station,
    wind: Wind | WindLayers,
) -> Flown:
    """Return the flight that looks and the courses selected at them make, read at each of them."""
    flight = record_rows(looks.T, aircraft, wind)
    there = flight.position
    distance_nm, azimuth_deg = Nearby(station.position).line(there.lat_deg, there.lon_deg)
    receiver, altitude_ft = Receiver(selected_deg), one_for_all(there.altitude_ft)
    reading = receiver.read_along(station, azimuth_deg, distance_nm, altitude_ft)
    return Flown(flight, selected_deg, reading)


def fly_looks(
    pilot: Pilot,
    aircraft: Aircraft,
    state: FlightState,
    station: Station,
    course_deg: float,
    seconds: float,
    *,
    wind: Wind | WindLayers = CALM,
    variation_deg: float | None = None,
    until: End | None = None,
    looks_per_s: float = 10.0,
) -> tuple[Looks, FloatArray]:
    """Fly as `fly` does, and return all looks, shape (6, n), and the courses selected."""
    positive("seconds", seconds, "s")
    step_s = 1.0 / float(positive("looks_per_s", looks_per_s, "looks per second"))
    left = math.ceil(seconds / step_s - 1e-9)
    variation = station.declination_deg if variation_deg is None else variation_deg
    watch = _AtPanel(pilot, until)
    flying = _Flying(station, Nearby(station.position), variation, wind, Steering(aircraft, step_s))
    parts, courses = [_column(state)], [np.array([course_deg])]
    command = watch.answer(flying.panel(state, course_deg)) if left else None
    standing, stood, ahead = None, 0, FIRST_AHEAD
    while command is not None:
        if flying.is_level(state) and (watch.is_patient or command == standing):
            coming = flying.looks(state, command, min(ahead, left))
            panels = flying.panels(coming, command.course_deg)
            seen, answer = watch.answers(panels, command, panels.count == left)
            state = FlightState(*coming[:, seen - 1].tolist())
        else:
            state, seen = flying.look(state, command), 1
            coming = _column(state)
            answer = watch.answer(flying.panel(state, command.course_deg)) if left > 1 else None
        parts.append(coming[:, :seen])
        courses.append(np.full(seen, command.course_deg))
        left -= seen
        stood = stood + seen if command == standing else seen
        stands, again = answer == command, max(FEWEST_AHEAD, min(2 * stood, MOST_AHEAD))
        ahead = min(2 * ahead, FIRST_AHEAD) if stands else again
        standing, command = command, answer
    return np.concatenate(parts, axis=1), np.concatenate(courses)


class _AtPanel:
    """A pilot at the panel, and what ends the flight."""

    def __init__(self, pilot: Pilot, until: End | None) -> None:
        self._pilot, self._until = pilot, until
        self._patient: Patient | None = None
        if isinstance(pilot, Patient) and (until is None or isinstance(until, Passed)):
            self._patient = pilot
        self.is_patient = self._patient is not None

    def answer(self, panel: Panel) -> Command | None:
        """Return what the pilot commands, None where the flight ends."""
        return None if self._until is not None and self._until(panel) else self._pilot(panel)

    def answers(
        self, panels: Panels, standing: Command, is_last: bool
    ) -> tuple[int, Command | None]:
        """Return how many looks pass until there is another command, and that one; None at the end.

        At the last look of a flight nobody is asked.
        """
        count = panels.count
        end = asked = count - is_last
        if isinstance(self._until, Passed):
            end = min(asked, self._until.first(panels))
        panels, look = panels.first(end), 0
        while look < end:
            if self._patient is not None:
                look = self._patient.unmoved(panels, look)
                if look == end:
                    break
            command = self.answer(panels.at(look))
            look += 1
            if command is not standing and command != standing:
                return look, command
        if end < asked:
            return end + 1, None
        return count, None if is_last else standing


class _Flying(NamedTuple):
    """What stays the same during a flight: station, compass, air and steering."""

    station: Station
    nearby: Nearby
    variation_deg: float
    wind: Wind | WindLayers
    steering: Steering

    def is_level(self, state: FlightState) -> bool:
        """Whether the aircraft stays in one wind."""
        return isinstance(self.wind, Wind) and state.climb_ft_min == 0.0

    def look(self, state: FlightState, command: Command) -> FlightState:
        """Return the moment of the next look."""
        wanted_deg = command.heading_deg + self.variation_deg
        aircraft, step_s = self.steering.aircraft, self.steering.step_s
        bank_deg = bank_toward(difference_deg(wanted_deg, state.true_heading_deg), aircraft)
        return advance(state, aircraft, step_s, bank_deg, self.wind)

    def looks(self, state: FlightState, command: Command, count: int) -> Looks:
        """Return the looks of level flight while a command stands."""
        assert isinstance(self.wind, Wind)
        wanted_deg = command.heading_deg + self.variation_deg
        return self.steering.stretch(state, wanted_deg, count, self.wind)

    def panel(self, state: FlightState, course_deg: float) -> Panel:
        """Return what the pilot sees at one look."""
        dots, flag = self._glance(state.lat_deg, state.lon_deg, state.altitude_ft, course_deg)
        heading_deg = fold_360(state.true_heading_deg - self.variation_deg)
        return Panel(state.time_s, heading_deg, course_deg, dots, FLAGS[flag])

    def panels(self, looks: Looks, course_deg: float) -> Panels:
        """Return what the pilot sees at looks of level flight."""
        time_s, lat_deg, lon_deg, altitude_ft, heading_deg, _ = looks
        dots, flag = self._glance(lat_deg, lon_deg, float(altitude_ft[0]), course_deg)
        return Panels(time_s, heading_deg - self.variation_deg, course_deg, dots, flag)

    def _glance(self, lat_deg: Any, lon_deg: Any, altitude_ft: float, course_deg: float) -> Any:
        distance_nm, azimuth_deg = self.nearby.line(lat_deg, lon_deg)
        return _receiver(course_deg).glance(self.station, azimuth_deg, distance_nm, altitude_ft)


@lru_cache(maxsize=32)  # a course stays selected for many looks
def _receiver(course_deg: float) -> Receiver[float]:
    return Receiver(course_deg)


def _column(state: FlightState) -> Looks:
    return np.array([row_of(state)]).T
