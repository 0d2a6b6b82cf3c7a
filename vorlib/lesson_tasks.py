"""Tasks for a lesson in the air, with the numbers to expect in the forecast wind.

Courses are those set on the indicator, from the station's own north; headings are by the compass,
from the magnetic north of the day.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

from vorlib.angles import compass_point, format_direction, reciprocal_deg, wrap_360
from vorlib.earth import direct
from vorlib.fixing import cut_angle_deg
from vorlib.flight import start
from vorlib.intercept import Intercept, plan_intercept
from vorlib.lesson_card import LessonCard, Place, Seen, StationNotes, place_notes
from vorlib.station import Station
from vorlib.wind import WindTriangle, wind_triangle

NEAREST_START_NM = 5.0  # nearer to the station there is no time for an intercept
SHORT_LEG_NM = 10.0  # a shorter one to a field is over before it is checked on the way
RADIALS_TO_GO_DEG = 30.0
# Where the middle of the area is too near to a station: shares of its radius, and directions.
START_SHARES, START_AZIMUTHS_DEG = (0.7, 0.35, 0.15), (225.0, 135.0, 315.0, 45.0)


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


@dataclass(frozen=True)
class _Scene:
    """What all tasks of a lesson are about: a station, and where they start."""

    card: LessonCard
    notes: StationNotes
    begin: Place
    seen: Seen

    @property
    def station(self) -> Station:
        return self.notes.listed.station

    def holding(self, course_deg: float) -> WindTriangle:
        """Return the heading from the station's north that holds a course in the forecast wind."""
        lesson = self.card.lesson
        wind = lesson.wind
        from_deg = wind.from_deg - self.station.declination_deg
        return wind_triangle(
            course_deg, lesson.aircraft.true_airspeed_kt, from_deg, float(wind.speed_kt)
        )

    def by_compass(self, heading_deg: float) -> str:
        """Return a heading from the station's north as the compass of the day shows it."""
        return format_direction(float(wrap_360(heading_deg + self.notes.drift_deg)))

    def distance(self, seen: Seen) -> str:
        """Return a distance over the ground, and what a DME shows where there is one."""
        shown = "" if self.notes.listed.kind == "VOR" else f", DME {seen.dme_nm:.1f}"
        return f"{seen.distance_nm:.1f} NM{shown}"

    def minutes(self, distance_nm: float, course_deg: float) -> str:
        """Return how long a distance along a course takes, and how fast that is."""
        speed = float(self.holding(course_deg).groundspeed_kt)
        return f"{distance_nm / speed * 60.0:.1f} min at {speed:.0f} kt over the ground"


def lesson_tasks(card: LessonCard) -> tuple[Task, ...]:
    """Return the tasks that a practice area allows, in the order of a lesson.

    Orientation, intercept inbound, passage, outbound to a field, cross-check; those for which no
    station is received, or which the wind does not allow, say so in place of their numbers.

    Raises
    ------
    ValueError
        If no station is received in the practice area at the planned altitude.
    """
    scene = _scene(card)
    makers: tuple[tuple[str, Callable[[_Scene], Task | None]], ...] = (
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


def start_of(card: LessonCard) -> Place:
    """Return where the tasks start: the middle of the area, or off it if a station is there."""
    return _scene(card).begin


def _scene(card: LessonCard) -> _Scene:
    begin = card.centre
    if not begin.received or begin.received[0].distance_nm < NEAREST_START_NM:
        lesson = card.lesson
        for share, true_azimuth_deg in product(START_SHARES, START_AZIMUTHS_DEG):
            off = direct(lesson.centre, true_azimuth_deg, share * lesson.radius_nm)
            begin = place_notes("start", off, lesson)
            if begin.received and begin.received[0].distance_nm >= NEAREST_START_NM:
                break
    if not begin.received:
        raise ValueError(
            "no station is received in the practice area at the planned altitude: choose another "
            "area, or a higher altitude"
        )
    nearest = begin.received[0]
    notes = next(n for n in card.stations if n.listed.station is nearest.station)
    return _Scene(card, notes, begin, nearest)


def _orientation(scene: _Scene) -> Task:
    seen, station = scene.seen, scene.station
    hold = scene.holding(seen.to_deg)
    where = compass_point(float(station.true_azimuth_deg(scene.begin.position)))
    return Task(
        "Orientation",
        f"Over the {scene.begin.name} tune {station.name}, {station.frequency_mhz:.2f} MHz. "
        "Identify it, centre the needle with FROM, and say where you are. Then centre with TO and "
        "go direct.",
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


def _plan(scene: _Scene) -> Intercept:
    """The intercept of a radial 30 degrees away: clockwise, or else the other way."""
    lesson = scene.card.lesson
    state = start(scene.begin.position, 360.0)
    refusal = ValueError()
    for side in (1.0, -1.0):
        target = 10.0 * round((scene.seen.radial_deg + side * RADIALS_TO_GO_DEG) / 10.0)
        course = float(reciprocal_deg(target))
        try:
            return plan_intercept(
                scene.station, state, lesson.aircraft, course, inbound=True, wind=lesson.wind
            )
        except ValueError as error:
            refusal = error
    raise refusal


def _intercept(scene: _Scene) -> Task:
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


def _passage(scene: _Scene) -> Task:
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


def _to_field(scene: _Scene) -> tuple[Place, Seen] | None:
    """A field over which the station is received: the nearest that is not too near to it."""
    choices = [
        (place, one)
        for place in scene.card.fields
        for one in place.received
        if one.station is scene.station and one.distance_nm >= NEAREST_START_NM
    ]
    legs = [choice for choice in choices if choice[1].distance_nm >= SHORT_LEG_NM] or choices
    return min(legs, key=lambda choice: choice[1].distance_nm, default=None)


def _outbound(scene: _Scene) -> Task | None:
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


def _cross_check(scene: _Scene) -> Task | None:
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
    arrival = format_direction(at_field.radial_deg) if at_field.received else str(at_field.reason)
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
