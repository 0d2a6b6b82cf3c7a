"""Read what a pilot writes: directions, sides, words and quantities.

A form of answer knows how to read a text, how far apart two answers are and how to write one. A
text that makes no sense raises a ValueError which says what is wanted.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from vorlib.core.angles import (
    COMPASS_POINTS,
    compass_point,
    difference_deg,
    format_direction,
    spoken_side,
    wrap_360,
)
from vorlib.core.units import FEET_PER_NM
from vorlib.core.words import rounded

Answer = float | str
"""A number in the unit of the question, or one of the words it allows."""

SHARE_ALLOWED = 0.05  # of an answer worked out in the head; some kinds need another
WING_TIP_SHARE = 0.10  # the exact triangle is up to 9.2 percent under the wing-tip rule
ROUNDING_NM = 0.05  # of an answer given to a tenth of a mile

NUMBER = r"(?P<number>\d+(?:\.\d+)?|\.\d+)"
_DEGREES = "degrees?|deg"
_ABOUT = (
    rf"(?:(?:on|radial|heading|course|track|bearing|inbound|outbound|magnetic|{_DEGREES})\b ?)*"
)
_DIRECTION = re.compile(rf"{_ABOUT}(?:r ?-? ?)?{NUMBER} ?m?\b ?{_ABOUT}")
_SIDE = "left|right|l|r"
_LEFT_RIGHT = re.compile(
    rf"(?:(?P<before>{_SIDE}) ?)?{NUMBER} ?(?:{_DEGREES})? ?(?:(?:to )?(?:the )?(?P<after>{_SIDE})"
    rf"(?: of(?: the)? course)?)?"
)
_QUANTITY = re.compile(rf"{NUMBER} ?(?P<unit>[a-z ]*)")
_INITIALS = {
    re.sub("north|south|east|west", lambda part: part[0][0], point): point
    for point in COMPASS_POINTS
}


class Form(Protocol):
    """A form of answer."""

    def parse(self, text: str) -> Answer:
        """Return the answer that *text* gives, or raise ValueError that says what is wanted."""

    def apart(self, one: Answer, other: Answer) -> float:
        """Return how far apart two answers are, 0 or more; infinite for two different words."""

    def show(self, answer: Answer) -> str:
        """Return the answer as it is written, in a text that `parse` reads."""


def _words_apart(one: Answer, other: Answer) -> float:
    return 0.0 if one == other else float("inf")


def _plain(text: str) -> str:
    """Return *text* in small letters with plain signs, single spaces and a point for decimals."""
    text = text.replace("\N{MINUS SIGN}", "-").replace("\N{EN DASH}", "-").replace("°", " ")
    text = re.sub(r"(?<!\d)([1-9]\d{0,2}),(?=\d{3}\b)", r"\1", text)  # 12,000
    text = re.sub(r"(?<=\d),(?=\d)", ".", text)  # 2,5
    return " ".join(text.casefold().rstrip(" .!").split())  # but ".6" keeps its point


def _compass_point(plain: str) -> str | None:
    """Return the compass point that a plain text names, or None."""
    joined = re.sub(r"[\s-]", "", plain)
    for initials, point in _INITIALS.items():
        if joined in (initials, point):
            return point
    return None


@dataclass(frozen=True)
class Direction:
    """A direction in degrees, (0, 360].

    >>> Direction().parse("R-214"), Direction().parse("0"), Direction().parse("N")
    (214.0, 360.0, 360.0)
    """

    def parse(self, text: str) -> float:
        """Read "040", "40°", "R-214", "040 inbound" or a compass point."""
        plain = _plain(text)
        point = _compass_point(plain)
        if point is not None:
            return float(wrap_360(45.0 * COMPASS_POINTS.index(point)))
        match = _DIRECTION.fullmatch(plain)
        if match is None:
            raise ValueError("I need a direction, such as 040 or N")
        degrees = float(match["number"])
        if degrees > 360.0:
            raise ValueError(
                f"a direction is from 001 to 360: {degrees:g} is more than a full circle"
            )
        return float(wrap_360(degrees))

    def apart(self, one: Answer, other: Answer) -> float:
        """Return the smaller angle between two directions."""
        return abs(float(difference_deg(float(one), float(other))))

    def show(self, answer: Answer) -> str:
        """Write three digits, and 360 for north."""
        return format_direction(float(answer))


@dataclass(frozen=True)
class CompassPoint:
    """One of the eight compass points.

    >>> CompassPoint().parse("SW"), CompassPoint().parse("South west")
    ('southwest', 'southwest')
    """

    def parse(self, text: str) -> str:
        """Read "southwest", "SW", or a direction in degrees, which counts as its nearest point."""
        plain = re.sub(r"\bof\b.*", "", _plain(text)).strip()
        point = _compass_point(plain)
        if point is not None:
            return point
        try:
            return compass_point(Direction().parse(plain))
        except ValueError:
            raise ValueError("I need a compass point, such as southwest or SW") from None

    def apart(self, one: Answer, other: Answer) -> float:
        """Return 0 for the same point, infinity for another."""
        return _words_apart(one, other)

    def show(self, answer: Answer) -> str:
        """Write the point in words."""
        return str(answer)


@dataclass(frozen=True)
class LeftRight:
    """A number of degrees to one side: negative left, positive right.

    >>> LeftRight().parse("12 L"), LeftRight().parse("right 2.5"), LeftRight().parse("0")
    (-12.0, 2.5, 0.0)
    """

    def parse(self, text: str) -> float:
        """Read "12 L", "2.5 left" or "right 4 degrees"."""
        match = _LEFT_RIGHT.fullmatch(_plain(text))
        side = (match["before"], match["after"]) if match else (None, None)
        if match is None or all(side):
            raise ValueError("I need a number and a side, such as 4 left or 4 R")
        value = float(match["number"])
        if not any(side) and value != 0.0:
            raise ValueError(f"which side? Write {value:g} left or {value:g} right")
        return 0.0 - value if (side[0] or side[1] or "r")[0] == "l" else value

    def apart(self, one: Answer, other: Answer) -> float:
        """Return the difference in degrees."""
        return abs(float(one) - float(other))

    def show(self, answer: Answer) -> str:
        """Write the number and its side."""
        value = float(answer)
        return "0" if value == 0.0 else f"{abs(value):g} {spoken_side(value)}"


@dataclass(frozen=True)
class ChoiceAnswer:
    """One of a few words; *options* maps each to the other ways of writing it.

    >>> FLAG.parse("From")
    'FROM'
    """

    options: Mapping[str, tuple[str, ...]]

    def parse(self, text: str) -> str:
        """Read one of the options, whatever its letters' case."""
        plain = _plain(text)
        for option, others in self.options.items():
            if plain in (option.casefold(), *others):
                return option
        raise ValueError(f"I need one of these words: {', '.join(self.options)}")

    def apart(self, one: Answer, other: Answer) -> float:
        """Return 0 for the same word, infinity for another."""
        return _words_apart(one, other)

    def show(self, answer: Answer) -> str:
        """Write the word."""
        return str(answer)


@dataclass(frozen=True)
class Quantity:
    """A number in a unit; *units* maps ways of writing units to their size in the first of them.

    >>> DISTANCE.parse("2.5"), round(DISTANCE.parse("6076 ft"), 3)
    (2.5, 1.0)
    """

    units: Mapping[str, float]

    def parse(self, text: str) -> float:
        """Read a number, with a unit or without."""
        match = _QUANTITY.fullmatch(_plain(text))
        first = next(iter(self.units))
        if match is None:
            raise ValueError(f"I need a number of {first}, such as 2.5")
        unit = match["unit"].strip()
        if unit and unit not in self.units:
            raise ValueError(f"I do not know the unit {unit!r}: give the answer in {first}")
        return float(match["number"]) * self.units.get(unit, 1.0)

    def apart(self, one: Answer, other: Answer) -> float:
        """Return the difference in the first unit."""
        return abs(float(one) - float(other))

    def show(self, answer: Answer) -> str:
        """Write three figures, at most two of them decimals, and the unit."""
        value = float(answer)
        figures = rounded(value, 0 if value >= 100.0 else 1 if value >= 10.0 else 2)
        unit = next(iter(self.units))
        return f"{figures} {unit.removesuffix('s') if figures == '1' else unit}"


DIRECTION = Direction()
COMPASS_POINT = CompassPoint()
LEFT_RIGHT = LeftRight()
FLAG = ChoiceAnswer(
    {"TO": ("to the station",), "FROM": ("from the station", "fr"), "OFF": ("nav",)}
)
SENSING = ChoiceAnswer(
    {"normal": ("normal sensing", "n"), "reverse": ("reverse sensing", "reversed", "r")}
)
LETTER = ChoiceAnswer(
    {
        letter.upper(): (f"dial {letter}", f"place {letter}", f"({letter})", f"{letter})")
        for letter in "abcd"
    }
)
DEGREES = Quantity({"degrees": 1.0, "degree": 1.0, "deg": 1.0})
_PER_FOOT = 1.0 / FEET_PER_NM
DISTANCE = Quantity(
    {"NM": 1.0, "nm": 1.0, "miles": 1.0, "nautical miles": 1.0}
    | {"ft": _PER_FOOT, "feet": _PER_FOOT}
)
SECONDS = Quantity(
    {"seconds": 1.0, "second": 1.0, "sec": 1.0, "s": 1.0}
    | {"minutes": 60.0, "minute": 60.0, "min": 60.0}
)
MINUTES = Quantity(
    {"minutes": 1.0, "minute": 1.0, "min": 1.0}
    | {"seconds": 1.0 / 60.0, "second": 1.0 / 60.0, "sec": 1.0 / 60.0, "s": 1.0 / 60.0}
)
