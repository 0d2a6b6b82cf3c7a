"""A class of five on a real hub, with its proxy, on this machine.

    pytest -n0 tests/course/serve_class.py

Run by itself, after the tests: it wants JupyterHub and configurable-http-proxy, and the machine.
"""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_five_learners_on_a_real_hub_move_an_exhibit_and_nothing_is_lost():
    program = [sys.executable, str(ROOT / "tests/bench/class_of.py")]
    done = subprocess.run(
        [*program, "5", "--seconds", "2", "--lessons", "02"], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "lost 0  cells failed 0" in done.stdout
