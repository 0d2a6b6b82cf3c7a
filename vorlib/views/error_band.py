"""The chart of an error budget: how far to either side of a radial its errors reach."""

from __future__ import annotations

from typing import Any

import numpy as np

from vorlib.core.arguments import positive
from vorlib.receiver_check.error_budget import ErrorBudget, half_width_nm
from vorlib.views.drawing.chart import POINTS_PER_UNIT, Chart, single_axes
from vorlib.views.drawing.theme import SCREEN, Theme

__all__ = ["error_band"]

# How far out the names stand, as a part of the whole: above the one line, inside the other's band.
WORST_LABEL_AT, BAND_LABEL_AT = 0.6, 0.98


def error_band(budget: ErrorBudget, farthest_nm: float = 60.0, theme: Theme = SCREEN) -> Chart:
    """Return the chart of half-width against distance, worst case and root-sum-square.

    The two are told apart by dash and by a name at the line.

    Parameters
    ----------
    budget
        A budget of single numbers.
    farthest_nm
        Where the chart ends, more than 0.

    Raises
    ------
    ValueError
        If the distance is out of range.
    """
    positive("farthest_nm", farthest_nm, "NM")
    worst_deg, together_deg = float(budget.worst_case_deg), float(budget.root_sum_square_deg)
    distance = np.linspace(0.0, farthest_nm, 61)
    worst, together = half_width_nm(worst_deg, distance), half_width_nm(together_deg, distance)
    figure, axes = single_axes("distance from the station, NM", "off the radial, NM", theme)
    for half in (together, -together):
        axes.plot(distance, half, color=theme.course, linewidth=theme.thick)
    for half in (worst, -worst):
        axes.plot(distance, half, "--", color=theme.warning, linewidth=1.2 * theme.line)
    axes.fill_between(distance, -together, together, color=theme.course, alpha=0.12, linewidth=0)
    axes.axhline(0.0, color=theme.text, linewidth=theme.thin)
    axes.set_xlim(0.0, farthest_nm)
    axes.set_ylim(-1.08 * worst[-1], 1.08 * worst[-1])
    axes.yaxis.set_major_formatter(lambda value, _: f"{abs(value):g}")
    look: dict[str, Any] = {"fontsize": POINTS_PER_UNIT * theme.text_size, "weight": "bold"}
    at = WORST_LABEL_AT * farthest_nm, WORST_LABEL_AT * worst[-1] + 0.12 * worst[-1]
    axes.text(*at, f"worst case, {worst_deg:.1f}°", color=theme.warning, ha="right", **look)
    at = BAND_LABEL_AT * farthest_nm, -0.3 * BAND_LABEL_AT * together[-1]
    name = f"root-sum-square, {together_deg:.1f}°"
    axes.text(*at, name, color=theme.course, ha="right", va="center", **look)
    return Chart(figure, _sentence(farthest_nm, together_deg, worst_deg))


def _sentence(farthest_nm: float, together_deg: float, worst_deg: float) -> str:
    together, worst = (half_width_nm(error, farthest_nm) for error in (together_deg, worst_deg))
    return (
        f"At {farthest_nm:g} NM the errors reach {together:.1f} NM to either side of the radial by "
        f"root-sum-square ({together_deg:.1f} degrees), and {worst:.1f} NM in the worst case "
        f"({worst_deg:.1f} degrees). Half as far out it is half as much."
    )
