"""At the edge of what numbers can be: an answer in finite numbers, or a refusal in words.

Every public function is called with what a program may hand it by mistake: numbers too large for a
float, or as good as zero, and what is no number at all.
"""

import math
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from itertools import product
from random import Random
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import vorlib as v
from vorlib.aircraft.flight import Aircraft, advance, start
from vorlib.aircraft.turns import bank_for_rate_deg, turn_lead_nm
from vorlib.core.arguments import finite
from vorlib.procedures.intercept import angle_for_distance_deg
from vorlib.procedures.timing import distance_to_station_nm
from vorlib.procedures.tracking import off_course_rule_nm, one_in_sixty_deg

HERE = v.Position(46.0, -30.0, 640.0)
STATION = v.Station("QLN", HERE, -9.0, 113.4)
OTHER = v.Station("HTX", v.Position(46.5, -30.5, 5500.0), -11.0, 109.2)
THERE = STATION.position_on(214.0, 12.4, 4500.0)
AIRCRAFT = Aircraft()

# Each public call with the numbers that work; any of them may be put out of place.
EVERY: dict[str, tuple[Callable[..., Any], tuple[float, ...]]] = {
    "wrap_360": (v.wrap_360, (40.0,)),
    "wrap_180": (v.wrap_180, (40.0,)),
    "difference_deg": (v.difference_deg, (40.0, 350.0)),
    "reciprocal_deg": (v.reciprocal_deg, (40.0,)),
    "format_direction": (v.format_direction, (40.0,)),
    "Position": (v.Position, (46.0, -30.0, 640.0)),
    "direct": (lambda *a: v.direct(HERE, *a), (40.0, 12.0)),
    "inverse": (v.inverse, (46.0, -30.0, 46.5, -30.5)),
    "Station": (lambda d, f: v.Station("QLN", HERE, d, f), (-9.0, 113.4)),
    "position_on": (STATION.position_on, (40.0, 12.0, 4500.0)),
    "radial_of_azimuth_deg": (STATION.radial_of_azimuth_deg, (40.0,)),
    "at_altitude": (THERE.at_altitude, (4500.0,)),
    "Receiver": (lambda c, f, h: v.Receiver(c, f, h).read(STATION, THERE), (40.0, 10.0, 50.0)),
    "read": (lambda *a: v.Receiver(40.0).read(STATION, v.Position(*a)), (46.1, -30.1, 4500.0)),
    "needle_rate": (
        lambda *a: v.Receiver(40.0).needle_rate_dots_s(STATION, THERE, *a), (40.0, 100.0),
    ),
    "line_of_sight_nm": (v.line_of_sight_nm, (4500.0, 640.0)),
    "service_radius_nm": (lambda h: v.service_radius_nm("VH", h), (4500.0,)),
    "cone_radius_nm": (v.cone_radius_nm, (4500.0, 50.0)),
    "slant_range_nm": (lambda h: STATION.slant_range_nm(THERE.at_altitude(h)), (4500.0,)),
    "is_reverse_sensing": (lambda h, c: v.is_reverse_sensing(h, c, v.Flag.TO), (40.0, 220.0)),
    "BearingErrors": (
        lambda *a: v.BearingErrors(*a[:4]).at(*a[4:]), (1.0, 1.0, 1.0, 1.0, 9.0, 9.0),
    ),
    "fix_from_radials": (
        lambda *a: v.fix_from_radials([(STATION, a[0]), (OTHER, a[1])]), (10.0, 150.0),
    ),
    "Wind": (v.Wind, (250.0, 20.0)),
    "wind_triangle": (v.wind_triangle, (40.0, 100.0, 250.0, 20.0)),
    "track": (lambda h, s, f, w: v.track(h, s, v.Wind(f, w)), (40.0, 100.0, 250.0, 20.0)),
    "wind_from": (v.wind_from, (160.0, 180.0, 175.0, 144.0)),
    "turn_rate_deg_s": (v.turn_rate_deg_s, (100.0, 20.0)),
    "turn_radius_nm": (v.turn_radius_nm, (100.0, 20.0)),
    "bank_for_rate_deg": (bank_for_rate_deg, (100.0, 3.0)),
    "turn_lead_nm": (turn_lead_nm, (1.0, 45.0)),
    "intercept_angle_deg": (v.intercept_angle_deg, (15.0,)),
    "angle_for_distance_deg": (angle_for_distance_deg, (15.0,)),
    "time_to_station_min": (v.time_to_station_min, (1.25, 10.0)),
    "distance_to_station_nm": (distance_to_station_nm, (120.0, 1.25, 10.0)),
    "off_course_nm": (v.off_course_nm, (1.0, 30.0)),
    "off_course_rule_nm": (off_course_rule_nm, (1.0, 30.0)),
    "one_in_sixty_deg": (one_in_sixty_deg, (1.0, 30.0)),
    "half_width_nm": (v.half_width_nm, (4.0, 30.0)),
    "ErrorBudget": (lambda *a: v.ErrorBudget(*a).root_sum_square_deg, (3.5, 2.7, 3.5, 1.0)),
    "fix_from_radial_and_dme": (
        lambda *a: v.fix_from_radial_and_dme(STATION, *a), (40.0, 12.0, 4500.0),
    ),
    "hold_course": (lambda c, s: v.hold_course(c, s, v.Wind(250.0, 20.0)).triangle, (40.0, 100.0)),
    "orient": (lambda c, d: v.orient(c, v.Flag.FROM, d).radial_deg, (40.0, 1.0)),
    "direct_to": (lambda *a: v.direct_to(*a).heading_deg, (214.0, 40.0, 100.0)),
    "sensing_steps": (lambda h, c: len(v.sensing_steps(h, c, v.Flag.TO)), (40.0, 220.0)),
    "plan_intercept": (
        lambda *a: v.plan_intercept(
            STATION, start(THERE, 360.0), AIRCRAFT, a[0], inbound=True, angle_deg=a[1]
        ).minutes,
        (50.0, 30.0),
    ),
    "advance": (lambda *a: advance(start(THERE, 40.0), AIRCRAFT, *a).lat_deg, (30.0, 10.0)),
    "CompositeSignal": (
        lambda *a: v.CompositeSignal(
            a[0], carrier_to_noise_db=a[1], am_depth=a[2], fm_depth=a[3]
        ).samples(a[4]),
        (40.0, 20.0, 0.3, 0.3, 0.1),
    ),
    "measure_radial": (lambda *a: v.measure_radial([*a] * 1600), (0.1, 0.2, 0.3)),
    "radial_bound_deg": (v.radial_bound_deg, (20.0, 1.0, 0.3, 0.3)),
    "variation_deg": (
        lambda h: v.variation_deg(HERE.at_altitude(h), date(2026, 6, 1)), (4500.0,),
    ),
}  # fmt: skip

# Too large for its square to be a float, and as good as zero.
ODD = [
    sign * size
    for sign in (1.0, -1.0)
    for size in (1e13, 1e16, 1e200, 1.7e308, 5e-324, 1e-310, 1e-200, 1e-13, 0.0)
]
NO_NUMBERS = [
    10**400, -(10**400), [1.0, 10**400], math.nan, math.inf, -math.inf, np.nan, None, True,
    np.True_, [True, False], "40", b"40", ["40"], 1j, 1 + 0j, np.array([1j]),
    np.datetime64("2026-06-01"), np.datetime64("NaT"), np.timedelta64("NaT"),
    np.ma.masked_array([1.0, 2.0], mask=[False, True]), np.ma.masked, object(), [[1.0], [1.0, 2.0]],
    [True, 1.0], [np.timedelta64("NaT"), 1.0], np.array([np.timedelta64(5), True], object),
    {"course": 40.0},
]  # fmt: skip


def numbers_in(answer: Any) -> list[Any]:
    """All the numbers of an answer, however deep."""
    if isinstance(answer, (tuple, list)):
        return [number for part in answer for number in numbers_in(part)]
    if hasattr(answer, "__dict__") and not isinstance(answer, int):
        return numbers_in(list(vars(answer).values()))
    return [] if isinstance(answer, (str, bytes, type(None))) else [answer]


def check(call: Callable[..., Any], arguments: list[Any]) -> None:
    """An answer in finite numbers, or a ValueError or TypeError."""
    try:
        with np.errstate(all="ignore"):
            answer = call(*arguments)
    except (ValueError, TypeError):
        return
    for number in numbers_in(answer):
        assert np.all(np.isfinite(number)), (arguments, answer)


@pytest.mark.parametrize("name", EVERY)
def test_the_call_as_it_is_meant_is_answered(name: str) -> None:
    call, usual = EVERY[name]
    assert numbers_in(call(*usual)) or name == "format_direction"


# Numpy says so itself where one of a list is masked, before the list is refused.
pytestmark = pytest.mark.filterwarnings("ignore:Warning. converting a masked element")


def anything(chance: Random, usual: float) -> object:
    """The number that works, or what a program may hand over in its place."""
    return chance.choice(
        [
            usual,
            usual,
            int(usual),
            chance.choice(ODD),
            chance.choice(ODD),
            np.array([usual, chance.choice(ODD)]),
            np.full(chance.randint(0, 3), usual),  # of a length that need not fit the others
            chance.choice(NO_NUMBERS),
        ]
    )


def test_twenty_thousand_calls_are_answered_in_finite_numbers_or_refused() -> None:
    chance, names = Random(1), sorted(EVERY)
    for _ in range(20_000):
        call, usual = EVERY[chance.choice(names)]
        check(call, [anything(chance, number) for number in usual])


def refusal(call: Callable[..., Any], arguments: list[Any]) -> str:
    """What a ValueError or TypeError says; nothing if there is an answer."""
    try:
        call(*arguments)
    except (ValueError, TypeError) as error:
        return str(error)
    return ""


@pytest.mark.parametrize("name", EVERY)
def test_what_is_no_number_is_refused_in_every_place(name: str) -> None:
    call, usual = EVERY[name]
    for place, wrong in product(range(len(usual)), NO_NUMBERS):
        if wrong is None and name in ("plan_intercept", "CompositeSignal"):
            continue  # no angle is by the rule, and no level is no noise
        said = refusal(call, [*usual[:place], wrong, *usual[place + 1 :]])
        assert 0 < len(said) < 300, (place, wrong, said)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_any_finite_direction_is_wrapped_exactly(angle: float) -> None:
    assert v.wrap_360(angle) == (math.fmod(angle, 360.0) % 360.0 or 360.0)
    assert -180.0 < v.wrap_180(angle) <= 180.0
    assert math.remainder(v.wrap_180(angle) - math.remainder(angle, 360.0), 360.0) == 0.0


@given(st.floats(allow_nan=False, allow_infinity=False), st.floats(-1e308, 1e308))
def test_any_two_finite_directions_differ_by_no_more_than_half_a_turn(a: float, b: float) -> None:
    assert -180.0 < v.difference_deg(a, b) <= 180.0
    many = v.difference_deg(np.array([a, b]), np.array([b, a]))
    assert np.all((many > -180.0) & (many <= 180.0))


def test_other_kinds_of_real_numbers_are_numbers() -> None:
    for forty in (40, np.int8(40), np.float32(40.0), Fraction(40), np.array(40), [40][0]):
        assert finite("course_deg", forty) == 40.0
    assert finite("course_deg", [Fraction(40), 50]).tolist() == [40.0, 50.0]
    assert finite("course_deg", []).shape == (0,)


def test_a_triangle_of_many_airspeeds_names_the_one_that_the_wind_beats() -> None:
    two = v.wind_triangle(40.0, np.array([100.0, 120.0]), 250.0, 20.0)
    assert two.groundspeed_kt.shape == (2,)
    with pytest.raises(ValueError, match="crosswind, which is 20 at index 1"):
        v.wind_triangle(40.0, np.array([100.0, 15.0]), 130.0, 20.0)


def test_the_way_direct_to_a_station_is_one_way() -> None:
    with pytest.raises((ValueError, TypeError), match=r"one|shape|size|scalar"):
        v.direct_to(214.0, 40.0, np.array([100.0, 120.0]), v.Wind(250.0, 20.0))
