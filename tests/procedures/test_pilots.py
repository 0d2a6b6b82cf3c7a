"""What each habit of flying by the needle leads to."""

from functools import partial

import numpy as np
import pytest

import vorlib as v
from vorlib.aircraft.flight import Aircraft, start
from vorlib.procedures.flying import fly
from vorlib.procedures.panel import Command, Passed, Patient
from vorlib.procedures.pilots import Chasing, Homing, Intercepting, Reversed, Tracking
from vorlib.procedures.pursuit import fly_homing

QUILLON = v.Station("QLN", v.Position(46.0, -30.0), 0.0, 113.4, "Quillon", "H")
AIRCRAFT = Aircraft(120.0)


def passed(panel) -> bool:
    """The flag reads TO no longer."""
    return panel.flag is not v.Flag.TO


def inbound(distance: float = 25.0):
    """An aircraft on the radial 180, heading for the station."""
    return start(QUILLON.position_on(180.0, distance, 4000.0), 360.0)


@pytest.mark.parametrize("wind_kt", [20.0, 40.0])
def test_homing_flies_the_pursuit_curve_of_the_textbook(wind_kt: float) -> None:
    # C. H. Edwards and D. E. Penney, Elementary Differential Equations (1996), page 57, as cited by
    # a course page: start (a, 0), wind along y, k = w / v:
    # y = a / 2 [(x / a)^(1 - k) - (x / a)^(1 + k)].
    a, k = 25.0, wind_kt / 120.0
    flown = fly(
        Homing(), AIRCRAFT, inbound(a), QUILLON, 360.0, 3600.0,
        wind=v.Wind(270.0, wind_kt), until=passed,
    )  # fmt: skip
    angle = np.radians(flown.reading.radial_deg - 180.0)
    x = flown.reading.distance_nm * np.cos(angle)
    y = -flown.reading.distance_nm * np.sin(angle)
    outside = x > 2.0  # nearer, the turns of a real aircraft are wider than the curve's
    curve = a / 2.0 * ((x[outside] / a) ** (1 - k) - (x[outside] / a) ** (1 + k))
    assert np.abs(y[outside] - curve).max() < 0.005 * curve.max()
    minutes = a * 120.0 / (120.0**2 - wind_kt**2) * 60.0
    assert flown.flight.time_s[-1] / 60.0 == pytest.approx(minutes, rel=0.05)
    peak = a * ((1 - k) / (1 + k)) ** (1 / (2 * k))
    assert x[np.argmax(y)] == pytest.approx(peak, rel=0.05)


def test_the_textbook_example_itself() -> None:
    # Edwards and Penney's figures (from memory): a 200, v 500, w 100: 14.815 off at 72.577.
    k = 100.0 / 500.0
    x = np.linspace(1.0, 200.0, 200001)
    y = 100.0 * ((x / 200.0) ** (1 - k) - (x / 200.0) ** (1 + k))
    assert y.max() == pytest.approx(14.815, abs=1e-3)
    assert x[y.argmax()] == pytest.approx(72.577, abs=1e-2)


def test_tracking_arrives_sooner_and_straighter_than_homing() -> None:
    wind = v.Wind(270.0, 40.0)
    runs = [
        fly(pilot, AIRCRAFT, inbound(), QUILLON, 360.0, 3600.0, wind=wind, until=passed)
        for pilot in (Homing(), Tracking())
    ]
    homing, tracking = (run.flight.time_s[-1] for run in runs)
    assert tracking < homing
    off = [np.abs(v.difference_deg(run.reading.radial_deg, 180.0)) for run in runs]
    off_nm = [
        np.max(run.reading.distance_nm * np.radians(o)) for run, o in zip(runs, off, strict=True)
    ]
    assert off_nm[1] < off_nm[0] / 3.0


@pytest.mark.parametrize("wind", [(270.0, 30.0), (90.0, 15.0), (315.0, 25.0), (180.0, 20.0)])
def test_bracketing_finds_the_heading_of_the_wind_triangle(wind: tuple[float, float]) -> None:
    flown = fly(Tracking(), AIRCRAFT, inbound(38.0), QUILLON, 360.0, 840.0, wind=v.Wind(*wind))
    holds = float(v.wind_triangle(360.0, 120.0, *wind).heading_deg)
    found = flown.flight.true_heading_deg[-600:]
    assert np.abs(v.difference_deg(found, holds)).mean() < 5.0
    assert np.abs(flown.reading.dots).max() < 2.0


@pytest.mark.parametrize("off_deg", [-6.0, -2.0, 2.0, 6.0])
@pytest.mark.parametrize("wind_kt", [10.0, 35.0])
def test_bracketing_finds_back_from_off_the_course(off_deg: float, wind_kt: float) -> None:
    state = start(QUILLON.position_on(180.0 + off_deg, 35.0, 4000.0), 360.0)
    wind = v.Wind(270.0, wind_kt)
    flown = fly(Tracking(), AIRCRAFT, state, QUILLON, 360.0, 840.0, wind=wind)
    assert np.abs(flown.reading.dots[-1200:]).max() < 1.5
    assert not flown.reading.pegged.any()


def test_a_lead_ends_the_turn_on_the_course_where_none_rushes_through() -> None:
    state = start(QUILLON.position_on(60.0, 15.0, 4000.0), 310.0)
    past = {}
    for lead in (True, False):
        pilot = Intercepting(310.0, lead=lead)
        flown = fly(pilot, AIRCRAFT, state, QUILLON, 40.0, 600.0)
        assert pilot.established is not None
        past[lead] = flown.reading.dots.max()
    assert past[True] < 0.3
    assert past[False] > 1.0


def test_the_flight_overshoots_by_what_the_plan_foretold() -> None:
    state = start(QUILLON.position_on(60.0, 20.0, 4000.0), 310.0)
    plan = v.plan_intercept(QUILLON, state, AIRCRAFT, 40.0, inbound=False, angle_deg=90.0)
    flown = fly(Intercepting(310.0, lead=False), AIRCRAFT, state, QUILLON, 40.0, 700.0)
    past = flown.reading.distance_nm * np.sin(np.radians(flown.reading.deviation_deg))
    assert past.max() == pytest.approx(plan.lead_nm, abs=0.12)


def test_chasing_the_needle_weaves_wider_toward_the_station() -> None:
    flown = fly(
        Chasing(),
        AIRCRAFT,
        inbound(),
        QUILLON,
        360.0,
        3600.0,
        wind=v.Wind(270.0, 15.0),
        until=passed,
    )
    heading = flown.flight.true_heading_deg
    turns = np.count_nonzero(np.diff(np.sign(v.difference_deg(heading, 360.0))))
    assert turns > 6
    far, near = np.abs(flown.reading.dots[:2000]).max(), np.abs(flown.reading.dots[-600:]).max()
    assert near > far


def test_following_the_needle_in_reverse_leads_ever_further_off() -> None:
    flown = fly(Reversed(), AIRCRAFT, inbound(), QUILLON, 177.0, 400.0)
    assert flown.reading.flag[0] == v.Flag.FROM
    off = np.abs(flown.reading.deviation_deg)
    assert off[-1] > 3.0 * off[0]
    cured = fly(Tracking(), AIRCRAFT, inbound(), QUILLON, 357.0, 400.0)
    assert np.abs(cured.reading.deviation_deg[-1]) < np.abs(cured.reading.deviation_deg[0])


@pytest.mark.parametrize("off_deg", [0.0, 2.0, 4.0])
@pytest.mark.parametrize("altitude_ft", [1500.0, 4000.0])
def test_near_the_station_the_tracking_pilot_does_not_chase_the_needle(
    off_deg: float, altitude_ft: float
) -> None:
    # US Navy P-871: chasing the needle near the station is a mistake.
    state = start(QUILLON.position_on(180.0 + off_deg, 12.0, altitude_ft), 360.0)
    flown = fly(
        Tracking(), Aircraft(100.0), state, QUILLON, 360.0, 700.0, wind=v.Wind(300.0, 20.0),
        looks_per_s=5.0,
    )  # fmt: skip
    near = flown.reading.distance_nm < 1.0
    assert near.any()
    assert np.ptp(v.difference_deg(flown.flight.true_heading_deg[near], 360.0)) < 12.0


def test_a_pilot_over_the_station_holds_its_heading() -> None:
    over = start(v.Position(46.0, -30.0, 4000.0), 360.0)
    flown = fly(Tracking(), AIRCRAFT, over, QUILLON, 360.0, 60.0)
    assert flown.reading.flag[0] == v.Flag.OFF
    assert np.abs(v.difference_deg(flown.flight.true_heading_deg, 360.0)).max() < 1e-9


def test_a_station_passed_in_a_turn_is_passed_without_trouble() -> None:
    turning = lambda panel: Command(panel.heading_deg + 30.0, 360.0)  # noqa: E731
    wind = v.Wind(180.0, 40.0)
    flown = fly(turning, AIRCRAFT, inbound(1.0), QUILLON, 360.0, 240.0, wind=wind)
    assert np.isfinite(flown.reading.dots).all()
    assert {v.Flag.TO, v.Flag.OFF, v.Flag.FROM} <= set(flown.reading.flag.tolist())


def test_in_a_wind_as_strong_as_the_airspeed_homing_ends_when_the_time_does() -> None:
    # k = 1 tends to (0, a / 2): it never arrives, and the flight still ends.
    flown = fly(
        Homing(),
        AIRCRAFT,
        inbound(10.0),
        QUILLON,
        360.0,
        1500.0,
        wind=v.Wind(270.0, 120.0),
        until=passed,
        looks_per_s=2.0,
    )
    assert flown.flight.time_s[-1] == pytest.approx(1500.0)
    assert flown.reading.distance_nm[-1] == pytest.approx(5.0, abs=0.5)


def test_the_same_pilot_flies_the_same_flight_twice() -> None:
    runs = [
        fly(Tracking(), AIRCRAFT, inbound(), QUILLON, 360.0, 120.0, wind=v.Wind(250.0, 22.0))
        for _ in range(2)
    ]
    np.testing.assert_array_equal(runs[0].flight.position.lat_deg, runs[1].flight.position.lat_deg)


def test_what_is_read_afterwards_in_one_call_is_what_the_pilot_saw() -> None:
    seen = []

    def watching(panel):
        seen.append((panel.dots, panel.flag))
        return Tracking()(panel)

    flown = fly(watching, AIRCRAFT, inbound(1.5), QUILLON, 360.0, 90.0, wind=v.Wind(250.0, 22.0))
    dots, flags = np.array(seen).T
    np.testing.assert_allclose(flown.reading.dots[:-1], dots, atol=1e-9)
    np.testing.assert_array_equal(flown.reading.flag[:-1], flags)


@pytest.mark.parametrize("seconds", [0.0, -1.0, np.nan])
def test_a_flight_needs_time(seconds: float) -> None:
    with pytest.raises(ValueError, match="seconds must be"):
        fly(Tracking(), AIRCRAFT, inbound(), QUILLON, 360.0, seconds)


@pytest.mark.parametrize(
    ("distance_nm", "wind_kt", "airspeed_kt"),
    [(20.0, 30.0, 100.0), (20.0, 0.0, 100.0), (25.0, 60.0, 90.0), (10.0, 100.0, 100.0)],
)
def test_the_pursuit_curve_is_the_flight_of_one_who_homes_look_by_look(
    distance_nm: float, wind_kt: float, airspeed_kt: float
) -> None:
    here, wind = inbound(distance_nm), v.Wind(290.0, wind_kt)
    aircraft = Aircraft(airspeed_kt)
    flown = fly(
        Homing(), aircraft, here, QUILLON, 360.0, 1800.0, wind=wind, looks_per_s=1.0,
        until=lambda panel: panel.flag is v.Flag.FROM,
    )  # fmt: skip
    curve = fly_homing(aircraft, here, QUILLON, 360.0, 1800.0, wind, 1.0)
    assert curve.flight.time_s[-1] == flown.flight.time_s[-1]
    one, other = curve.flight.position, flown.flight.position
    apart = v.inverse(one.lat_deg, one.lon_deg, other.lat_deg, other.lon_deg)
    assert apart.distance_nm.max() < 0.002
    settled = slice(5, None)  # the first turn onto the curve is the pilot's own
    heading = v.difference_deg(curve.flight.true_heading_deg, flown.flight.true_heading_deg)
    assert np.abs(heading[settled]).max() < 0.05
    assert np.abs(v.difference_deg(curve.course_deg, flown.course_deg)).max() < 0.05


def test_a_pilot_who_has_intercepted_begins_with_the_correction_given() -> None:
    state = start(QUILLON.position_on(60.0, 15.0, 4000.0), 310.0)
    pilot = Intercepting(310.0, hold_deg=-8.0)
    fly(pilot, AIRCRAFT, state, QUILLON, 40.0, 400.0, wind=v.Wind(310.0, 17.0))
    assert pilot.established is not None
    assert pilot.established.bracket is not None
    assert pilot.established.bracket.held_deg == -8.0


@pytest.mark.parametrize("pilot", [Tracking, Chasing, Reversed, partial(Intercepting, 30.0)])
def test_looks_foreseen_together_are_those_flown_one_by_one(pilot) -> None:
    # A pilot whose every command differs by nothing that matters is flown look by look.
    class Restless:
        def __init__(self) -> None:
            self.pilot, self.count = pilot(), 0

        def __call__(self, panel):
            command, self.count = self.pilot(panel), self.count + 1
            return Command(command.heading_deg + 1e-13 * (self.count % 2), command.course_deg)

    assert isinstance(pilot(), Patient)
    assert not isinstance(Restless(), Patient)

    runs = [
        fly(who, AIRCRAFT, inbound(12.0), QUILLON, 3.0, 300.0, wind=v.Wind(280.0, 25.0))
        for who in (pilot(), Restless())
    ]
    together, one_by_one = (run.flight for run in runs)
    for name in ("lat_deg", "lon_deg"):
        np.testing.assert_allclose(
            getattr(together.position, name), getattr(one_by_one.position, name), atol=1e-9
        )
    np.testing.assert_allclose(together.true_heading_deg, one_by_one.true_heading_deg, atol=1e-6)


@pytest.mark.parametrize("pilot", [Tracking, Chasing, Homing, partial(Intercepting, 15.0)])
def test_a_flight_ends_at_the_look_at_which_the_flag_comes_to_read_from(pilot) -> None:
    ends = (Passed(), lambda panel: panel.flag is v.Flag.FROM)
    ended, asked = (
        fly(pilot(), AIRCRAFT, inbound(3.0), QUILLON, 3.0, 300.0, until=until, looks_per_s=2.0)
        for until in ends
    )
    assert ended.reading.flag[-1] == v.Flag.FROM
    assert not (ended.reading.flag[:-1] == v.Flag.FROM).any()
    assert ended.flight.time_s[-1] == asked.flight.time_s[-1] < 300.0
    np.testing.assert_allclose(ended.reading.dots, asked.reading.dots, atol=1e-6)
