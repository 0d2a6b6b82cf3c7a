"""A lesson in a sentence, and the code that its sheets share."""

from __future__ import annotations

import hashlib

from vorlib.briefing.lesson import Lesson
from vorlib.core.angles import format_direction
from vorlib.earth.geodesic import Position

__all__ = ["lesson_code", "lesson_facts"]


def lesson_facts(lesson: Lesson) -> str:
    """Return where the lesson is flown, how high, how fast and in what wind."""
    wind = lesson.wind
    blowing = (
        "calm"
        if wind.speed_kt == 0.0
        else (f"wind from {format_direction(float(wind.from_deg))} true at {wind.speed_kt:.0f} kt")
    )
    return (
        f"Practice area within {lesson.radius_nm:g} NM of {_degrees(lesson.center)}; "
        f"{lesson.altitude_ft:,.0f} ft, "
        f"{lesson.aircraft.true_airspeed_kt:g} kt true airspeed, {blowing}. "
        "Courses are those set on the indicator; headings are by the compass."
    )


def lesson_code(lesson: Lesson) -> str:
    """Return the short code of a lesson, the same on its card and its handout."""
    fields = (f"{field.name} {_degrees(field.position)}" for field in lesson.fields)
    stations = (listed.words for listed in lesson.stations)
    facts = (lesson_facts(lesson), *stations, *fields, *lesson.sources, str(lesson.on))
    return hashlib.sha256("\n".join(facts).encode()).hexdigest()[:6].upper()


def _degrees(place: Position) -> str:
    return f"{float(place.lat_deg):.4f}, {float(place.lon_deg):.4f}"
