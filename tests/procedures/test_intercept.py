"""Intercepting a radial: rules of the trade, and the flight that the formula foretells."""

import numpy as np
import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st

import vorlib as v
from vorlib.aircraft.flight import Aircraft, advance, start
from vorlib.aircraft.wind import CALM
from vorlib.procedures.intercept import angle_for_distance_deg

QUILLON = v.Station("QLN", v.Position(46.0, -30.0), -9.0, 113.4, "Quillon", "H")
AIRCRAFT = Aircraft(110.0)


def on(radial: float, distance: float = 15.0):
    """An aircraft on a radial of Quillon."""
    return start(QUILLON.position_on(radial, distance, 5000.0), 360.0)


# Instrument Flying Handbook (FAA-H-8083-15B), chapter 9, course interception: twice, 20 to 90.
@pytest.mark.parametrize(
    ("to_go", "angle"), [(2, 20), (10, 20), (15, 30), (-15, 30), (44, 88), (45, 90), (60, 90)]
)
def test_twice_the_radials_to_go_between_20_and_90(to_go: float, angle: float) -> None:
    assert v.intercept_angle_deg(to_go) == angle


def test_course_260_to_the_station_from_the_085_radial_is_met_on_270() -> None:
    # US Navy P-871, section 408: course 260 inbound, on the radial 085, bearing 265; roll out so
    # that the pointer is halfway between: heading 270 (computed from that rule). Twice 5 radials.
    plan = v.plan_intercept(QUILLON, on(85.0), AIRCRAFT, 260.0, inbound=True, angle_deg=10.0)
    assert plan.heading_deg == pytest.approx(270.0)
    assert plan.radials_to_go_deg == pytest.approx(-5.0)
    assert plan.side == "right"


def test_the_angle_by_distance_lies_between_30_and_45() -> None:
    angles = angle_for_distance_deg(np.linspace(0.0, 100.0, 101))
    assert angles.max() == 45.0
    assert angles.min() == 30.0
    assert np.all(np.diff(angles) <= 0.0)


# From which side, going which way, the course lies where for the pilot: common practice.
SIDES = [
    (60.0, 40.0, False, "left", "clockwise of an outbound course"),
    (20.0, 40.0, False, "right", "anticlockwise of an outbound course"),
    (60.0, 220.0, True, "right", "clockwise of the radial, going in"),
    (20.0, 220.0, True, "left", "anticlockwise of the radial, going in"),
]


@pytest.mark.parametrize(
    ("radial", "course", "inbound", "side", "why"), SIDES, ids=[w for *_, w in SIDES]
)
def test_turn_to_the_side_on_which_the_course_lies(
    radial: float, course: float, inbound: bool, side: str, why: str
) -> None:
    plan = v.plan_intercept(QUILLON, on(radial), AIRCRAFT, course, inbound=inbound)
    assert plan.side == side
    assert plan.angle_deg == pytest.approx(40.0)
    turn = float(v.difference_deg(plan.heading_deg, course))
    assert turn == pytest.approx(40.0 if side == "right" else -40.0)
    needle = v.Receiver(course).read(QUILLON, on(radial).position)
    assert needle.deviation_deg * turn > 0.0


@settings(max_examples=40, deadline=None)
@given(
    st.floats(0.0, 360.0),
    st.floats(8.0, 40.0),
    st.floats(3.0, 40.0),
    st.booleans(),
    st.booleans(),
    st.floats(0.0, 360.0),
    st.floats(0.0, 30.0),
)
def test_the_intercept_by_formula_is_the_one_the_flight_makes(
    radial: float,
    distance: float,
    to_go: float,
    clockwise: bool,
    inbound: bool,
    wind_from: float,
    wind_kt: float,
) -> None:
    target = radial + (to_go if clockwise else -to_go)
    course, wind = target + 180.0 * inbound, v.Wind(wind_from, wind_kt)
    state = on(radial, distance)
    try:
        plan = v.plan_intercept(QUILLON, state, AIRCRAFT, course, inbound=inbound, wind=wind)
    except ValueError:
        reject()
    heading = start(state.position, plan.heading_deg + QUILLON.declination_deg)
    met = advance(heading, AIRCRAFT, plan.minutes * 60.0, 0.0, wind)
    assert abs(v.difference_deg(QUILLON.radial_deg(met.position), target)) < 1e-4
    assert QUILLON.distance_nm(met.position) == pytest.approx(plan.distance_nm, abs=1e-4)
    before = advance(heading, AIRCRAFT, plan.minutes * 59.0, 0.0, wind)
    left = float(v.difference_deg(target, QUILLON.radial_deg(before.position)))
    assert left * plan.radials_to_go_deg > 0.0


@settings(max_examples=25, deadline=None)
@given(st.floats(4.0, 40.0), st.floats(10.0, 35.0), st.booleans())
def test_mirrored_intercepts_are_mirror_images(
    to_go: float, distance: float, inbound: bool
) -> None:
    # About a true meridian, which is a line of symmetry of the ellipsoid.
    station = v.Station("QLN", v.Position(46.0, -30.0), 0.0, 113.4)
    radial = 360.0 + 180.0 * inbound
    right, left = (
        v.plan_intercept(
            station,
            start(station.position_on(radial + off, distance, 5000.0), 360.0),
            AIRCRAFT,
            360.0,
            inbound=inbound,
        )
        for off in (-to_go, to_go)
    )
    assert {right.side, left.side} == {"left", "right"}
    assert left.minutes == pytest.approx(right.minutes, abs=1e-6)
    assert left.lead_nm == pytest.approx(right.lead_nm)


@settings(max_examples=25, deadline=None)
@given(st.floats(0.0, 360.0), st.floats(5.0, 30.0), st.floats(0.0, 360.0))
def test_turning_courses_radials_and_wind_together_turns_the_intercept(
    course: float, to_go: float, turn: float
) -> None:
    # The equator of a sphere would make this exact; here the ellipsoid allows a little.
    plans = [
        v.plan_intercept(
            QUILLON,
            on(course + to_go + more),
            AIRCRAFT,
            course + more,
            inbound=False,
            wind=v.Wind(course + 70.0 + more, 20.0),
        )
        for more in (0.0, turn)
    ]
    assert plans[1].minutes == pytest.approx(plans[0].minutes, rel=0.02)
    assert plans[1].lead_nm == pytest.approx(plans[0].lead_nm, abs=1e-6)
    assert abs(v.difference_deg(plans[1].heading_deg, plans[0].heading_deg + turn)) < 1e-6


@pytest.mark.parametrize("angle", [30.0, 45.0, 60.0, 90.0])
def test_a_turn_begun_with_the_lead_ends_on_the_course(angle: float) -> None:
    plan = v.plan_intercept(QUILLON, on(70.0, 30.0), AIRCRAFT, 40.0, inbound=False, angle_deg=angle)
    state = start(on(70.0, 30.0).position, plan.heading_deg + QUILLON.declination_deg)
    bank = float(np.degrees(np.arctan(np.radians(3.0) * 110 * 1852 / 3600 / 9.80665)))
    quick = Aircraft(110.0, bank_limit_deg=30.0, roll_rate_deg_s=90.0)
    state = advance(state, quick, plan.minutes * 60.0 - plan.lead_s)
    state = advance(state, quick, angle / 3.0, bank)
    off_deg = float(v.difference_deg(QUILLON.radial_deg(state.position), 40.0))
    off_nm = float(QUILLON.distance_nm(state.position)) * np.radians(off_deg)
    assert abs(off_nm) < 0.03


@pytest.mark.parametrize("elevation", [0.0, 640.0, 5500.0])
@pytest.mark.parametrize("wind_from", [40.0, 130.0, 220.0, 310.0])
@pytest.mark.parametrize("angle", [45.0, 90.0])
@pytest.mark.parametrize("off_deg", [-30.0, 30.0])
def test_a_turn_begun_with_the_lead_ends_on_the_course_in_any_wind(
    elevation: float, wind_from: float, angle: float, off_deg: float
) -> None:
    # Flown: the wind carries the aircraft toward the line or away from it all through the turn.
    station = v.Station("QLN", v.Position(46.0, -30.0, elevation), -9.0, 113.4, service="H")
    wind = v.Wind(wind_from + station.declination_deg, 20.0)
    begin = start(station.position_on(40.0 + off_deg, 30.0, elevation + 5000.0), 360.0)
    plan = v.plan_intercept(
        station, begin, AIRCRAFT, 40.0, inbound=False, angle_deg=angle, wind=wind
    )
    bank = float(np.degrees(np.arctan(np.radians(3.0) * 110 * 1852 / 3600 / 9.80665)))
    quick = Aircraft(110.0, bank_limit_deg=30.0, roll_rate_deg_s=90.0)
    state = start(begin.position, plan.heading_deg + station.declination_deg)
    state = advance(state, quick, plan.minutes * 60.0 - plan.lead_s, 0.0, wind)
    turn = float(v.difference_deg(plan.hold_heading_deg, plan.heading_deg))
    state = advance(state, quick, abs(turn) / 3.0, np.copysign(bank, turn), wind)
    off = float(v.difference_deg(station.radial_deg(state.position), 40.0))
    off_nm = float(station.distance_nm(state.position)) * np.radians(off)
    # Within the roll in and out; the wrong sign of the wind would leave 0.1 to 0.4 NM.
    assert abs(off_nm) < 0.035


def test_a_wind_along_the_course_needs_no_correction_however_far_the_stations_north() -> None:
    # Winds are true and courses magnetic: 360 true is 040 by a station set 40 degrees west.
    station = v.Station("QLN", v.Position(46.0, -30.0), -40.0, 113.4, service="H")
    begin = start(station.position_on(70.0, 30.0, 5000.0), 360.0)
    plan = v.plan_intercept(station, begin, AIRCRAFT, 40.0, inbound=False, wind=v.Wind(360.0, 30.0))
    assert plan.hold_heading_deg == pytest.approx(40.0)


def test_ninety_degrees_needs_three_times_the_lead_of_forty_five() -> None:
    # US Navy P-1215: the lead for 45 degrees is one third of that for 90.
    steep, shallow = (
        v.plan_intercept(QUILLON, on(70.0), AIRCRAFT, 40.0, inbound=False, angle_deg=angle)
        for angle in (90.0, 45.0)
    )
    assert shallow.lead_nm / steep.lead_nm == pytest.approx(1 / 3, abs=0.05)


@pytest.mark.parametrize(
    ("distance", "lead_deg"), [(20.0, 7.5), (15.0, 10.0), (10.0, 15.0), (5.0, 30.0)]
)
def test_lead_in_radials_is_that_of_the_table_at_250_knots(
    distance: float, lead_deg: float
) -> None:
    # US Navy P-1204: 90-degree turn at 250 kt, one percent of the speed, 60 / distance radials a
    # mile. The exact radius of a turn at 3 degrees a second is 1.06 percent of half that: the
    # table takes 2.5 NM for a turn at half standard rate.
    radius = 2.0 * float(v.turn_radius_nm(250.0, np.degrees(np.arctan(250 / 364.07))))
    assert 60.0 / distance * radius == pytest.approx(lead_deg, rel=0.07)


def test_too_near_the_course_for_its_lead_the_turn_overshoots_by_what_is_missing() -> None:
    plan = v.plan_intercept(QUILLON, on(41.0, 10.0), AIRCRAFT, 40.0, inbound=False, angle_deg=90.0)
    room_nm = 10.0 * np.sin(np.radians(1.0))
    assert plan.overshoot_nm == pytest.approx(plan.lead_nm - room_nm)
    roomy = v.plan_intercept(QUILLON, on(60.0, 20.0), AIRCRAFT, 40.0, inbound=False)
    assert roomy.overshoot_nm == 0.0


def test_the_steps_are_words_that_carry_the_numbers() -> None:
    plan = v.plan_intercept(QUILLON, on(60.0), AIRCRAFT, 220.0, inbound=True)
    words = " ".join(plan.steps)
    for said in ("060 radial of Quillon", "20 radials", "Select 220", "TO", "right", "heading 260"):
        assert said in words


BAD = [
    (lambda: ask(on(40.0), 40.0, False), "on the radial already"),
    (lambda: ask(start(QUILLON.position, 0.0), 40.0, False), "over the station"),
    (lambda: ask(on(60.0), 40.0, True), "heading 310 does not meet the 220 radial"),
    (lambda: ask(on(60.0), 235.0, False), "does not meet the 235 radial"),
    (lambda: ask(on(240.0), 40.0, True, angle_deg=20.0), "no room to turn onto it"),
    (lambda: ask(on(60.0), 40.0, False, angle_deg=0.0), "angle_deg must be more than 0"),
    (lambda: ask(on(60.0), 40.0, False, angle_deg=91.0), "at most 90 degrees, got 91"),
    (
        lambda: ask(on(60.0), 40.0, False, wind=v.Wind(130.0, 150.0)),
        "true_airspeed_kt must be more",
    ),
    (lambda: ask(on(60.0), np.nan, False), "course_deg must be finite"),
]


def ask(state, course: float, inbound: bool, **more) -> object:
    """Plan an intercept."""
    return v.plan_intercept(QUILLON, state, AIRCRAFT, course, inbound=inbound, **more)


@pytest.mark.parametrize(("call", "message"), BAD, ids=[m for _, m in BAD])
def test_an_intercept_that_cannot_happen_is_answered_in_words(call, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()


@settings(max_examples=30, deadline=None)
@given(
    st.floats(0.0, 360.0), st.floats(0.02, 60.0), st.floats(0.0, 360.0), st.booleans(),
    st.floats(1.0, 90.0), st.floats(0.0, 360.0), st.floats(0.0, 100.0),
)  # fmt: skip
def test_every_question_has_an_answer_in_finite_time(
    radial, distance, course, inbound, angle, wind_from, wind_kt
) -> None:
    try:
        plan = ask(
            on(radial, distance), course, inbound, angle_deg=angle, wind=v.Wind(wind_from, wind_kt)
        )
    except ValueError:
        return
    numbers = [value for value in vars(plan).values() if isinstance(value, float)]
    assert np.isfinite(numbers).all()


def test_calm_is_the_wind_when_none_is_given() -> None:
    given_calm = ask(on(60.0), 40.0, False, wind=CALM)
    assert given_calm == ask(on(60.0), 40.0, False)
