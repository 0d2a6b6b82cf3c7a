"""Mistakes that more than one kind of question foresees, under one name each."""

from vorlib.practice.questions.answers import Answer
from vorlib.practice.questions.question import Misconception


def bearing_for_radial(would_answer: Answer) -> Misconception:
    """The direction to the station given where the direction from it is wanted."""
    return Misconception(
        "bearing taken for radial",
        would_answer,
        "You sit in the aircraft and look toward the station, so its bearing comes first to mind.",
        "A radial begins at the station: stand there and look toward the aircraft.",
    )


def radial_for_bearing(would_answer: Answer) -> Misconception:
    """The direction from the station given where the direction to it is wanted."""
    return Misconception(
        "radial taken for bearing",
        would_answer,
        "The radial is the number you know, and it is on the same line.",
        "Which way along that line does the arrow of a radial point?",
    )


def heading_for_radial(would_answer: Answer) -> Misconception:
    """The heading used as if it said where the aircraft is."""
    return Misconception(
        "heading taken for radial",
        would_answer,
        "The heading is the direction you read most often.",
        "Turn the aircraft on the spot: which numbers change, and which do not?",
    )


def true_for_magnetic(would_answer: Answer) -> Misconception:
    """The true direction given as if the station were lined up with true north."""
    return Misconception(
        "true taken for magnetic",
        would_answer,
        "A chart's grid is true, and the true direction is the one you measure.",
        "Which north does the station count its radials from?",
    )


def altitude_for_height(would_answer: Answer) -> Misconception:
    """The altitude used where the height above the station counts."""
    return Misconception(
        "altitude taken for height",
        would_answer,
        "The altimeter shows altitude, so it is the number at hand.",
        "The cone stands on the antenna: how far above the antenna are you?",
    )


def cone_from_horizon(would_answer: Answer) -> Misconception:
    """The half-angle of the cone laid off from the horizon."""
    return Misconception(
        "cone angle counted from the horizon",
        would_answer,
        "Most angles in flying are counted from the horizon.",
        "Draw the vertical through the station first: where does the half-angle begin?",
    )


def width_for_radius(would_answer: Answer) -> Misconception:
    """The whole width of the cone given for half of it."""
    return Misconception(
        "width taken for radius",
        would_answer,
        "The cone is crossed from edge to edge.",
        "From where to where does a radius reach?",
    )


def radius_for_width(would_answer: Answer) -> Misconception:
    """Half the width of the cone used for the whole of it."""
    return Misconception(
        "radius taken for width",
        would_answer,
        "The triangle under the cone gives the radius, and it is easy to stop there.",
        "How far is it from where you fly in to where you fly out?",
    )


def wind_for_its_target(would_answer: Answer) -> Misconception:
    """The wind taken to blow toward the direction it is named for."""
    return Misconception(
        "wind thought to blow toward its name",
        would_answer,
        "An arrow on a chart shows where the wind goes.",
        "A wind is named for where it comes from: which way are you carried?",
    )


def sensing_taken_as_normal(would_answer: Answer) -> Misconception:
    """The needle followed although the selected course is flown the other way."""
    return Misconception(
        "heading not held against the selected course",
        would_answer,
        "The instrument looks the same either way, so nothing warns you.",
        "Look from the selected course to the heading: how far apart are they?",
    )


def sensing_by_the_flag(would_answer: Answer) -> Misconception:
    """The sensing read off the flag."""
    return Misconception(
        "flag thought to decide the sensing",
        would_answer,
        "Reverse sensing is often told as a story about TO and FROM.",
        "Leave the flag out: how far apart are heading and selected course?",
    )


def needle_for_aircraft(would_answer: Answer) -> Misconception:
    """The needle read as the aircraft, and the middle of the dial as the course line."""
    return Misconception(
        "left taken for right",
        would_answer,
        "The needle is easily read as yourself, off to one side of the line.",
        "Needle and course line lie on one side. Which of the two is you: the needle, or the "
        "middle of the dial?",
    )


def flag_by_the_heading(would_answer: Answer) -> Misconception:
    """The flag taken to tell whether the aircraft flies to the station or away."""
    return Misconception(
        "heading thought to move the flag",
        would_answer,
        "TO and FROM sound like where the aircraft is going.",
        "Turn the aircraft on the spot: does anything on the indicator change?",
    )
