"""Receiver checks: limits, errors as they are read, how long a check holds, what the log needs."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.core.angles import difference_deg, wrap_360
from vorlib.receiver_check.check import (
    TEST_SIGNAL_RADIAL_DEG,
    LogEntry,
    bearing_error_deg,
    days_left,
    judge,
    last_day,
    read_date,
    receivers_apart_deg,
)
from vorlib.receiver_check.rules import RULES, CheckKind, Rules
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.bearing_errors import BearingErrors
from vorlib.vor.receiver import Flag, Receiver

TODAY = date(2026, 6, 1)

# ---- limits

# 14 CFR 91.171, paragraph beside each row; (a) and (b) read in copies (edocket.access.gpo.gov,
# gleim.com, faraim.org), (c) in a quotation and as AIM 1-1-4 d has it.
LIMITS = [
    ("test signal", 4.0, True, "(b)(1)"),
    ("test signal", 4.1, False, "(b)(1)"),
    ("ground checkpoint", 4.0, True, "(b)(2)"),
    ("ground checkpoint", 4.1, False, "(b)(2)"),
    ("airborne checkpoint", 6.0, True, "(b)(3)"),
    ("airborne checkpoint", 6.1, False, "(b)(3)"),
    ("airway", 6.0, True, "(b)(4)"),
    ("airway", 6.1, False, "(b)(4)"),
    ("two receivers", 4.0, True, "(c)"),
    ("two receivers", 4.1, False, "(c)"),
]


@pytest.mark.parametrize(("kind", "error_deg", "passes", "paragraph"), LIMITS)
@pytest.mark.parametrize("side", [1, -1])
def test_an_error_at_the_limit_passes_and_a_tenth_beyond_it_fails(
    kind, error_deg, passes, paragraph, side
):
    outcome = judge(kind, side * error_deg)
    assert outcome.passed == passes
    assert outcome.reason.startswith("Pass" if passes else "Fail")
    assert f"91.171{paragraph} " in outcome.reason
    assert f"{error_deg:g} degrees" in outcome.reason


def test_a_limit_holds_through_the_digits_that_a_subtraction_leaves():
    read = bearing_error_deg(128.3, Flag.FROM, 124.3)
    assert read > 4.0
    assert judge("ground checkpoint", read).passed


def test_5_degrees_pass_in_the_air_and_fail_on_the_ground():
    assert judge("airborne checkpoint", 5).passed
    assert not judge("ground checkpoint", 5).passed


def test_there_are_five_kinds_and_an_unknown_one_is_answered_with_them():
    with pytest.raises(ValueError, match=r"kind must be one of test signal.*got 'eyeball'"):
        judge("eyeball", 1.0)
    assert len(RULES.kinds) == 5


def test_every_kind_says_what_must_be_done_and_where_the_rule_says_so():
    for kind in RULES.kinds.values():
        assert len(kind.to_do) >= 3
        assert kind.paragraph.startswith("14 CFR 91.171(")


def test_another_countrys_limits_are_data_alone():
    kind = CheckKind("bench check", 2.0, False, False, ("Do it.",), "Corvane order 7, 3")
    rules = Rules("Corvane order 7", 90, "2", "4", {"bench": kind})
    assert not judge("bench", 2.5, rules).passed
    assert "Corvane order 7, 3" in judge("bench", 1.0, rules).reason
    assert days_left(TODAY, TODAY, rules) == 90


# ---- errors as they are read


# AIM 1-1-4 b, in a copy: a test signal is centered at 0 with FROM and at 180 with TO.
@pytest.mark.parametrize(("course_deg", "flag"), [(360, Flag.FROM), (0, Flag.FROM), (180, Flag.TO)])
def test_a_test_signal_is_centered_at_0_with_from_and_at_180_with_to(course_deg, flag):
    assert bearing_error_deg(course_deg, flag, TEST_SIGNAL_RADIAL_DEG) == 0.0


def test_a_test_signal_centered_with_the_wrong_flag_is_half_a_circle_off():
    assert bearing_error_deg(180, Flag.FROM, TEST_SIGNAL_RADIAL_DEG) == 180.0


def test_a_ring_that_reads_too_much_is_a_positive_error():
    assert bearing_error_deg(2, Flag.FROM, 358) == 4.0
    assert bearing_error_deg(354, Flag.FROM, 358) == -4.0


@given(
    radial=st.integers(1, 360),
    error=st.floats(-10, 10),
    flag=st.sampled_from([Flag.FROM, Flag.TO]),
)
def test_the_error_read_with_the_needle_centered_is_the_receivers(radial, error, flag):
    station = STATIONS["QLN"]
    course = wrap_360(radial + error + (180 if flag == Flag.TO else 0))
    receiver = Receiver(course, errors=BearingErrors(receiver_deg=error))
    reading = receiver.read(station, station.position_on(radial, 10.0, 4500.0))
    assert reading.flag == flag
    assert abs(reading.dots) < 1e-6
    assert bearing_error_deg(course, reading.flag, radial) == pytest.approx(error, abs=1e-9)


def test_358_against_003_is_5_degrees_and_fails():
    # references: the difference across north, limit of 14 CFR 91.171(c) (read in a quotation)
    apart = receivers_apart_deg(358, 3)
    assert apart == 5.0
    assert not judge("two receivers", apart).passed


@given(first=st.floats(0, 360), second=st.floats(0, 360))
def test_it_makes_no_difference_which_receiver_is_called_the_first(first, second):
    assert receivers_apart_deg(first, second) == receivers_apart_deg(second, first)
    assert receivers_apart_deg(first, second) == abs(difference_deg(first, second))


def test_two_receivers_can_agree_and_both_be_wrong():
    first, second = bearing_error_deg(95, Flag.FROM, 90), bearing_error_deg(96, Flag.FROM, 90)
    assert not judge("ground checkpoint", first).passed
    assert not judge("ground checkpoint", second).passed
    assert judge("two receivers", receivers_apart_deg(95, 96)).passed


def test_errors_are_read_from_arrays_as_well():
    errors = bearing_error_deg(np.array([3, 183]), np.array([Flag.FROM, Flag.TO]), 360)
    assert errors.tolist() == [3.0, 3.0]


@pytest.mark.parametrize("flag", [Flag.OFF, 7, np.array([Flag.FROM, Flag.OFF])])
def test_under_off_a_centered_needle_indicates_nothing(flag):
    with pytest.raises(ValueError, match="flag must be TO or FROM"):
        bearing_error_deg(3, flag, 360)


@pytest.mark.parametrize("error_deg", [float("nan"), float("inf")])
def test_an_error_that_is_no_number_is_refused(error_deg):
    with pytest.raises(ValueError, match="error_deg must be finite"):
        judge("airway", error_deg)


# ---- how long it holds: 14 CFR 91.171(a)(2), within the preceding 30 days (read in copies)


def test_a_check_holds_for_30_days_and_not_for_a_calendar_month():
    assert days_left(date(2026, 5, 2), TODAY) == 0  # 30 days before
    assert days_left(date(2026, 5, 1), TODAY) == -1  # the same day of the month before
    assert days_left(TODAY, TODAY) == 30


def test_a_29_february_counts_in_a_leap_year_and_is_refused_in_another():
    assert last_day(read_date("2028-02-29")) == date(2028, 3, 30)
    assert last_day(date(2028, 2, 28)) == date(2028, 3, 29)
    assert last_day(date(2027, 2, 28)) == date(2027, 3, 30)
    with pytest.raises(ValueError, match=r"date must be a day .*'2027-02-29'.*day"):
        read_date("2027-02-29")


@pytest.mark.parametrize("text", ["", "tomorrow", "2026-13-01", "01.06.2026"])
def test_a_text_that_is_no_date_is_answered_with_the_way_to_write_one(text):
    with pytest.raises(ValueError, match="a day such as 2026-06-01"):
        read_date(text)


def test_a_check_in_the_future_is_refused():
    with pytest.raises(ValueError, match="must not be after today, 2026-06-01, got 2026-06-02"):
        days_left(date(2026, 6, 2), TODAY)


@given(made_on=st.dates(date(1999, 1, 1), date(2100, 1, 1)), days=st.integers(0, 400))
def test_every_day_that_passes_takes_one_of_the_days_left(made_on, days):
    assert days_left(made_on, made_on + timedelta(days=days)) == 30 - days


# ---- the log entry: date, place, bearing error, signature: 14 CFR 91.171(d), read in a
# quotation

ENTRY = LogEntry(
    TODAY, "Quillon Field", "ground checkpoint", -2.0, "Wenna Dorrick", written_on=TODAY
)


@pytest.mark.parametrize(
    ("item", "value", "message"),
    [
        ("place", " ", r"place must be given \(14 CFR 91.171\(d\)\)"),
        ("signature", "", "signature must be given"),
        ("error_deg", float("nan"), "error_deg must be finite"),
        ("kind", "eyeball", "kind must be one of"),
        ("made_on", date(2026, 6, 2), "made_on must not be after today"),
        ("rules", "hearsay", "rules must be one of 14 CFR 91.171"),
    ],
)
def test_an_entry_without_an_item_the_rule_requires_cannot_be_made(item, value, message):
    with pytest.raises(ValueError, match=message):
        replace(ENTRY, **{item: value})


@pytest.mark.parametrize(
    ("made_on", "error_deg", "standing"),
    [
        (TODAY, -2.0, "good through 2026-07-01, 30 days left"),
        (date(2026, 5, 3), -2.0, "good through 2026-06-02, 1 day left"),
        (date(2026, 5, 2), 4.0, "good through 2026-06-01, its last day"),
        (date(2026, 5, 1), 4.0, "out of date: it held through 2026-05-31"),
        (TODAY, 4.5, "not to be relied on under IFR"),
    ],
)
def test_an_entry_says_how_it_stands(made_on, error_deg, standing):
    entry = replace(ENTRY, made_on=made_on, error_deg=error_deg)
    assert entry.standing(TODAY) == standing
