"""Every kind of question: whole, and right by a second reckoning."""

import math
import re
from datetime import date
from functools import cache
from itertools import pairwise

import pytest

from vorlib.core.angles import COMPASS_POINTS
from vorlib.practice import all_kinds, draw, kinds_of_lesson, mark, question_kind
from vorlib.practice.questions.answers import ChoiceAnswer, CompassPoint
from vorlib.practice.questions.standards import ELEMENTS
from vorlib.stations.archipelago import STATIONS
from vorlib.views.classroom.question_figure import figure_words

SEEDS = range(150)
EVERY_KIND = pytest.mark.parametrize("kind", all_kinds())


@cache
def questions(kind):
    return [draw(kind, seed) for seed in SEEDS]


def numbers(question):
    """Return the three-figure directions of a prompt, in their order."""
    return [int(text) for text in re.findall(r"\b\d{3}\b", question.prompt)]


def told(question):
    """Return all that a reader is told: the prompt, and the figure in words."""
    return f"{question.prompt} {figure_words(question.figure) if question.figure else ''}"


def named(question, name):
    """Return the marking of what someone with the named misconception answers."""
    (mistake,) = (m for m in question.misconceptions if m.name == name)
    return mark(question, question.form.show(mistake.would_answer))


def test_there_are_two_dozen_kinds_and_more_and_every_lesson_has_some():
    assert len(all_kinds()) >= 24
    for lesson in range(1, 13):
        assert len(kinds_of_lesson(f"{lesson:02}")) >= 2


@EVERY_KIND
def test_an_answer_two_tolerances_off_is_not_right(kind):
    for question in questions(kind):
        if isinstance(question.answer, float):
            off = question.answer + 2 * question.tolerance
            assert question.form.apart(off, question.answer) > question.tolerance
            text = question.form.show(off) if kind == "needle_reading" else f"{off % 360:.3f}"
            assert mark(question, text).verdict != "right", (question.prompt, text)


@EVERY_KIND
def test_a_question_is_whole(kind):
    for question in questions(kind):
        assert question.kind == kind
        assert question.element in ELEMENTS
        for words in (question.prompt, question.worked, question.tolerance_why, *question.hints):
            assert words.strip()
        for mistake in question.misconceptions:
            assert mistake.why_tempting.endswith(".")
            assert mistake.look_again[-1] in ".?"


@EVERY_KIND
def test_the_worked_solution_ends_at_the_answer_but_the_first_hint_does_not_give_it(kind):
    for question in questions(kind):
        if isinstance(question.form, ChoiceAnswer | CompassPoint):
            assert str(question.answer) in question.worked
        elif kind in ("reciprocal", "centred_radial", "bearing_to_station"):
            shown = question.form.show(question.answer)
            assert shown in question.worked
            assert shown not in question.hints[0]


@EVERY_KIND
def test_the_same_seed_gives_the_same_question_and_other_seeds_give_others(kind):
    assert draw(kind, 7) == draw(kind, 7)
    assert len({question.prompt for question in questions(kind)}) > len(SEEDS) / 2


def test_an_unknown_kind_is_answered_with_those_there_are():
    with pytest.raises(ValueError, match=r"one of bearing_to_station, .*got 'loop'"):
        draw("loop", 1)
    with pytest.raises(ValueError, match="lesson must be one of 01, 02"):
        kinds_of_lesson("99")


def test_a_kind_cannot_be_registered_twice():
    with pytest.raises(ValueError, match="registered once, got 'reciprocal'"):
        question_kind("reciprocal", lessons=("01",))(lambda chance: draw("reciprocal", 1))


def test_a_reciprocal_is_half_a_circle_away():
    for question in questions("reciprocal"):
        (direction,) = numbers(question)
        assert question.answer == ((direction + 180 - 1) % 360) + 1


def test_answering_a_half_done_rule_of_200_and_20_is_named_as_that():
    for question in questions("reciprocal"):
        (direction,) = numbers(question)
        text = str(direction + 200 if direction <= 180 else direction - 200)
        if 0 <= int(text) <= 360:
            assert "200 and 20" in mark(question, text).message


def test_a_radial_is_the_direction_from_the_station_and_not_the_one_to_it():
    for question in questions("radial_from_place"):
        first, true, heading = numbers(question)
        wanted = first if question.prompt.startswith("From") else (first + 180) % 360
        assert mark(question, str(wanted)).verdict == "right"
        assert mark(question, str(true)).misconception.name == "true taken for magnetic"
        assert mark(question, str(heading)).misconception.name == "heading taken for position"
        back = str((wanted + 180) % 360)
        assert mark(question, back).misconception.name == "radial thought to lead to the station"


def test_a_radial_is_the_true_direction_less_the_declination():
    for question in questions("radial_from_true"):
        true = numbers(question)[0]
        west = int(re.search(r"declination is (\d+) degrees west", question.prompt)[1])
        assert mark(question, str((true + west) % 360)).verdict == "right"
        assert named(question, "true taken for magnetic").verdict == "wrong"
        assert mark(question, str(true)).misconception.name == "true taken for magnetic"


def test_todays_variation_taken_for_declination_is_named_where_the_two_differ():
    told = [q for q in questions("radial_from_true") if "Today's" in q.prompt]
    assert told
    for question in told:
        true = numbers(question)[0]
        today = int(re.search(r"variation there is (\d+) degrees west", question.prompt)[1])
        mistake = mark(question, str((true + today) % 360)).misconception
        assert mistake.name == "today's variation taken for declination"


def test_answering_the_radial_for_the_way_to_the_station_is_named():
    for question in questions("bearing_to_station"):
        radial, heading = numbers(question)
        assert mark(question, str((radial + 180) % 360)).verdict == "right"
        assert (
            mark(question, str(radial)).misconception.name
            == "radial thought to lead to the station"
        )
        assert mark(question, str(heading)).misconception.name == "heading taken for position"


def test_the_course_line_is_where_the_needle_is_two_degrees_a_dot():
    for question in questions("needle_reading"):
        dots, side = re.search(r"([\d.]+) dots (left|right)", told(question)).groups()
        degrees = 2 * float(dots)
        other = "right" if side == "left" else "left"
        assert mark(question, f"{degrees:g} {side}").verdict == "right"
        wrong_side = mark(question, f"{degrees:g} {other}")
        assert wrong_side.misconception.name == "needle taken for the aircraft"
        in_dots = mark(question, f"{dots} {side}")
        assert in_dots.misconception.name == "dots taken for degrees"


def test_the_flag_compares_course_and_radial_square_or_far_from_square():
    answers = set()
    for question in questions("flag_for_course"):
        radial, heading, course = numbers(question)
        along = math.cos(math.radians(course - radial))
        square = abs(along) < 1e-9
        assert square or abs(along) > math.cos(math.radians(75)) - 1e-9
        assert question.answer == ("OFF" if square else "FROM" if along > 0 else "TO")
        suggests = "FROM" if math.cos(math.radians(heading - radial)) > 0 else "TO"
        if suggests != question.answer:
            assert "heading thought to move the flag" in mark(question, suggests).names
        else:
            assert "heading thought to move the flag" not in question.foreseen
        answers.add((question.answer, suggests))
    assert len(answers) == 6


def test_sensing_is_reverse_when_the_heading_runs_against_the_selected_course():
    answers = set()
    for question in questions("sensing"):
        course, heading = numbers(question)
        against = math.cos(math.radians(heading - course)) < 0
        assert question.answer == ("reverse" if against else "normal")
        answers.add((question.answer, "reads TO" in told(question)))
    assert len(answers) == 4


def test_a_centered_needle_with_from_reads_the_radial_and_with_to_its_reciprocal():
    for question in questions("centred_radial"):
        course, heading = numbers(question)
        flag = re.search(r"flag reads (\w+)", told(question))[1]
        radial = course if flag == "FROM" else (course + 180) % 360
        assert mark(question, str(radial)).verdict == "right"
        assert mark(question, str(heading)).misconception.name == "heading taken for position"


def test_answering_the_reciprocal_is_named_as_the_reciprocal():
    from_flags = [q for q in questions("centred_radial") if "reads FROM" in told(q)]
    assert from_flags
    for question in from_flags:
        text = str((numbers(question)[0] + 180) % 360)
        assert mark(question, text).misconception.name == "radial thought to lead to the station"


def test_answering_the_bearing_with_to_is_named_as_the_bearing():
    to_flags = [q for q in questions("centred_radial") if "reads TO" in told(q)]
    assert to_flags
    for question in to_flags:
        text = str(numbers(question)[0])
        assert mark(question, text).misconception.name == "radial thought to lead to the station"


def test_the_side_of_the_station_is_the_same_counted_true_or_magnetic():
    for question in questions("centred_direction"):
        course = numbers(question)[0]
        radial = course if "reads FROM" in told(question) else course + 180
        (station,) = (s for s in STATIONS.values() if s.name in question.prompt)
        for direction in (radial, radial + station.declination_deg):
            assert COMPASS_POINTS[round(direction / 45) % 8] == question.answer


def test_the_opposite_side_of_the_station_is_named():
    for question in questions("centred_direction"):
        opposite = COMPASS_POINTS[(COMPASS_POINTS.index(question.answer) + 4) % 8]
        assert "radial thought to lead to the station" in mark(question, opposite).names


def test_200_feet_for_each_dot_and_mile_and_the_exact_value_both_count():
    # 200 ft per dot per NM, exactly 212: common practice.
    for question in questions("off_course_distance"):
        distance = int(re.search(r"(\d+) NM from", question.prompt)[1])
        dots = float(re.search(r"stands ([\d.]+) dots?", told(question))[1])
        exact = distance * math.sin(math.radians(2 * dots))
        assert question.answer == pytest.approx(exact, rel=1e-4)
        assert mark(question, f"{200 * dots * distance:.0f} ft").verdict == "right"
        assert mark(question, f"{exact:.3f}").verdict == "right"
        half = mark(question, f"{exact / 2:.4f}")
        assert half.misconception.name == "dots taken for degrees"


def test_the_cone_is_as_wide_as_its_half_angle_from_the_vertical_makes_it():
    # Half-angle of 50 degrees: ICAO Doc 8168, volume I, part I, section 2, chapter 2, 2.4.4.1.
    for question in questions("cone_radius"):
        altitude, elevation = (
            int(text.replace(",", "")) for text in re.findall(r"([\d,]+) ft", question.prompt)
        )
        radius = (altitude - elevation) / 6076.115 * math.tan(math.radians(50))
        assert question.answer == pytest.approx(radius, rel=1e-5)
        by_hand = (altitude - elevation) / 6000 * 1.2
        assert mark(question, f"{by_hand:.3f}").verdict == "right"
        assert mark(question, f"{radius:.1f}").verdict == "right"
        assert mark(question, f"{by_hand:.1f}").verdict == "right"


def test_the_cone_is_crossed_from_edge_to_edge():
    for question in questions("seconds_in_cone"):
        altitude, elevation = (
            int(text.replace(",", "")) for text in re.findall(r"([\d,]+) ft", question.prompt)
        )
        speed = int(re.search(r"(\d+) kt", question.prompt)[1])
        width = 2 * (altitude - elevation) / 6076.115 * math.tan(math.radians(50))
        assert question.answer == pytest.approx(width / speed * 3600, rel=1e-5)
        assert named(question, "radius taken for width").verdict == "wrong"
        minutes = mark(question, f"{question.answer / 60:.3f}")
        assert minutes.misconception.name == "minutes written as seconds"
        assert mark(question, f"{question.answer / 60:.3f} min").verdict == "right"


def test_beyond_the_station_the_flag_has_changed_and_in_the_cone_it_is_off():
    places = set()
    for question in questions("flag_after_passing"):
        before = re.search(r"flag reads (\w+)", told(question))[1]
        overhead = "overhead, well inside" in question.prompt
        changed = {"TO": "FROM", "FROM": "TO"}[before]
        assert question.answer == ("OFF" if overhead else changed)
        places.add((before, overhead))
    assert len(places) == 4


# Receiver checks: 14 CFR 91.171.


def test_a_check_passes_up_to_4_degrees_on_the_ground_and_up_to_6_in_the_air():
    slips = set()
    for question in questions("check_verdict"):
        radial, ring = numbers(question)[:2]
        limit = 4 if question.prompt.startswith("On the ground") else 6
        size = abs((ring - radial + 180) % 360 - 180)
        assert question.answer == ("pass" if size <= limit else "fail")
        slips.add(question.misconceptions[0].name)
    assert "limit of the air used on the ground" in slips
    assert "limit of the ground used in the air" in slips


def test_two_receivers_are_held_against_each_other_and_not_against_the_radial():
    for question in questions("two_receivers"):
        radial, first, second = numbers(question)[:3]
        apart = abs((second - first + 180) % 360 - 180)
        assert mark(question, str(apart)).verdict == "right"
        from_radial = abs((first - radial + 180) % 360 - 180)
        mistake = mark(question, str(from_radial)).misconception
        assert mistake.name == "dual check read as error from a known radial"


def test_a_check_holds_30_days_and_a_calendar_month_is_named():
    for question in questions("check_days"):
        made_on, today = map(date.fromisoformat, re.findall(r"\d{4}-\d\d-\d\d", question.prompt))
        assert question.answer == 30 - (today - made_on).days
        assert named(question, "calendar month counted").verdict == "wrong"


def test_an_ident_is_heard_right_changed_replaced_by_test_or_not_at_all():
    heard = {"right": 0, "TEST": 0, "missing": 0, "another": 0}
    for question in questions("ident_heard"):
        (station,) = (s for s in STATIONS.values() if s.name in question.prompt)
        names = {station.ident: "right", "TEST": "TEST", "missing": "missing"}
        case = names.get(question.answer, "another")
        heard[case] += 1
        assert ("Do not use it." in question.worked) == (case != "right")
        assert station.ident not in question.prompt
    assert min(heard.values()) > 10


def test_any_one_letter_confused_is_named_by_its_number():
    for question in questions("ident_heard")[:40]:
        if question.answer == "missing":
            continue
        for place in range(len(question.answer)):
            for letter in "AEKLNQTX":
                text = question.answer[:place] + letter + question.answer[place + 1 :]
                marking = mark(question, text)
                if letter == question.answer[place]:
                    assert marking.verdict == "right"
                elif marking.misconception.name != "the chart's ident taken for what is heard":
                    assert f"In letter {place + 1} you wrote {letter}" in marking.message


@pytest.mark.parametrize("text", ["Missing", "nothing.", "no ident", "NONE"])
def test_silence_has_many_names(text):
    silent = next(q for q in questions("ident_heard") if q.answer == "missing")
    assert mark(silent, text).verdict == "right"
    sent = next(q for q in questions("ident_heard") if q.answer != "missing")
    assert mark(sent, text).misconception.name == "an ident not heard"


def test_the_radial_is_how_far_the_am_tone_comes_after_the_fm_tone():
    for question in questions("radial_from_tones"):
        fm, am = map(int, re.search(r"at (\d+) degrees .* at (\d+)\.", question.prompt).groups())
        assert question.answer == (am - fm) % 360
        assert named(question, "lead taken for lag").verdict == "wrong"
        assert mark(question, f"{(fm - am) % 360}").misconception.name == "lead taken for lag"


@pytest.mark.parametrize("north", ["true", "magnetic"])
def test_only_one_place_lies_in_the_direction_of_both_radials_from_their_stations(north):
    declinations = {s.name: s.declination_deg * (north == "true") for s in STATIONS.values()}
    for question in questions("fix_two_radials"):
        said = re.findall(r"the (\d{3}) radial of (\w+)", question.prompt)
        wanted = [
            f"{COMPASS_POINTS[round((int(r) + declinations[s]) / 45) % 8]} of {s}" for r, s in said
        ]
        places = re.findall(r"([ABCD]): (\d+ NM .+? and .+?)\.", question.prompt)
        fitting = [letter for letter, words in places if all(w in words for w in wanted)]
        assert fitting == [question.answer]


def test_a_place_beyond_a_station_is_named_as_a_bearing_taken_for_a_radial():
    for question in questions("fix_two_radials"):
        names = [mark(question, x).misconception for x in "ABCD" if x != question.answer]
        assert sorted(m.name for m in names) == [
            "radial thought to lead to the station",
            "radial thought to lead to the station",
            "radials drawn from the wrong stations",
        ]


def test_the_best_pair_crosses_most_squarely_and_not_most_widely():
    for question in questions("best_pair"):
        radial = {n: int(r) for n, r in re.findall(r"([ABC]) (\d{3})", question.prompt)}
        pairs = ("A and B", "A and C", "B and C")

        def square(pair, radial=radial):
            return abs(math.sin(math.radians(radial[pair[0]] - radial[pair[-1]])))

        assert question.answer == max(pairs, key=square)
        assert math.degrees(math.asin(square(question.answer))) >= 75 - 1
        widest = min(pairs, key=lambda p, r=radial: math.cos(math.radians(r[p[0]] - r[p[-1]])))
        assert mark(question, widest).misconception.name.startswith("widest difference")


def test_slant_range_height_and_ground_distance_make_a_right_angled_triangle():
    for question in questions("slant_to_ground"):
        slant = float(re.search(r"shows ([\d.]+) NM", question.prompt)[1])
        height = int(re.search(r"([\d,]+) ft", question.prompt)[1].replace(",", "")) / 6076.115
        assert math.hypot(question.answer, height) == pytest.approx(slant, rel=1e-5)
        by_hand = math.sqrt(slant**2 - (height * 6076.115 / 6000) ** 2)
        assert mark(question, f"{by_hand:.3f}").verdict == "right"
        same = mark(question, f"{slant} NM").misconception
        assert same.name == "slant range taken for ground distance"


def test_seconds_over_degrees_are_the_minutes_to_the_station():
    # Wing-tip rule: 60 x minutes / degrees, which is seconds / degrees. Common practice.
    for question in questions("time_to_station"):
        seconds = int(re.search(r"After (\d+) seconds", question.prompt)[1])
        degrees = int(re.search(r"by (\d+) degrees", question.prompt)[1])
        assert question.answer == pytest.approx(seconds / degrees)
        exact = seconds / 60 / math.sin(math.radians(degrees))
        assert mark(question, f"{exact:.3f}").verdict == "right"
        hasty = mark(question, f"{seconds} s").misconception
        assert hasty.name == "isosceles rule used for the wing-tip run"


def test_airspeed_times_minutes_over_degrees_is_the_distance_to_the_station():
    for question in questions("distance_to_station"):
        speed = int(re.search(r"(\d+) kt", question.prompt)[1])
        degrees = int(re.search(r"by (\d+) degrees", question.prompt)[1])
        minutes = float(re.search(r"in ([\d.]+) minute", question.prompt)[1])
        assert question.answer == pytest.approx(speed * minutes / degrees)


def test_a_doubled_relative_bearing_leaves_as_long_as_was_flown():
    for question in questions("isosceles_time"):
        once, twice = re.search(r"is (\d+) degrees .* is (\d+) degrees", question.prompt).groups()
        assert int(twice) == 2 * int(once)
        minutes, seconds = re.search(r"after (\d+) min(?: (\d+) s)?", question.prompt).groups()
        assert question.answer == pytest.approx(int(minutes) + int(seconds or 0) / 60)


def test_the_course_to_the_station_is_the_reciprocal_of_the_radial_the_needle_tells():
    # Pilot's Handbook (FAA-H-8083-25C), chapter 16, tracking: with TO the
    # needle's side is the side on which the course lies.
    for question in questions("direct_course"):
        (course,) = numbers(question)[:1]
        dots, side = re.search(r"stands ([\d.]+) dots (left|right)", told(question)).groups()
        to = "reads TO" in told(question)
        off = 2 * float(dots) * (1 if side == "right" else -1)
        wanted = (course + off if to else course - off + 180) % 360
        assert mark(question, f"{wanted:.1f}").verdict == "right"
        back = mark(question, f"{(wanted + 180) % 360:.1f}").misconception
        assert back.name == "TO and FROM swapped"


def test_the_shorter_turn_ends_with_the_station_ahead():
    sides = set()
    for question in questions("turn_direct"):
        radial, heading = numbers(question)
        turn = (radial + 180 - heading + 180) % 360 - 180
        side = "left" if turn < 0 else "right"
        assert mark(question, f"{abs(turn)} {side}").verdict == "right"
        sides.add(side)
    assert sides == {"left", "right"}


def pursued(course, wind, wind_kt, airspeed_kt=100.0):
    """Fly for the station from 20 NM with the nose on it; return the headings until 0.2 NM."""
    x, y, headings = 0.0, 0.0, []
    station_x, station_y = (20 * f(math.radians(course)) for f in (math.sin, math.cos))
    while math.hypot(station_x - x, station_y - y) > 0.2:
        heading = math.atan2(station_x - x, station_y - y)
        headings.append(math.degrees(heading))
        blown = math.radians(wind + 180)
        x += (airspeed_kt * math.sin(heading) + wind_kt * math.sin(blown)) / 3600
        y += (airspeed_kt * math.cos(heading) + wind_kt * math.cos(blown)) / 3600
    return headings


def test_homing_turns_the_nose_into_the_wind_all_the_way_and_never_past_it():
    for question in questions("homing_end")[:40]:
        wind, course = numbers(question)[1:]  # the first number is the airspeed
        wind_kt = int(re.search(r"at (\d+) kt, counted", question.prompt)[1])
        headings = pursued(course, wind, wind_kt)
        turned = [(h - course + 180) % 360 - 180 for h in headings]
        to_wind = (wind - course + 180) % 360 - 180
        sign = math.copysign(1.0, to_wind)
        assert all(b * sign >= a * sign for a, b in pairwise(turned))
        assert 0 < turned[-1] * sign < abs(to_wind)
        assert question.answer == ("right" if sign > 0 else "left")
        assert mark(question, "neither").misconception.name == "homing taken for tracking"


def test_twice_the_radials_to_go_is_the_intercept_angle_between_20_and_90():
    # Double-angle rule: Instrument Flying Handbook (FAA-H-8083-15B), chapter 9, course
    # interception.
    for question in questions("intercept_angle"):
        radial, target = numbers(question)
        to_go = abs((target - radial + 180) % 360 - 180)
        assert question.answer == min(max(2 * to_go, 20), 90)
        assert mark(question, str(to_go)).misconception.name == "radials to go not doubled"


@pytest.mark.parametrize("kind", ["intercept_inbound", "intercept_outbound"])
def test_an_intercept_heading_leads_to_the_assigned_radial_and_along_it_the_right_way(kind):
    for question in questions(kind):
        radial, target = numbers(question)
        heading = question.answer
        # A plane drawing, 10 miles out: the heading has to close the line, and to run with it.
        off, run = math.radians(radial - target), math.radians(heading - target)
        side, closing = math.sin(off), math.sin(run)
        assert side * closing < 0
        assert (math.cos(run) < 0) == (kind == "intercept_inbound")
        angle = int(re.search(r"angle of (\d+) degrees", question.prompt)[1])
        assert math.degrees(math.asin(abs(closing))) == pytest.approx(angle, abs=0.6)
        # Met on this side of the station: after side / closing, in units of the distance.
        assert math.cos(off) + abs(side / closing) * math.cos(run) > 0


def test_the_lead_is_the_radius_at_90_degrees_and_a_small_part_of_it_at_30():
    # radius (1 - cos angle); US Navy P-1215: at 45 degrees about a third of that at 90.
    for question in questions("lead_degrees"):
        angle = int(re.search(r"angle of (\d+)", question.prompt)[1])
        out = int(re.search(r"degrees, (\d+) NM", question.prompt)[1])
        radius = float(re.search(r"radius of ([\d.]+) NM", question.prompt)[1])
        lead = radius * (1 - math.cos(math.radians(angle)))
        assert mark(question, f"{math.degrees(math.atan(lead / out)):.3f}").verdict == "right"
        by_thumb = radius * {90: 1, 45: 0.3, 30: 1 / 8}[angle] * 60 / out
        assert mark(question, f"{by_thumb:.3f}").verdict == "right"


def components(question):
    """Return airspeed, headwind and crosswind from the right, from the words of a prompt."""
    course, wind = numbers(question)[0], int(re.search(r"wind is (\d{3})", question.prompt)[1])
    speed = int(re.search(r"wind is \d{3} at (\d+) kt", question.prompt)[1])
    airspeed = int(re.search(r"airspeed (?:of )?(\d+) kt", question.prompt)[1])
    angle = math.radians(wind - course)
    return airspeed, speed * math.cos(angle), speed * math.sin(angle)


def test_the_nose_goes_into_the_wind_by_one_degree_for_each_sixtieth_of_the_airspeed():
    # The rule of 1 in 60, common practice; the exact triangle differs by less than the tolerance.
    for question in questions("wind_correction_heading"):
        airspeed, _, cross = components(question)
        by_rule = numbers(question)[0] + 60 * cross / airspeed
        assert mark(question, f"{by_rule % 360:.3f}").verdict == "right"
        away = mark(question, f"{(by_rule - 120 * cross / airspeed) % 360:.3f}").misconception
        assert away.name == "wind thought to blow toward its name"


def test_airspeed_less_headwind_and_the_exact_triangle_both_count_as_groundspeed():
    for question in questions("groundspeed"):
        airspeed, head, cross = components(question)
        exact = math.sqrt(airspeed**2 - cross**2) - head
        assert question.answer == pytest.approx(exact)
        assert mark(question, f"{airspeed - head:.2f} kt").verdict == "right"
        same = mark(question, f"{airspeed} knots").misconception
        assert same.name == "airspeed taken for groundspeed"


def test_the_wind_is_on_the_side_of_the_needle_or_of_the_nose_that_keeps_it_centered():
    # Pilot's Handbook (FAA-H-8083-25C), chapter 16, tracking: wind from the right
    # moves the needle right; +5 then holds.
    seen = set()
    for question in questions("wind_side"):
        course, heading = numbers(question)
        off = (heading - course + 180) % 360 - 180
        needle = re.search(r"stands [\d.]+ dots? (left|right)", told(question))
        assert not (needle and off)
        wanted = needle[1] if needle else "right" if off > 0 else "left" if off else "neither"
        assert question.answer == wanted
        seen.add((wanted, bool(needle), "reads TO" in told(question)))
    assert len(seen) == 10


def test_a_bracket_takes_20_degrees_keeps_half_and_then_half_of_the_half():
    # Instrument Flying Handbook (FAA-H-8083-15B), chapter 9, tracking: 20 degrees, then half.
    seen = set()
    for question in questions("bracket_heading"):
        course = numbers(question)[0]
        off = round((question.answer - course + 180) % 360 - 180)
        stage = re.search(r"You held|has moved|is centered", question.prompt)[0]
        right = r"dots right|off to the right\. You turned 20|You held \d+ degrees to the right"
        side = 1 if re.search(right, question.prompt) else -1
        assert off == side * {"has moved": 20, "is centered": 10, "You held": 5}[stage]
        seen.add((stage, side))
    assert len(seen) == 6


def test_only_a_heading_against_the_selected_course_calls_for_the_reciprocal():
    seen = set()
    for question in questions("course_to_follow"):
        course, heading = numbers(question)[0], numbers(question)[1]
        against = abs((heading - course + 180) % 360 - 180) > 90
        assert question.answer == ((course + 179) % 360 + 1 if against else course)
        ring = mark(question, str(heading)).misconception
        assert ring.name == "ring set to the heading"
        seen.add((against, "reads TO" in told(question)))
    assert len(seen) == 4


def test_with_heading_against_the_selected_course_the_line_is_on_the_other_side():
    for question in questions("turn_to_line"):
        course, heading = numbers(question)
        needle = re.search(r"stands [\d.]+ dots (left|right)", told(question))[1]
        against = math.cos(math.radians(heading - course)) < 0
        assert (question.answer != needle) == against


def test_reverse_sensing_is_from_on_the_way_in_and_to_on_the_way_out():
    # Pilot's Handbook (FAA-H-8083-25C), chapter 16, tips: toward with FROM, away with TO, reverse
    # it.
    for question in questions("flag_when_reversed"):
        toward = "straight toward" in question.prompt
        heading, course = numbers(question)[:2]
        reverse = heading != course
        if (course - heading) % 180 == 90:
            assert question.answer == "OFF"
            assert mark(question, "TO" if toward else "FROM").verdict == "wrong"
            continue
        assert question.answer == ("FROM" if toward == reverse else "TO")
        if reverse:
            assert named(question, "flag thought to warn of reverse sensing").verdict == "wrong"


def test_the_same_miles_off_the_line_are_more_dots_the_nearer_the_station():
    for question in questions("needle_near_station"):
        far, near = map(int, re.findall(r"(\d+) NM", question.prompt))
        before = float(re.search(r"stands ([\d.]+) dots? off", question.prompt)[1])
        # The rule of 1 in 60: the miles are distance x degrees / 60 at either place.
        assert mark(question, f"{before * far / near:.2f} dots").verdict == "right"
        assert f" = {before * far / near:g} dots." in question.worked
        assert question.worked.endswith(f" {question.form.show(question.answer)}.")
        same = mark(question, f"{before}").misconception
        assert same.name == "needle thought to show miles"


def test_a_service_volume_is_counted_in_height_above_the_antenna():
    # AIM 1-1-8, table 1-1-1: VL changes at 5,000 ft, VH at 5,000 and 14,500, H at 14,500.
    promised = {"VL": {5000: 40}, "VH": {5000: 40, 14_500: 70}, "H": {14_500: 40}}
    for question in questions("service_volume"):
        words = question.prompt.replace(",", "")
        service = re.search(r"class (\w+) stands", words)[1]
        elevation = int(re.search(r"stands (\d+) ft", words)[1])
        altitude = int(re.search(r"You fly at (\d+) ft", words)[1])
        (edge,) = [e for e in promised[service] if altitude - elevation < e <= altitude]
        assert mark(question, f"{promised[service][edge]} NM").verdict == "right"
        assert named(question, "altitude taken for height").verdict == "wrong"


def test_a_log_entry_needs_date_place_error_and_signature_and_no_more():
    # 14 CFR 91.171(d) (read in a quotation).
    missing = set()
    for question in questions("log_entry"):
        there = {
            "date": re.search(r"\d{4}-\d\d-\d\d", question.prompt),
            "place": re.search(r"checkpoint;|checkpoint\.|test signal[;.]", question.prompt),
            "error": re.search(r"error [+-]\d", question.prompt),
            "signature": re.search(r"signed", question.prompt),
        }
        left_out = [item for item, found in there.items() if not found]
        assert left_out == ([] if question.answer == "nothing" else [question.answer])
        missing.add(question.answer)
        assert mark(question, "the altitude").verdict == "wrong"
    assert missing == {"date", "place", "error", "signature", "nothing"}
