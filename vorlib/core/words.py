"""Counts, quantities, times and lists in words, as a pilot says them."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = [
    "LEAST_TOLD",
    "as_sentence",
    "rounded",
    "spoken_count",
    "spoken_declination",
    "spoken_degrees",
    "spoken_dots",
    "spoken_knots",
    "spoken_list",
    "spoken_minutes",
    "spoken_time",
    "spoken_times",
    "stopwatch",
]

LEAST_TOLD = 0.05  # of a number told in tenths: less rounds to 0
TOLD_IN_SECONDS_MIN = 2.0
TIMES = ("never", "once", "twice")


def as_sentence(words: str) -> str:
    """Return words with a capital at the beginning and a stop at the end.

    >>> as_sentence("the wind holds the aircraft"), as_sentence("Which one?")
    ('The wind holds the aircraft.', 'Which one?')
    """
    stop = "" if words.endswith((".", "?", "!", ":")) else "."
    return f"{words[:1].upper()}{words[1:]}{stop}"


def spoken_count(count: int, noun: str, plural: str = "") -> str:
    """Return a count with its noun, in the plural unless it is 1.

    >>> spoken_count(1, "answer"), spoken_count(1633, "row"), spoken_count(0, "circuit")
    ('1 answer', '1,633 rows', '0 circuits')
    """
    return f"{count:,} {noun if count == 1 else plural or noun + 's'}"


def rounded(amount: float, decimals: int = 1) -> str:
    """Return a number without trailing zeros and without a sign on 0.

    >>> rounded(2.04), rounded(-0.04), rounded(12.25, 2), rounded(1234.0)
    ('2', '0', '12.25', '1,234')
    """
    number = f"{amount:,.{decimals}f}"
    number = number.rstrip("0").rstrip(".") if "." in number else number
    return "0" if number == "-0" else number


def _quantity(amount: float, noun: str, decimals: int) -> str:
    number = rounded(abs(amount), decimals)
    return f"{number} {noun}{'' if number == '1' else 's'}"


def spoken_degrees(degrees: float, decimals: int = 0) -> str:
    """Return the size of an angle: "1 degree", "2.5 degrees".

    >>> spoken_degrees(-1.2), spoken_degrees(0.94, 1), spoken_degrees(1.0, 1)
    ('1 degree', '0.9 degrees', '1 degree')
    """
    return _quantity(degrees, "degree", decimals)


def spoken_declination(angle_deg: float) -> str:
    """Return a declination or variation: "9 degrees west".

    >>> spoken_declination(-9.04), spoken_declination(0.0)
    ('9 degrees west', '0 degrees')
    """
    side = "east" if angle_deg > 0.0 else "west"
    return f"{spoken_degrees(angle_deg, 1)} {side if rounded(angle_deg) != '0' else ''}".rstrip()


def spoken_dots(dots: float) -> str:
    """Return the size of a needle's deviation: "1 dot", "2.5 dots"."""
    return _quantity(dots, "dot", 1)


def spoken_knots(speed_kt: float) -> str:
    """Return a speed to the knot: "1 knot", "110 knots"."""
    return _quantity(speed_kt, "knot", 0)


def spoken_times(count: int) -> str:
    """Return how often: "never", "once", "twice", "3 times"."""
    return TIMES[count] if count < len(TIMES) else f"{count:,} times"


def spoken_time(seconds: float) -> str:
    """Return a time to the second, without what is nothing.

    >>> spoken_time(45.4), spoken_time(250.0), spoken_time(600.0), spoken_time(0.2)
    ('45 s', '4 min 10 s', '10 min', '0 s')
    """
    minutes, rest = divmod(round(seconds), 60)
    parts = (f"{minutes} min" if minutes else "", f"{rest} s" if rest or not minutes else "")
    return " ".join(filter(None, parts))


def spoken_minutes(minutes: float) -> str:
    """Return a time in minutes, below two minutes in seconds.

    >>> spoken_minutes(3.84), spoken_minutes(0.4), spoken_minutes(1 / 60)
    ('3.8 minutes', '24 seconds', '1 second')
    """
    if minutes < TOLD_IN_SECONDS_MIN:
        return spoken_count(round(60.0 * minutes), "second")
    return f"{minutes:.1f} minutes"


def stopwatch(seconds: float) -> str:
    """Return a time as a stopwatch shows it.

    >>> stopwatch(75.2), stopwatch(3605.0)
    ('1:15', '60:05')
    """
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"


def spoken_list(words: Sequence[str], last: str = "and") -> str:
    """Return words as a list in a sentence: "a, b and c"."""
    *most, end = words
    return f"{', '.join(most)} {last} {end}" if most else end
