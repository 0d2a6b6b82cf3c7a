"""What a step of the time costs in the debrief of a flight of four hours at one point a second.

Run it on a quiet machine with ``python tests/bench/scrub.py``: all of a step in the kernel, from
the new time to the picture, the sentence and the controls. The picture itself is 5 ms at most.
"""

from __future__ import annotations

import statistics
import time

from tracks import FOUR_HOURS_S, LEG_S, four_hours, gpx

from vorlib.exhibits.debrief import debrief_track
from vorlib.exhibits.entries import Opened

STEPS = 400
COURSES = (("QLN", 30), ("PLX", 180), ("OBL", 270))


def main() -> None:
    """Measure and print."""
    rows = ["time,station,course"]
    for i, begin in enumerate(range(0, FOUR_HOURS_S, LEG_S)):
        ident, course = COURSES[i % 3]
        rows.append(f"{begin},{ident},{course:03d}")
    text = gpx(four_hours()).decode()
    begin_s = time.perf_counter()
    exhibit = debrief_track(track=Opened("four hours", text), selections="\n".join(rows))
    print(f"read, analysed and drawn: {time.perf_counter() - begin_s:.2f} s")
    for projector in (False, True):
        exhibit.set(projector=projector)
        for how, step_s in (("dragged along", 5), ("jumping about", 4111)):
            ms, sizes = [], []
            for i in range(STEPS):
                moment = float((i * step_s + 1) % FOUR_HOURS_S)
                start = time.perf_counter()
                exhibit.set(time_s=moment)
                ms.append(1e3 * (time.perf_counter() - start))
                sizes.append(len(exhibit.picture.svg))
            ms.sort()
            print(
                f"{'projector' if projector else 'screen':10}{how:15}"
                f"median {statistics.median(ms):5.2f} ms, 95th {ms[int(0.95 * STEPS)]:5.2f} ms, "
                f"{max(sizes):,} bytes at most"
            )


if __name__ == "__main__":
    main()
