"""A list of stations: what it left out, how old it is, and the stations chosen from it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from types import MappingProxyType
from typing import Any, NamedTuple

import numpy as np

from vorlib.core.arguments import ArgumentError, FloatArray
from vorlib.core.caution import CAUTION
from vorlib.core.words import spoken_count, spoken_declination, spoken_degrees
from vorlib.earth.geodesic import Position, inverse
from vorlib.stations.rows import ListedStation
from vorlib.vor.station import Station

OLD_DAYS = 56  # two of the 28-day cycles in which the FAA publishes
MORE_THAN_THE_FLATTENING = 1.02  # how far a sphere can put a nearer station behind a farther one
SHOWN_FAULTS = 5


class Near(NamedTuple):
    """A station and its distance from a place, in NM over the ground."""

    listed: ListedStation
    distance_nm: float


@dataclass(frozen=True, eq=False)
class StationList:
    """Stations from one file. For training on the ground, not for navigation.

    Attributes
    ----------
    source
        What sort of file they are from.
    stations
        Those that were kept, in the file's order.
    left_out
        How many rows were left out, by reason.
    faults
        A line for each row that could not be read, with its line, its column and what is allowed.
    """

    source: str
    stations: tuple[ListedStation, ...]
    left_out: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    faults: tuple[str, ...] = ()

    @property
    def effective(self) -> date | None:
        """The oldest day on which a row took effect; None when the file does not say."""
        return min((s.effective for s in self.stations if s.effective), default=None)

    @property
    def assumed(self) -> Mapping[str, int]:
        """How many stations lacked something that was filled in, by what it was."""
        return Counter(words for listed in self.stations for words in listed.assumed)

    @property
    def counted(self) -> str:
        """How many stations there are, in words."""
        return spoken_count(len(self.stations), "VOR station")

    def with_ident(self, ident: str) -> tuple[ListedStation, ...]:
        """Return all stations with an ident, whatever its capitals; idents repeat over the world.

        Raises
        ------
        ValueError
            If there is none.
        """
        wanted = ident.strip().upper()
        found = tuple(s for s in self.stations if s.station.ident == wanted)
        if not found:
            raise ArgumentError(
                f"no station has the ident {wanted!r} in {self.source}", argument="ident"
            )
        return found

    def one(self, ident: str, near: Position | None = None) -> ListedStation:
        """Return the station with an ident; of several, the one nearest to a place.

        Raises
        ------
        ValueError
            If there is none, or several and no place to choose by: they are listed.
        """
        found = self.with_ident(ident)
        if len(found) == 1:
            return found[0]
        if near is not None:
            return StationList(self.source, found).nearest(near, 1)[0].listed
        listed = "\n".join(f"  {station.words}" for station in found)
        raise ArgumentError(
            f"{len(found)} stations have the ident {found[0].station.ident!r}; choose one by a "
            f"place near it:\n{listed}",
            argument="near",
        )

    def nearest(
        self, place: Position, count: int = 5, within_nm: float = np.inf
    ) -> tuple[Near, ...]:
        """Return the stations nearest to a place, nearest first.

        Parameters
        ----------
        place
            One place.
        count
            How many at most, 1 or more.
        within_nm
            How far away at most.
        """
        if place.shape != ():
            raise ArgumentError(
                f"place must be one place, got shape {place.shape}", argument="place"
            )
        if count < 1:
            raise ArgumentError(f"count must be 1 or more, got {count}", argument="count")
        if not self.stations:
            return ()
        # On a sphere first: only the few that may be among the nearest are measured exactly.
        chord = np.linalg.norm(self._on_sphere - _on_sphere(place), axis=1)
        some = min(count, len(chord))
        limit = MORE_THAN_THE_FLATTENING * np.partition(chord, some - 1)[some - 1] + 1e-6
        few = np.flatnonzero(chord <= limit)
        lat, lon = self._places
        exact = inverse(place.lat_deg, place.lon_deg, lat[few], lon[few]).distance_nm
        order = np.argsort(exact, kind="stable")[:some]
        return tuple(
            Near(self.stations[few[i]], float(exact[i])) for i in order if exact[i] <= within_nm
        )

    def summary(self, on: date) -> str:
        """Return what the list holds, what was left out and why, how old it is, and the caution."""
        lines = [f"{self.counted} from {self.source}."]
        lines += [f"  left out, {why}: {n}" for why, n in sorted(self.left_out.items())]
        lines += [f"  {fault}" for fault in self.faults[:SHOWN_FAULTS]]
        if len(self.faults) > SHOWN_FAULTS:
            lines.append(f"  and {len(self.faults) - SHOWN_FAULTS} more such rows")
        lines += [f"  filled in, {what}: {n}" for what, n in sorted(self.assumed.items())]
        return "\n".join([*lines, self.age_words(on), CAUTION])

    def age_days(self, on: date) -> int | None:
        """Return for how many days the data has been in effect; None when its date is unknown."""
        return None if self.effective is None else (on - self.effective).days

    def age_words(self, on: date) -> str:
        """Return how old the data is on a day, with a warning when it is older than 56 days."""
        age = self.age_days(on)
        if age is None:
            return "The file does not say how old it is: compare it with a current publication."
        if age < 0:
            days = spoken_count(-age, "day")
            return f"The data takes effect on {self.effective}, in {days}: not yet valid."
        days = f"{spoken_count(age, 'day')} before {on}" if age else "that very day"
        words = f"The data took effect on {self.effective}, {days}."
        if age > OLD_DAYS:
            words += f" That is more than {OLD_DAYS} days: it is out of date, get the current file."
        return words

    @cached_property
    def _places(self) -> tuple[FloatArray, FloatArray]:
        places = [s.station.position for s in self.stations]
        return np.array([p.lat_deg for p in places]), np.array([p.lon_deg for p in places])

    @cached_property
    def _on_sphere(self) -> FloatArray:
        return _on_sphere(Position(*self._places))


def _on_sphere(place: Position[Any]) -> FloatArray:
    lat, lon = np.radians(place.lat_deg), np.radians(place.lon_deg)
    columns = (np.cos(lat) * np.cos(lon), np.cos(lat) * np.sin(lon), np.sin(lat))
    return np.stack(columns, axis=-1)


def declination_words(listed: ListedStation, on: date) -> str:
    """Return a station's declination, the variation of a day, and their difference, in words."""
    station = listed.station
    drift = float(station.declination_drift_deg(on))
    year = f" since {listed.declination_year}" if listed.declination_year else ""
    today = station.declination_deg - drift
    more = "more" if drift > 0 else "less"
    return (
        f"{station.name}: its declination is {spoken_declination(station.declination_deg)}{year}; "
        f"the variation there on {on} is {spoken_declination(today)}. A magnetic bearing from the "
        f"station is {spoken_degrees(drift, 1)} {more} than the radial."
    )


def listed(
    stations: Mapping[str, Station] | list[Station], source: str, kind: str = "VOR"
) -> StationList:
    """Return stations of one kind as a `StationList`, numbered from 1."""
    values = stations.values() if isinstance(stations, Mapping) else stations
    return StationList(
        source, tuple(ListedStation(s, kind, line) for line, s in enumerate(values, 1))
    )
