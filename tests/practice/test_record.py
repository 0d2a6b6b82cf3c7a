"""The learner's record: what is acknowledged stays, and nobody else's file is touched."""

import sqlite3
import subprocess
import sys
import time
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import pytest
from killing import LEARNER, kill_writers, writer

from vorlib.io.sqlite import Store
from vorlib.practice.learning.attempt import SOLUTION_SHOWN, Attempt
from vorlib.practice.record.learner import default_folder
from vorlib.practice.record.record import Record, RecordError, learners
from vorlib.practice.record.schema import APPLICATION_ID, STEPS, VERSION_1

NOON = datetime(2026, 6, 1, 12, tzinfo=UTC)


def attempt(kind="reciprocal", seed=1, verdict="right", day=0, **more):
    return Attempt(kind, seed, verdict, answered_at=NOON + timedelta(days=day), **more)


SLIP = attempt(
    verdict="wrong",
    misconception="no turn at all",
    foreseen=("no turn at all", "a quarter turn"),
    hints=2,
    taken_s=12.5,
)


@pytest.fixture
def record(tmp_path):
    return Record(LEARNER, tmp_path / "records")


def integrity(path):
    database = sqlite3.connect(path)
    (answer,) = database.execute("PRAGMA integrity_check").fetchone()
    database.close()
    return answer


# ---- what is written can be read


def test_a_record_without_a_file_is_empty_and_reading_makes_none(record):
    assert record.attempts() == []
    assert record.summary().answered == 0
    assert not record.path.parent.exists()


def test_answers_come_back_as_they_were_given(record):
    assert record.add(SLIP, attempt(seed=2, day=1)) == 2
    assert Record(LEARNER.upper(), record.path.parent).attempts()[0] == SLIP
    assert [path.name for path in record.path.parent.iterdir()] == [record.path.name]


def test_answers_come_in_the_order_of_time_whatever_the_zone_of_their_clock(record):
    east = timezone(timedelta(hours=10))
    early = Attempt("sensing", 1, "right", answered_at=datetime(2026, 6, 1, 21, tzinfo=east))
    record.add(attempt(), early)
    assert [a.kind for a in record.attempts()] == ["sensing", "reciprocal"]


def test_an_answer_added_again_is_there_once(record):
    assert record.add(SLIP) == 1
    assert record.add(SLIP, attempt(seed=2)) == 1
    assert len(record.attempts()) == 2


def test_the_file_itself_refuses_to_change_or_drop_an_answer(record):
    record.add(SLIP)
    database = sqlite3.connect(record.path)
    for statement in ("UPDATE answer SET verdict = 'right'", "DELETE FROM answer"):
        with pytest.raises(sqlite3.IntegrityError, match="only ever added"):
            database.execute(statement)
    database.close()


def test_a_deleted_record_leaves_nothing_behind(record):
    record.add(SLIP)
    record.delete()
    assert list(record.path.parent.iterdir()) == []
    assert record.attempts() == []
    record.delete()  # and once more is no error
    assert record.add(SLIP) == 1


def test_each_learner_has_a_file_and_is_listed_by_the_name_as_written(record):
    folder = record.path.parent
    for name in ("Wenna Dorrick", "Åsa O'Brae", "T. Askerel"):
        Record(name, folder).add(attempt())
    assert learners(folder) == ["T. Askerel", "Wenna Dorrick", "Åsa O'Brae"]
    assert learners(folder / "none") == []


def test_records_lie_in_the_users_own_folder_unless_another_is_given():
    assert Record("Wenna").path.parent == default_folder()
    assert "vorlib" in default_folder().parts


# ---- counted where it lies


def test_a_kind_counts_its_answers_and_the_days_right_since_it_went_wrong(record):
    days = [(0, "right"), (1, "wrong"), (2, "right"), (2, "right"), (3, "close"), (5, "right")]
    record.add(*(attempt(seed=n, verdict=v, day=d) for n, (d, v) in enumerate(days)))
    standing = record.summary().by_kind["reciprocal"]
    assert (standing.answered, standing.right, standing.days_right) == (6, 4, 1)
    assert standing.last == date(2026, 6, 6)
    record.add(attempt(seed=9, day=6))
    assert record.summary().by_kind["reciprocal"].days_right == 2


def test_a_right_answer_after_the_solution_was_shown_is_no_day_right(record):
    record.add(attempt(hints=SOLUTION_SHOWN))
    assert record.summary().by_kind["reciprocal"].days_right == 0
    record.add(attempt(hints=SOLUTION_SHOWN - 1))
    assert record.summary().by_kind["reciprocal"].days_right == 1


def test_the_summary_holds_the_latest_answers_oldest_first(record):
    record.add(*(attempt(seed=n, day=n) for n in range(150)))
    assert [a.seed for a in record.summary().recent] == list(range(50, 150))


def test_a_record_of_100_000_answers_is_opened_in_a_tenth_of_a_second(record):
    kinds = [f"kind {n}" for n in range(24)]
    record.add(
        *(
            Attempt(kinds[n % 24], n, "wrong" if n % 29 == 0 else "right", foreseen=("a", "b"))
            for n in range(100_000)
        )
    )
    times = []
    for _ in range(5):  # the best of five, and only what this program takes
        start = time.process_time()
        assert Record(LEARNER, record.path.parent).summary().answered == 100_000
        times.append(time.process_time() - start)
    assert min(times) < 0.1


# ---- two processes, and one that dies


def test_two_processes_can_write_at_once_and_each_answer_is_there_once(record):
    both = [writer(record.path.parent, 40) for _ in range(2)]
    said = [line for process in both for line in process.communicate()[0].split()]
    assert [process.returncode for process in both] == [0, 0]
    there = [a.key for a in record.attempts()]
    assert sorted(said) == sorted([*there, "ready", "ready"])
    assert len(there) == 80


def test_a_process_killed_while_writing_loses_no_acknowledged_answer(tmp_path):
    toll = kill_writers(tmp_path, runs=20, seed=7)
    assert (toll.lost, toll.twice) == (0, 0)
    assert toll.acknowledged > toll.runs
    for path in tmp_path.glob("*/*.sqlite3"):
        assert integrity(path) == "ok"


# ---- a disk that refuses

# Adds answers where no file may grow beyond so many bytes, as on a full disk.
FULL = """
import resource, sys
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.record.record import Record, RecordError
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[3]),) * 2)
try:
    for number in range(10**4):
        Record(sys.argv[1], sys.argv[2]).add(Attempt("reciprocal", number, "right"))
except RecordError as error:
    print(number, error, sep="|")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of files")
@pytest.mark.parametrize("room", [2_000, 30_000, 60_000])
def test_a_full_disk_is_told_and_loses_nothing(record, room):
    record.add(SLIP)
    command = [sys.executable, "-c", FULL, LEARNER, str(record.path.parent), str(room)]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    number, message = run.stdout.split("|")
    assert "could not be written; nothing was added" in message
    assert "Make room on the disk and do it again" in message
    there = record.attempts()
    assert SLIP in there
    assert len(there) == 1 + int(number)
    assert integrity(record.path) == "ok"
    record.add(attempt(seed=2))  # with room again, it goes on
    assert len(record.attempts()) == 2 + int(number)


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(RecordError, match=r"could not be written.*Get the right to write"):
        Record(LEARNER, tmp_path / "file").add(SLIP)


def test_a_clock_set_back_loses_no_answer_and_counts_none_twice(record):
    later, earlier = attempt(seed=1, day=400), attempt(seed=2, day=0)
    record.add(later)
    record.add(earlier)  # whatever the clock said when it was given
    assert record.attempts() == [earlier, later]
    assert record.summary().answered == 2


def test_a_damaged_record_says_what_to_do_and_goes_on_once_it_is_put_aside(record):
    record.add(*(attempt(seed=seed) for seed in range(200)))
    damaged = record.path.read_bytes()[: 20 * 1024]  # cut short, as by a copy that was broken off
    record.path.write_bytes(damaged)
    with pytest.raises(RecordError, match="Put a backup in its place, or move it elsewhere"):
        record.attempts()
    assert record.path.read_bytes() == damaged
    record.path.rename(record.path.with_suffix(".damaged"))
    record.add(SLIP)
    assert record.attempts() == [SLIP]


# ---- other versions and other files


def first_version(path):
    """Make a file as it was before answers told what their question had foreseen."""
    store = Store(path, "record", "practice", APPLICATION_ID, (VERSION_1,))
    with store.writing() as database:
        database.execute("INSERT INTO learner VALUES (?)", (LEARNER,))
        database.execute(
            "INSERT INTO answer VALUES (NULL, 'k1', '2026-06-01T12:00:00.000000+00:00', "
            "'reciprocal', 7, 'wrong', 'no turn at all', 1, 4.5)"
        )


OLD = Attempt("reciprocal", 7, "wrong", "no turn at all", (), 1, 4.5, NOON, "k1")


@pytest.mark.parametrize("first", ["attempts", "summary", "add"])
def test_a_file_of_the_first_version_is_brought_up_to_date_with_its_answers(record, first):
    first_version(record.path)
    if first == "add":
        record.add(SLIP)
    else:
        getattr(record, first)()
    assert record.attempts()[0] == OLD
    assert record.summary().answered == (2 if first == "add" else 1)
    database = sqlite3.connect(record.path)
    assert database.execute("PRAGMA user_version").fetchone() == (len(STEPS),)
    database.close()


def test_a_step_that_fails_leaves_the_older_version_as_it_was(record):
    first_version(record.path)
    steps = (VERSION_1, ("ALTER TABLE answer ADD COLUMN half TEXT", "CREATE TABLE answer (no)"))
    store = Store(record.path, "record", "practice", APPLICATION_ID, steps, RecordError)
    with pytest.raises(RecordError, match="untouched"), store.reading():
        pass
    assert record.attempts() == [OLD]


def test_a_record_of_a_newer_version_is_refused_rather_than_misread(record):
    record.add(SLIP)
    database = sqlite3.connect(record.path)
    database.execute("PRAGMA user_version = 9")
    database.close()
    with pytest.raises(RecordError, match=r"version 9.*install a newer vorlib"):
        record.summary()


def test_a_file_that_is_no_record_is_refused_and_left_as_it_is(record):
    record.path.parent.mkdir()
    record.path.write_text("not a database, only a page of notes " * 50)
    before = record.path.read_bytes()
    for use in (record.summary, record.attempts, lambda: record.add(SLIP)):
        with pytest.raises(RecordError):
            use()
    assert record.path.read_bytes() == before


# ---- nothing leaves the machine


def test_keeping_a_record_loads_nothing_that_could_reach_a_network():
    code = "import vorlib.practice.record.record, sys; print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {"http.client", "urllib.request", "requests", "ssl"} & set(run.stdout.split())


def test_the_record_is_written_nowhere_but_in_its_folder(record, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    record.add(SLIP)
    assert {path for path in tmp_path.rglob("*") if path.is_file()} == {Path(record.path)}
