"""The log of receiver checks: what is acknowledged stays, whatever happens to process or disk."""

import random
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from vorlib.receiver_check.check import LogEntry
from vorlib.receiver_check.log import APPLICATION_ID, CheckLog, CheckLogError, default_path

TODAY = date(2026, 6, 1)
ENTRY = LogEntry(TODAY, "Quillon Field", "ground checkpoint", -2.0, "Wenna Dorrick", TODAY)

# Adds entries one after the other and says each number as soon as it is acknowledged.
WRITER = """
import sys
from datetime import date
from vorlib.receiver_check.log import CheckLog
from vorlib.receiver_check.check import LogEntry
log, day = CheckLog(sys.argv[1]), date(2026, 6, 1)
for number in range(int(sys.argv[3])):
    entry = LogEntry(day, f"{sys.argv[2]} {number}", "airway", 1.5, "T. Askerel", day)
    log.add(entry)
    print(entry.place, flush=True)
"""


def writer(path, name, count=10**6):
    command = [sys.executable, "-c", WRITER, str(path), name, str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


@pytest.fixture
def log(tmp_path):
    return CheckLog(tmp_path / "folder" / "checks.sqlite3")


def places(log):
    return [entry.place for entry in log.entries()]


def integrity(path):
    database = sqlite3.connect(path)
    (answer,) = database.execute("PRAGMA integrity_check").fetchone()
    database.close()
    return answer


# ---- what is written can be read


def test_a_log_without_a_file_is_empty_and_reading_makes_none(log):
    assert log.entries() == []
    assert not log.path.parent.exists()


def test_entries_come_back_as_they_were_written_and_in_that_order(log):
    leap = replace(ENTRY, made_on=date(2024, 2, 29), place="Ombrell West", error_deg=3.5)
    assert [log.add(ENTRY), log.add(leap)] == [1, 2]
    assert CheckLog(log.path).entries() == [ENTRY, leap]
    assert [path.name for path in log.path.parent.iterdir()] == ["checks.sqlite3"]


def test_the_page_has_every_item_and_the_caution(log):
    assert "No entries yet." in log.as_text(TODAY)
    log.add(ENTRY)
    log.add(replace(ENTRY, kind="two receivers", error_deg=5.0))
    page = log.as_text(TODAY)
    for item in ("2026-06-01", "Quillon Field", "-2 degrees: pass", "signed Wenna Dorrick"):
        assert item in page  # date, place, bearing error, signature: 14 CFR 91.171(d)
    assert "difference 5 degrees: fail" in page
    assert "good through 2026-07-01, 30 days left" in page
    words = " ".join(page.split())
    for phrase in ("training on the ground", "not for navigation", "operator's own", "local rules"):
        assert phrase in words


def test_the_log_lies_in_the_users_own_folder_unless_a_path_is_given():
    assert CheckLog().path == default_path()
    assert "vorlib" in default_path().parts


# ---- two processes


def test_two_processes_can_write_at_once_and_each_entry_is_there_once(log):
    both = [writer(log.path, name, 25) for name in ("one", "other")]
    said = [line for process in both for line in process.communicate()[0].splitlines()]
    assert [process.returncode for process in both] == [0, 0]
    assert sorted(said) == sorted(places(log))
    assert len(said) == 50


# ---- a process that dies


def test_a_process_killed_while_writing_loses_no_acknowledged_entry(log):
    chance = random.Random(11)
    acknowledged = []
    for life in range(12):
        process = writer(log.path, f"life {life}")
        first = process.stdout.readline()
        time.sleep(chance.uniform(0.0, 0.08))
        process.kill()
        acknowledged += [first.rstrip("\n"), *process.communicate()[0].splitlines()]
        assert process.returncode != 0
        there = places(log)
        assert set(acknowledged) <= set(there)
        assert len(there) <= len(acknowledged) + life + 1  # at most one more for each death
        assert len(set(there)) == len(there)
    assert integrity(log.path) == "ok"
    log.add(ENTRY)  # and the log goes on
    assert log.entries()[-1] == ENTRY


# Dies in the midst of a transaction, its pages already spilled into the file.
HALF_WRITTEN = """
import os, sys
from vorlib.receiver_check.log import CheckLog
database = CheckLog(sys.argv[1])._store.connect()
database.execute("PRAGMA cache_size = 1")
database.execute("BEGIN IMMEDIATE")
for number in range(3000):
    database.execute("INSERT INTO entry SELECT NULL, made_on, place, kind, error_deg, signature, "
                     "written_on, rules FROM entry LIMIT 1")
database.execute("DELETE FROM entry WHERE number = 1")
os._exit(9)
"""


def test_what_a_dead_process_left_half_written_is_taken_back(log):
    log.add(ENTRY)
    dead = subprocess.run([sys.executable, "-c", HALF_WRITTEN, str(log.path)], check=False)
    assert dead.returncode == 9
    assert log.path.with_name("checks.sqlite3-journal").stat().st_size > 0
    assert log.path.stat().st_size > 50_000  # it did reach the file
    assert log.entries() == [ENTRY]
    assert integrity(log.path) == "ok"


# ---- a disk that refuses

# Runs a statement where no file may grow beyond so many bytes, as on a full disk.
FULL = """
import resource, sys
from datetime import date
from vorlib.receiver_check.log import CheckLog, CheckLogError
from vorlib.receiver_check.check import LogEntry
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]),) * 2)
day = date(2026, 6, 1)
try:
    for number in range(10**4):
        CheckLog(sys.argv[1]).add(LogEntry(day, "x" * 200, "airway", 1.0, "T. Askerel", day))
except CheckLogError as error:
    print(number, error, sep="|")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of files")
@pytest.mark.parametrize("room", [6_000, 9_000, 30_000])
def test_a_full_disk_is_told_and_loses_nothing(log, room):
    log.add(ENTRY)
    command = [sys.executable, "-c", FULL, str(log.path), str(room)]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    number, message = run.stdout.split("|")
    assert "could not be written; nothing was added" in message
    assert "What was in it before is untouched" in message
    assert len(log.entries()) == 1 + int(number)
    assert log.entries()[0] == ENTRY
    assert integrity(log.path) == "ok"


READ_ONLY = """
import os, sys
from datetime import date
from vorlib.receiver_check.log import CheckLog, CheckLogError
from vorlib.receiver_check.check import LogEntry
if os.getuid() == 0:
    os.setuid(65534)
day, log = date(2026, 6, 1), CheckLog(sys.argv[1])
try:
    log.add(LogEntry(day, "Ombrell West", "airway", 1.0, "T. Askerel", day))
except CheckLogError as error:
    print(len(log.entries()), error, sep="|")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="folders are not read-only there")
def test_a_read_only_folder_is_told_and_the_log_in_it_can_still_be_read():
    folder = Path(tempfile.mkdtemp())  # not pytest's, which another user may not enter
    try:
        log = CheckLog(folder / "checks.sqlite3")
        log.add(ENTRY)
        log.path.chmod(0o444)
        folder.chmod(0o555)
        command = [sys.executable, "-c", READ_ONLY, str(log.path)]
        run = subprocess.run(command, capture_output=True, text=True, check=True)
        count, message = run.stdout.split("|")
        assert int(count) == 1
        assert "could not be written; nothing was added" in message
        assert log.entries() == [ENTRY]
    finally:
        folder.chmod(0o755)
        shutil.rmtree(folder)


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(CheckLogError, match="could not be written"):
        CheckLog(tmp_path / "file" / "checks.sqlite3").add(ENTRY)


# ---- a file that is something else


def test_a_file_that_is_no_log_is_refused_and_left_as_it_is(tmp_path):
    text, other = tmp_path / "notes.txt", tmp_path / "other.sqlite3"
    text.write_text("not a database, only a page of notes " * 50)
    database = sqlite3.connect(other)
    database.execute("CREATE TABLE entry (number INTEGER)")
    database.close()
    before = text.read_bytes(), other.read_bytes()
    for path in (text, other):
        with pytest.raises(CheckLogError):
            CheckLog(path).entries()
        with pytest.raises(CheckLogError):
            CheckLog(path).add(ENTRY)
    assert (text.read_bytes(), other.read_bytes()) == before


def test_a_log_of_a_newer_version_is_refused_rather_than_misread(log):
    log.add(ENTRY)
    database = sqlite3.connect(log.path)
    assert database.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
    database.execute("PRAGMA user_version = 2")
    database.close()
    with pytest.raises(CheckLogError, match=r"version 2.*install a newer vorlib"):
        log.entries()


def test_an_entry_that_was_spoiled_by_other_hands_is_told(log):
    log.add(ENTRY)
    database = sqlite3.connect(log.path)
    database.execute("UPDATE entry SET made_on = '2026-02-30'")
    database.commit()
    database.close()
    with pytest.raises(CheckLogError, match="could not be read"):
        log.entries()


def test_an_empty_file_is_an_empty_log(log):
    log.path.parent.mkdir()
    log.path.touch()
    assert log.entries() == []
    assert log.add(ENTRY) == 1
