"""Find which column of a table of points holds what: declared, or recognized by its name.

Recorders agree on no names. A column is known by the words of its name without its unit, which is
read from the name as well: ``Alt (m)``, ``altitude_ft``, ``GPS Altitude [feet]``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, fields
from datetime import UTC, tzinfo
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from vorlib.core.arguments import quoted
from vorlib.core.units import METERS_PER_FOOT, METERS_PER_NM
from vorlib.io.text import FileError

__all__ = ["ABSENT", "DATE_ORDERS", "FEET_PER_UNIT", "KNOTS_PER_UNIT", "Columns", "found_columns"]

FEET_PER_UNIT = {"ft": 1.0, "m": 1.0 / METERS_PER_FOOT}
KNOTS_PER_UNIT = {"kt": 1.0, "m/s": 3600.0 / METERS_PER_NM, "km/h": 1000.0 / METERS_PER_NM}
DATE_ORDERS = ("mdy", "dmy")  # of 06/01/2026
ABSENT = "-"  # declared for a quantity that is not to be read

# The names by which a quantity is known, the surest first.
NAMES = {
    "time": (
        "time utc", "utc time", "utc", "gps time", "unix time", "epoch", "timestamp", "date time",
        "datetime", "time", "elapsed time", "elapsed", "seconds",
    ),
    "date": ("date utc", "utc date", "gps date", "date", "day"),
    "lat_deg": ("latitude", "lat", "gps latitude", "gps lat", "latitude gps"),
    "lon_deg": ("longitude", "lon", "long", "lng", "gps longitude", "gps lon", "longitude gps"),
    "altitude": (
        "altitude", "alt", "altitude msl", "alt msl", "msl altitude", "gps altitude", "gps alt",
        "altitude gps", "alt gps", "elevation", "ele", "height",
    ),
    "true_heading_deg": ("true heading", "heading true", "hdg true", "true hdg"),
    "magnetic_heading_deg": (
        "magnetic heading", "heading magnetic", "mag heading", "heading mag", "hdg mag", "mag hdg",
    ),
    "speed": (
        "ground speed", "groundspeed", "gs", "gnd spd", "gnd speed", "speed over ground",
        "gps speed", "speed gps", "speed",
    ),
}  # fmt: skip
UNITS = {
    "ft": "ft", "feet": "ft", "foot": "ft", "m": "m", "meter": "m", "meters": "m", "metre": "m",
    "metres": "m", "kt": "kt", "kts": "kt", "knots": "kt", "mps": "m/s", "kmh": "km/h",
    "kph": "km/h", "deg": "", "degrees": "", "degree": "", "s": "", "sec": "",
}  # fmt: skip
SAID = {
    "time": "time", "date": "date", "lat_deg": "latitude", "lon_deg": "longitude",
    "altitude": "altitude", "true_heading_deg": "true heading",
    "magnetic_heading_deg": "magnetic heading", "speed": "speed over the ground",
}  # fmt: skip


@dataclass(frozen=True)
class Columns:
    """Which column of a file holds what.

    An empty name says that it is to be found by its name, "-" that none holds it.

    Attributes
    ----------
    time
        Day and time such as 2026-06-01T09:00:00Z, Unix time in seconds or milliseconds, seconds of
        the flight, or with `date` the time alone.
    date
        The day, in a column of its own.
    lat_deg, lon_deg
        Degrees with decimals, positive north and east.
    altitude
        Altitude above the sea, in the unit that `altitude_unit` names, "ft" or "m".
    true_heading_deg, magnetic_heading_deg
        Heading, of which one is enough.
    speed
        Speed over the ground, in the unit that `speed_unit` names, "kt", "m/s" or "km/h".
    date_order
        Of days such as 06/01/2026: "mdy" or "dmy".
    zone
        The zone of times that are written without one, such as "UTC" or "Atlantic/Azores".
    """

    time: str = ""
    date: str = ""
    lat_deg: str = ""
    lon_deg: str = ""
    altitude: str = ""
    true_heading_deg: str = ""
    magnetic_heading_deg: str = ""
    speed: str = ""
    altitude_unit: str = ""
    speed_unit: str = ""
    date_order: str = ""
    zone: str = "UTC"

    def __post_init__(self) -> None:
        for name, allowed in (
            ("altitude_unit", FEET_PER_UNIT),
            ("speed_unit", KNOTS_PER_UNIT),
            ("date_order", DATE_ORDERS),
        ):
            value = getattr(self, name)
            if value and value not in allowed:
                listed = " or ".join(map(repr, allowed))
                raise ValueError(f"{name} must be {listed}, got {quoted(value)}")
        for name in ("time", "lat_deg", "lon_deg"):
            if getattr(self, name) == ABSENT:
                raise ValueError(f"the column of {name} must be named")
        _ = self.time_zone

    @classmethod
    def from_words(cls, words: str) -> Columns:
        """Return the columns declared in words; those that are not named are found by their names.

        Raises
        ------
        ValueError
            If the words are no declaration, or a name is not one of the attributes.

        >>> Columns.from_words("lat_deg=Latitude,altitude=Height,altitude_unit=m").altitude
        'Height'
        """
        usual = asdict(cls())
        given: dict[str, str] = {}
        for part in filter(None, (piece.strip() for piece in words.split(","))):
            name, equals, column = (piece.strip() for piece in part.partition("="))
            name = ALSO.get(name, name)
            if not equals or name not in usual:
                raise ValueError(
                    "columns must be declared such as lat_deg=Latitude,altitude=Height, with names "
                    f"from {', '.join(usual)}; got {quoted(part)}"
                )
            given[name] = column
        return cls(**given)

    @property
    def words(self) -> str:
        """What is declared of the columns beyond the usual, as `from_words` reads it."""
        usual = asdict(Columns())
        return ", ".join(f"{k}={v}" for k, v in asdict(self).items() if v != usual[k])

    @property
    def told(self) -> str:
        """Which column holds what, in a sentence; of columns that were found."""
        return f"Columns read: {', '.join(self._told())}."

    def _told(self) -> Iterator[str]:
        units = {"altitude": self.altitude_unit, "speed": self.speed_unit}
        for name, said in SAID.items():
            column = getattr(self, name)
            if column:
                unit = f" in {units[name]}" if units.get(name) else ""
                yield f"{said} from {column!r}{unit}"

    @property
    def time_zone(self) -> tzinfo:
        """The zone of times that are written without one."""
        if self.zone == "UTC":
            return UTC  # known even where no table of zones is installed
        try:
            return ZoneInfo(self.zone)
        except (ZoneInfoNotFoundError, ValueError, OSError):
            raise ValueError(
                f"zone must be a time zone such as 'UTC' or 'Atlantic/Azores', got {self.zone!r}"
            ) from None


ALSO = {"altitude_ft": "altitude", "speed_kt": "speed", "lat": "lat_deg", "lon": "lon_deg"}


def found_columns(header: Sequence[str], declared: Columns, line: int = 1) -> Columns:
    """Return the columns of a header: those declared, the others by their names, "" for none.

    Raises
    ------
    FileError
        If one that is declared or needed is not there, or is there twice.
    """
    known = {i: _parted(name) for i, name in enumerate(header)}
    found: dict[str, str] = {}
    for name, names in NAMES.items():
        column = getattr(declared, name)
        by_name = [header[i] for one in names for i, (base, _) in known.items() if base == one]
        found[name] = "" if column == ABSENT else column or next(iter(by_name), "")
    if declared.magnetic_heading_deg or found["true_heading_deg"]:
        drop = "true" if declared.magnetic_heading_deg else "magnetic"
        found[f"{drop}_heading_deg"] = ""
    _check(header, found, line)
    units = {unit: getattr(declared, unit) for unit in ("altitude_unit", "speed_unit")}
    for name, usual, allowed in (
        ("altitude", "ft", FEET_PER_UNIT),
        ("speed", "kt", KNOTS_PER_UNIT),
    ):
        if found[name] and not units[f"{name}_unit"]:
            _, unit = known[header.index(found[name])]
            units[f"{name}_unit"] = unit if unit in allowed else usual
    return Columns(**found, **units, date_order=declared.date_order, zone=declared.zone)


def is_header(cells: Sequence[str], declared: Columns) -> bool:
    """Return whether cells are names of columns, a latitude and a longitude among them."""
    names = {_parted(cell)[0] for cell in cells}
    return all(
        getattr(declared, name) in cells if getattr(declared, name) else names & {*NAMES[name]}
        for name in ("lat_deg", "lon_deg")
    )


def _check(header: Sequence[str], found: dict[str, str], line: int) -> None:
    missing = [
        name
        for name, column in found.items()
        if (column and column not in header)
        or (not column and name in ("time", "lat_deg", "lon_deg"))
    ]
    if missing:
        words = "the columns are" if not any(map(_is_number, header)) else "is the header missing?"
        wanted = ", ".join(
            repr(found[name]) if found[name] else f"of {SAID[name]}" for name in missing
        )
        raise FileError(
            f"line {line}: there is no column {wanted}; {words} {', '.join(map(repr, header))}: "
            "declare which of them holds what",
            argument="columns",
        )
    twice = [column for column in found.values() if column and header.count(column) > 1]
    if twice:
        raise FileError(f"line {line}: the column {twice[0]!r} is given twice", argument="columns")


def _parted(name: str) -> tuple[str, str]:
    """Return the words of a column's name without its unit, and the unit, "" for none."""
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name)  # groundSpeed, AltMSL
    plain = apart.lower().replace("m/s", "mps").replace("km/h", "kmh")
    words = re.findall(r"[a-z]+", plain)
    units = [UNITS[word] for word in words[1:] if word in UNITS]
    return " ".join(word for i, word in enumerate(words) if not i or word not in UNITS), next(
        filter(None, units), ""
    )


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


QUANTITIES = tuple(one.name for one in fields(Columns) if one.name in SAID)
