"""Decisions in flight: what becomes of each way, by a second reckoning."""

import math
import re
from functools import cache

import pytest

from vorlib.practice import draw, kinds_of_lesson, mark
from vorlib.practice.questions.decisions import LETTERS
from vorlib.stations.archipelago import STATIONS

DECISIONS = kinds_of_lesson("13")


@cache
def drawn(kind):
    return [draw(kind, seed) for seed in range(60)]


def numbers(pattern, text):
    return [float(found.replace(",", "")) for found in re.findall(pattern, text)]


@pytest.mark.parametrize("kind", DECISIONS)
def test_every_decision_has_one_way_that_is_right_and_tells_what_becomes_of_the_others(kind):
    assert {q.answer for q in drawn(kind)} == set(LETTERS)
    for question in drawn(kind):
        assert [f" {letter}: " in question.prompt for letter in LETTERS] == [True] * 3
        assert len(question.foreseen) == 2
        for mistake in question.misconceptions:
            said = mark(question, mistake.would_answer).message
            outcome = question.worked.partition(f"With {mistake.would_answer}: ")[2]
            assert outcome[:25] in said
            assert re.search(r"\d", outcome)


def test_who_follows_the_wrong_station_is_off_the_line_by_the_flat_triangle():
    for question in drawn("wrong_ident_followed"):
        speed = numbers(r"(\d+) kt", question.prompt)[0]
        course, bearing = (
            numbers(pattern, question.prompt)[0]
            for pattern in (r"on heading (\d+)", r"[Tt](?:he needle on|urn to) (\d+)")
        )
        wanted, heard = (
            next(s for s in STATIONS.values() if s.ident == ident)
            for ident in re.search(r"ident (\w+),.*listen: (\w+)\.", question.prompt).groups()
        )
        apart = bearing + heard.declination_deg - course - wanted.declination_deg
        for minutes, words in ((10, r"After 10 minutes you are (\d+)"), (2, r"are (\d+\.\d) NM")):
            off = abs(speed * minutes / 60 * math.sin(math.radians(apart)))
            # half a degree of the ring, and a line that is not quite straight
            assert numbers(words, question.worked)[0] == pytest.approx(off, rel=0.05, abs=0.55)


def test_a_crosswind_not_held_against_carries_off_its_own_speed_times_the_time():
    for question in drawn("flag_lost"):
        across, off = (
            numbers(r"(\d+) kt across", question.prompt),
            numbers(r"you are (\d+\.\d) NM off", question.worked),
        )
        assert off[0] == pytest.approx(across[0] / 6, abs=0.15)


def test_a_floor_that_rises_faster_than_the_climb_is_met_within_minutes():
    for question in drawn("signal_behind_hills"):
        height = numbers(r"([\d,]+) ft above its floor", question.prompt)[0]
        rise = numbers(r"rises (\d+)", question.prompt)[0]
        climb = numbers(r"climb (\d+)", question.prompt)[0]
        speed = numbers(r"You make (\d+)", question.prompt)[0]
        closing = rise * speed / 60 - climb  # ft a minute
        assert closing > 0
        assert numbers(r"after ([\d.]+) minutes", question.worked)[0] == pytest.approx(
            height / closing, abs=0.06
        )
        turn = numbers(r"turn takes ([\d.]+)", question.worked)[0]
        radius = (speed * 1.688) ** 2 / (32.174 * math.tan(math.radians(30))) / 6076.1
        assert turn == pytest.approx(2 * radius, abs=0.06)
        assert turn < numbers(r"slopes are ([\d.]+)", question.prompt)[0]


def test_the_error_of_a_failed_check_is_beyond_both_limits_and_grows_with_the_distance():
    for question in drawn("failed_check_flown"):
        error = numbers(r"reads (\d) degrees", question.prompt)[0]
        assert error > 6
        near, far = numbers(r"(\d+) NM to", question.prompt)
        for distance, words in ((near, r"are ([\d.]+) NM off"), (far, r"are ([\d.]+) NM beside")):
            off = distance * math.tan(math.radians(error))
            assert numbers(words, question.worked)[0] == pytest.approx(off, abs=0.06)


def test_a_steady_heading_is_through_the_cone_in_its_width_over_the_speed():
    for question in drawn("distracted_at_passage"):
        station = next(s for s in STATIONS.values() if s.name in question.prompt)
        altitude = numbers(r"([\d,]+) ft", question.prompt)[0]
        speed = numbers(r"(\d+) kt", question.prompt)[0]
        height = (altitude - station.position.altitude_ft) / 6076.1
        seconds = 2 * height * math.tan(math.radians(50)) / speed * 3600
        assert numbers(r"(\d+) seconds on", question.worked)[0] == pytest.approx(seconds, abs=0.6)
