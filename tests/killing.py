"""Processes that write a learner's record or sit a check flight, killed at a moment of chance."""

from __future__ import annotations

import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from random import Random

from vorlib.practice.check_flight.session import CheckFlights
from vorlib.practice.record.record import Record

LEARNER = "Wenna Dorrick"
MOST_LINES = 40  # that a process says before it is killed; its first answer makes the file
LONGEST_LINE_S = 0.005  # from one line to the next

# Says that it begins, then the key of each answer as soon as that is acknowledged.
WRITER = """
import sys
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.record.record import Record
record = Record(sys.argv[1], sys.argv[2])
print("ready", flush=True)
for seed in range(int(sys.argv[3])):
    attempt = Attempt("reciprocal", seed, "right")
    record.add(attempt)
    print(attempt.key, flush=True)
"""

# Sits a check flight. Says each answer before it is given, and "kept" when it is acknowledged.
PUPIL = """
import sys
from random import Random
from vorlib.practice.record.record import Record
from vorlib.practice.check_flight.session import CheckFlights
sittings, chance = CheckFlights(Record(sys.argv[1], sys.argv[2])), Random(int(sys.argv[3]))
sitting = sittings.open(seed=5)
print("ready", flush=True)
for _ in range(int(sys.argv[4])):
    number = chance.randint(1, len(sitting.plan))
    question = sitting.plan[number - 1].question
    picked = chance.choice([question.answer, *(m.would_answer for m in question.misconceptions)])
    text = question.form.show(picked)
    print(number, text, sep="|", flush=True)
    sittings.answer(sitting, number, text)
    print("kept", flush=True)
"""


@dataclass(frozen=True)
class Toll:
    """What many killings came to: answers that were acknowledged, lost, and there twice."""

    runs: int
    acknowledged: int
    lost: int
    twice: int


def last_words(process: subprocess.Popen[str], chance: Random) -> str:
    """Kill a process that works, a number of lines of chance after it is ready: what it said.

    It is killed by what it has done and not by the clock, so that a slow machine is none that kills
    only processes which have done nothing yet.
    """
    assert process.stdout is not None
    ready, *said = (process.stdout.readline() for _ in range(1 + chance.randint(0, MOST_LINES)))
    assert ready == "ready\n"
    time.sleep(chance.uniform(0.0, LONGEST_LINE_S))  # somewhere in the next answer
    process.kill()
    return "".join(said) + process.communicate()[0]


def writer(folder: Path, count: int = 10**6) -> subprocess.Popen[str]:
    """Start a process that adds answers to the record in a folder."""
    command = [sys.executable, "-c", WRITER, LEARNER, str(folder), str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def kill_writers(folder: Path, runs: int, seed: int) -> Toll:
    """Kill a writer so many times; a new file every fifth time, so that its making is hit too."""
    chance, acknowledged, lost, twice = Random(seed), 0, 0, 0
    keys: set[str] = set()
    for run in range(runs):
        if run % 5 == 0:
            record, keys = Record(LEARNER, folder / str(run)), set()
        process = writer(record.path.parent)
        said = last_words(process, chance).splitlines(keepends=True)
        new = {line.strip() for line in said if line.endswith("\n")}
        keys |= new
        acknowledged += len(new)
        there = [attempt.key for attempt in record.attempts()]
        lost += len(keys - set(there))
        twice += len(there) - len(set(there))
    return Toll(runs, acknowledged, lost, twice)


def pupil(folder: Path, seed: int, count: int = 10**6) -> subprocess.Popen[str]:
    """Start a process that answers a check flight under way in a folder, or begins one."""
    command = [sys.executable, "-c", PUPIL, LEARNER, str(folder), str(seed), str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def answers_said(text: str) -> tuple[list[tuple[int, str]], list[tuple[int, str]]]:
    """Return what a pupil gave: number and text of each answer acknowledged, and of the last."""
    lines = [line.strip() for line in text.splitlines(keepends=True) if line.endswith("\n")]
    kept, under_way = [], []
    for line in lines:
        if line == "kept":
            kept += under_way
            under_way = []
        elif "|" in line:
            number, _, words = line.partition("|")
            under_way = [(int(number), words)]
    return kept, under_way


def kill_pupils(folder: Path, runs: int, seed: int) -> Toll:
    """Kill a pupil so many times; what was acknowledged must stand, and one sitting go on."""
    chance, acknowledged, lost, twice = Random(seed), 0, 0, 0
    stands: dict[int, str] = {}
    for run in range(runs):
        if run % 5 == 0:
            record, stands = Record(LEARNER, folder / str(run)), {}
        process = pupil(record.path.parent, seed=run)
        kept, under_way = answers_said(last_words(process, chance))
        acknowledged += len(kept)
        stands |= dict(kept)
        session = CheckFlights(record).open()
        there = {n: given.text for n, given in enumerate(session.given, start=1) if given.text}
        lost += there not in (stands, stands | dict(under_way))
        twice += session.number != 1
        stands = there
    return Toll(runs, acknowledged, lost, twice)
