"""How wrong the wing-tip rule is, as a curve over the bearing change, in several winds."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import Wind
from vorlib.core.arguments import FloatArray, positive
from vorlib.procedures.timed_runs import timed_run
from vorlib.views.drawing.chart import POINTS_PER_UNIT, Chart, single_axes
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.vor.station import Station

__all__ = ["RuleError", "timing_error"]

ANGLES_DEG = np.array([2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 21, 25, 30, 35, 40, 45], dtype=float)
QUOTED_DEG = 10.0
# Seen from an aircraft that runs north with the station to its left: west.
WINDS = {
    "no wind": None,
    "headwind on the run": 360.0,
    "tailwind on the run": 180.0,
    "wind from the station": 270.0,
    "wind toward the station": 90.0,
}


@dataclass(frozen=True)
class RuleError:
    """The wing-tip rule tried over many bearing changes and in five winds.

    Attributes
    ----------
    station
        The station.
    distance_nm
        Distance to it at the start of each run, more than 0.
    airspeed_kt, wind_kt
        True airspeed, and speed of the wind where there is one.
    """

    station: Station
    distance_nm: float = 12.0
    airspeed_kt: float = 110.0
    wind_kt: float = 20.0

    def __post_init__(self) -> None:
        positive("wind_kt", self.wind_kt, "kt")

    def percent(self, wind_from_deg: float | None, angle_deg: float) -> float:
        """Return how much too long the rule's time is, in percent."""
        wind = Wind(wind_from_deg or 0.0, self.wind_kt if wind_from_deg is not None else 0.0)
        aircraft = Aircraft(self.airspeed_kt)
        run = timed_run(self.station, self.distance_nm, angle_deg, aircraft, wind)
        return run.error_percent

    @cached_property
    def curves(self) -> dict[str, FloatArray]:
        """The error in percent at `ANGLES_DEG`, by the name of the wind."""
        return {
            name: np.array([self.percent(wind_from, angle) for angle in ANGLES_DEG.tolist()])
            for name, wind_from in WINDS.items()
        }

    @property
    def sentence(self) -> str:
        """The errors at one angle, in plain words."""
        at = int(np.argmin(np.abs(ANGLES_DEG - QUOTED_DEG)))
        told = "; ".join(f"{name} {errors[at]:+.0f}" for name, errors in self.curves.items())
        return (
            f"Error of the rule's time at {ANGLES_DEG[at]:g} degrees in percent, wind "
            f"{self.wind_kt:g} knots, airspeed {self.airspeed_kt:g}: {told}."
        )


def timing_error(error: RuleError, theme: Theme = SCREEN) -> Chart:
    """Return the chart of the rule's error: a line for each wind, told apart by dash and name."""
    figure, axes = single_axes("bearing change, degrees", "time too long by, percent", theme)
    colors = (theme.text, theme.course, theme.course, theme.aircraft, theme.aircraft)
    dashes = ("-", (0, (6, 2)), (0, (1.5, 1.5)), (0, (6, 2)), (0, (1.5, 1.5)))
    size = POINTS_PER_UNIT * theme.small_size
    for (name, percent), color, dash in zip(error.curves.items(), colors, dashes, strict=True):
        axes.plot(ANGLES_DEG, percent, color=color, linestyle=dash, linewidth=1.2 * theme.line)
        axes.annotate(
            name,
            (float(ANGLES_DEG[-1]), float(percent[-1])),
            xytext=(4, 0),
            textcoords="offset points",
            va="center",
            color=color,
            fontsize=size,
        )
    axes.axhline(0.0, color=theme.rose, linewidth=theme.line)
    axes.set_xlim(0.0, 1.42 * float(ANGLES_DEG[-1]))  # room for the names
    axes.set_xticks(range(0, 50, 10))
    return Chart(figure, error.sentence)
