"""Print how well the diagnosis tells learners apart, belief by belief.

Run as: python tests/tools/diagnosis_table.py [sessions]
"""

import sys
from itertools import combinations
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))

from practice.believers import (
    HELD,
    LESSONS,
    RULES,
    SLIP,
    by,
    guessing,
    holding,
    lessons_of,
    misconceptions,
    pool,
    sit,
    slipping,
)

from vorlib.practice import kinds_of_lesson
from vorlib.practice.learning.diagnosis import diagnose, guesses


def shares(lesson, answer, names, sessions):
    """Return the shares of sessions in which all names were found, and in which others were."""
    held = [
        set(diagnose(sit(kinds_of_lesson(lesson), answer, n).attempts)) for n in range(sessions)
    ]
    found = sum(set(names) <= one for one in held)
    misnamed = sum(bool(one - set(names)) for one in held)
    return found / sessions, misnamed / sessions


def print_one(sessions):
    print(f"{'belief':46} {'rule':28} {'lesson':6} {'found':>6} {'misnamed':>9}")
    for name, rule in RULES:
        for lesson in lessons_of(rule):
            found, misnamed = shares(lesson, by(rule), [name], sessions)
            print(f"{name:46} {rule.__name__:28} {lesson:6} {found:6.1%} {misnamed:9.1%}")


def print_wavering(sessions):
    print(f"\n{f'shown in {HELD:.0%}, slips in {SLIP:.0%}':68} {'lesson':6} {'found':>6}")
    for lesson in LESSONS:
        for name in misconceptions(lesson):
            found, _ = shares(lesson, holding(name), [name], sessions)
            print(f"{name:68} {lesson:6} {found:6.1%}")


def print_two(sessions):
    print(f"\n{'two beliefs at once':92} {'lesson':6} {'both':>6} {'misnamed':>9}")
    for (name, rule), (name2, rule2) in combinations(RULES, 2):
        if name == name2:
            continue
        for lesson in sorted(set(lessons_of(rule)) & set(lessons_of(rule2))):
            found, misnamed = shares(lesson, by(rule, rule2), [name, name2], sessions)
            print(f"{name:46} {name2:46} {lesson:6} {found:6.1%} {misnamed:9.1%}")


def print_none(sessions):
    print(
        f"\n{'lesson':6} {'10 % slips: held':>17} {'20 %':>6} {'guessing: held':>15} "
        f"{'called so':>10}"
    )
    for lesson in LESSONS:
        held = [shares(lesson, slipping(s), [], sessions)[1] for s in (0.1, 0.2)]
        sets = [sit(kinds_of_lesson(lesson), guessing, n).attempts for n in range(sessions)]
        wrong = sum(bool(diagnose(one)) for one in sets) / sessions
        called = sum(guesses(one) for one in sets) / sessions
        print(f"{lesson:6} {held[0]:17.1%} {held[1]:6.1%} {wrong:15.1%} {called:10.1%}")


if __name__ == "__main__":
    sessions = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    with pool():
        print_one(sessions)
        print_wavering(sessions)
        print_none(sessions)
        print_two(sessions)
