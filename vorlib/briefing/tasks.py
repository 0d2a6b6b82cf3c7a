"""Tasks for a lesson in the air, with the numbers to expect in the forecast wind.

Courses are those set on the indicator, from the station's own north; headings are by the compass,
from the magnetic north of the day.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from vorlib.aircraft.flight import start
from vorlib.briefing.card import CardPlace, LessonCard, Seen, place_notes
from vorlib.briefing.scene import NEAREST_START_NM, LessonScene, scene_of
from vorlib.core.angles import compass_point, difference_deg, format_direction, reciprocal_deg
from vorlib.procedures.fixing import cut_angle_deg
from vorlib.procedures.intercept import Intercept, intercept_angle_deg, plan_intercept

SHORT_LEG_NM = 10.0  # a shorter one to a field is over before it is checked on the way
RADIALS_TO_GO_DEG = 30.0


@dataclass(frozen=True)
class Answer:
    """One thing to find, and what is expected."""

    question: str
    expected: str


@dataclass(frozen=True)
class Task:
    """A task: what is to be done, and what is to be found with what is expected."""

    title: str
    brief: str
    answers: tuple[Answer, ...]


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
        ("Outbound to a field", _outbound),
        ("Cross-check", _cross_check),
    )
    tasks = []
    for title, make in makers:
        try:
            task = make(scene)
        except ValueError as error:
            task = Task(title, f"Not to be flown as planned: {error}.", ())
        if task is not None:
            tasks.append(task)
    return tuple(tasks)


def _orientation(scene: LessonScene) -> Task:
    seen, station = scene.seen, scene.station
    hold = scene.holding(seen.to_deg)
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
            Answer("heading", scene.by_compass(float(hold.heading_deg))),
            Answer("time to station", scene.minutes(seen.distance_nm, seen.to_deg)),
        ),
    )


def _plan(scene: LessonScene) -> Intercept:
    """The intercept of a radial 30 degrees away: clockwise, or else the other way."""
    lesson = scene.card.lesson
    state = start(scene.begin.position, 360.0)
    refusal = ValueError()
    for side in (1.0, -1.0):
        target = 10.0 * round((scene.seen.radial_deg + side * RADIALS_TO_GO_DEG) / 10.0)
        course = float(reciprocal_deg(target))
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
    plan = _plan(scene)
    radial = format_direction(plan.course_deg + 180.0)
    return Task(
        "Intercept inbound",
        f"From there intercept the {radial} radial of {plan.station_name} inbound.",
        (
            Answer("course to select, flag", f"{format_direction(plan.course_deg)}, TO"),
            Answer("radials to go", f"{abs(plan.radials_to_go_deg):.0f}"),
            Answer("course lies to the", plan.side),
            Answer("angle, heading", f"{plan.angle_deg:.0f}, {scene.by_compass(plan.heading_deg)}"),
            Answer("met after", f"{plan.minutes:.1f} min, {plan.distance_nm:.1f} NM from it"),
            Answer(
                "lead the turn by",
                f"{plan.lead_deg:.1f} degrees, {plan.lead_nm:.2f} NM, {plan.lead_s:.0f} s",
            ),
            Answer("heading that holds", scene.by_compass(plan.hold_heading_deg)),
        ),
    )


def _passage(scene: LessonScene) -> Task:
    plan, notes = _plan(scene), scene.notes
    speed = float(scene.holding(plan.course_deg).groundspeed_kt)
    return Task(
        "Station passage",
        f"Hold that course to {plan.station_name} and over it. Say when you have passed.",
        (
            Answer("time from the intercept", scene.minutes(plan.distance_nm, plan.course_deg)),
            Answer("flag", "TO, OFF in the cone, FROM"),
            Answer(
                "cone",
                f"{notes.cone_nm:.1f} NM wide, {notes.cone_nm / speed * 3600.0:.0f} s across",
            ),
            Answer("in the cone", f"hold {scene.by_compass(plan.hold_heading_deg)}, chase nothing"),
            Answer("passed when", "the flag reads FROM"),
        ),
    )


def _to_field(scene: LessonScene) -> tuple[CardPlace, Seen] | None:
    """A field over which the station is received: the nearest that is not too near to it."""
    choices = [
        (place, one)
        for place in scene.card.fields
        for one in place.received
        if one.station is scene.station and one.distance_nm >= NEAREST_START_NM
    ]
    legs = [choice for choice in choices if choice[1].distance_nm >= SHORT_LEG_NM] or choices
    return min(legs, key=lambda choice: choice[1].distance_nm, default=None)


def _outbound(scene: LessonScene) -> Task | None:
    found = _to_field(scene)
    if found is None:
        return None
    field, seen = found
    hold = scene.holding(seen.from_deg)
    return Task(
        "Outbound to a field",
        f"From {scene.station.name} go outbound to {field.name}.",
        (
            Answer("course to select, flag", f"{format_direction(seen.from_deg)}, FROM"),
            Answer("heading", scene.by_compass(float(hold.heading_deg))),
            Answer("wind correction", f"{float(hold.correction_deg):+.0f} degrees (+ is right)"),
            Answer("distance", scene.distance(seen)),
            Answer("time", scene.minutes(seen.distance_nm, seen.from_deg)),
        ),
    )


def _cross_check(scene: LessonScene) -> Task | None:
    found = _to_field(scene)
    if found is None:
        return None
    field, seen = found
    lesson = scene.card.lesson
    middle = scene.station.position_on(seen.from_deg, seen.distance_nm / 2.0)
    halfway = place_notes("halfway point", middle, lesson)
    others = [one for one in halfway.received if one.station is not scene.station]
    if not others:
        return Task("Cross-check", "No second station is received halfway.", ())
    along = float(scene.station.inverse(middle).true_azimuth_end_deg)

    def cut(one: Seen) -> float:
        azimuth = one.station.inverse(middle).true_azimuth_end_deg
        return float(cut_angle_deg(along, azimuth))

    other = max(others, key=cut)
    at_field = next(one for one in field.seen if one.station is other.station)
    arrival = format_direction(at_field.radial_deg) if at_field.received else at_field.caveat
    return Task(
        "Cross-check",
        f"On the way to {field.name} fix yourself halfway by a second station, "
        f"{other.station.name}, {other.station.frequency_mhz:.2f} MHz.",
        (
            Answer(f"halfway from {scene.station.name}", f"{seen.distance_nm / 2.0:.1f} NM"),
            Answer(f"radial of {other.station.name}", format_direction(other.radial_deg)),
            Answer("cut of the radials", f"{cut(other):.0f} degrees"),
            Answer("distance from it", f"{other.distance_nm:.1f} NM"),
            Answer("its radial over the field", arrival),
        ),
    )
