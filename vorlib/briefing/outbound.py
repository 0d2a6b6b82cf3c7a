"""The tasks that lead away from the station: outbound to a field, and a cross-check on the way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from vorlib.briefing.card import USEFUL_CUT_DEG, CardPlace, Seen, place_notes
from vorlib.briefing.scene import NEAREST_START_NM, LessonScene
from vorlib.briefing.task import Answer, Task
from vorlib.core.angles import format_direction, spoken_side
from vorlib.core.words import spoken_degrees
from vorlib.procedures.fixing import cut_angle_deg

__all__ = ["Halfway", "cross_check", "halfway", "outbound", "outbound_fields"]

SHORT_LEG_NM = 10.0  # a shorter leg to a field leaves no time for a cross-check


@dataclass(frozen=True)
class Halfway:
    """The point halfway to a field, and the station whose radial cuts the way best there."""

    field: CardPlace
    seen: Seen
    place: CardPlace
    other: Seen | None
    cut_deg: float

    @property
    def is_useful(self) -> bool:
        """Whether the second station makes a cross-check worth teaching."""
        return self.other is not None and self.cut_deg >= USEFUL_CUT_DEG


def outbound(scene: LessonScene) -> Task | None:
    """Return the task to go outbound to a field; None where there is no field to go to."""
    for field, seen in outbound_fields(scene):
        hold = scene.holding(seen.from_deg)
        wind_deg = round(float(hold.correction_deg))
        side = spoken_side(wind_deg)
        size = spoken_degrees(wind_deg)
        return Task(
            "Outbound to a field",
            f"From {scene.station.name} go outbound to {field.name}.",
            (
                Answer("course to select, flag", f"{format_direction(seen.from_deg)}, FROM"),
                Answer("wind correction", f"{size} {side}" if wind_deg else "none"),
                Answer("heading", scene.heading(seen.from_deg)),
                Answer("distance", scene.distance(seen)),
                Answer("time", scene.minutes(seen.distance_nm, seen.from_deg)),
            ),
            (scene.station.position, field.position),
        )
    return None


def cross_check(scene: LessonScene) -> Task | None:
    """Return the task to fix the position on the way to the field; None where there is no field.

    Where no second station cuts the way at 30 degrees or more, that is said, with what to do
    instead: radial and DME, or another field.
    """
    ways = [halfway(scene, field, seen) for field, seen in outbound_fields(scene)]
    if not ways:
        return None
    first = ways[0]
    if first.is_useful and first.other:
        return _by_radials(scene, first, first.other)
    return _without_cut(scene, first, next((way for way in ways if way.is_useful), None))


def outbound_fields(scene: LessonScene) -> Iterator[tuple[CardPlace, Seen]]:
    """Yield the fields over which the station is received, the nearest not too near first."""
    choices = [
        (place, one)
        for place in scene.card.fields
        for one in place.received
        if one.station is scene.station and one.distance_nm >= NEAREST_START_NM
    ]
    choices.sort(key=lambda choice: choice[1].distance_nm)
    long = [choice for choice in choices if choice[1].distance_nm >= SHORT_LEG_NM]
    yield from long or choices


def halfway(scene: LessonScene, field: CardPlace, seen: Seen) -> Halfway:
    """Return the point halfway to a field, and what cuts the way best there."""
    middle = scene.station.position_on(seen.from_deg, seen.distance_nm / 2.0)
    place = place_notes("halfway point", middle, scene.card.lesson)
    along = float(scene.station.inverse(middle).true_azimuth_end_deg)
    cuts = [
        (float(cut_angle_deg(along, one.station.inverse(middle).true_azimuth_end_deg)), one)
        for one in place.received
        if one.station is not scene.station
    ]
    cut_deg, other = max(cuts, key=lambda cut: cut[0], default=(0.0, None))
    return Halfway(field, seen, place, other, cut_deg)


def _by_radials(scene: LessonScene, way: Halfway, other: Seen) -> Task:
    at_field = next(one for one in way.field.seen if one.station is other.station)
    arrival = format_direction(at_field.radial_deg) if at_field.received else at_field.caveat
    return Task(
        "Cross-check",
        f"On the way to {way.field.name} fix yourself halfway by a second station, "
        f"{other.station.name}, {other.station.frequency_mhz:.2f} MHz.",
        (
            Answer(f"halfway from {scene.station.name}", f"{way.seen.distance_nm / 2.0:.1f} NM"),
            Answer(f"radial of {other.station.name}", format_direction(other.radial_deg)),
            Answer("cut of the radials", f"{spoken_degrees(way.cut_deg)}"),
            Answer("distance from it", f"{other.distance_nm:.1f} NM"),
            Answer("its radial over the field", arrival),
        ),
        (scene.station.position, way.field.position),
    )


def _without_cut(scene: LessonScene, way: Halfway, better: Halfway | None) -> Task:
    if way.other is None:
        why = f"Halfway to {way.field.name} no second station is reliable."
    else:
        why = (
            f"On the way to {way.field.name} no second station cuts at {USEFUL_CUT_DEG:.0f} "
            f"degrees or more; the best, {way.other.station.name}, cuts at {way.cut_deg:.0f}: no "
            "fix worth having."
        )
    if better and better.other:
        why += (
            f" On the way to {better.field.name} {better.other.station.name} does, at "
            f"{spoken_degrees(better.cut_deg)}: go there instead."
        )
    own = next(one for one in way.place.seen if one.station is scene.station)
    if not (own.has_dme and own.received):
        words = (
            "" if better else " Choose a field or an area with a station to one side of the way."
        )
        return Task("Cross-check", why + words, ())
    return Task(
        "Cross-check",
        f"{why} Fix yourself halfway by radial and DME of {own.station.name}.",
        (
            Answer(f"radial of {own.station.name}", format_direction(own.radial_deg)),
            Answer("DME", f"{own.dme_nm:.1f}"),
            Answer("over the ground", f"{own.distance_nm:.1f} NM"),
        ),
        (scene.station.position, way.field.position),
    )
