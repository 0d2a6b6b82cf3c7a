"""Draw what the course can say in states at random, and print which sentences are at fault.

    python tests/tools/sweep_sentences.py             # every exhibit, kind and finding, 300 times
    python tests/tools/sweep_sentences.py 50 timing   # some exhibits or kinds, fewer times

Nothing has to be found. Of findings alike one is shown, and how many there are.
"""

from __future__ import annotations

import re
import sys
import time
from collections import defaultdict
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))

from sentences import of_exhibit, of_findings, of_predictions, of_questions, of_reports

from vorlib import exhibits
from vorlib.exhibits.base.registry import all_exhibits
from vorlib.practice import all_kinds

STATES, SEED = 300, 1


def sources(states: int) -> dict[str, object]:
    """Return what says sentences, by name: each gives what is wrong with them."""
    found: dict[str, object] = {
        "findings": lambda: of_findings(20 * states, SEED),
        "predictions": of_predictions,
        "reports": of_reports,
    }
    for name in all_exhibits():
        found[name] = lambda name=name: of_exhibit(getattr(exhibits, name)(), states, SEED)
    for kind in all_kinds():
        found[kind] = lambda kind=kind: of_questions(kind, states)
    return found


def main(states: int = STATES, *names: str) -> None:
    """Print what is wrong, of findings alike one."""
    for name, make in sources(states).items():
        if names and name not in names:
            continue
        begun, met = time.process_time(), defaultdict(list)
        for fault in make():
            met[re.sub(r"\d+", "#", fault.partition(" in ")[0])].append(fault)
        seconds = time.process_time() - begun
        print(f"{name}: {sum(map(len, met.values()))} in {states} states, {seconds:.0f} s of CPU")
        for each in sorted(met.values(), key=len, reverse=True):
            print(f"  {len(each)} x {each[0][:400]}")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]), *sys.argv[2:])
