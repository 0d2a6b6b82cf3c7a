"""Simulated learners whose answers follow from what they believe.

A rule reads what a question tells, in words and pictures, and works out an answer by its belief. It
looks neither at the right answer nor at the mistakes that the question foresees. None stands for
"this question is none of the belief's business": then the learner answers right.
"""

import math
import re
from contextlib import contextmanager
from functools import cache
from random import Random
from unittest.mock import patch

from vorlib.core.angles import compass_point
from vorlib.practice import PracticeSet, all_kinds, draw, kinds_of_lesson, mark
from vorlib.practice.learning import stock
from vorlib.stations.archipelago import STATIONS
from vorlib.views.classroom.question_figure import figure_words
from vorlib.vor.receiver import Flag

DEG_PER_DOT, ABEAM_DEG = 2.0, 3.0
SPEED, FLIES_AT = r"(\d+) kt", r"You fly at ([\d,]+) ft"


def wrap(degrees):
    """Return a direction in (0, 360]."""
    return (degrees - 1e-9) % 360.0 + 1e-9


def diff(to_deg, from_deg):
    """Return the turn from one direction to another, -180 to 180."""
    return (to_deg - from_deg + 180.0) % 360.0 - 180.0


def directions(question):
    """Return the three-figure directions of a prompt, in their order."""
    return [
        int(text) for text in re.findall(r"(?<![\d,.])\d{3}(?![\d,.]\d| ft| kt)\b", question.prompt)
    ]


def number(pattern, question):
    """Return the number that a pattern finds in all that is told."""
    shown = figure_words(question.figure) if question.figure else ""
    return float(re.search(pattern, f"{question.prompt} {shown}")[1].replace(",", ""))


def station(question):
    """Return the station that a prompt names."""
    return next(s for s in STATIONS.values() if s.name in question.prompt)


def dial(question):
    """Return the one dial of a question."""
    return question.figure.dials[0]


def direction(degrees):
    return f"{wrap(degrees):.2f}"


def sided(degrees):
    return f"{abs(degrees):g} {'left' if degrees < 0 else 'right'}"


def as_flag(text):
    return {"TO": Flag.TO, "FROM": Flag.FROM}[text]


def other(flag):
    return {Flag.TO: Flag.FROM, Flag.FROM: Flag.TO, Flag.OFF: Flag.OFF}[flag]


def flag_on(radial_deg, course_deg):
    off = abs(diff(course_deg, radial_deg))
    if abs(off - 90.0) < ABEAM_DEG:
        return Flag.OFF
    return Flag.FROM if off < 90.0 else Flag.TO


def radial_read(course_deg, flag, dots):
    """Return the radial that a dial tells."""
    if flag == Flag.FROM:
        return wrap(course_deg - DEG_PER_DOT * dots)
    return wrap(course_deg + DEG_PER_DOT * dots + 180.0)


def dots_on(radial_deg, course_deg):
    off = diff(course_deg, radial_deg)
    return math.degrees(math.asin(math.sin(math.radians(off)))) / DEG_PER_DOT


def dial_with(question, flag, dots):
    """Return the letter of the dial that shows a flag, and a needle on that side."""
    (found,) = (d for d in question.figure.dials if d.flag == flag and d.dots * dots > 0)
    return found.label


def spot_on(question, radial_deg):
    """Return the letter of the place that is nearest to a radial."""
    spots = question.figure.map.spots
    return min(spots, key=lambda spot: abs(diff(spot.radial_deg, radial_deg))).label


# ---- to and from


def radial_leads_to_the_station(question):
    """A radial is the way from the aircraft to the station."""
    told = directions(question)
    match question.kind:
        case "bearing_to_station":
            return direction(told[0])
        case "radial_from_map":
            return direction(question.figure.map.spots[0].radial_deg + 180)
        case "radial_from_place":
            seen_from_it = question.prompt.startswith("From")
            return direction(told[0] + (180 if seen_from_it else 0))
        case "radial_from_true":
            return direction(told[0] - station(question).declination_deg + 180)
        case "centred_radial":
            return direction(radial_read(told[0], dial(question).flag, 0) + 180)
        case "centred_direction":
            return compass_point(radial_read(told[0], dial(question).flag, 0) + 180)
        case "place_for_indicator":
            seen = dial(question)
            return spot_on(question, radial_read(seen.course_deg, seen.flag, seen.dots) + 180)
        case "indicator_for_place":
            radial, course = told[0] + 180, told[2]
            return dial_with(question, flag_on(radial, course), dots_on(radial, course))
        case "flag_for_course":
            return flag_on(told[0] + 180, told[2]).name
        case "turn_direct":
            return sided(diff(told[0], told[1]))
        case "intercept_inbound" | "intercept_outbound":
            return direction(intercept(question, 180))
        case "fix_two_radials":
            return place_behind(question, told)
    return None


def intercept(question, rotated_deg=0):
    """Return the intercept heading, with both radials rotated."""
    radial, target = (d + rotated_deg for d in directions(question)[:2])
    angle = number(r"angle of (\d+)", question)
    inbound = "inbound" in question.prompt
    course = target + 180 * inbound
    to_the_right = (diff(target, radial) > 0) != inbound
    return course + (angle if to_the_right else -angle)


def place_behind(question, radials):
    """Return a place that lies on the wrong side of one of two stations."""
    for letter, words in re.findall(r"([A-D]): (.*?)\.(?= [A-D]:| Write)", question.prompt):
        points = re.findall(r"NM ([\w-]+) of", words)
        for place, (point, radial) in enumerate(zip(points, radials, strict=False)):
            stations = re.findall(r"of ([A-Z]\w+)", words)
            declination = next(s for s in STATIONS.values() if s.name == stations[place])
            true = radial + declination.declination_deg
            if point == compass_point(true + 180):
                return letter
    raise AssertionError(question.prompt)


def from_means_to(question):
    """FROM is taken for TO, and TO for FROM."""
    told = directions(question)
    match question.kind:
        case "flag_for_course":
            return other(flag_on(told[0], told[2])).name
        case "indicator_for_place":
            flag, dots = flag_on(told[0], told[2]), dots_on(told[0], told[2])
            return dial_with(question, other(flag), dots)
        case "centred_radial":
            return direction(radial_read(told[0], other(dial(question).flag), 0))
        case "centred_direction":
            return compass_point(radial_read(told[0], other(dial(question).flag), 0))
        case "place_for_indicator":
            seen = dial(question)
            return spot_on(question, radial_read(seen.course_deg, other(seen.flag), seen.dots))
        case "direct_course":
            seen = dial(question)
            return direction(radial_read(seen.course_deg, other(seen.flag), seen.dots) + 180)
        case "flag_when_reversed":
            heading, course = told[:2]
            radial = heading + 180 * ("straight toward" in question.prompt)
            return other(flag_on(radial, course)).name
    return None


# ---- needle


def needle_is_the_aircraft(question):
    """The needle is the aircraft, the middle of the dial the line."""
    told = directions(question)
    match question.kind:
        case "needle_reading":
            return sided(-DEG_PER_DOT * dial(question).dots)
        case "indicator_for_place":
            return dial_with(question, flag_on(told[0], told[2]), -dots_on(told[0], told[2]))
        case "place_for_indicator":
            seen = dial(question)
            return spot_on(question, radial_read(seen.course_deg, seen.flag, -seen.dots))
        case "direct_course":
            seen = dial(question)
            return direction(radial_read(seen.course_deg, seen.flag, -seen.dots) + 180)
        case "turn_to_line":
            return "right" if dial(question).dots < 0 else "left"
        case "wind_side" if dial(question).dots:
            return "right" if dial(question).dots < 0 else "left"
        case "bracket_heading" if "has moved to" in question.prompt:
            away = -20 if "dots right" in question.prompt else 20
            return direction(told[0] + away)
    return None


def a_dot_is_a_degree(question):
    """A dot is one degree."""
    match question.kind:
        case "needle_reading":
            return sided(dial(question).dots)
        case "off_course_distance":
            out = number(r"(\d+) NM from", question)
            return f"{out * math.sin(math.radians(abs(dial(question).dots))):.3f}"
    return None


# ---- heading


def heading_is_position(question):
    """The nose points along the line to or from the station."""
    told = directions(question)
    match question.kind:
        case "centred_radial" | "bearing_to_station":
            return direction(told[1])
        case "centred_direction":
            return compass_point(told[1])
        case "radial_from_map":
            return direction(question.figure.map.spots[0].heading_deg)
        case "radial_from_place":
            return direction(told[2])
    return None


def flag_tells_where_i_fly(question):
    """TO means that the aircraft flies to the station."""
    told = directions(question)
    match question.kind:
        case "flag_for_course":
            return flag_on(told[0], told[1]).name
        case "indicator_for_place":
            return dial_with(question, flag_on(told[0], told[1]), dots_on(told[0], told[2]))
        case "flag_when_reversed":
            return "TO" if "straight toward" in question.prompt else "FROM"
    return None


# ---- sensing


def sensing(question, is_reverse):
    """Return the answer of one who thinks the sensing normal or reverse."""
    told = directions(question)
    match question.kind:
        case "sensing":
            return "reverse" if is_reverse else "normal"
        case "turn_to_line":
            needle = "left" if dial(question).dots < 0 else "right"
            return {"left": "right", "right": "left"}[needle] if is_reverse else needle
        case "course_to_follow":
            return direction(told[0] + (180 if is_reverse else 0))
        case "whats_wrong":
            ident = re.search(r"ident (\w+),", question.prompt)[1]
            if f"You hear {ident};" in question.prompt and dial(question).flag:
                return "reverse sensing" if is_reverse else "nothing"
    return None


def always_normal(question):
    """The needle always points to the line."""
    return sensing(question, is_reverse=False)


def from_is_reverse(question):
    """FROM means reverse sensing."""
    seen = question.figure.dials if question.figure else ()
    return sensing(question, is_reverse=bool(seen) and seen[0].flag == Flag.FROM)


# ---- north, height, wind


def north_is_true(question):
    """Radials are counted from true north."""
    told = directions(question)
    match question.kind:
        case "radial_from_map":
            return direction(
                question.figure.map.spots[0].radial_deg + station(question).declination_deg
            )
        case "radial_from_place":
            return direction(told[1])
        case "radial_from_true":
            return direction(told[0])
    return None


def plain_differences(question):
    """Directions are numbers like any other."""
    told = directions(question)
    match question.kind:
        case "intercept_angle":
            return f"{min(max(2 * abs(told[0] - told[1]), 20), 90)}"
        case "turn_direct":
            return sided((told[0] + 180 - 1) % 360 + 1 - told[1])
        case "two_receivers":
            return f"{abs(told[1] - told[2])}"
    return None


def feet(question):
    return [float(t.replace(",", "")) for t in re.findall(r"([\d,]+) ft", question.prompt)]


def height_is_altitude(question):
    """The altimeter gives the height above the station."""
    match question.kind:
        case "cone_radius":
            return f"{feet(question)[0] / 6076 * math.tan(math.radians(50)):.3f}"
        case "seconds_in_cone":
            width = 2 * feet(question)[0] / 6076 * math.tan(math.radians(50))
            return f"{width / number(SPEED, question) * 3600:.2f}"
        case "service_volume":
            return f"{volume_at(question, number(FLIES_AT, question)):g}"
    return None


def volume_at(question, height_ft):
    bands = re.findall(r"([\d,]+) to ([\d,]+) ft, (\d+) NM", question.prompt)
    whole = [[float(t.replace(",", "")) for t in band] for band in bands]
    held = [r for low, high, r in whole if low <= height_ft < high]
    return max(held or [whole[0][2]])


def cone_lies_flat(question):
    """The half-angle of the cone begins at the horizon."""
    match question.kind:
        case "cone_radius":
            height = feet(question)[0] - feet(question)[1]
            return f"{height / 6076 * math.tan(math.radians(40)):.3f}"
        case "seconds_in_cone":
            width = 2 * (feet(question)[0] - feet(question)[1]) / 6076 * math.tan(math.radians(40))
            return f"{width / number(SPEED, question) * 3600:.2f}"
    return None


def triangle(question):
    """Return course, airspeed, and the wind's direction and speed."""
    return (
        directions(question)[0],
        number(r"airspeed (?:of )?(\d+) kt", question),
        number(r"wind is (\d{3})", question),
        number(r"wind is \d{3} at (\d+) kt", question),
    )


def parts(course, wind_from, speed):
    """Return what a wind has from ahead and from the right."""
    off = math.radians(wind_from - course)
    return speed * math.cos(off), speed * math.sin(off)


def solved(question, head, cross):
    """Return the answer to a wind triangle with these parts of the wind."""
    course, airspeed, _, _ = triangle(question)
    if question.kind == "groundspeed":
        return f"{math.sqrt(airspeed**2 - cross**2) - head:.2f}"
    return direction(course + math.degrees(math.asin(cross / airspeed)))


def wind_blows_to_its_name(question):
    """A wind of 270 blows toward 270."""
    match question.kind:
        case "groundspeed" | "wind_correction_heading":
            course, _, wind, speed = triangle(question)
            return solved(question, *parts(course, wind + 180, speed))
        case "homing_end":
            course = int(re.search(r"begin on course (\d{3})", question.prompt)[1])
            blows = int(re.search(r"wind from (\d{3})", question.prompt)[1])
            return "left" if diff(blows, course) > 0 else "right"
    return None


def all_the_wind_counts(question):
    """The wind acts wholly along or across."""
    if question.kind not in ("groundspeed", "wind_correction_heading"):
        return None
    course, airspeed, wind, speed = triangle(question)
    head, cross = parts(course, wind, speed)
    if question.kind == "groundspeed":
        return f"{airspeed - math.copysign(speed, head):.2f}"
    return solved(question, 0, math.copysign(speed, cross))


# ---- flying a line


def homing_holds_the_course(question):
    """Centering the needle with the ring keeps to the course."""
    match question.kind:
        case "homing_end":
            return "neither"
        case "bracket_heading" if "has moved to" in question.prompt:
            dots = number(r"moved to ([\d.]+) dots", question)
            sign = 1 if "dots right" in question.prompt else -1
            return direction(directions(question)[0] + sign * DEG_PER_DOT * dots)
    return None


def lays_off_to_the_wrong_side(question):
    """The line is on the other side."""
    if not question.kind.startswith("intercept_") or question.kind == "intercept_angle":
        return None
    course = directions(question)[1] + 180 * ("inbound" in question.prompt)
    return direction(2 * course - intercept(question))


def flies_the_course(question):
    """The course as heading leads to the line."""
    if not question.kind.startswith("intercept_") or question.kind == "intercept_angle":
        return None
    return direction(directions(question)[1] + 180 * ("inbound" in question.prompt))


def lays_off_from_own_radial(question):
    """The angle counts from the radial one is on."""
    if not question.kind.startswith("intercept_") or question.kind == "intercept_angle":
        return None
    return direction(intercept(question) + directions(question)[0] - directions(question)[1])


def radials_to_go_are_the_angle(question):
    """As many degrees as radials."""
    if question.kind != "intercept_angle":
        return None
    return f"{abs(diff(*directions(question))):g}"


# ---- receiver


def one_limit(limit_deg):
    """Return the rule of one who knows one limit only."""

    def rule(question):
        if question.kind != "check_verdict":
            return None
        return "pass" if abs(diff(*directions(question)[:2])) <= limit_deg else "fail"

    rule.__doc__ = f"Every check may be off by {limit_deg} degrees."
    return rule


def needle_shows_miles(question):
    """The needle stays, as long as the miles off do."""
    if question.kind != "needle_near_station":
        return None
    return f"{number(r'stands ([0-9.]+) dot', question):g}"


def slant_is_ground(question):
    """A DME shows the distance on the map."""
    if question.kind != "slant_to_ground":
        return None
    return f"{number(r'shows ([0-9.]+) NM', question):g}"


RULES = (
    ("radial thought to lead to the station", radial_leads_to_the_station),
    ("TO and FROM swapped", from_means_to),
    ("needle taken for the aircraft", needle_is_the_aircraft),
    ("dots taken for degrees", a_dot_is_a_degree),
    ("heading taken for position", heading_is_position),
    ("heading thought to move the flag", flag_tells_where_i_fly),
    ("heading not held against the selected course", always_normal),
    ("flag thought to decide the sensing", from_is_reverse),
    ("true taken for magnetic", north_is_true),
    ("directions subtracted as plain numbers", plain_differences),
    ("altitude taken for height", height_is_altitude),
    ("cone angle counted from the horizon", cone_lies_flat),
    ("wind thought to blow toward its name", wind_blows_to_its_name),
    ("the whole wind taken for its part", all_the_wind_counts),
    ("homing taken for tracking", homing_holds_the_course),
    ("turned away from the course", lays_off_to_the_wrong_side),
    ("course flown without an intercept angle", flies_the_course),
    ("angle laid off from your own radial", lays_off_from_own_radial),
    ("radials to go not doubled", radials_to_go_are_the_angle),
    ("limit of the air used on the ground", one_limit(6)),
    ("limit of the ground used in the air", one_limit(4)),
    ("needle thought to show miles", needle_shows_miles),
    ("slant range taken for ground distance", slant_is_ground),
)
"""What a belief is called, and the rule by which one who holds it answers."""


# ---- sessions

POOL = 300  # questions of each kind, each made once
QUESTIONS = 15
LESSONS = sorted({lesson for kind in all_kinds().values() for lesson in kind.lessons})
HELD = 0.95  # how often a misconception decides, where it can
SLIP = 0.04  # how often any other answer is one of the foreseen wrong ones all the same
pooled = cache(draw)


@contextmanager
def pool():
    """Draw from a pool of questions, which is quicker and else the same."""
    with patch.object(stock, "draw", pooled), patch.object(stock, "SEEDS", POOL):
        yield


def right(question):
    return question.form.show(question.answer)


def mistaken(question, chance):
    """Return one of the foreseen wrong answers, or the right one where there is none."""
    wrong = sorted({question.form.show(m.would_answer) for m in question.misconceptions})
    return chance.choice(wrong) if wrong else right(question)


def by(*rules):
    """Return how one answers who follows rules: where they part, now the one and now the other."""

    def answer(question, chance):
        for rule in chance.sample(rules, len(rules)):
            text = rule(question)
            if text is not None and mark(question, text).verdict != "right":
                return text
        return right(question)

    return answer


def slipping(share):
    """Return how one answers who knows it all, but for a share of slips."""
    return lambda question, chance: (
        mistaken(question, chance) if chance.random() < share else right(question)
    )


def misconceptions(lesson):
    """Return the names of all that the questions of a lesson foresee."""
    drawn = [pooled(kind, seed) for kind in kinds_of_lesson(lesson) for seed in range(60)]
    return sorted({name for question in drawn for name in question.foreseen})


def holding(held):
    """Return how one answers who mostly goes by one misconception, or by none, and slips."""

    def answer(question, chance):
        named = {}  # several answers may show one misconception
        for mistake in question.misconceptions:
            named.setdefault(mistake.name, []).append(mistake.would_answer)
        if held in named and chance.random() < HELD:
            return question.form.show(chance.choice(named[held]))
        if named and chance.random() < SLIP:
            return question.form.show(chance.choice(named[chance.choice(list(named))]))
        return right(question)

    return answer


def guessing(question, chance):
    """Pick the right answer, or what any of the foreseen mistakes would lead to."""
    wrong = {m.name: question.form.show(m.would_answer) for m in question.misconceptions}
    return chance.choice(sorted({right(question), *wrong.values()}))


def sit(kinds, answer, seed, who=""):
    """Return a practice set after 15 questions."""
    chance = Random(f"{who}/{seed}")
    practice = PracticeSet(kinds, count=QUESTIONS, seed=seed)
    for asked in range(QUESTIONS):
        question = practice.questions[asked]
        practice.mark(question, answer(question, chance))
        practice.follow_up(asked + 1)
    return practice


def least(sessions, share):
    """Return how few sessions refute a share: one sample in a thousand comes out lower."""
    from scipy.stats import binom  # takes as long to load as many tests

    return int(binom.ppf(0.001, sessions, share))


def astray(rule, kind):
    """Tell in what part of the questions of a kind a rule leads to a wrong answer."""
    questions = [pooled(kind, seed) for seed in range(60)]
    told = [(question, rule(question)) for question in questions]
    return sum(t is not None and mark(q, t).verdict != "right" for q, t in told) / len(told)


@cache
def lessons_of(rule):
    """Return the lessons in which a rule leads astray."""
    return [n for n in LESSONS if any(astray(rule, kind) > 0 for kind in kinds_of_lesson(n))]
