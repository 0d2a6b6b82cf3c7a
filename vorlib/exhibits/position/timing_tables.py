"""Tables and a chart of how accurate the rules for the time to the station are."""

from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.position.timing import TimingState
from vorlib.procedures.timing import distance_to_station_nm, time_to_station_min
from vorlib.stations.archipelago import STATIONS
from vorlib.views.drawing.chart import Chart
from vorlib.views.timing_error import RuleError, timing_error

__all__ = ["bearing_change_table", "isosceles_table", "rule_error_chart", "wing_tip_table"]


@offered
def wing_tip_table() -> str:
    """Return minutes and miles to go by the wing-tip rule."""
    rows = ["seconds   degrees   minutes to go   NM at 120 kt"]
    for seconds, degrees in ((75, 10), (120, 10), (90, 5), (360, 15)):
        minutes = float(time_to_station_min(seconds / 60, degrees))
        nm = float(distance_to_station_nm(120, seconds / 60, degrees))
        rows.append(f"{seconds:7} {degrees:9} {minutes:15.1f} {nm:14.1f}")
    return "\n".join(rows)


@offered
def bearing_change_table() -> str:
    """Return the error of the wing-tip rule's time from 12 NM, and that of missing one degree."""
    rows = ["change   time, from 12 NM   if one degree was missed"]
    for degrees in (2, 5, 10, 15, 20, 30, 45):
        own = TimingState(angle_deg=degrees).run.error_percent
        rows.append(f"{degrees:3} deg {round(own):+14} % {100 / degrees:19.0f} % more")
    return "\n".join(rows)


@offered
def isosceles_table() -> str:
    """Return the isosceles rule's error in four winds."""
    rows = ["relative bearing    calm   20 kt from the right   from the left   from ahead"]
    for degrees in (20, 30, 45):
        runs = [
            TimingState(rule="isosceles", angle_deg=degrees, wind_from_deg=from_deg, wind_kt=kt).run
            for from_deg, kt in ((360, 0), (90, 20), (270, 20), (360, 20))
        ]
        words = "".join(f"{round(run.error_percent):+13} %" for run in runs)
        rows.append(f"{degrees:8} deg{words}")
    return "\n".join(rows)


@offered
def rule_error_chart() -> Chart:
    """Return the chart of the wing-tip rule's error over the bearing change, in five winds."""
    return timing_error(RuleError(STATIONS["QLN"]))
