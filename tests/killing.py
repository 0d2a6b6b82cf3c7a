"""Processes that write a learner's record and are killed at a moment of chance."""

from __future__ import annotations

import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from random import Random

from vorlib.practice.record import Record

LEARNER = "Wenna Dorrick"
LONGEST_LIFE_S = 0.1  # some tens of answers; the first of them makes the file

# Says that it begins, then the key of each answer as soon as that is acknowledged.
WRITER = """
import sys
from vorlib.practice.attempt import Attempt
from vorlib.practice.record import Record
record = Record(sys.argv[1], sys.argv[2])
print("ready", flush=True)
for seed in range(int(sys.argv[3])):
    attempt = Attempt("reciprocal", seed, "right")
    record.add(attempt)
    print(attempt.key, flush=True)
"""


@dataclass(frozen=True)
class Toll:
    """What many killings came to: answers that were acknowledged, lost, and there twice."""

    runs: int
    acknowledged: int
    lost: int
    twice: int


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
        assert process.stdout is not None
        process.stdout.readline()
        time.sleep(chance.uniform(0.0, LONGEST_LIFE_S))
        process.kill()
        said = process.communicate()[0].splitlines(keepends=True)
        new = {line.strip() for line in said if line.endswith("\n")}
        keys |= new
        acknowledged += len(new)
        there = [attempt.key for attempt in record.attempts()]
        lost += len(keys - set(there))
        twice += len(there) - len(set(there))
    return Toll(runs, acknowledged, lost, twice)
