"""What is wrong here, if anything: told from the ident, the place, the heading and the dial."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from random import Random

from vorlib.core.angles import format_direction
from vorlib.practice.questions.answers import ChoiceAnswer
from vorlib.practice.questions.figures import Dial, QuestionFigure
from vorlib.practice.questions.misconceptions import LIVE_NEEDLE_TRUSTED, sensing_beliefs
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import (
    any_altitude_ft,
    any_direction,
    any_distance_nm,
    any_station,
    flag_of,
)
from vorlib.practice.questions.standards import SIGNAL_LOSS
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.coverage import cone_radius_nm, line_of_sight_nm
from vorlib.vor.receiver import Flag, Reading, Receiver
from vorlib.vor.station import Station

FAULT = ChoiceAnswer(
    {
        "wrong station": ("another station", "wrong ident", "ident", "misidentified", "mistuned"),
        "off the air": ("station off the air", "shut down", "station failed", "no signal", "off"),
        "cone": ("cone of confusion", "in the cone", "the cone", "overhead", "over the station"),
        "line of sight": ("beyond line of sight", "below line of sight", "too low", "too far"),
        "abeam": ("abeam the station", "abeam the course", "90 degrees off"),
        "reverse sensing": ("reverse", "reversed", "reversed sensing", "sensing"),
        "nothing": ("nothing wrong", "nothing is wrong", "none", "ok", "all well", "no fault"),
    }
)
DRIFT_DEG = 15  # heading and course differ by no more, or by no less than 180 less it
ABEAM_DEG = 1  # from square to the course: well inside the sector where the flag is OFF
MOST_DOTS = 4.5  # of a live needle, clear of its full scale
LOW_FT, LOW_ANTENNA_FT = (700, 800, 900), 1000  # both low, or there is no such place in the islands
SHARES_OF_SIGHT = (1.15, 1.2, 1.25)  # of the farthest the station can be seen from there
SHARES_OF_CONE = (0.3, 0.4, 0.5)


@dataclass(frozen=True)
class FaultScene:
    """What a pilot knows and sees, and the answer."""

    answer: str
    station: Station
    radial_deg: float
    distance_nm: float
    altitude_ft: int
    course_deg: float
    heading_deg: float
    heard: str
    reason: str
    misconceptions: tuple[Misconception, ...] = ()

    def seen(self, station: Station) -> Reading:
        """Return the reading of a station at the place of the scene."""
        there = self.station.position_on(self.radial_deg, self.distance_nm, self.altitude_ft)
        return Receiver(self.course_deg).read(station, there)


# Of lesson 12, by which all the causes are known: the cone comes in lesson 8, the ident there.
@question_kind("whats_wrong", lessons=("12",))
def make(chance: Random) -> Question:
    """Ask for what is wrong; in one case nothing is."""
    scene = chance.choice(CASES)(chance, _usual(chance))
    station, course = scene.station, format_direction(scene.course_deg)
    radial, heading = format_direction(scene.radial_deg), format_direction(scene.heading_deg)
    elevation_ft = float(station.position.altitude_ft)
    sent = next((s for s in STATIONS.values() if s.ident == scene.heard), None)
    dial = Dial.of(scene.course_deg, scene.seen(sent)) if sent else Dial(scene.course_deg, Flag.OFF)
    return Question(
        kind="whats_wrong",
        prompt=f"You mean to use {station.name}, ident {station.ident}, elevation "
        f"{elevation_ft:,.0f} ft, and have selected {course}. You know by other means that you are "
        f"on its {radial} radial, {scene.distance_nm:g} NM out at {scene.altitude_ft:,} ft, "
        f"heading {heading}. You hear {scene.heard or 'no ident'}; the dial shows what you see. "
        f"What is wrong: {', '.join(list(FAULT.options)[:-1])}, or nothing?",
        form=FAULT,
        answer=scene.answer,
        tolerance=0.0,
        tolerance_why="One of them explains all that you hear and see.",
        hints=(
            "The ident first, then the flag, and only then the needle.",
            "The right letters and a flag of TO or FROM: compare the heading with the course. "
            "OFF: how far away are you, how high, and which way does the course lie?",
            f"You hear {scene.heard or 'nothing'} and the flag reads {dial.flag.name}, "
            f"{scene.distance_nm:g} NM from {station.name}, with {course} selected on the {radial} "
            f"radial and heading {heading}. What explains all of that?",
        ),
        worked=f"{scene.reason}: {scene.answer}.",
        element=SIGNAL_LOSS,
        level="correlation",
        misconceptions=scene.misconceptions,
        figure=QuestionFigure((dial,)),
    )


def _usual(chance: Random) -> FaultScene:
    """Return a scene in which nothing is wrong: within reception, flying the selected course."""
    station, course_deg = any_station(chance), any_direction(chance)
    beside_deg = chance.choice((0, 180)) + chance.choice((-1, 1)) * chance.randint(3, 8)
    return FaultScene(
        answer="nothing",
        station=station,
        radial_deg=course_deg + beside_deg,
        distance_nm=any_distance_nm(chance),
        altitude_ft=any_altitude_ft(chance),
        course_deg=course_deg,
        heading_deg=course_deg + chance.randint(-DRIFT_DEG, DRIFT_DEG),
        heard=station.ident,
        reason="The ident is right, the flag is in view and you fly along the selected course",
    )


def _nothing(_: Random, usual: FaultScene) -> FaultScene:
    return replace(usual, misconceptions=_about_sensing(usual, reverse=False))


def _reversed(_: Random, usual: FaultScene) -> FaultScene:
    return replace(
        usual,
        answer="reverse sensing",
        heading_deg=usual.heading_deg + 180,
        reason="The ident is right and the flag in view, but you fly against the selected course",
        misconceptions=_about_sensing(usual, reverse=True),
    )


def _wrong_station(chance: Random, usual: FaultScene) -> FaultScene:
    others = [s for s in STATIONS.values() if s != usual.station and _is_live(usual, s)]
    if not others:
        return _wrong_station(chance, _usual(chance))
    other = chance.choice(others)
    return replace(
        usual,
        answer="wrong station",
        heard=other.ident,
        reason=f"{other.ident} is {other.name}; however lively, the needle is not about "
        f"{usual.station.name}",
        misconceptions=(LIVE_NEEDLE_TRUSTED.answering("nothing"),),
    )


def _is_live(scene: FaultScene, station: Station) -> bool:
    reading = scene.seen(station)
    return reading.assured and bool(reading.flag) and 1.0 <= abs(float(reading.dots)) <= MOST_DOTS


def _in_the_cone(chance: Random, usual: FaultScene) -> FaultScene:
    height_ft = usual.altitude_ft - float(usual.station.position.altitude_ft)
    radius_nm = float(cone_radius_nm(height_ft))
    return replace(
        usual,
        answer="cone",
        distance_nm=round(chance.choice(SHARES_OF_CONE) * radius_nm, 1),
        reason=f"{height_ft:,.0f} ft above the antenna there is no usable signal within "
        f"{radius_nm:.1f} NM, though the ident is heard",
        misconceptions=(_station_blamed(), _distance_blamed()),
    )


def _abeam(chance: Random, usual: FaultScene) -> FaultScene:
    off_deg = chance.choice((-90, 90)) + chance.randint(-ABEAM_DEG, ABEAM_DEG)
    return replace(
        usual,
        answer="abeam",
        radial_deg=usual.course_deg + off_deg,
        reason="The ident is right, but the selected course is square to your radial, so that "
        "neither TO nor FROM can show",
        misconceptions=(_station_blamed(), _distance_blamed()),
    )


def _too_far(chance: Random, usual: FaultScene) -> FaultScene:
    if usual.station.position.altitude_ft > LOW_ANTENNA_FT:
        return _too_far(chance, _usual(chance))
    altitude_ft = chance.choice(LOW_FT)
    sight_nm = float(line_of_sight_nm(altitude_ft, float(usual.station.position.altitude_ft)))
    return replace(
        usual,
        answer="line of sight",
        distance_nm=round(chance.choice(SHARES_OF_SIGHT) * sight_nm),
        altitude_ft=altitude_ft,
        heard="",
        reason=f"From {altitude_ft:,} ft the station is in sight as far as {sight_nm:.0f} NM",
        misconceptions=(_station_blamed(),),
    )


def _off_the_air(_: Random, usual: FaultScene) -> FaultScene:
    return replace(
        usual,
        answer="off the air",
        heard="",
        reason="This near and this high you would hear the station if it sent at all",
        misconceptions=(_distance_blamed(),),
    )


def _about_sensing(scene: FaultScene, *, reverse: bool) -> tuple[Misconception, ...]:
    flag = flag_of(scene.seen(scene.station))
    return sensing_beliefs(reverse, flag, "nothing", "reverse sensing")


def _station_blamed() -> Misconception:
    return Misconception(
        "OFF blamed on the station",
        "off the air",
        "A red flag looks like a fault.",
        "Before you blame the station: what do you hear, and where are you?",
    )


def _distance_blamed() -> Misconception:
    return Misconception(
        "OFF blamed on the distance",
        "line of sight",
        "Far and low is the usual reason for losing a station.",
        "How far does a signal carry to your altitude?",
    )


CASES: tuple[Callable[[Random, FaultScene], FaultScene], ...] = (
    *(_nothing, _reversed) * 3,  # the flag and the heading agree or not: who is misled differs
    *(_wrong_station,) * 2,
    _in_the_cone,
    _abeam,
    _too_far,
    _off_the_air,
)
