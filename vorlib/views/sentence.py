"""The one live sentence of an exhibit: what the picture means, in plain words.

The pieces are functions of their own, for exhibits that need only some of them.
"""

from __future__ import annotations

from textwrap import fill

from vorlib.core.angles import compass_point, format_direction, spoken_side
from vorlib.core.words import spoken_dots
from vorlib.earth.geodesic import Position
from vorlib.vor.coverage import service_radius_nm
from vorlib.vor.receiver import NO_SIGNAL, Flag, Reading, Reason
from vorlib.vor.station import Station

__all__ = [
    "flag_words",
    "in_lines",
    "in_words",
    "is_overhead",
    "needle_words",
    "off_sentence",
    "reading_sentence",
    "sentence",
    "side_words",
    "unassured_sentence",
    "volume_words",
    "where_sentence",
]

OVERHEAD_NM = 0.001  # 6 ft: where every radial meets, which one you are on is chance
LINE = 90  # characters that a cell of a notebook shows without breaking words
CENTERED_DOTS = 0.05  # less than this rounds to no dots at all

ADVICE = {
    Reason.ABEAM: "neither TO nor FROM is strong enough to show; the flag returns on either side",
    Reason.CONE: "do not chase the needle, hold the heading until the flag returns",
    Reason.LINE_OF_SIGHT: "the earth is in the way, so climb or come nearer",
    Reason.OFF_THE_AIR: "nothing is sent and no ident is heard",
}
SOME_VOLUME = "the station's service volume"


def sentence(station: Station, position: Position, course_deg: float, reading: Reading) -> str:
    """Return where the aircraft is and what its indicator shows, as `reading` has it.

    All arguments are those of one place and one course, not arrays.
    """
    shown = reading_sentence(course_deg, reading, volume_words(station, position))
    return f"{where_sentence(station, position)} {shown}"


def where_sentence(station: Station, position: Position) -> str:
    """Return the place in words: distance, compass direction and radial, from one north."""
    line = station.inverse(position)
    distance = float(line.distance_nm)
    if f"{distance:.1f}" == "0.0":
        return f"You are over {station.name}, where every radial meets."
    radial_deg = float(station.radial_of_azimuth_deg(line.true_azimuth_deg))
    return (
        f"You are {distance:.1f} NM {compass_point(radial_deg)} of {station.name} "
        f"on its {format_direction(radial_deg)} radial."
    )


def reading_sentence(course_deg: float, reading: Reading, volume: str = SOME_VOLUME) -> str:
    """Return what the indicator shows with a course selected, and what to make of it.

    *volume* names the station's service volume as `volume_words` does, for a needle outside it.
    """
    shown = f"With {format_direction(course_deg)} selected {flag_words(reading)}"
    if _reason(reading) in NO_SIGNAL:
        return f"{shown}. {off_sentence(reading)}"
    shown = f"{shown} and {needle_words(reading)}"
    if Flag(int(reading.flag)) == Flag.OFF:
        return f"{shown}. {off_sentence(reading)}"
    words = f"{shown}: {side_words(course_deg, reading)}."
    return " ".join(filter(None, (words, unassured_sentence(reading, volume))))


def unassured_sentence(reading: Reading, volume: str = SOME_VOLUME) -> str:
    """Return that nobody promises a live needle outside a service volume; else nothing."""
    if reading.assured or Flag(int(reading.flag)) == Flag.OFF:
        return ""
    return f"Nobody promises this needle: you are outside {volume}. Do not rely on it."


def volume_words(station: Station, position: Position) -> str:
    """Return a station's service volume by its class and its radius at a place's height."""
    radius = float(service_radius_nm(station.service, station.height_ft(position)))
    reach = f"{radius:.0f} NM" if radius >= 0.5 else "nothing"
    return f"the service volume of a VOR of class {station.service} ({reach} at this height)"


def flag_words(reading: Reading) -> str:
    """Return what the flag reads, such as "the flag reads TO"."""
    return f"the flag reads {Flag(int(reading.flag)).name}"


def is_overhead(reading: Reading) -> bool:
    """Return whether a reading is from straight over the station, so that its side is chance."""
    return float(reading.distance_nm) < OVERHEAD_NM


def needle_words(reading: Reading) -> str:
    """Return where the needle stands, such as "the needle stands 1.5 dots left"."""
    if is_overhead(reading):
        return "the needle has nothing to show"
    dots = float(reading.dots)
    side = spoken_side(dots)
    if bool(reading.pegged):
        return f"the needle stands full {side}, more than five dots"
    if abs(dots) < CENTERED_DOTS:
        return "the needle is centered"
    return f"the needle stands {spoken_dots(dots)} {side}"


def side_words(course_deg: float, reading: Reading) -> str:
    """Return on which side the course line lies for someone flying the selected course."""
    course = format_direction(course_deg)
    dots = float(reading.dots)
    if abs(dots) < CENTERED_DOTS and not bool(reading.pegged):
        return "you are on the course line"
    side = spoken_side(dots)
    return f"the course line is to the {side} of someone flying {course}"


def off_sentence(reading: Reading) -> str:
    """Return why the flag is OFF and what to make of it; empty while it is not OFF."""
    reason = _reason(reading)
    if reason == Reason.NONE:
        return ""
    why = str(reason)
    needle = "; a centered needle under OFF means nothing" if reason in NO_SIGNAL else ""
    return f"{why[0].upper()}{why[1:]}: {ADVICE[reason]}{needle}."


def _reason(reading: Reading) -> Reason:
    return Reason(int(reading.reason))


def in_words(sentence: str) -> str:
    """Return a picture's sentence as it is printed beside the picture, in lines not too long."""
    return in_lines(f"In words: {sentence}")


def in_lines(words: str) -> str:
    """Return words in lines that a cell of a notebook shows without breaking a word."""
    return fill(words, LINE)
