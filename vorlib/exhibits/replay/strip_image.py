"""The strip chart of replayed flights, as an image for a notebook."""

from __future__ import annotations

import base64
import io
from collections.abc import Sequence
from html import escape

from vorlib.core.words import spoken_time
from vorlib.exhibits.replay.replay import Replay
from vorlib.views.drawing.theme import PROJECTOR, Theme
from vorlib.views.flight.strip_chart import Strip, strip_chart

__all__ = ["strip_image"]


def strip_image(flights: Sequence[tuple[str, Replay]], theme: Theme) -> str:
    """Return a strip chart as an HTML image that carries its words."""
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
    file = io.BytesIO()
    strip_chart(strips, theme).savefig(file, format="svg")
    names = " and ".join(strip.name for strip in strips)
    end = spoken_time(max(float(strip.time_s[-1]) for strip in strips))
    words = f"Strip chart of {names}, to {end}: needle, heading, course and distance by time."
    data = base64.b64encode(file.getvalue()).decode()
    width = "100%" if theme is PROJECTOR else "820px"
    return (
        f'<img alt="{escape(words)}" style="width:{width};max-width:100%" '
        f'src="data:image/svg+xml;base64,{data}">'
    )
