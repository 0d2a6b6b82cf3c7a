"""A chart in a notebook: a matplotlib figure as SVG, with the sentence that stands for it.

Matplotlib takes half as long to load as all the rest of a lesson: the first chart does it.
"""

from __future__ import annotations

import io
import re
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.sentence import in_words

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

__all__ = ["POINTS_PER_UNIT", "WIDE_IN", "Chart", "empty_figure", "inline_chart", "single_axes"]

WIDTH_IN, HEIGHT_IN = 7.2, 4.0
WIDE_IN = 8.6  # of a chart with more than one part
POINTS_PER_UNIT = 0.75  # type in points for one picture unit, at this size of figure

# What would reach other parts of a page: a style for all that is drawn on it, and names to which
# nothing refers, such as line2d_1. And what is not shown, more than half of what a page would keep.
REACHES_OUT = re.compile(r'<metadata>.*?</metadata>|<style.*?</style>| id="[\w.]+_\d+"', re.DOTALL)
NOT_SHOWN = re.compile(r"<!--.*?-->|(?<=>)\s+(?=<|\Z)", re.DOTALL)


@dataclass(frozen=True, eq=False)
class Chart:
    """A figure and what it says in plain words, for a reader who cannot see it.

    Jupyter shows a plain figure only once pyplot is loaded; this shows itself.
    """

    figure: Figure
    sentence: str

    def say(self) -> None:
        """Print the sentence, in lines short enough to read."""
        print(in_words(self.sentence))

    @property
    def svg(self) -> str:
        """The chart as SVG: the same text each time, and its letters as letters."""
        said = f"><desc>{escape(self.sentence)}</desc>"  # for a reader who cannot see it
        return _svg(self.figure).replace(">", said, 1)

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"text/plain": self.sentence, "image/svg+xml": self.svg}


def inline_chart(figure: Figure, sentence: str) -> str:
    """Return a figure as HTML that draws it in the page, for one that changes again and again.

    Browsers keep some memory of every image that was ever shown, so this is none.
    """
    drawn = NOT_SHOWN.sub("", REACHES_OUT.sub("", _svg(figure)))
    drawn = drawn.replace(">", ' stroke-linejoin="round">', 1)
    return f'<div class="vorlib-drawn" role="img" aria-label="{escape(sentence)}">{drawn}</div>'


def _svg(figure: Figure) -> str:
    import matplotlib as mpl

    page = io.StringIO()
    with mpl.rc_context({"svg.fonttype": "none", "svg.hashsalt": "vorlib"}):
        figure.savefig(page, format="svg", metadata={"Date": None})
    text = page.getvalue()
    return text[text.index("<svg") :]


def empty_figure(width_in: float, height_in: float, theme: Theme = SCREEN) -> Figure:
    """Return a figure of a size on the paper of a theme."""
    from matplotlib.figure import Figure

    return Figure(figsize=(width_in, height_in), facecolor=theme.paper, layout="constrained")


def single_axes(x_name: str, y_name: str, theme: Theme = SCREEN) -> tuple[Figure, Axes]:
    """Return a figure with one pair of axes in the colors and type of a theme."""
    figure = empty_figure(WIDTH_IN, HEIGHT_IN, theme)
    axes = figure.subplots()
    size = POINTS_PER_UNIT * theme.text_size
    axes.set_facecolor(theme.sea)
    axes.grid(color=theme.ring, linewidth=0.5 * theme.thin)
    axes.set_xlabel(x_name, color=theme.text, fontsize=size)
    axes.set_ylabel(y_name, color=theme.text, fontsize=size)
    axes.tick_params(colors=theme.text, labelsize=POINTS_PER_UNIT * theme.small_size)
    for edge in axes.spines.values():
        edge.set_color(theme.rose)
    return figure, axes
