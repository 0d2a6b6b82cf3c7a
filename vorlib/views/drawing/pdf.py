"""The paper ink: a picture as a matplotlib figure, which saves as PDF."""

from __future__ import annotations

import math
from typing import Any

from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Circle as CirclePatch
from matplotlib.patches import Polygon as PolygonPatch
from matplotlib.patheffects import withStroke
from matplotlib.transforms import Affine2D, Transform

from vorlib.views.drawing.layout import CAP_MIDDLE
from vorlib.views.drawing.picture import (
    Circle,
    Group,
    Item,
    Line,
    Picture,
    Polygon,
    Polyline,
    Segments,
    Text,
)

__all__ = ["to_figure"]

POINTS_PER_INCH = 72.0  # the printer's point of PDF and matplotlib


def to_figure(picture: Picture, width_in: float) -> Figure:
    """Return the picture as a figure `width_in` inches wide; what can be grabbed is only drawn.

    Raises
    ------
    ValueError
        If `width_in` is not a positive finite number.
    """
    if not (math.isfinite(width_in) and width_in > 0):
        raise ValueError(f"width_in must be a positive number of inches, got {width_in}")
    figure = Figure(
        figsize=(width_in, width_in * picture.height / picture.width),
        facecolor=picture.background,
    )
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set(xlim=(0.0, picture.width), ylim=(picture.height, 0.0))
    axes.set_axis_off()
    ink = _Ink(axes, POINTS_PER_INCH * width_in / picture.width)
    for item in picture.items:
        ink.draw(item, Affine2D(), 0.0)
    return figure


class _Ink:
    """Draws items on axes; later items lie on top of earlier ones."""

    def __init__(self, axes: Axes, points_per_unit: float) -> None:
        self.axes = axes
        self.points_per_unit = points_per_unit
        self.order = 0

    def draw(self, item: Item, place: Transform, turn_deg: float) -> None:
        """Draw one item where `place` puts its coordinates; `turn_deg` is the turn it holds."""
        self.order += 1
        match item:
            case Group():
                inner = Affine2D().rotate_deg(item.rotate_deg).translate(item.x, item.y) + place
                for part in item.items:
                    self.draw(part, inner, turn_deg + item.rotate_deg)
            case Line(x1, y1, x2, y2):
                self._segments([((x1, y1), (x2, y2))], item, place)
            case Segments(segments):
                self._segments([(s[:2], s[2:]) for s in segments], item, place)
            case Polyline():
                x, y = zip(*item.points, strict=True)
                self.axes.add_line(
                    Line2D(
                        x,
                        y,
                        color=item.stroke,
                        linewidth=item.width * self.points_per_unit,
                        linestyle=self._dashes(item),
                        dash_capstyle="round",
                        solid_capstyle="round",
                        solid_joinstyle="round",
                        **self._common(place),
                    )
                )
            case Polygon():
                self._shape(lambda **look: PolygonPatch(item.points, **look), item, place)
            case Circle():
                self._shape(
                    lambda **look: CirclePatch((item.x, item.y), item.radius, **look), item, place
                )
            case Text():
                self._text(item, place, turn_deg)

    def _common(self, place: Transform) -> dict[str, Any]:
        return {"transform": place + self.axes.transData, "zorder": self.order}

    def _dashes(self, item: Line | Segments | Polyline | Polygon | Circle) -> Any:
        # matplotlib counts dashes in line widths where a picture counts them in units
        return (0.0, [d / item.width for d in item.dash]) if item.dash else "solid"

    def _segments(self, lines: list[Any], item: Line | Segments, place: Transform) -> None:
        self.axes.add_collection(
            LineCollection(
                lines,
                colors=item.stroke,
                linewidths=item.width * self.points_per_unit,
                linestyles=[self._dashes(item)],
                capstyle="round",
                **self._common(place),
            ),
            autolim=False,
        )

    def _shape(self, shape: Any, item: Polygon | Circle, place: Transform) -> None:
        fill = (item.fill, item.opacity) if item.fill else "none"
        self.axes.add_patch(
            shape(
                facecolor=fill,
                edgecolor=item.stroke or "none",
                linewidth=item.width * self.points_per_unit if item.stroke else 0.0,
                linestyle=self._dashes(item),
                capstyle="round",
                joinstyle="round",
                **self._common(place),
            )
        )

    def _text(self, item: Text, place: Transform, turn_deg: float) -> None:
        drop = CAP_MIDDLE * item.size
        own_turn = math.radians(item.rotate_deg)
        foot = (item.x - drop * math.sin(own_turn), item.y + drop * math.cos(own_turn))
        x, y = place.transform(foot)
        size = item.size * self.points_per_unit
        text = self.axes.text(
            x,
            y,
            item.text,
            fontsize=size,
            color=item.fill,
            fontweight="bold" if item.bold else "normal",
            fontfamily="DejaVu Sans",
            horizontalalignment={"start": "left", "middle": "center", "end": "right"}[item.anchor],
            verticalalignment="baseline",
            rotation=-(turn_deg + item.rotate_deg),
            rotation_mode="anchor",
            parse_math=False,
            zorder=self.order,
        )
        if item.halo:
            text.set_path_effects([withStroke(linewidth=size / 4, foreground=item.halo)])
