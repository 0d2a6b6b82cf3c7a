"""Hold the debrief against simulated lessons whose truth is known, and print a table.

    python tests/tools/debrief_truth.py          # 200 lessons
    python tests/tools/debrief_truth.py 20 --show  # fewer, with each finding that is wrong

Half of them are recorded every second and half every 5 s, one in four without heights. A wind that
a flight's legs do not tell well enough is rightly said not to be known: such flights are counted.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

import numpy as np

sys.path.append(str(Path(__file__).parent.parent))

from lesson_truth import ENDS_S, PASSED_S, RADIAL_DEG, WIND_DEG, WIND_KT, Judged, judged

ROWS = (
    ("wind, kt", "wind_kt", WIND_KT),
    ("wind, degrees (over 8 kt)", "wind_deg", WIND_DEG),
    ("radial held, degrees", "radial_deg", RADIAL_DEG),
    ("station passed, s", "passed_s", PASSED_S),
    ("tracking begins, s", "begin_s", ENDS_S),
    ("tracking ends, s", "end_s", ENDS_S),
    ("lift-off and landing, s", "air_s", ENDS_S),
)


def main() -> int:
    """Print the table; the number of values beyond their limits and of wrong findings."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("flights", type=int, nargs="?", default=200)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--show", action="store_true")
    options = parser.parse_args()
    whole = Judged()
    for seed in range(options.first, options.first + options.flights):
        every_s, height = (1, 5)[seed % 2], seed % 4 < 3
        it = judged(seed, every_s, height=height)
        whole.add(it)
        if options.show:
            beyond = [
                f"{name} {value:.2f}"
                for name, field, limit in ROWS
                for value in getattr(it, field)
                if abs(value) > limit
            ]
            for words in (*beyond, *(f"missed {w}" for w in it.missed), *it.invented):
                print(f"{seed} ({every_s} s{'' if height else ', no heights'}): {words}")
    print(f"{'':28}{'values':>7}{'limit':>7}{'worst':>7}{'within':>8}")
    wrong = len(whole.missed) - whole.missed.count("wind") + len(whole.invented)
    for name, field, limit in ROWS:
        off = abs(np.array(getattr(whole, field)))
        wrong += int(np.sum(off > limit))
        share = 100.0 * np.mean(off <= limit)
        print(f"{name:28}{off.size:7}{limit:7g}{off.max():7.2f}{share:7.1f}%")
    unknown = whole.missed.count("wind")
    print(f"wind said not to be known: {unknown} of {options.flights}")
    print(
        f"else not found: {len(whole.missed) - unknown}; "
        f"found though it did not happen: {len(whole.invented)}"
    )
    return wrong


if __name__ == "__main__":
    sys.exit(min(main(), 1))
