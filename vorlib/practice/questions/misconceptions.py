"""Misconceptions that more than one kind of question can show, under one name each.

A belief has one name in the whole course, so that the results of a class add up. A kind of question
says what the belief answers in its draw; a slip that one kind alone can show stands with that kind.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from types import MappingProxyType

from vorlib.practice.questions.answers import Answer
from vorlib.practice.questions.question import Misconception
from vorlib.vor.receiver import Flag


@dataclass(frozen=True)
class Belief:
    """A mistaken idea that decides answers.

    Attributes
    ----------
    name
        What went wrong, in a few words.
    meaning
        One sentence: the idea itself.
    why_tempting, look_again
        As in `Misconception`.
    """

    name: str
    meaning: str
    why_tempting: str
    look_again: str

    def answering(self, would_answer: Answer) -> Misconception:
        """Return the belief as a foreseen misconception, with its answer to one question."""
        return Misconception(self.name, would_answer, self.why_tempting, self.look_again)


RADIAL_LEADS_TO = Belief(
    "radial thought to lead to the station",
    "The direction to the station is given for the one from it, and the other way round.",
    "Both lie along the same line, and you sit at the other end of it.",
    "Stand at the station in thought and look toward the aircraft. Which way do you look, and "
    "which way is asked for?",
)
FLAG_SWAPPED = Belief(
    "TO and FROM swapped",
    "TO is read as away from the station, and FROM as toward it.",
    "The two words look alike in their window, and the needle draws the eye.",
    "Flying the selected course from where you are, would you come to the station or leave it?",
)
NEEDLE_IS_AIRCRAFT = Belief(
    "needle taken for the aircraft",
    "The needle is read as the aircraft, and the middle of the dial as the course line.",
    "The needle moves, and so do you.",
    "You are the middle of the dial. What is the needle?",
)
HEADING_IS_POSITION = Belief(
    "heading taken for position",
    "The nose is taken to point along the line between aircraft and station.",
    "The heading is the direction you read most often.",
    "Turn the aircraft on the spot: which numbers change, and which do not?",
)
HEADING_MOVES_FLAG = Belief(
    "heading thought to move the flag",
    "TO and FROM are taken to say whether the aircraft flies to the station or away.",
    "TO and FROM sound like where the aircraft is going.",
    "Turn the aircraft on the spot: does anything on the indicator change?",
)
NEVER_REVERSED = Belief(
    "heading not held against the selected course",
    "The needle is followed whichever way the aircraft flies.",
    "The instrument looks the same either way, so nothing warns you.",
    "Look from the selected course to the heading: how far apart are they?",
)
FLAG_DECIDES_SENSING = Belief(
    "flag thought to decide the sensing",
    "FROM is taken to mean reverse sensing, and TO normal.",
    "Reverse sensing is often explained as a matter of TO and FROM.",
    "Leave the flag out: how far apart are heading and selected course?",
)
TRUE_FOR_MAGNETIC = Belief(
    "true taken for magnetic",
    "Radials are counted from true north.",
    "A chart's grid is true, and the true direction is the one you measure.",
    "Which north does the station count its radials from?",
)
ALTITUDE_FOR_HEIGHT = Belief(
    "altitude taken for height",
    "The altitude is used where the height above the station's antenna counts.",
    "The altimeter shows altitude, so it is the number at hand.",
    "Heights over a station begin at its antenna: how far above the antenna are you?",
)
CONE_FROM_HORIZON = Belief(
    "cone angle counted from the horizon",
    "The half-angle of the cone of confusion is laid off from the horizon.",
    "Most angles in flying are counted from the horizon.",
    "Draw the vertical through the station first: where does the half-angle begin?",
)
DOTS_FOR_DEGREES = Belief(
    "dots taken for degrees",
    "A dot is one degree.",
    "Dots are what you count.",
    "How many degrees does this instrument give to five dots?",
)
WIND_TOWARD_NAME = Belief(
    "wind thought to blow toward its name",
    "A wind named 270 blows toward 270.",
    "An arrow on a chart shows where the wind goes.",
    "A wind is named for where it comes from: which way are you carried?",
)
WHOLE_WIND = Belief(
    "the whole wind taken for its part",
    "All of the wind acts along the course, or all of it across.",
    "The speed of the wind is the number you were given.",
    "The wind blows at a slant: how much of it counts here?",
)
ACROSS_NORTH = Belief(
    "directions subtracted as plain numbers",
    "The angle between two directions is the greater number less the smaller, also across north.",
    "The greater number less the smaller is the habit.",
    "Put both on the ring, with north between them: which way round is shorter?",
)
WRONG_SIDE_OF_COURSE = Belief(
    "turned away from the course",
    "The intercept angle is laid off to the side away from the line.",
    "Left and right change places between flying in and flying out.",
    "Face along the course: on which side is the line? Turn to that side.",
)
NO_INTERCEPT_ANGLE = Belief(
    "course flown without an intercept angle",
    "Flying the course as heading leads onto its line.",
    "The course is what you want to fly in the end.",
    "This heading runs beside the line: when would you meet it?",
)
ANGLE_FROM_OWN_RADIAL = Belief(
    "angle laid off from your own radial",
    "The intercept angle lies between the heading and the radial you are on.",
    "Your own radial is the line you sit on.",
    "The angle is between your heading and which line?",
)
HOMING_FOR_TRACKING = Belief(
    "homing taken for tracking",
    "Centering the needle with the ring keeps the aircraft on its course.",
    "A turn of the ring centers the needle at once, and that looks like being on course.",
    "Is the line that the ring then shows the one you were to fly?",
)
LIVE_NEEDLE_TRUSTED = Belief(
    "a live needle trusted without a check",
    "A needle that moves and a flag in view are taken for proof that the indication is right.",
    "Needle and flag look as lively as ever.",
    "What is to be checked before a needle is followed?",
)
OFF_NEEDLE_FOLLOWED = Belief(
    "needle followed with the flag OFF",
    "The needle is read although the flag says that there is nothing to read.",
    "A needle in the middle looks like being on course.",
    "What does the flag say about the needle?",
)
PRESSED_ON = Belief(
    "pressed on, hoping it gets better",
    "What does not work now is expected to work a little farther on.",
    "To go on is easy, and to turn back feels like failing.",
    "What if it is no better there, and how much room is left then?",
)
ONE_TASK_ALONE = Belief(
    "one task taken up, the others dropped",
    "The task that calls loudest is finished first, and flying waits.",
    "Whatever calls for you feels urgent.",
    "Who flies, looks out and knows the place meanwhile?",
)


def sensing_beliefs(
    reverse: bool, flag: Flag, when_normal: Answer, when_reverse: Answer
) -> tuple[Misconception, ...]:
    """Return the beliefs about sensing that lead astray here.

    Parameters
    ----------
    reverse, flag
        Whether the sensing is reverse, and what the flag reads.
    when_normal, when_reverse
        What someone answers who takes it to be normal, or reverse.
    """
    by_flag = flag == Flag.FROM
    astray = []
    if reverse:
        astray.append(NEVER_REVERSED.answering(when_normal))
    if by_flag != reverse:
        astray.append(FLAG_DECIDES_SENSING.answering(when_reverse if by_flag else when_normal))
    return tuple(astray)


BELIEFS = MappingProxyType(
    {
        belief.name: belief
        for belief in (
            RADIAL_LEADS_TO,
            FLAG_SWAPPED,
            NEEDLE_IS_AIRCRAFT,
            HEADING_IS_POSITION,
            HEADING_MOVES_FLAG,
            NEVER_REVERSED,
            FLAG_DECIDES_SENSING,
            TRUE_FOR_MAGNETIC,
            ALTITUDE_FOR_HEIGHT,
            CONE_FROM_HORIZON,
            DOTS_FOR_DEGREES,
            WIND_TOWARD_NAME,
            WHOLE_WIND,
            ACROSS_NORTH,
            WRONG_SIDE_OF_COURSE,
            NO_INTERCEPT_ANGLE,
            ANGLE_FROM_OWN_RADIAL,
            HOMING_FOR_TRACKING,
            LIVE_NEEDLE_TRUSTED,
            OFF_NEEDLE_FOLLOWED,
            PRESSED_ON,
            ONE_TASK_ALONE,
        )
    }
)
"""Every belief that more than one kind of question can show, by its name."""

RENAMED = MappingProxyType(
    {
        "bearing taken for radial": RADIAL_LEADS_TO.name,
        "radial taken for bearing": RADIAL_LEADS_TO.name,
        "the reciprocal": RADIAL_LEADS_TO.name,
        "the opposite side of the station": RADIAL_LEADS_TO.name,
        "turned to the radial, away from the station": RADIAL_LEADS_TO.name,
        "inbound and outbound confused": RADIAL_LEADS_TO.name,
        "TO and FROM mixed up": FLAG_SWAPPED.name,
        "left taken for right": NEEDLE_IS_AIRCRAFT.name,
        "needle read the wrong way": NEEDLE_IS_AIRCRAFT.name,
        "corrected away from the needle": NEEDLE_IS_AIRCRAFT.name,
        "heading taken for radial": HEADING_IS_POSITION.name,
        "heading taken for course": HEADING_IS_POSITION.name,
        "altitude taken for height above the station": ALTITUDE_FOR_HEIGHT.name,
        "the whole wind taken along the course": WHOLE_WIND.name,
        "the whole wind taken as crosswind": WHOLE_WIND.name,
        "turned the long way round": ACROSS_NORTH.name,
        "radials counted the long way round": ACROSS_NORTH.name,
        "difference taken the long way round": ACROSS_NORTH.name,
        "homing thought to hold the course": HOMING_FOR_TRACKING.name,
    }
)
"""The present name of each belief that earlier records call otherwise."""


def present_names(names: Iterable[str]) -> tuple[str, ...]:
    """Return beliefs as they are called now, each once: records keep the names of their day."""
    return tuple(dict.fromkeys(RENAMED.get(name, name) for name in names))
