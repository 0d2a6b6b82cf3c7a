"""Print every figure that is promised, with its limit; fail where one falls short.

    python -m tests.bench                 # all of it, a quarter of an hour on a quiet machine
    python -m tests.bench geodesic hour   # those whose names have one of these words
    python -m tests.bench --readme        # and put the table into the README's last section

The last column is the exponent by which the work grows with its size: 1 is in proportion. The
programs beside this print more of one thing: steps.py, pages.py and class_of.py each row, of which
here stands the slowest; openings.py the pages on a busy machine, exhibit.py the way in JupyterLab.
"""

from __future__ import annotations

import os
import platform
import sys
from datetime import UTC, datetime
from pathlib import Path

from tests.bench.figures import FIGURES, Figure, Measured
from tests.bench.waits import WAITS

README = Path(__file__).parents[2] / "README.md"
SECTION = "## Figures\n"
HEAD = ("| what | measured | at most | grows as |", "|---|---|---|---|")


def row(figure: Figure, measured: Measured) -> str:
    """Return a figure's row of the table."""
    exponent = "" if measured.exponent is None else f"size^{measured.exponent:.1f}"
    value, unit = f"{measured.value:.3g}", figure.unit
    return f"| {figure.what} | {value} {unit} | {figure.limit:g} {unit} | {exponent} |"


def machine() -> str:
    """Say what the figures were measured on, and when."""
    cpus = Path("/proc/cpuinfo")
    lines = cpus.read_text().splitlines() if cpus.exists() else []
    model = next((line.partition(": ")[2] for line in lines if line.startswith("model name")), "")
    load = f", load {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else ""
    return (
        f"Measured on {datetime.now(UTC):%B %-d, %Y}: {model or platform.machine()}, "
        f"{os.cpu_count()} processors{load}, Python {platform.python_version()}."
    )


def write(rows: list[str]) -> None:
    """Put the table into the README, in place of the one that is there."""
    text = README.read_text(encoding="utf-8").partition(SECTION)[0].rstrip()
    how = "`python -m tests.bench` measures them, and fails where one falls short."
    table = "\n".join((*HEAD, *rows))
    written = f"{text}\n\n{SECTION}\n{machine()} {how}\n\n{table}\n"
    README.write_text(written, encoding="utf-8", newline="\n")


def main(words: list[str]) -> int:
    """Print the table; return 1 if a figure falls short."""
    every = (*FIGURES, *WAITS)
    chosen = [one for one in every if not words or any(word in one.what for word in words)]
    print(machine(), *HEAD, sep="\n", flush=True)
    rows, short = [], []
    for figure in chosen:
        measured = figure.measure()
        rows.append(row(figure, measured))
        print(rows[-1], flush=True)
        if measured.value > figure.limit:
            short.append(figure.what)
    for what in short:
        print(f"falls short: {what}", file=sys.stderr)
    if "--readme" in sys.argv:
        write(rows)
    return int(bool(short))


if __name__ == "__main__":
    sys.exit(main([word for word in sys.argv[1:] if not word.startswith("--")]))
