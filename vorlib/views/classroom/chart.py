"""Progress of a class over time: how many answers were right at the first try."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from vorlib.practice.classroom.progress import (
    ProgressPeriod,
    Span,
    class_progress,
    learner_progress,
)
from vorlib.practice.classroom.results import ClassResults, Learner
from vorlib.views.classroom.words import progress_words
from vorlib.views.drawing.chart import POINTS_PER_UNIT, Chart, single_axes
from vorlib.views.drawing.theme import SCREEN, Theme

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["class_chart"]

MOST_LABELS = 10  # along the time axis
FEW = 5  # answers; a learner's share of fewer is not drawn among the class


def class_chart(
    results: ClassResults,
    by: Span = "week",
    learner: Learner | None = None,
    theme: Theme = SCREEN,
) -> Chart:
    """Return the chart: the class as a line, each learner as a dot, one of them as a dashed line.

    Only days or weeks in which somebody practiced are on the time axis, all equally wide. At each
    point of the class stands how many answers were right, of how many.
    """
    days = "week begun on" if by == "week" else "day"
    figure, axes = single_axes(days, "right at first try, %", theme)
    # larger type needs a larger sheet: there are as many figures on it
    width, height = figure.get_size_inches() * theme.text_size / SCREEN.text_size
    figure.set_size_inches(width, height)
    periods = class_progress(results, by)
    place = {one.begin: number for number, one in enumerate(periods)}
    for one in results.learners:
        enough = [s for s in learner_progress(one, by) if s.score.answered >= FEW]
        axes.plot([place[s.begin] for s in enough], _percent(enough), **_dots(theme))
    line: dict[str, Any] = {"color": theme.course, "linewidth": theme.thick}
    axes.plot(range(len(periods)), _percent(periods), "s-", label="the class", **line)
    if learner:
        own = learner_progress(learner, by)
        look: dict[str, Any] = {"color": theme.aircraft, "linewidth": 1.4 * theme.line}
        look |= {
            "markerfacecolor": theme.paper,
            "markersize": 5.0 * theme.line,
            "label": learner.name,
        }
        axes.plot([place[s.begin] for s in own], _percent(own), "o--", **look)
    _counts(axes, periods, theme)
    _scales(axes, periods, theme)
    axes.plot([], [], label="each learner", **_dots(theme))
    axes.legend(
        loc="lower left", bbox_to_anchor=(0, 1.01), ncols=3, frameon=False, borderpad=0,
        handlelength=3, labelcolor=theme.text, fontsize=POINTS_PER_UNIT * theme.text_size,
    )  # fmt: skip
    return Chart(figure, progress_words(results, by, learner))


def _percent(periods: Sequence[ProgressPeriod]) -> list[float]:
    return [100.0 * one.score.share for one in periods]


def _dots(theme: Theme) -> dict[str, Any]:
    return {
        "color": theme.muted, "marker": "o", "linestyle": "", "markersize": 2.7 * theme.line,
        "markerfacecolor": "none", "markeredgewidth": theme.thin,
    }  # fmt: skip


def _counts(axes: Axes, periods: Sequence[ProgressPeriod], theme: Theme) -> None:
    """Write at the foot of the chart how many answers are behind each point of the class."""
    for number in _labeled(len(periods)):
        axes.annotate(
            f"{periods[number].score.right:,}\nof {periods[number].score.answered:,}",
            (number, 0.0),
            xytext=(0, 4),
            textcoords="offset points",
            ha="center",
            va="bottom",
            color=theme.text,
            fontsize=POINTS_PER_UNIT * theme.small_size,
        )


def _scales(axes: Axes, periods: Sequence[ProgressPeriod], theme: Theme) -> None:
    shown = _labeled(len(periods))
    axes.set_xticks(shown, [periods[number].begin.isoformat() for number in shown])
    axes.set_xlim(-0.5, max(len(periods), 1) - 0.5)
    axes.set_ylim(0.0, 105.0)
    axes.set_yticks(range(0, 101, 20))
    if len(shown) > MOST_LABELS // 2:
        axes.tick_params(axis="x", rotation=30)


def _labeled(count: int) -> list[int]:
    """Return which of so many places on the time axis have a label."""
    step = -(-count // MOST_LABELS) or 1
    return list(range(0, count, step))
