"""Explain the card of the whole flight: the parts of the difference of heading and course."""

from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.flown_by_hand.whole_flight import flight_plan

__all__ = ["two_norths_table"]


@offered
def two_norths_table() -> str:
    """Return, for each leg, the corrections from course to heading for the norths and the wind."""
    plan, rows = flight_plan(), []
    for leg in plan.legs:
        heading, course = float(plan.expected(leg).heading_deg), leg.course_deg
        norths = leg.station.declination_deg - plan.variation_deg
        wind = f"north {norths:+.0f}, wind {heading - course - norths:+.0f}"
        rows.append(f"{leg.name:22} course {course:03.0f}, {wind}: heading {heading:03.0f}")
    return "\n".join(rows)
