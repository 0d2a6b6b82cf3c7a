"""Kill a process that writes a learner's record, 200 times, and print what was lost.

``python tests/tools/kill_record.py [runs] [seed]``
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from killing import kill_writers


def main(runs: int = 200, seed: int = 1) -> int:
    """Run, print and return the number of answers lost or there twice."""
    with tempfile.TemporaryDirectory() as folder:
        toll = kill_writers(Path(folder), runs, seed)
    print(
        f"{toll.runs} processes killed, {toll.acknowledged} answers acknowledged, "
        f"{toll.lost} lost, {toll.twice} twice"
    )
    return toll.lost + toll.twice


if __name__ == "__main__":
    sys.exit(min(1, main(*map(int, sys.argv[1:]))))
