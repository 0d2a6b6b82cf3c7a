"""The strip chart of replayed flights, as HTML for a notebook."""

from __future__ import annotations

from collections.abc import Sequence

from vorlib.core.words import spoken_time
from vorlib.exhibits.replay.replay import Replay
from vorlib.views.drawing.chart import inline_chart
from vorlib.views.drawing.theme import Theme
from vorlib.views.flight.strip_chart import Strip, strip_chart

__all__ = ["strip_html"]


def strip_html(flights: Sequence[tuple[str, Replay]], theme: Theme) -> str:
    """Return a strip chart that carries its words."""
    strips = [
        Strip(
            name,
            replay.flown.flight.time_s,
            replay.flown.reading,
            replay.heading_deg,
            replay.flown.course_deg,
        )
        for name, replay in flights
    ]
    names = " and ".join(strip.name for strip in strips)
    end = spoken_time(max(float(strip.time_s[-1]) for strip in strips))
    words = f"Strip chart of {names}, to {end}: needle, heading, course and distance by time."
    return inline_chart(strip_chart(strips, theme), words)
