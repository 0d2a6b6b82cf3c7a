"""Sampled fixes beside the ellipse that is meant to hold 95 percent of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from vorlib.core.arguments import FloatArray, positive
from vorlib.core.words import spoken_degrees
from vorlib.earth.geodesic import Position, inverse
from vorlib.procedures.error_area import (
    Ellipse,
    Samples,
    ellipse_outline,
    error_ellipse,
    sample_fixes,
    share_within,
)
from vorlib.procedures.fixing import cut_angle_deg
from vorlib.views.drawing.chart import POINTS_PER_UNIT, WIDE_IN, Chart, empty_figure
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.vor.station import Station

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["Cloud", "fix_scatter"]

HEIGHT_IN = 4.6
MOST_POINTS = 4000  # more are a blot
SHOWN = 0.99  # share of the fixes that a panel is wide enough for


@dataclass(frozen=True, eq=False)
class Cloud:
    """Fixes of one aircraft by one pair of stations, tried with normal errors.

    Attributes
    ----------
    stations
        Two stations.
    position
        Where the aircraft is.
    sigma_deg
        Standard error of a radial, more than 0.
    count, seed
        How many fixes to try, and which random numbers to take.
    """

    stations: tuple[Station, Station]
    position: Position
    sigma_deg: float = 2.0
    count: int = 20_000
    seed: int = 1

    def __post_init__(self) -> None:
        positive("sigma_deg", self.sigma_deg, "degrees")

    @cached_property
    def samples(self) -> Samples:
        """Where the fixes fell."""
        lines = [(s, float(s.radial_deg(self.position))) for s in self.stations]
        return sample_fixes(lines, self.sigma_deg, self.count, self.seed)

    @cached_property
    def ellipse(self) -> Ellipse:
        """The linearised ellipse, at one standard error."""
        return error_ellipse(self.stations, self.position, self.sigma_deg)

    @property
    def share_within(self) -> float:
        """Share of all fixes within the ellipse that should hold 95 percent."""
        return share_within(self.samples, self.position, self.ellipse)

    @property
    def cut_deg(self) -> float:
        """The angle at which the radials cut."""
        one, other = (s.inverse(self.position).true_azimuth_end_deg for s in self.stations)
        return float(cut_angle_deg(one, other))

    @property
    def east_north_nm(self) -> tuple[FloatArray, FloatArray]:
        """The fixes, east and north of the aircraft."""
        here, there = self.position, self.samples.position
        line = inverse(here.lat_deg, here.lon_deg, there.lat_deg, there.lon_deg)
        azimuth = np.radians(line.true_azimuth_deg)
        return line.distance_nm * np.sin(azimuth), line.distance_nm * np.cos(azimuth)

    @property
    def sentence(self) -> str:
        """What the trial shows, in plain words."""
        one, other = (s.name for s in self.stations)
        lost = f", and {self.samples.lost:.0%} meet nowhere" if self.samples.lost >= 0.005 else ""
        return (
            f"{one} and {other} cut at {spoken_degrees(self.cut_deg)}: of {self.count:,} fixes "
            f"{self.share_within:.1%} fall in the 95 % ellipse{lost}."
        )


def fix_scatter(clouds: Sequence[Cloud], theme: Theme = SCREEN) -> Chart:
    """Return the chart of one cloud of fixes or of two side by side, each with its own scale.

    Raises
    ------
    ValueError
        If there is none, or more than two.
    """
    if not 1 <= len(clouds) <= 2:
        raise ValueError(f"clouds must be one or two, got {len(clouds)}")
    figure = empty_figure(WIDE_IN, HEIGHT_IN, theme)
    panels = figure.subplots(1, len(clouds), squeeze=False)[0]
    for axes, cloud in zip(panels, clouds, strict=True):
        _panel(axes, cloud, theme)
    return Chart(figure, " ".join(cloud.sentence for cloud in clouds))


def _panel(axes: Axes, cloud: Cloud, theme: Theme) -> None:
    east, north = cloud.east_north_nm
    outline = ellipse_outline(cloud.ellipse)
    reach = 1.05 * max(
        float(np.max(np.abs(outline))),
        float(np.quantile(np.abs([east, north]), SHOWN)) if east.size else 0.0,
    )
    some = slice(None, MOST_POINTS)
    axes.plot(
        east[some], north[some], ".", color=theme.course, markersize=2.0, alpha=0.35,
        markeredgewidth=0, rasterized=True,
    )  # fmt: skip
    axes.plot(*outline, color=theme.text, linewidth=1.6 * theme.line, linestyle=(0, (5, 3)))
    axes.plot(0.0, 0.0, "+", color=theme.aircraft, markersize=14.0, markeredgewidth=theme.thick)
    size = POINTS_PER_UNIT * theme.small_size
    one, other = (s.name for s in cloud.stations)
    axes.set_title(
        f"{one} and {other}, cut {spoken_degrees(cloud.cut_deg)}\n"
        f"{cloud.share_within:.1%} in the 95 % ellipse",
        color=theme.text,
        fontsize=size,
    )
    axes.set(xlim=(-reach, reach), ylim=(-reach, reach), aspect="equal")
    axes.set_facecolor(theme.sea)
    axes.grid(color=theme.ring, linewidth=0.5 * theme.thin)
    axes.set_xlabel("NM east of the aircraft", color=theme.text, fontsize=size)
    axes.set_ylabel("NM north", color=theme.text, fontsize=size)
    axes.tick_params(colors=theme.text, labelsize=size)
