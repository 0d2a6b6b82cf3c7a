"""Draw every exhibit in states at random, and print which words hide each other or are cut off.

    python tests/tools/label_collisions.py               # every exhibit in 200 states
    python tests/tools/label_collisions.py 50 crossing   # some, in fewer

Nothing has to be found. Each finding names the two texts, how often they met, and one state.
"""

from __future__ import annotations

import re
import sys
import time
from collections import defaultdict
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))

from labels import collisions

from vorlib import exhibits
from vorlib.exhibits.base.registry import all_exhibits

STATES, SEED = 200, 1


def main(states: int = STATES, *names: str) -> None:
    """Print what collides."""
    for name in names or all_exhibits():
        begun, met = time.monotonic(), defaultdict(list)
        for found in collisions(getattr(exhibits, name)(), states, SEED):
            words, _, state = found.partition(" (")
            met[re.sub(r"\d+", "#", words)].append((words, state))
        seconds = time.monotonic() - begun
        print(f"{name}: {sum(map(len, met.values()))} in {states} states, {seconds:.0f} s")
        for each in sorted(met.values(), key=len, reverse=True):
            print(f"  {len(each)} x {each[0][0]}: {each[0][1][:400]}")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]), *sys.argv[2:])
