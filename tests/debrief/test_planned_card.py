"""A flight flown by a lesson card, held against it: every blank of the card filled."""

from dataclasses import replace

import numpy as np
import pytest

from vorlib.aircraft.flight import Flight, FlightState, start
from vorlib.aircraft.wind import Wind
from vorlib.briefing.card import lesson_card
from vorlib.briefing.files import plan_lesson
from vorlib.briefing.legs import card_legs
from vorlib.briefing.saved import lesson_from_json, lesson_json
from vorlib.briefing.scene import scene_of
from vorlib.core.angles import format_direction
from vorlib.debrief.recorded import debrief_recording
from vorlib.debrief.report.planned import Plan, planned_against_flown
from vorlib.earth.geodesic import Position
from vorlib.procedures.flying import fly
from vorlib.procedures.pilots import Intercepting, Tracking
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks.selections import Selection

FORECAST, BLOWS = Wind(240.0, 20.0), Wind(255.0, 26.0)
LESSON = plan_lesson(wind=FORECAST, altitude_ft=3500.0, true_airspeed_kt=105.0)
DRIFT_KT = 6.0


def flown(legs):
    """Fly the card's courses one after the other in another wind; one moment a second."""
    station, aircraft = legs[0].station, LESSON.aircraft
    begin = LESSON.overhead(scene_of(lesson_card(LESSON)).begin.position)
    state, now_s, parts, selected = start(begin, 279.0), 0.0, [], []
    pilots = (Tracking(), Intercepting(legs[1].intercept_deg), Intercepting(205.0))
    for pilot, leg, seconds in zip(pilots, legs, (100.0, 460.0, 420.0), strict=True):
        part = fly(pilot, aircraft, state, station, leg.course_deg, seconds, wind=BLOWS).flight
        selected.append(Selection(now_s, station, leg.course_deg))
        some = slice(0, -1, 10)
        place, heading = part.position, part.true_heading_deg
        columns = (now_s + part.time_s, place.lat_deg, place.lon_deg, heading)
        parts.append(np.array([column[some] for column in columns]))
        now_s += float(part.time_s[-1])
        last = float(place.lat_deg[-1]), float(place.lon_deg[-1])
        state = FlightState(0.0, *last, 3500.0, float(heading[-1]), float(part.bank_deg[-1]))
    time_s, lat, lon, heading = np.concatenate(parts, axis=1)
    place = Position(lat, lon, np.full(lat.size, 3500.0))
    return Flight(time_s, place, heading, heading + 0.5, 0.0 * lat), selected


def test_the_blanks_of_a_saved_card_are_filled_from_the_track():
    legs = card_legs(lesson_card(LESSON))
    debrief = debrief_recording(*flown(legs))
    plan = Plan().on_card(lesson_from_json(lesson_json(LESSON)))
    rows = {row.what: row for row in planned_against_flown(debrief, plan)}
    assert rows["wind, true"].planned == "240 at 20 kt"
    for leg in legs:
        name = f"{leg.title}: {leg.station.name}"
        assert rows[f"{name}, course selected"].difference == "none"
        assert rows[f"{name}, heading"].planned == format_direction(leg.heading_deg)
        assert rows[f"{name}, groundspeed"].planned == f"{leg.groundspeed_kt:.0f} kt"
        assert float(rows[f"{name}, groundspeed"].difference.split()[0]) == pytest.approx(
            -DRIFT_KT, abs=4.0
        )
    intercept = rows["2. Intercept inbound: Quillon, heading to the line"]
    assert intercept.planned == format_direction(legs[1].intercept_deg)
    assert abs(int(intercept.flown) - legs[1].intercept_deg) <= 2.0
    assert rows["3. Station passage: Quillon, OFF"].flown.endswith(" s")
    (check,) = (row for what, row in rows.items() if what.startswith("5. Cross-check"))
    assert check.flown != "not flown"
    assert list(rows)[3].startswith("1. ")  # in the order of the card
    (over,) = (what for what in rows if " min " in what.partition(":")[0])  # and nothing besides
    assert "over Quillon Field" in over


def test_what_was_not_flown_is_said_and_what_is_typed_goes_before_the_card():
    track, selected = flown(card_legs(lesson_card(LESSON)))
    away = [replace(one, station=STATIONS["PLX"]) for one in selected]
    plan = Plan(wind=Wind(200.0, 10.0)).on_card(LESSON)
    rows = planned_against_flown(debrief_recording(track, away), plan)
    told = {row.what: row for row in rows}
    assert told["wind, true"].planned == "200 at 10 kt"
    for title in ("1. Orientation", "2. Intercept inbound", "3. Station passage", "4. Outbound"):
        (row,) = (row for row in rows if row.what.startswith(title))
        assert row.flown == "not flown"
    assert f"{plan.lesson.on}" in plan.name
    assert plan.stations is None  # those of the islands
