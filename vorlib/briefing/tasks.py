"""Tasks for a lesson in the air, with the numbers to expect in the forecast wind.

Courses are those set on the indicator, from the station's own north; headings are by the compass,
from the magnetic north of the day.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from vorlib.aircraft.flight import start
from vorlib.briefing.card import LessonCard
from vorlib.briefing.ground import ground_along
from vorlib.briefing.outbound import cross_check, outbound
from vorlib.briefing.scene import LessonScene, scene_of
from vorlib.briefing.task import Answer, Task
from vorlib.core.angles import compass_point, difference_deg, format_direction, reciprocal_deg
from vorlib.core.units import NO_BREAK, SECONDS_PER_HOUR
from vorlib.earth.geodesic import Position
from vorlib.procedures.intercept import Intercept, intercept_angle_deg, plan_intercept

__all__ = ["cut_off_deg", "lesson_tasks", "planned_intercept"]

RADIALS_TO_GO_DEG = 30.0


def lesson_tasks(card: LessonCard) -> tuple[Task, ...]:
    """Return the tasks that a practice area allows, in the order of a lesson.

    Orientation, intercept inbound, passage, outbound to a field, cross-check; those for which no
    station is received, or which the wind does not allow, say so in place of their numbers.

    Raises
    ------
    ValueError
        If no station is received in the practice area at the planned altitude.
    """
    scene = scene_of(card)
    makers: tuple[tuple[str, Callable[[LessonScene], Task | None]], ...] = (
        ("Orientation", _orientation),
        ("Intercept inbound", _intercept),
        ("Station passage", _passage),
        ("Outbound to a field", outbound),
        ("Cross-check", cross_check),
    )
    tasks = []
    for title, make in makers:
        try:
            task = make(scene)
        except ValueError as error:
            task = Task(title, f"Not to be flown as planned: {error}.", ())
        if task is not None:
            ground = ground_along(card.lesson, task.way) if task.way else ""
            tasks.append(replace(task, ground=ground))
    return tuple(tasks)


def _orientation(scene: LessonScene) -> Task:
    seen, station = scene.seen, scene.station
    where = compass_point(seen.radial_deg)
    return Task(
        "Orientation",
        f"Over the {scene.begin.name}, marked on the plan, tune {station.name}, "
        f"{station.frequency_mhz:.2f} MHz. Identify it, center the needle with FROM, and say where "
        "you are. Then center with TO and go direct.",
        (
            Answer("ident", f"{station.ident}  {scene.notes.signs}"),
            Answer("radial", format_direction(seen.radial_deg)),
            Answer("you are", f"{where} of {station.name}"),
            Answer("distance", scene.distance(seen)),
            Answer("course, TO", format_direction(seen.to_deg)),
            Answer("heading", scene.heading(seen.to_deg)),
            Answer("time to station", scene.minutes(seen.distance_nm, seen.to_deg)),
        ),
        (scene.begin.position, station.position),
    )


def planned_intercept(scene: LessonScene) -> Intercept:
    """Return the intercept of a radial 30 degrees away: clockwise, or else the other way.

    Raises
    ------
    ValueError
        If the wind allows neither.
    """
    lesson = scene.card.lesson
    state = start(scene.begin.position, 360.0)
    refusal = ValueError()
    for side in (1.0, -1.0):
        target = 10.0 * round((scene.seen.radial_deg + side * RADIALS_TO_GO_DEG) / 10.0)
        course = float(reciprocal_deg(target))
        scene.holding(course)  # refuses in a pilot's words a wind too strong
        to_go = round(float(difference_deg(target, scene.seen.radial_deg)))  # as a pilot counts
        try:
            return plan_intercept(
                scene.station,
                state,
                lesson.aircraft,
                course,
                inbound=True,
                angle_deg=float(intercept_angle_deg(to_go)),
                wind=lesson.wind,
            )
        except ValueError as error:
            refusal = error
    raise refusal


def _intercept(scene: LessonScene) -> Task:
    plan = planned_intercept(scene)
    heading = scene.compass_steps(plan.course_deg, cut_off_deg(plan), "angle")
    radial = format_direction(plan.course_deg + 180.0)
    return Task(
        "Intercept inbound",
        f"From there intercept the {radial} radial of {plan.station_name} inbound.",
        (
            Answer("course to select, flag", f"{format_direction(plan.course_deg)}, TO"),
            Answer("radials to go", f"{abs(plan.radials_to_go_deg):.0f}"),
            Answer("course lies to the", plan.side),
            Answer("angle, heading", f"{plan.angle_deg:.0f}, {heading}"),
            Answer("met after", f"{plan.minutes:.1f} min, {plan.distance_nm:.1f} NM from it"),
            Answer(
                "lead the turn by",
                f"{plan.lead_deg:.1f} degrees, {plan.lead_nm:.2f} NM, {plan.lead_s:.0f}{NO_BREAK}s",
            ),
            Answer("heading that holds", scene.heading(plan.course_deg)),
        ),
        (scene.begin.position, _met(scene, plan)),
    )


def cut_off_deg(plan: Intercept) -> float:
    """Return how far off the course the heading that intercepts it is, positive to the right."""
    return plan.angle_deg if plan.side == "right" else -plan.angle_deg


def _met(scene: LessonScene, plan: Intercept) -> Position:
    """Where the course is met."""
    return scene.station.position_on(plan.course_deg + 180.0, plan.distance_nm)


def _passage(scene: LessonScene) -> Task:
    plan, notes = planned_intercept(scene), scene.notes
    groundspeed_kt = float(scene.holding(plan.course_deg).groundspeed_kt)
    across_s = notes.cone_nm / groundspeed_kt * SECONDS_PER_HOUR
    return Task(
        "Station passage",
        f"Hold that course to {plan.station_name} and over it. Say when you have passed.",
        (
            Answer("time from the intercept", scene.minutes(plan.distance_nm, plan.course_deg)),
            Answer("flag", "TO, OFF in the cone, FROM"),
            Answer(
                f"cone, {scene.in_wind}",
                f"{notes.cone_nm:.1f} NM wide, {across_s:.0f} s across",
            ),
            Answer(
                "in the cone",
                f"hold {scene.by_compass(plan.hold_heading_deg)}, do not chase the needle",
            ),
            Answer("passed when", "the flag reads FROM"),
        ),
        (_met(scene, plan), scene.station.position),
    )
