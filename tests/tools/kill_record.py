"""Kill processes that write a learner's record or sit a check flight, and print what was lost.

``python tests/tools/kill_record.py [runs] [seed]``
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

sys.path.append(str(Path(__file__).parent.parent))

from killing import kill_pupils, kill_writers


def main(runs: int = 200, seed: int = 1) -> int:
    """Run each 200 times, print, and return the number of answers lost or there twice."""
    bad = 0
    for name, kill in (("practicing", kill_writers), ("sitting a check flight", kill_pupils)):
        with tempfile.TemporaryDirectory() as folder:
            toll = kill(Path(folder), runs, seed)
        print(
            f"{name}: {toll.runs} processes killed, {toll.acknowledged} answers acknowledged, "
            f"{toll.lost} lost, {toll.twice} twice"
        )
        bad += toll.lost + toll.twice
    return bad


if __name__ == "__main__":
    sys.exit(min(1, main(*map(int, sys.argv[1:]))))
