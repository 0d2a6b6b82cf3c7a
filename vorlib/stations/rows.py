"""Read one row of a published table, with errors that name the column."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from vorlib.core.arguments import ArgumentError, within
from vorlib.earth.geodesic import Position
from vorlib.io.text import latitude_deg, longitude_deg, number
from vorlib.vor.coverage import check_service
from vorlib.vor.station import IDENT, Station, check_frequency


class RowLeftOut(Exception):
    """A good row that is not kept; the argument is the reason."""


@dataclass(frozen=True)
class ListedStation:
    """A station as a published list has it.

    Attributes
    ----------
    station
        The station; its declination is the list's, never today's variation.
    kind
        "VOR", "VOR/DME" or "VORTAC".
    line
        Where the file has it.
    country, status
        As the list has them; empty when it does not say.
    declination_year
        The year in which the station was lined up with magnetic north, if the list says.
    effective
        The day on which the row took effect, if the list says.
    assumed
        What the list leaves open and was filled in, in words.
    """

    station: Station
    kind: str
    line: int
    country: str = ""
    status: str = ""
    declination_year: int | None = None
    effective: date | None = None
    assumed: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """The station in a line: ident, name, kind, frequency, place and line of the file."""
        place = self.station.position
        country = f", {self.country}" if self.country else ""
        return (
            f"{self.station.ident} {self.station.name}, {self.kind} "
            f"{self.station.frequency_mhz:.2f} MHz{country}, at {float(place.lat_deg):.3f}, "
            f"{float(place.lon_deg):.3f} (line {self.line})"
        )


@dataclass(frozen=True)
class Row:
    """The cells of one row by the name of their column."""

    line: int
    cells: Mapping[str, str]

    def text(self, column: str) -> str:
        """Return a cell as it stands."""
        return self.cells[column]

    def number(self, column: str, low: float, high: float, unit: str) -> float:
        """Return a number within bounds."""
        return float(within(column, number(column, self.cells[column]), low, high, unit))

    def ident(self, column: str) -> str:
        """Return an ident of one to four capital letters."""
        ident = self.cells[column]
        if not IDENT.fullmatch(ident):
            raise ArgumentError(
                f"{column} must be one to four capital letters, got {ident!r}", argument=column
            )
        return ident

    def frequency_mhz(self, column: str, unit_mhz: float) -> float:
        """Return a frequency given in a unit of so many MHz."""
        given = number(column, self.cells[column])
        try:
            return check_frequency(given * unit_mhz)
        except ValueError as error:
            words = str(error).replace("frequency_mhz", f"{column} in MHz")
            raise ArgumentError(words, argument=column) from None

    def service(self, column: str) -> str:
        """Return a standard service volume."""
        try:
            return check_service(self.cells[column])
        except ValueError as error:
            raise ArgumentError(f"{column}: {error}", argument=column) from None

    def position(self, lat: str, lon: str, elevation_ft: float) -> Position:
        """Return the place in two columns, at an elevation."""
        cells = self.cells
        return Position(latitude_deg(lat, cells[lat]), longitude_deg(lon, cells[lon]), elevation_ft)

    def day(self, column: str, layout: str) -> date:
        """Return a day written as *layout* has it."""
        try:
            return datetime.strptime(self.cells[column], layout).date()
        except ValueError:
            raise ArgumentError(
                f"{column} must be a day such as {date(2026, 5, 14).strftime(layout)}, got "
                f"{self.cells[column]!r}",
                argument=column,
            ) from None
