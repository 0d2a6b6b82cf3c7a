"""Compare the planned altitude with the ground: stations and fields used, and elevation data.

The card knows no terrain, obstacles or airspace but what it is given. For training on the ground,
not for navigation.
"""

from __future__ import annotations

from collections.abc import Sequence

from vorlib.briefing.elevation import CORRIDOR_NM
from vorlib.briefing.lesson import Lesson
from vorlib.earth.geodesic import Position

__all__ = ["altitude_warnings", "ground_along", "highest_words"]

# Over the highest obstacle, elsewhere and in mountains: 14 CFR 91.177 on the least altitudes under
# IFR (from memory). Information here, for a lesson under VFR.
ABOVE_FT, ABOVE_MOUNTAINS_FT = 1000.0, 2000.0
UNKNOWN = 0.01  # share of a leg without data that is worth mentioning


def highest_words(lesson: Lesson) -> str:
    """Return the highest station or field used, and the altitudes 1,000 and 2,000 ft above it."""
    name, highest_ft = max(_known(lesson), key=lambda one: one[1])
    return (
        f"The highest station or field used is {name}, {highest_ft:,.0f} ft: 1,000 ft above it is "
        f"{highest_ft + ABOVE_FT:,.0f} ft, and 2,000 ft, as over mountains, "
        f"{highest_ft + ABOVE_MOUNTAINS_FT:,.0f} ft."
    )


def altitude_warnings(lesson: Lesson) -> tuple[str, ...]:
    """Return which stations and fields the planned altitude is below, or hardly above."""
    warnings = []
    for name, height_ft in sorted(_known(lesson), key=lambda one: -one[1]):
        above_ft = lesson.altitude_ft - height_ft
        if above_ft <= 0.0:
            warnings.append(
                f"The planned {lesson.altitude_ft:,.0f} ft is NOT above {name}, "
                f"{height_ft:,.0f} ft."
            )
        elif above_ft < ABOVE_FT:
            warnings.append(f"The planned altitude is only {above_ft:,.0f} ft above {name}.")
    return tuple(warnings)


def _known(lesson: Lesson) -> list[tuple[str, float]]:
    """Return the stations and fields used, with their elevations in feet."""
    stations = [one.station for one in lesson.stations]
    return [
        *((f"the antenna of {s.name}", float(s.position.altitude_ft)) for s in stations),
        *((f"the field {f.name}", float(f.position.altitude_ft)) for f in lesson.fields),
    ]


def ground_along(lesson: Lesson, way: Sequence[Position]) -> str:
    """Return the highest ground along a way and the clearance over it; empty without data."""
    if lesson.elevation is None:
        return ""
    found = lesson.elevation.highest(way)
    within = f"within {CORRIDOR_NM:.0f} NM of the way"
    if found is None:
        return f"The elevation data has nothing {within}."
    above_ft = lesson.altitude_ft - round(found.height_ft)
    lat_deg, lon_deg = float(found.place.lat_deg), float(found.place.lon_deg)
    words = f"Highest ground {within}: {found.height_ft:,.0f} ft, at {lat_deg:.3f}, {lon_deg:.3f}; "
    if above_ft <= 0.0:
        words += f"the planned {lesson.altitude_ft:,.0f} ft is NOT above it."
    else:
        words += f"the planned altitude clears it by {above_ft:,.0f} ft"
        words += ", less than 1,000 ft." if above_ft < ABOVE_FT else "."
    if found.unknown >= UNKNOWN:
        words += f" No data for {100.0 * found.unknown:.0f} percent of it."
    return words
