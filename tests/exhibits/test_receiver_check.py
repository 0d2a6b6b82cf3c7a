"""The receiver check exhibit: what is done, what is marked, and when something is written."""

from datetime import timedelta

import pytest
from sight import is_away

from vorlib.core.angles import wrap_360
from vorlib.exhibits import receiver_check
from vorlib.exhibits.receiver_check.bench import PLACES, Bench, ReceiverCheckState
from vorlib.exhibits.receiver_check.exhibit import draw
from vorlib.exhibits.receiver_check.marking import (
    is_well_read,
    mark_decision,
    mark_error,
    mark_last_check,
)
from vorlib.receiver_check.check import bearing_error_deg, receivers_apart_deg
from vorlib.receiver_check.log import CheckLog
from vorlib.receiver_check.rules import RULES
from vorlib.stations.archipelago import AIRFIELDS, STATIONS, TODAY
from vorlib.views.drawing.layout import extent
from vorlib.views.drawing.theme import PROJECTOR, SCREEN

EVERY_KIND = pytest.mark.parametrize("kind", RULES.kinds)
SEEDS = range(40)


def centered(kind, seed, **changes):
    """Return a state with every needle centered with FROM."""
    bench = Bench.of(kind, seed)
    rings = [float(wrap_360(bench.published_radial_deg + e)) for e in bench.errors_deg]
    return ReceiverCheckState(
        kind, seed, course_deg=rings[0], second_course_deg=rings[1], **changes
    )


def with_errors(kind, *errors_deg):
    """Return the first centered state of a kind whose receivers have these errors."""
    for seed in range(400):
        state = centered(kind, seed)
        if state.bench.errors_deg[: len(errors_deg)] == errors_deg:
            return state
    raise AssertionError(f"no {kind} with {errors_deg}")


def marked(state, **changes):
    return ReceiverCheckState(**{**vars_of(state), "marked": True, **changes})


def vars_of(state):
    names = ("kind", "seed", "course_deg", "second_course_deg")
    return {name: getattr(state, name) for name in names}


# ---- the bench


def read_error_deg(state):
    """Return what the rings say as they stand; the needles must be centered."""
    if state.check.compares_receivers:
        return receivers_apart_deg(*state.courses_deg)
    (course,), (reading,) = state.courses_deg, state.readings
    return bearing_error_deg(course, reading.flag, state.bench.published_radial_deg)


@EVERY_KIND
def test_every_bench_can_be_received_and_its_error_read_with_from_and_with_to(kind):
    for seed in SEEDS:
        state = centered(kind, seed)
        assert state.centered
        assert read_error_deg(state) == pytest.approx(state.right_error_deg)
        turned = {
            "course_deg": float(wrap_360(state.course_deg + 180)),
            "second_course_deg": float(wrap_360(state.second_course_deg + 180)),
        }
        other_end = ReceiverCheckState(kind, seed, **turned)
        assert other_end.centered
        assert read_error_deg(other_end) == pytest.approx(state.right_error_deg)


@EVERY_KIND
def test_some_aircraft_of_every_kind_pass_and_some_fail(kind):
    sizes = [abs(centered(kind, seed).right_error_deg) for seed in SEEDS]
    assert min(sizes) <= RULES.kind(kind).limit_deg < max(sizes)


def test_an_airways_landmark_lies_more_than_20_nm_out():
    # 14 CFR 91.171(b)(4), in a copy: preferably more than 20 NM
    for ident, field in PLACES["airway"]:
        assert STATIONS[ident].distance_nm(AIRFIELDS[field].position) > 20.0


@EVERY_KIND
@pytest.mark.parametrize("theme", [SCREEN, PROJECTOR])
def test_what_to_do_fits_its_panel_and_every_ring_can_be_turned(kind, theme):
    for seed in range(6):
        picture = draw(ReceiverCheckState(kind, seed), theme)
        left, top, right, foot = extent(picture.items[0])
        assert left >= 0.0
        assert top >= 0.0
        assert right <= picture.width
        assert foot <= picture.height
    exhibit = receiver_check(kind)
    rings = 2 if RULES.kind(kind).compares_receivers else 1
    assert exhibit.picture.svg.count("data-grab=") == rings


# ---- a hand on the rings


def test_each_ring_turns_its_own_receiver():
    exhibit = receiver_check("two receivers", course_deg=10.0, second_course_deg=20.0)
    exhibit.step("second ring", 3)
    exhibit.step("ring", 0, -2)
    assert exhibit.state.courses_deg == (8.0, 23.0)
    x, y = 400 + 16 + 340 + 16 + 170, 228  # the middle of the second indicator
    exhibit.drag("second ring", (x, y - 100), (x + 100, y))
    assert exhibit.state.courses_deg == (8.0, 293.0)


def test_the_second_course_only_shows_for_a_check_of_two():
    exhibit = receiver_check()
    control = exhibit.control("second_course_deg")
    assert is_away(control.widget)
    exhibit.set(kind="two receivers")
    assert not is_away(control.widget)


def test_another_kind_begins_afresh():
    exhibit = receiver_check(error_deg=3.0, decision="pass", marked=True)
    kinds = exhibit.control("kind")
    kinds.list.value = "airway"
    assert exhibit.state == ReceiverCheckState("airway")


def test_the_error_stays_hidden_until_it_is_marked():
    exhibit = receiver_check("ground checkpoint", seed=3)
    assert "Pass" not in exhibit.sentence
    assert "Fail" not in exhibit.sentence
    assert "Turn the ring until it is centered" in exhibit.sentence


# ---- marking


@EVERY_KIND
def test_a_check_done_right_is_marked_right_throughout(kind):
    for seed in SEEDS:
        state = centered(kind, seed)
        passes = abs(state.right_error_deg) <= state.check.limit_deg
        good = TODAY - state.bench.last_made_on <= timedelta(days=30)
        right = marked(
            state,
            error_deg=state.right_error_deg,
            decision="pass" if passes else "fail",
            last_check="good" if good else "out of date",
        )
        assert is_well_read(right)
        assert "read the error correctly" in mark_error(right)
        assert mark_decision(right).startswith("Your decision is right.")
        assert mark_last_check(right).startswith("You judged the last check correctly")


def test_a_needle_off_the_center_gives_no_error():
    state = ReceiverCheckState(
        "ground checkpoint", 3, error_deg=centered("ground checkpoint", 3).right_error_deg
    )
    assert "not centered gives no error" in mark_error(state)
    assert not is_well_read(state)


def test_the_wrong_sign_is_named():
    state = with_errors("ground checkpoint", 5.0)
    assert "size right and the side wrong" in mark_error(marked(state, error_deg=-5.0))


def test_a_dual_check_read_as_an_error_from_a_known_radial_is_named():
    state = with_errors("two receivers", 5.0, 6.0)
    for one in (state, with_errors("two receivers", -6.0, -5.0)):
        named = mark_error(marked(one, error_deg=6.0))
        assert "error of one receiver against the published radial" in named
    # each is beyond 4 degrees, and yet they differ by 1: 14 CFR 91.171(c) lets them pass
    slip = mark_decision(marked(state, decision="fail"))
    assert "Pass: a difference of 1 degree" in slip
    assert "you judged each receiver by the published radial" in slip


def test_two_receivers_each_within_4_degrees_can_fail_against_each_other():
    state = with_errors("two receivers", -3.0, 3.0)
    slip = mark_decision(marked(state, decision="pass"))
    assert "Fail: a difference of 6 degrees" in slip
    assert "you judged each receiver by the published radial" in slip


def test_a_difference_of_two_has_no_side():
    state = with_errors("two receivers", -3.0, 3.0)
    assert "read the error correctly" in mark_error(marked(state, error_deg=-6.0))


def test_two_receivers_are_compared_with_the_same_flag():
    state = with_errors("two receivers", 5.0, 6.0)
    turned = float(wrap_360(state.second_course_deg + 180))
    mixed = marked(state, second_course_deg=turned, error_deg=1.0)
    assert "same flag" in mark_error(mixed)


def test_the_ground_limit_used_in_the_air_is_named_and_the_other_way_round():
    in_the_air = with_errors("airborne checkpoint", 5.0)
    on_the_ground = with_errors("ground checkpoint", 5.0)
    slip = mark_decision(marked(in_the_air, decision="fail"))
    assert "4 degrees is the limit for a checkpoint on the ground" in slip
    slip = mark_decision(marked(on_the_ground, decision="pass"))
    assert "6 degrees is the limit for a checkpoint in the air" in slip


def test_a_check_31_days_old_is_out_of_date_though_the_calendar_month_is_not_over():
    state = next(
        s for s in (centered("airway", n) for n in SEEDS) if s.bench.last_made_on.month == 5
        and s.bench.last_made_on.day == 1
    )  # fmt: skip
    assert "counts 30" in mark_last_check(marked(state, last_check="good"))


def test_nothing_said_is_answered_as_nothing_said():
    state = marked(centered("airway", 1))
    assert mark_error(state) == "You gave no error."
    assert mark_decision(state) == "You did not decide."
    assert mark_last_check(state) == "You did not judge the last check."


# ---- the log


def press(exhibit, field):
    next(c for c in exhibit.controls if c.field == field and hasattr(c, "button")).button.click()


def ready(path, **changes):
    state = centered("ground checkpoint", 3)
    start = {
        "course_deg": state.course_deg,
        "error_deg": state.right_error_deg,
        "decision": "pass",
        "marked": True,
        "place": "Marrow Sound, north apron",
        "signature": "Tobin Askerel",
    }
    return receiver_check("ground checkpoint", seed=3, log=path, **{**start, **changes})


def test_nothing_is_written_before_the_button_is_pressed(tmp_path):
    path = tmp_path / "log.sqlite3"
    exhibit = ready(path)
    exhibit.set(decision="fail")
    exhibit._repr_mimebundle_()
    assert not path.exists()


def test_the_button_writes_every_item_the_rule_requires_and_says_so(tmp_path):
    path = tmp_path / "log.sqlite3"
    exhibit = ready(path)
    press(exhibit, "log_answer")
    (entry,) = CheckLog(path).entries()
    assert (entry.made_on, entry.place) == (TODAY, "Marrow Sound, north apron")
    assert (entry.error_deg, entry.signature) == (exhibit.state.error_deg, "Tobin Askerel")
    assert "Written in the log as number 1." in exhibit.sentence
    assert "the legal one is the operator's own" in exhibit.sentence


@pytest.mark.parametrize(
    ("changes", "answer"),
    [
        ({"place": ""}, "Not written: place must be given"),
        ({"signature": ""}, "Not written: signature must be given"),
        ({"error_deg": 40.0}, "Not written: first read the error correctly"),
        ({"marked": False}, "Not written: first read the error correctly"),
    ],
)
def test_an_entry_that_lacks_something_is_not_written_and_the_answer_says_what(
    changes, answer, tmp_path
):
    exhibit = ready(tmp_path / "log.sqlite3", **changes)
    press(exhibit, "log_answer")
    assert answer in exhibit.sentence
    assert not (tmp_path / "log.sqlite3").exists()


def test_a_log_that_cannot_be_written_is_answered_in_the_exhibit(tmp_path):
    (tmp_path / "file").write_text("in the way")
    exhibit = ready(tmp_path / "file" / "log.sqlite3")
    press(exhibit, "log_answer")
    assert "could not be written" in exhibit.sentence


def test_another_aircraft_keeps_place_and_signature_and_forgets_the_rest(tmp_path):
    exhibit = ready(tmp_path / "log.sqlite3")
    press(exhibit, "seed")
    state = exhibit.state
    assert (state.seed, state.error_deg, state.marked) == (4, None, False)
    assert state.signature == "Tobin Askerel"
