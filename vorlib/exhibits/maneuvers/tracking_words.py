"""What the exhibit of tracking says: what the needle did, what to do about it, the wind."""

from __future__ import annotations

from vorlib.core.angles import difference_deg, format_direction, spoken_side
from vorlib.core.words import LEAST_TOLD, spoken_degrees, spoken_dots, spoken_knots, spoken_time
from vorlib.exhibits.maneuvers.tracking_flight import BY_HAND, CHASING
from vorlib.exhibits.maneuvers.tracking_state import TrackingState
from vorlib.views.sentence import flag_words, needle_words, unassured_sentence
from vorlib.vor.receiver import Flag, Reading

__all__ = ["sentence"]


def sentence(state: TrackingState) -> str:
    """Say what the needle has done, what to do about it and, once revealed, what the wind is."""
    now = state.now
    way = "to" if state.inbound else "from"
    course = f"The course is {format_direction(state.course_deg)} {way} {state.tuned.name}."
    flown = f"After {spoken_time(state.shown_s)} on heading " if state.shown_s else "On heading "
    flown = f"{flown}{format_direction(now.heading_deg)}{_turning(state)}: "
    flown = f"{flown}{flag_words(now.reading)}"
    flown = f"{flown} and {needle_words(now.reading)}{_trend(state)}."
    words = (flown, unassured_sentence(now.reading), _advice(state), course, _revealed(state))
    return " ".join(filter(None, words))


def _turning(state: TrackingState) -> str:
    to_go = abs(float(difference_deg(state.ordered_deg, state.now.heading_deg)))
    if state.pilot != BY_HAND or to_go < 1.0:
        return ""
    return f", turning to {format_direction(state.ordered_deg)}"


def _trend(state: TrackingState) -> str:
    """Return how far the needle has moved in the last minute."""
    minute = min(60.0, state.shown_s)
    before = state._flown.replay.at(state.shown_s - minute).reading
    if minute < 10.0 or _silent(before) or _silent(state.now.reading):
        return ""
    moved = float(state.now.reading.dots - before.dots)
    last = "minute" if minute == 60.0 else f"{minute:.0f} seconds"
    if abs(moved) < LEAST_TOLD:
        return f", as it was {'a ' * (minute == 60.0)}{last} ago"
    side = spoken_side(moved)
    return f", {spoken_dots(moved)} further {side} than {'a ' * (minute == 60.0)}{last} ago"


def _silent(reading: Reading) -> bool:
    return bool(reading.flag == Flag.OFF or reading.pegged)


def _advice(state: TrackingState) -> str:
    if state.now.reading.flag == Flag.OFF:
        return "With the flag OFF hold the heading."
    if state.bracket is not None:
        return state.bracket.words
    if state.pilot == CHASING:
        return "This pilot turns 40 degrees toward the needle, each time until it has crossed."
    if not state.shown_s:
        return "Press Play, watch the needle, and set another heading when it moves off."
    return ""


def _revealed(state: TrackingState) -> str:
    if not state.revealed:
        return ""
    wind, answer = state.wind, state.answer
    blowing = f"{format_direction(float(wind.from_deg))} at {spoken_knots(float(wind.speed_kt))}"
    correction = float(answer.correction_deg)
    aside = f"{spoken_degrees(correction)} {spoken_side(correction)} of the course, "
    return (
        f"The wind is {blowing}: by the wind triangle heading "
        f"{format_direction(float(answer.heading_deg))}, {aside if round(correction) else ''}"
        f"holds it. {_found(state)}"
    )


def _found(state: TrackingState) -> str:
    """Return how near to that the heading is which was found."""
    if state.pilot == CHASING:
        return "The chasing pilot holds none."
    bracket = state.bracket
    found = state.ordered_deg if bracket is None else state.course_deg + bracket.held_deg
    off = abs(float(difference_deg(found, state.answer.heading_deg)))
    who = "Yours is" if bracket is None else "The bracket's is"
    if off < 0.5:
        return f"{who} the same."
    return f"{who} {spoken_degrees(off)} from it."
