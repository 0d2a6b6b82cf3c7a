"""What the exhibit of the intercept says: the plan in steps, and how the course is met."""

from __future__ import annotations

from html import escape

from vorlib.core.angles import format_direction
from vorlib.core.words import spoken_degrees, spoken_minutes, spoken_time
from vorlib.exhibits.maneuvers.intercept_state import InterceptState
from vorlib.procedures.intercept import LEAST_LEAD_DEG, LEAST_OVERSHOOT_NM
from vorlib.views.sentence import flag_words, needle_words, unassured_sentence

__all__ = ["notes", "sentence"]

STEPS_TO_HEADING = 4  # of the plan: radials to go, course, side, heading


def sentence(state: InterceptState) -> str:
    """Say what is set up and, once it plays, what the needle does now and how the course is met."""
    plan = state.plan
    course = format_direction(state.course_deg)
    way = f"{'inbound' if state.inbound else 'outbound'} on {course}"
    begun = f"{state.distance_nm:.1f} NM out on the {format_direction(state.radial_deg)} radial"
    if plan is None:
        return f"From {begun} you cannot get {way} like that. {state.problem}"
    rule = ", by the double-angle rule" if state.angle_deg is None else ""
    set_up = (
        f"From {begun} of {state.tuned.name} to be {way}: an intercept angle of "
        f"{spoken_degrees(state.cut_deg)}{rule}, heading {format_direction(plan.heading_deg)}"
    )
    if state.wind_kt >= 0.5:
        set_up = f"{set_up}, in this wind track {format_direction(state.track_deg)}"
    if not state.shown_s:
        return f"{set_up}. Press Play."
    return (
        f"{_now_words(state)} {set_up}, meets the course after {spoken_minutes(plan.minutes)}, "
        f"{plan.distance_nm:.1f} NM from the station. {_turn_words(state)}"
    )


def _turn_words(state: InterceptState) -> str:
    words = _one_turn_words(state)
    if not state.both:
        return words
    way = "Turned only when the needle centers" if state.lead else "With the turn led"
    return f"{words} {way}, it {_result(state.other_overshoot_nm)}."


def _result(past_nm: float) -> str:
    past = f"goes {past_nm:.1f} NM past the course"
    return past if past_nm >= LEAST_OVERSHOOT_NM else "ends on the course"


def _one_turn_words(state: InterceptState) -> str:
    past, result = state.overshoot_nm, _result(state.overshoot_nm)
    if not state.lead:
        return f"Turning only when the needle centers, the pilot {result}."
    if past >= 0.15:
        why = "" if state.wind_kt else ": there is no room for it"
        return f"Even leading the turn, the pilot {result}{why}."
    plan = state.plan
    assert plan is not None
    if plan.lead_deg < LEAST_LEAD_DEG:
        return f"Turning as the needle centers, the pilot {result}."
    return f"Turning {plan.lead_deg:.1f} degrees before it, the pilot {result}."


def _now_words(state: InterceptState) -> str:
    now = state.now
    return (
        f"After {spoken_time(state.shown_s)}, on heading {format_direction(now.heading_deg)}, "
        f"{flag_words(now.reading)} and {needle_words(now.reading)}. "
        f"{unassured_sentence(now.reading)}"
    ).rstrip()


def notes(state: InterceptState) -> str:
    """Return the steps of the plan as a numbered list in HTML, without a lead for who has none.

    Where and when the course is met, and the lead, come with Play.
    """
    if state.plan is None:
        return f'<div class="vorlib-message">{escape(state.problem)}</div>'
    shown = [step for step in state.plan.steps if state.lead or not step.startswith("Lead the")]
    told = shown if state.shown_s else shown[:STEPS_TO_HEADING]
    steps = "".join(f"<li>{escape(step)}</li>" for step in told)
    return f"<ol>{steps}</ol>"
