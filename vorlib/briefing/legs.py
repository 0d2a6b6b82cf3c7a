"""The courses of a lesson's tasks in numbers, to compare with those flown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from vorlib.briefing.card import CardPlace, LessonCard
from vorlib.briefing.outbound import Halfway, halfway, outbound_fields
from vorlib.briefing.scene import LessonScene, scene_of
from vorlib.briefing.tasks import cut_off_deg, lesson_tasks, planned_intercept
from vorlib.core.units import SECONDS_PER_HOUR
from vorlib.vor.station import Station

__all__ = ["CardLeg", "card_legs"]

DIRECT, INBOUND, PASSAGE = "Orientation", "Intercept inbound", "Station passage"
OUTBOUND, CHECK = "Outbound to a field", "Cross-check"


@dataclass(frozen=True)
class CardLeg:
    """A course of a task as it stands on the card.

    Attributes
    ----------
    title
        Number and title of the task.
    station, course_deg, inbound
        What is selected, and whether it leads to the station.
    heading_deg, groundspeed_kt
        The heading by the compass that holds it in the forecast wind, and how fast that is.
    distance_nm
        How far it leads.
    intercept_deg
        Heading by the compass to meet it; None where it is not intercepted.
    off_s, passage_title
        How long the flag reads OFF across the middle of the cone, and the number and title of the
        task to pass the station; empty where it is not passed.
    field
        Where it leads; None for the station.
    check, check_title
        The cross-check on the way, and the number and title of that task; None without one.
    """

    title: str
    station: Station
    course_deg: float
    inbound: bool
    heading_deg: float
    groundspeed_kt: float
    distance_nm: float
    intercept_deg: float | None = None
    off_s: float = 0.0
    passage_title: str = ""
    field: CardPlace | None = None
    check: Halfway | None = None
    check_title: str = ""


def card_legs(card: LessonCard) -> tuple[CardLeg, ...]:
    """Return the courses of a lesson's tasks, in their order; none where there are no tasks."""
    try:
        scene, tasks = scene_of(card), lesson_tasks(card)
    except ValueError:
        return ()
    titles = {task.title: f"{n}. {task.title}" for n, task in enumerate(tasks, 1) if task.answers}
    made = {DIRECT: _direct, INBOUND: _inbound, OUTBOUND: _outbound}
    return tuple(make(scene, titles) for title, make in made.items() if title in titles)


def _leg(
    scene: LessonScene, title: str, course_deg: float, inbound: bool, distance_nm: float
) -> CardLeg:
    hold = scene.holding(course_deg)
    return CardLeg(
        title=title,
        station=scene.station,
        course_deg=course_deg,
        inbound=inbound,
        heading_deg=scene.compass_deg(course_deg, float(hold.correction_deg)),
        groundspeed_kt=float(hold.groundspeed_kt),
        distance_nm=distance_nm,
    )


def _direct(scene: LessonScene, titles: Mapping[str, str]) -> CardLeg:
    return _leg(scene, titles[DIRECT], scene.seen.to_deg, True, scene.seen.distance_nm)


def _inbound(scene: LessonScene, titles: Mapping[str, str]) -> CardLeg:
    plan = planned_intercept(scene)
    leg = _leg(scene, titles[INBOUND], plan.course_deg, True, plan.distance_nm)
    return replace(
        leg,
        intercept_deg=scene.compass_deg(plan.course_deg, cut_off_deg(plan)),
        off_s=scene.notes.cone_nm / leg.groundspeed_kt * SECONDS_PER_HOUR,
        passage_title=titles.get(PASSAGE, ""),
    )


def _outbound(scene: LessonScene, titles: Mapping[str, str]) -> CardLeg:
    field, seen = next(outbound_fields(scene))
    way = halfway(scene, field, seen)
    return replace(
        _leg(scene, titles[OUTBOUND], seen.from_deg, False, seen.distance_nm),
        field=field,
        check=way if way.is_useful and CHECK in titles else None,
        check_title=titles.get(CHECK, ""),
    )
