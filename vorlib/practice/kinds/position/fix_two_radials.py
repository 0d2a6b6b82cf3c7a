"""The place, of several, where two radials meet."""

import cmath
import math
from collections.abc import Sequence
from functools import cache
from itertools import permutations
from random import Random

from vorlib.core.angles import compass_point, format_direction, reciprocal_deg
from vorlib.earth.geodesic import Position
from vorlib.practice.questions.answers import LETTER
from vorlib.practice.questions.misconceptions import RADIAL_LEADS_TO
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_direction
from vorlib.practice.questions.standards import POSITION
from vorlib.procedures.fixing import cut_angle_deg, fix
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.station import Station

LEAST_CUT_DEG, LEAST_NM, MOST_NM = 30.0, 8.0, 40.0
FARTHEST_APART_NM = 60.0  # between the stations: few places suit two that are farther apart
MARGIN_DEG = 6.0  # from the edge of a compass point's sector, counted true or magnetic
ROUGHLY = 1.0  # degrees, and NM: error of a flat earth over these distances


@question_kind("fix_two_radials", lessons=("09",))
def make(chance: Random) -> Question:
    """Ask for the place; the others lie on the wrong side of a station, or about the wrong one."""
    one, other = chance.choice(_neighbors())
    there = _place(chance, one, other)
    radial, radial2 = (round(float(s.radial_deg(there))) for s in (one, other))
    lines = [(one, float(radial)), (other, float(radial2))]
    met = fix(lines)
    behind_one, behind_other = (
        s.position_on(reciprocal_deg(r), float(s.distance_nm(met.position))) for s, r in lines
    )
    mixed_up = other.position_on(radial, float(one.distance_nm(met.position)))
    places = [met.position, behind_one, behind_other, mixed_up]
    order = chance.sample(range(4), 4)
    letters = [list("ABCD")[order.index(number)] for number in range(4)]
    described = ". ".join(
        f"{letter}: {_words(one, places[number])} and {_words(other, places[number])}"
        for letter, number in zip("ABCD", order, strict=True)
    )
    said, said2 = format_direction(radial), format_direction(radial2)
    return Question(
        kind="fix_two_radials",
        prompt=f"You are on the {said} radial of {one.name} and on the {said2} radial of "
        f"{other.name}. Which place is that? {described}. Write A, B, C or D.",
        form=LETTER,
        answer=letters[0],
        tolerance=0.0,
        tolerance_why="One place is on both radials.",
        hints=(
            "Draw both stations, and each radial as an arrow that begins at its own station.",
            "Turn each radial into a compass direction from its station: north is 360, east 090.",
            f"{said} leads {compass_point(radial)} from "
            f"{one.name}. Which places lie that way, and which of them fits {other.name} as well?",
        ),
        worked=f"The radials meet {_words(one, met.position)} and {_words(other, met.position)}: "
        f"place {letters[0]}. They cut at {met.cut_deg:.0f} degrees.",
        element=POSITION,
        level="application",
        misconceptions=(
            RADIAL_LEADS_TO.answering(letters[1]),
            RADIAL_LEADS_TO.answering(letters[2]),
            Misconception(
                "radials drawn from the wrong stations",
                letters[3],
                "Two numbers and two names are easily crossed while you retune.",
                "Which ident did you hear when you read each number?",
            ),
        ),
    )


@cache
def _neighbors() -> tuple[tuple[Station, Station], ...]:
    """Return the pairs of stations that are not too far apart, each in both orders."""
    pairs = permutations(STATIONS.values(), 2)
    return tuple(p for p in pairs if p[0].distance_nm(p[1].position) < FARTHEST_APART_NM)


def _place(chance: Random, one: Station, other: Station) -> Position:
    """Return a place where the radials cut well and lie clearly in two compass directions."""
    between = one.inverse(other.position)
    to_other = _line(float(between.true_azimuth_deg), float(between.distance_nm))
    while True:
        radial_deg, distance_nm = any_direction(chance), chance.uniform(LEAST_NM, MOST_NM)
        line = _line(radial_deg + one.declination_deg, distance_nm)
        if not _fits((one, other), (line, line - to_other), (line, line - to_other), ROUGHLY):
            continue  # most do not, and a flat earth is much faster to compute
        there = one.position_on(radial_deg, distance_nm)
        lines = [station.inverse(there) for station in (one, other)]
        starts = [_line(float(x.true_azimuth_deg), float(x.distance_nm)) for x in lines]
        ends = [_line(float(x.true_azimuth_end_deg), float(x.distance_nm)) for x in lines]
        if _fits((one, other), starts, ends, 0.0):
            return there


def _line(azimuth_deg: float, distance_nm: float) -> complex:
    return cmath.rect(distance_nm, math.radians(azimuth_deg))


def _fits(
    stations: Sequence[Station], starts: Sequence[complex], ends: Sequence[complex], slack: float
) -> bool:
    """Tell whether two lines suit a question.

    `starts` and `ends` hold the lines as seen from their stations and from where they meet.
    """
    azimuths, azimuths_there = (
        [math.degrees(cmath.phase(line)) % 360.0 for line in lines] for lines in (starts, ends)
    )
    clear = all(
        _is_clear(azimuth, station.declination_deg, slack)
        and LEAST_NM - slack < abs(line) < MOST_NM + slack
        for station, azimuth, line in zip(stations, azimuths, starts, strict=True)
    )
    apart = compass_point(azimuths[0]) != compass_point(azimuths[1])
    return clear and apart and float(cut_angle_deg(*azimuths_there)) > LEAST_CUT_DEG - slack


def _is_clear(true_deg: float, declination_deg: float, slack: float) -> bool:
    """Tell whether a direction clearly has the same compass point by true and magnetic north."""
    between_deg = true_deg - declination_deg / 2.0
    off_deg = abs((between_deg + 22.5) % 45.0 - 22.5)
    return off_deg < 22.5 - abs(declination_deg) / 2.0 - MARGIN_DEG + slack


def _words(station: Station, place: Position) -> str:
    line = station.inverse(place)
    point = compass_point(float(station.radial_of_azimuth_deg(line.true_azimuth_deg)))
    return f"{float(line.distance_nm):.0f} NM {point} of {station.name}"
