"""What a flight by hand costs, and how an hour of flight scales.

Run it on a quiet machine with ``python tests/bench/flight.py``. JupyterLab and Chromium are started
as the browser tests start them; the flight turns all the time, so that every picture differs.
"""

from __future__ import annotations

import json
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import nbformat
from playwright.sync_api import sync_playwright

sys.path.append(str(Path(__file__).parent.parent))

import itertools

from lab import CHROMIUM_OPTIONS, run_all, running_lab

from vorlib.aircraft.flight import Aircraft, start
from vorlib.aircraft.wind import Wind
from vorlib.procedures.flying import fly
from vorlib.procedures.pilots import Tracking
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.receiver import Receiver

PLAYED_S = 10.0
SPEEDS = (1.0, 20.0)

# Writes with each picture the real time, the simulated time and the kernel's CPU time.
NOTEBOOK = """
import time
from vorlib.exhibits.flown_by_hand.exhibit import flight

exhibit = flight(speed={speed}, by_bank=True, wanted_bank_deg=10.0)
ticks = open("ticks.txt", "w", buffering=1)

def timed(change):
    print(time.monotonic(), exhibit.state.moment.time_s, time.process_time(), file=ticks)

exhibit.picture.observe(timed, "svg")
exhibit
"""

WATCH = """() => {
  window.drawn = [];
  new MutationObserver(() => requestAnimationFrame((now) => window.drawn.push(now))).observe(
    document.querySelector(".vorlib-picture"),
    { subtree: true, childList: true, attributes: true, characterData: true });
}"""


def main() -> None:
    """Measure and print."""
    for speed in SPEEDS:
        played(speed)
    flown()


def played(speed: float) -> None:
    """Print what ten seconds of play cost at a speed."""
    with (
        tempfile.TemporaryDirectory() as folder,
        tempfile.TemporaryDirectory() as settings,
        running_lab(Path(folder), Path(settings)) as lab,
        sync_playwright() as playwright,
    ):
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        cell = nbformat.v4.new_code_cell(NOTEBOOK.format(speed=speed))
        kernel = {"name": "python3", "display_name": "Python 3"}
        document = nbformat.v4.new_notebook(cells=[cell], metadata={"kernelspec": kernel})
        nbformat.write(document, Path(folder) / "flight.ipynb")
        page.goto(lab.page("flight.ipynb"))
        run_all(page)
        page.wait_for_selector(".vorlib-picture svg")
        page.evaluate(WATCH)
        page.get_by_role("button", name="Play", exact=True).click()
        page.wait_for_timeout(1000 * (PLAYED_S + 1.0))
        drawn = sorted(set(json.loads(page.evaluate("JSON.stringify(window.drawn)"))))
        rows = [line.split() for line in (Path(folder) / "ticks.txt").read_text().splitlines()]
        browser.close()
    report(speed, drawn, [[float(value) for value in row] for row in rows])


def report(speed: float, drawn: list[float], ticks: list[list[float]]) -> None:
    """Print pictures a second, the load and the lag."""
    between = [b - a for a, b in itertools.pairwise(drawn)]
    real, simulated, cpu = zip(*ticks, strict=True)
    load = (cpu[-1] - cpu[0]) / (real[-1] - real[0])
    lag = max(
        abs((s - simulated[0]) / speed - (r - real[0]))
        for r, s in zip(real, simulated, strict=True)
    )
    print(
        f"at {speed:2g} times: {1000 / statistics.median(between):.0f} pictures a second at the "
        f"median, {1000 * len(between) / (drawn[-1] - drawn[0]):.0f} on average; kernel "
        f"{load:.2f} of a core; simulated time within {1000 * lag:.0f} ms of the real time"
    )


def flown() -> None:
    """Print the cost of an hour flown by a pilot, of half and twice as long, and of reading it."""
    station = STATIONS["QLN"]
    state = start(station.position_on(220.0, 35.0, 3500.0), 40.0 + station.declination_deg)
    hour: Any = None
    seconds = {}
    for hours in (0.5, 1.0, 2.0):
        begin = time.process_time()
        flight = fly(
            Tracking(), Aircraft(), state, station, 40.0, 3600.0 * hours, wind=Wind(300.0, 15.0)
        )
        seconds[hours] = time.process_time() - begin
        hour = flight if hours == 1.0 else hour
    print(
        f"an hour at 10 looks a second, flown by the receiver: {seconds[1.0]:.1f} s; half an hour "
        f"{seconds[0.5] / seconds[1.0]:.2f} and two hours {seconds[2.0] / seconds[1.0]:.2f} of it"
    )
    times = []
    for _ in range(9):
        begin = time.process_time()
        Receiver(40.0).read(station, hour.flight.position)
        times.append(time.process_time() - begin)
    count = len(hour.flight.time_s)
    print(f"its {count:,} positions read in one call: {1000 * statistics.median(times):.1f} ms")


if __name__ == "__main__":
    main()
