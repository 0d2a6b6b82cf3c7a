"""The habits that a debrief sees in flights made to show them, and in no others."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.wind import CALM, Wind
from vorlib.debrief.analysis import Debrief, debrief
from vorlib.debrief.habits.kinds import (
    FixPassed,
    FlownThrough,
    Homed,
    NotIdentified,
    ReverseFollowed,
)
from vorlib.procedures.flying import fly
from vorlib.procedures.panel import Command, Panel, Pilot
from vorlib.procedures.pilots import Chasing, Intercepting, Reversed, Tracking
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.receiver import DEG_PER_DOT, Flag

QLN, TSX = STATIONS["QLN"], STATIONS["TSX"]
WIND = Wind(310.0, 20.0)


def told(
    pilot: Pilot, radial: float, nm: float, heading: float, course: float, s: float, wind=WIND
) -> Debrief:
    """What is found in a flight that is kept once a second, as one by hand is."""
    begin = start(QLN.position_on(radial, nm, 3500.0), heading + QLN.declination_deg)
    flown = fly(pilot, Aircraft(), begin, QLN, course, s, wind=wind, looks_per_s=1.0)
    return debrief(flown.flight, QLN, flown.course_deg)


@dataclass
class Recentering:
    """Re-centers the ring each time some seconds have passed, and points the nose at it."""

    every_s: float

    def __call__(self, panel: Panel) -> Command:
        if panel.flag is Flag.TO and panel.time_s % self.every_s < 0.5:
            course = (panel.course_deg + panel.dots * DEG_PER_DOT) % 360.0
            return Command(course, course)
        return Command(panel.course_deg, panel.course_deg)


def held(heading_deg: float) -> Pilot:
    return lambda panel: Command(heading_deg, panel.course_deg)


def habits_of(found: Debrief, kind: type) -> list:
    return [habit for habit in found.habits if isinstance(habit, kind)]


@pytest.mark.parametrize("every_s", [2.0, 15.0, 40.0])
def test_homing_is_called_homing_and_not_tracking(every_s) -> None:
    found = told(Recentering(every_s), 235.0, 17.0, 55.0, 55.0, 540.0)
    (homed,) = found.habits
    assert isinstance(homed, Homed)
    assert homed.times >= 540.0 / every_s * 0.5
    assert homed.courses_deg[0] == 55.0
    assert homed.courses_deg[1] < 50.0  # the nose swings into the wind
    words = " ".join(found.sentences)
    assert "that is homing to Quillon" in words
    assert "you tracked" not in words
    assert "Every correction" not in words
    assert found.established_s < 60.0


def test_reverse_sensing_is_told_by_the_ring_against_the_compass() -> None:
    found = told(Reversed(), 218.0, 15.0, 40.0, 220.0, 400.0)
    (reverse,) = habits_of(found, ReverseFollowed)
    assert reverse.course_deg == 220.0
    assert abs(reverse.heading_deg - 50.0) < 15.0
    words = " ".join(found.sentences)
    assert "with 220 selected: reverse sensing" in words
    assert "Select 040, and read the needle again." in words
    assert "under reverse sensing" not in words  # the same turns, told once
    assert "Every correction was toward" not in words


def test_a_shallow_cut_held_through_the_course_is_no_intercept() -> None:
    found = told(held(60.0), 230.0, 9.0, 60.0, 40.0, 600.0, CALM)
    (through,) = found.habits
    assert isinstance(through, FlownThrough)
    assert through.angle_deg == pytest.approx(20.0, abs=1.0)
    assert found.established_s == 0.0
    assert found.intercepts == ()
    assert found.phases == ()
    words = " ".join(found.sentences)
    assert "never established" in words
    assert "crossed the 040 course of Quillon at 20 degrees and flew on" in words


@pytest.mark.parametrize(
    ("late_s", "seen"), [(0.0, False), (10.0, False), (40.0, True), (90.0, True)]
)
def test_a_fix_flown_through_is_timed_and_one_turned_at_is_not_blamed(late_s, seen) -> None:
    # out on the 090 of Quillon, Tessarin's 205 met, then inbound on it: course 025
    begin = start(QLN.position_on(90.0, 22.0, 5500.0), 90.0 + QLN.declination_deg)
    straight = fly(held(90.0), Aircraft(), begin, QLN, 90.0, 600.0, looks_per_s=1.0).flight
    met_s = float(np.interp(205.0, TSX.radial_deg(straight.position)[::-1], straight.time_s[::-1]))
    turn_s = met_s + late_s
    flown = fly(
        lambda panel: Command(90.0 if panel.time_s < turn_s else 15.0, 90.0),
        Aircraft(), begin, QLN, 90.0, met_s + 240.0, looks_per_s=1.0,
    ).flight  # fmt: skip
    course = np.where(flown.time_s < turn_s, 205.0, 25.0)
    fixes = habits_of(debrief(flown, TSX, course), FixPassed)
    assert bool(fixes) is seen
    if seen:
        (fix,) = fixes
        assert fix.at_s == pytest.approx(met_s, abs=25.0)  # by the needle, half a dot
        assert fix.late_s == pytest.approx(late_s, abs=25.0)
        assert "205 radial of Tessarin" in fix.words
        assert "flew through the fix" in fix.words


def test_a_station_used_without_its_ident_is_told_and_one_identified_is_not() -> None:
    begin = start(QLN.position_on(220.0, 15.0, 3500.0), 40.0 + QLN.declination_deg)
    flight = fly(Tracking(), Aircraft(), begin, QLN, 40.0, 240.0, looks_per_s=1.0).flight
    tuned = [QLN if t < 120.0 else TSX for t in flight.time_s]
    taken = (flight.time_s > 30.0) & (flight.time_s < 120.0)
    (missed,) = debrief(flight, tuned, 40.0, identified=taken).habits
    assert isinstance(missed, NotIdentified)
    assert (missed.station_name, missed.begin_s) == ("Tessarin", 120.0)
    assert debrief(flight, tuned, 40.0).habits == ()  # nobody knows


@pytest.mark.parametrize(
    "pilot",
    [Tracking(), Intercepting(85.0), Chasing()],
    ids=["tracking", "intercepting", "chasing"],
)
def test_who_has_none_of_these_habits_is_not_said_to_have(pilot) -> None:
    heading = 85.0 if isinstance(pilot, Intercepting) else 40.0
    radial = 238.0 if isinstance(pilot, Intercepting) else 222.0
    assert told(pilot, radial, 16.0, heading, 40.0, 600.0).habits == ()


def test_a_bearing_taken_on_the_way_is_neither_homing_nor_reverse_sensing() -> None:
    begin = start(QLN.position_on(90.0, 12.0, 5500.0), 90.0 + QLN.declination_deg)
    flight = fly(held(90.0), Aircraft(), begin, QLN, 90.0, 240.0, looks_per_s=1.0).flight
    aside = (flight.time_s > 90.0) & (flight.time_s < 150.0)
    tuned = [TSX if there else QLN for there in aside]
    assert debrief(flight, tuned, np.where(aside, 237.0, 90.0)).habits == ()


def test_findings_are_told_in_order_of_time_and_without_amounts_of_nothing() -> None:
    found = told(Intercepting(70.0), 240.0, 15.0, 70.0, 40.0, 800.0)
    times = [part.at_s for part in found.in_order]
    assert times == sorted(times)
    assert len(times) >= 2
    words = " ".join(found.sentences)
    assert "for 0 s" not in words
    assert "not once" not in words


def test_no_correction_is_praised_where_none_was_made() -> None:
    found = told(held(40.0), 220.0, 15.0, 40.0, 40.0, 300.0, CALM)
    assert found.corrections == 0
    assert not any("correction" in sentence for sentence in found.sentences)
    assert "never crossed the center" in found.sentences[0]
