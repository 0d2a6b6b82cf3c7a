"""The check flight: what it asks, that nothing acknowledged is lost, and what it comes to."""

import sqlite3
import subprocess
import sys
import threading
from dataclasses import replace

import pytest
from killing import LEARNER, answers_said, kill_pupils, pupil

from vorlib.practice import mark
from vorlib.practice.check_flight.plan import ALLOWED_MIN, STAGES, check_flight_plan, fingerprint
from vorlib.practice.check_flight.report import assess, from_json, to_json
from vorlib.practice.check_flight.session import BEAT_S, CheckFlights, ClosedError
from vorlib.practice.check_flight.store import LONGEST_BEAT_S
from vorlib.practice.learning.lessons import NOTEBOOKS
from vorlib.practice.questions.registry import all_kinds, draw
from vorlib.practice.questions.standards import ELEMENTS, RISKS
from vorlib.practice.record.record import Record, RecordError, learners

SEEDS = range(40)
LEVELS = ("recall", "understanding", "application", "correlation")
NOON_S = 1_780_315_200.0  # 2026-06-01, 12:00 UTC


class Clock:
    """Seconds since 1970 that pass when they are told to."""

    def __init__(self):
        self.now_s = NOON_S

    def __call__(self):
        return self.now_s

    def passes(self, seconds):
        self.now_s += seconds


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def record(tmp_path):
    return Record(LEARNER, tmp_path / "records")


@pytest.fixture
def sessions(record, clock):
    return CheckFlights(record, clock)


def right(planned):
    return planned.question.form.show(planned.question.answer)


def mistaken(planned):
    return planned.question.form.show(planned.question.misconceptions[0].would_answer)


# ---- what it asks


def test_the_same_seed_gives_the_same_test_and_another_seed_another():
    assert check_flight_plan(7) == check_flight_plan.__wrapped__(7)
    prompts = {tuple(p.question.prompt for p in check_flight_plan(seed)) for seed in SEEDS}
    assert len(prompts) == len(SEEDS)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_lesson_and_every_element_is_asked_whatever_the_seed(seed):
    plan = check_flight_plan(seed)
    assert 20 <= len(plan) <= 24
    lessons = {lesson for p in plan for lesson in all_kinds()[p.kind].lessons}
    assert lessons == {f"{number:02}" for number in range(1, 13)}
    assert {p.question.element for p in plan} == set(ELEMENTS) - set(RISKS)
    assert len({p.question.prompt for p in plan}) == len(plan)


@pytest.mark.parametrize("seed", SEEDS)
def test_it_grows_harder_within_each_stage_and_along_the_flight(seed):
    plan = check_flight_plan(seed)
    levels = [LEVELS.index(p.question.level) for p in plan]
    for stage in STAGES:
        of_stage = [level for level, p in zip(levels, plan, strict=True) if p.stage == stage.title]
        assert of_stage == sorted(of_stage)
    third = len(plan) // 3
    assert sum(levels[-third:]) > sum(levels[:third])
    assert set(levels) == {0, 1, 2, 3}
    assert levels[-1] == 3


def test_every_kind_that_may_be_asked_is_there_to_be_asked():
    assert {kind for s in STAGES for kinds in s.slots for kind in kinds} <= set(all_kinds())


# ---- sitting it


def test_an_answer_may_be_changed_until_the_test_is_handed_in(sessions):
    session = sessions.open(seed=3)
    first = session.plan[0]
    sessions.answer(session, 1, mistaken(first))
    sessions.answer(session, 1, right(first))
    report = sessions.hand_in(session, 1)
    assert report.items[0].verdict == "right"
    with pytest.raises(ClosedError):
        sessions.answer(session, 1, mistaken(first))
    assert sessions.reports() == [report]


def test_nonsense_gets_help_and_leaves_the_earlier_answer(sessions):
    session = sessions.open(seed=3)
    sessions.answer(session, 1, right(session.plan[0]))
    with pytest.raises(ValueError, match="I need a direction"):
        sessions.answer(session, 1, "over there")
    with pytest.raises(ValueError, match="Nothing is written"):
        sessions.answer(session, 1, "  ")
    assert sessions.open().given[0].text == right(session.plan[0])


def test_questions_may_be_left_out_and_come_back_to(sessions):
    session = sessions.open(seed=3)
    session = sessions.turn_to(session, 1, 5)
    assert (session.place, 1 in session.unanswered) == (5, True)
    session = sessions.turn_to(session, 5, 1)
    session = sessions.answer(session, 1, right(session.plan[0]))
    assert (session.place, 1 in session.unanswered) == (1, False)
    for none in (0, 25, -1):
        assert sessions.turn_to(session, 1, none).place == 1


def test_opened_again_it_goes_on_at_the_same_question_with_the_same_test(record, clock):
    first = CheckFlights(record, clock)
    session = first.turn_to(first.open(seed=11), 1, 4)
    first.answer(session, 4, right(session.plan[3]))
    clock.passes(30)
    before = first.beat(session, 4)
    clock.passes(5 * 3600)
    again = CheckFlights(Record(LEARNER.upper(), record.path.parent), clock).open(seed=99)
    assert (again.seed, again.place, again.plan) == (11, 4, session.plan)
    assert again.given == before.given
    assert again.used_s == before.used_s == pytest.approx(30)
    assert again.pauses == 1


def test_opened_again_after_a_pause_it_runs_at_once(sessions, clock):
    session = sessions.open(seed=11)
    sessions.pause(session, 1)
    clock.passes(BEAT_S)
    again = sessions.open()
    assert (again.paused, again.pauses, again.used_s) == (False, 1, 0)


def test_with_nothing_under_way_another_test_is_begun(sessions):
    session = sessions.open(seed=3)
    sessions.hand_in(session, 1)
    assert sessions.open(seed=4).seed == 4
    with pytest.raises(ValueError, match="seed must be 0 or more"):
        sessions.open(seed=-1)


def test_one_that_this_version_would_draw_otherwise_is_set_aside(sessions, record):
    old = sessions.open(seed=3)
    with record.writing() as database:
        database.execute("UPDATE sitting_answer SET fingerprint = 'as it was' WHERE number = 2")
    new = sessions.open(seed=5)
    assert (new.seed, new.number) == (5, old.number + 1)
    with pytest.raises(ClosedError):
        sessions.answer(old, 1, right(old.plan[0]))


def test_a_question_with_another_picture_is_drawn_otherwise():
    question = draw("place_for_indicator", 1)
    (dial,) = question.figure.dials
    other = replace(question.figure, dials=(replace(dial, dots=-dial.dots),))
    assert fingerprint(replace(question, figure=other)) != fingerprint(question)


# ---- the clock


def test_the_clock_is_the_time_that_questions_are_on_the_page(sessions, clock):
    session = sessions.open(seed=3)
    clock.passes(40)
    session = sessions.turn_to(session, 1, 2)
    clock.passes(20)
    session = sessions.beat(session, 2)
    assert [given.used_s for given in session.given[:3]] == pytest.approx([40, 20, 0])
    assert session.left_s == pytest.approx(60 * ALLOWED_MIN - 60)


def test_it_stands_still_during_a_pause_which_is_counted(sessions, clock):
    session = sessions.open(seed=3)
    clock.passes(10)
    session = sessions.pause(session, 1)
    clock.passes(50)
    session = sessions.pause(session, 1)
    session = sessions.go_on(session, 1)
    clock.passes(10)
    session = sessions.beat(session, 1)
    assert (session.used_s, session.pauses, session.paused) == (pytest.approx(20), 1, False)


def test_on_a_computer_whose_clock_was_never_set_a_test_can_be_handed_in(sessions, clock, record):
    clock.passes(20 - NOON_S)  # 20 seconds after the beginning of 1970
    session = sessions.open(seed=3)
    session = sessions.answer(session, 1, right(session.plan[0]))
    assert sessions.hand_in(session, 1).points == 1.0
    assert [attempt.answered_at.year for attempt in record.attempts()] == [1970]


def test_a_lid_that_was_closed_is_a_pause_and_a_clock_set_back_takes_nothing(sessions, clock):
    session = sessions.open(seed=3)
    clock.passes(LONGEST_BEAT_S + 1)
    session = sessions.beat(session, 1)
    assert (session.used_s, session.pauses) == (0, 1)
    clock.passes(-3600)
    assert sessions.beat(session, 1).used_s == 0


def test_two_windows_run_one_clock_and_keep_each_others_answers(record, clock):
    one, other = CheckFlights(record, clock), CheckFlights(record, clock)
    here = one.open(seed=3)
    there = other.open()
    assert there.number == here.number
    for _ in range(6):
        clock.passes(BEAT_S / 2)
        here = one.beat(here, 1)
        clock.passes(BEAT_S / 2)
        there = other.beat(there, 7)
    assert there.used_s == pytest.approx(6 * BEAT_S)
    assert there.pauses == 0
    one.answer(here, 1, right(here.plan[0]))
    there = other.answer(there, 7, right(there.plan[6]))
    assert [n for n in (1, 7) if n not in there.unanswered] == [1, 7]
    one.hand_in(here, 1)
    for change in (other.beat, other.hand_in, other.pause):
        with pytest.raises(ClosedError, match="not under way any more"):
            change(there, 7)
    assert len(other.reports()) == 1


def test_an_answer_after_the_time_counts_and_is_told(sessions, clock):
    session = sessions.open(seed=3)
    sessions.answer(session, 1, right(session.plan[0]))
    for _ in range(31):
        clock.passes(60)
        session = sessions.beat(session, 2)
    assert session.left_s == 0
    sessions.answer(session, 2, right(session.plan[1]))
    report = sessions.hand_in(session, 2)
    assert [item.late for item in report.items[:2]] == [False, True]
    assert (report.points, report.late_points) == (2, 1)
    assert report.used_min == pytest.approx(31)


# ---- handing in


def test_its_answers_count_in_the_record_when_handed_in_and_only_once(sessions, record, clock):
    session = sessions.open(seed=3)
    sessions.answer(session, 1, mistaken(session.plan[0]))
    clock.passes(20)
    sessions.answer(session, 1, right(session.plan[0]))
    sessions.answer(session, 2, mistaken(session.plan[1]))
    assert record.attempts() == []
    sessions.hand_in(session, 1)
    first, second = sorted(record.attempts(), key=lambda a: a.verdict)
    planned = session.plan[0]
    assert (first.kind, first.seed, first.verdict) == (planned.kind, planned.seed, "right")
    assert first.taken_s == pytest.approx(20)
    assert second.misconception in second.foreseen
    with pytest.raises(ClosedError):
        sessions.hand_in(session, 1)
    assert len(record.attempts()) == 2


def test_what_was_handed_in_cannot_be_changed_even_in_the_file(sessions, record):
    session = sessions.open(seed=3)
    sessions.answer(session, 1, right(session.plan[0]))
    sessions.hand_in(session, 1)
    database = sqlite3.connect(record.path)
    for table in ("sitting", "sitting_answer"):
        with pytest.raises(sqlite3.IntegrityError, match="closed"):
            database.execute(f"UPDATE {table} SET number = 9")
        with pytest.raises(sqlite3.IntegrityError, match="only ever added"):
            database.execute(f"DELETE FROM {table}")
    database.close()


def test_whoever_has_begun_one_is_listed_among_the_learners(sessions, record):
    assert sessions.reports() == []
    assert not record.path.exists()
    sessions.open(seed=3)
    assert learners(record.path.parent) == [LEARNER]


# ---- the report


def report_of(seed, answer):
    """Return the items of a test which was answered by a function of number and question."""
    plan = check_flight_plan(seed)
    return [assess(number, p, answer(number, p)) for number, p in enumerate(plan, start=1)]


def test_the_report_adds_up_by_element_and_names_each_slip(sessions):
    session = sessions.open(seed=8)
    answered = {number: p for number, p in enumerate(session.plan, start=1) if number % 4}
    slips = [number for number, p in answered.items() if p.question.misconceptions][::6]
    for number, planned in answered.items():
        sessions.answer(session, number, (mistaken if number in slips else right)(planned))
    report = sessions.hand_in(session, 1)
    assert report.count("not answered") == 6
    assert sum(share.points for share in report.by_element()) == report.points
    assert sum(share.out_of for share in report.by_element()) == report.out_of == 24
    assert [share.name for share in report.by_lesson()] == list(NOTEBOOKS)[:12]
    slips = report.slips()
    assert sum(slip.times for slip in slips) == report.count("wrong") == 3
    assert all(slip.why_tempting and 1 <= slip.times <= slip.chances for slip in slips)
    lost = {share.name: share.lost for share in report.to_revise()}
    assert list(lost.values()) == sorted(lost.values(), reverse=True)
    assert set(lost) == {n for item in report.items if item.points < 1 for n in item.lessons}


@pytest.mark.parametrize("seed", range(10))
def test_the_right_answer_in_the_report_is_right_and_the_given_one_stands_as_written(seed):
    for item, planned in zip(
        report_of(seed, lambda _, p: right(p)), check_flight_plan(seed), strict=True
    ):
        assert item.verdict == "right"
        assert mark(planned.question, item.right_answer).verdict == "right"
        assert item.given == right(planned)
        assert item.worked == planned.question.worked


def test_a_report_is_kept_as_it_was(sessions):
    session = sessions.open(seed=8)
    sessions.answer(session, 2, mistaken(session.plan[1]))
    report = sessions.hand_in(session, 1)
    assert from_json(to_json(report)) == report
    assert sessions.reports() == [report]


# ---- a process that dies, two that write, a disk that refuses


def test_a_process_killed_at_any_moment_loses_no_acknowledged_answer(tmp_path):
    toll = kill_pupils(tmp_path, runs=12, seed=4)
    assert (toll.lost, toll.twice) == (0, 0)
    assert toll.acknowledged > toll.runs


def test_two_processes_can_answer_at_once(record):
    both = [pupil(record.path.parent, seed, count=25) for seed in (1, 2)]
    said = [answers_said(process.communicate()[0])[0] for process in both]
    assert [len(answers) for answers in said] == [25, 25]
    last = [dict(answers) for answers in said]
    for number, given in enumerate(CheckFlights(record).open().given, start=1):
        assert given.text in {answers.get(number, "") for answers in last}
    database = sqlite3.connect(record.path)
    assert database.execute("SELECT COUNT(*) FROM sitting").fetchone() == (1,)
    database.close()


FULL = """
import resource, sys
from vorlib.practice.record.record import Record, RecordError
from vorlib.practice.check_flight.session import CheckFlights
sittings = CheckFlights(Record(sys.argv[1], sys.argv[2]))
sitting = sittings.open()
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[3]),) * 2)
question = sitting.plan[2].question
for act in (
    lambda: sittings.answer(sitting, 3, question.form.show(question.answer)),
    lambda: sittings.hand_in(sitting, 3),
):
    try:
        act()
    except RecordError as error:
        print(error)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of files")
def test_a_full_disk_is_told_and_the_test_stands_as_it_stood(sessions, record):
    session = sessions.open(seed=3)
    before = sessions.answer(session, 1, right(session.plan[0]))
    command = [sys.executable, "-c", FULL, LEARNER, str(record.path.parent), "2000"]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    assert run.stdout.count("could not be written") == 2
    assert sessions.open().given[0] == before.given[0]
    report = sessions.hand_in(session, 1)  # with room again, it goes on
    assert report.points == 1
    assert len(record.attempts()) == 1


def test_handing_in_at_the_same_moment_in_two_windows_counts_once(record):
    session = CheckFlights(record).open(seed=3)
    CheckFlights(record).answer(session, 1, right(session.plan[0]))
    closed = []

    def hand_in():
        try:
            CheckFlights(record).hand_in(session, 1)
        except RecordError as error:
            closed.append(error)

    threads = [threading.Thread(target=hand_in) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(closed) == 3
    assert len(record.attempts()) == len(CheckFlights(record).reports()) == 1
