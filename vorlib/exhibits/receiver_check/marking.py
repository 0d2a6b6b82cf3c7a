"""Marking a receiver check: the error read, the decision, and whether the last check holds."""

from __future__ import annotations

from vorlib.core.words import spoken_degrees
from vorlib.exhibits.receiver_check.bench import ReceiverCheckState
from vorlib.receiver_check.check import days_left, judge, last_day
from vorlib.receiver_check.rules import RULES
from vorlib.stations.archipelago import TODAY

__all__ = ["is_well_read", "mark_decision", "mark_error", "mark_last_check"]

NEAR_DEG = 0.5  # the ring is read to the degree
GROUND_DEG = RULES.kind("ground checkpoint").limit_deg
AIR_DEG = RULES.kind("airborne checkpoint").limit_deg


def is_well_read(state: ReceiverCheckState) -> bool:
    """Return whether the error was read right, with the needle centered."""
    return state.error_deg is not None and state.centered and _is_right(state.error_deg, state)


def mark_error(state: ReceiverCheckState) -> str:
    """Return in one sentence whether the error was read right, and if not, the mistake in it."""
    if not state.centered:
        return _not_centered(state)
    if state.error_deg is None:
        return "You gave no error."
    said, bench = state.error_deg, state.bench
    if _is_right(said, state):
        sign = "-" if said < 0.0 else ""
        return f"You read the error correctly: {sign}{spoken_degrees(said, 1)}."
    two = state.check.compares_receivers
    if two and any(abs(abs(said) - abs(e)) <= NEAR_DEG for e in bench.errors_deg):
        return (
            f"{said:g} degrees is the error of one receiver against the published radial. This "
            f"check ({state.check.paragraph}) compares the two rings."
        )
    if not two and abs(said + state.right_error_deg) <= NEAR_DEG:
        return (
            f"{said:g} degrees has the size right and the side wrong: "
            "the error is what the ring reads, less what it should read."
        )
    if abs(abs(said) - 180.0) <= abs(state.right_error_deg) + NEAR_DEG:
        return "Half a circle off: with TO the ring stands at the reciprocal of the radial."
    return f"{said:g} degrees is not what the {'rings say' if two else 'ring says'}: read again."


def mark_decision(state: ReceiverCheckState) -> str:
    """Return in a sentence or two whether the decision is right, and if not, the mistake in it."""
    outcome = judge(state.kind, state.right_error_deg)
    right = "pass" if outcome.passed else "fail"
    if not state.decision:
        return "You did not decide."
    if state.decision == right:
        return f"Your decision is right. {outcome.reason}"
    return f"Your decision is wrong. {outcome.reason} {_slip(state)}"


def _slip(state: ReceiverCheckState) -> str:
    """Return the likely mistake behind a wrong decision."""
    size, limit = abs(state.right_error_deg), state.check.limit_deg
    each = max(abs(error) for error in state.bench.errors_deg)
    if state.check.compares_receivers and (each <= limit) == (state.decision == "pass"):
        return (
            "The likely slip: you judged each receiver by the published radial, but this check "
            "compares the two."
        )
    other = AIR_DEG if limit == GROUND_DEG else GROUND_DEG
    if (size <= other) == (state.decision == "pass"):
        made = "in the air" if other == AIR_DEG else "on the ground"
        return f"The likely slip: {other:g} degrees is the limit for a checkpoint {made}."
    return "Compare the error with the limit again."


def mark_last_check(state: ReceiverCheckState) -> str:
    """Return in one sentence whether the last check in the log was judged right."""
    made_on = state.bench.last_made_on
    left = days_left(made_on, TODAY)
    right = "good" if left >= 0 else "out of date"
    until = last_day(made_on).isoformat()
    holds = "holds" if left >= 0 else "held"
    fact = f"the check of {made_on.isoformat()} {holds} through {until} ({RULES.valid_paragraph})"
    if not state.last_check:
        return "You did not judge the last check."
    if state.last_check == right:
        return f"You judged the last check correctly: {fact}."
    wrong = "You judged the last check wrongly"
    if left == -1:
        return f"{wrong}: {fact}. A month can have 31 days; the rule counts {RULES.valid_days}."
    return f"{wrong}: {fact}. Count {RULES.valid_days} days from its date."


def _not_centered(state: ReceiverCheckState) -> str:
    flags = {int(reading.flag) for reading in state.readings}
    if len(flags) > 1:
        return "One flag reads TO and the other FROM: center both needles with the same flag."
    return "A needle that is not centered gives no error to read: turn the ring first."


def _is_right(said: float, state: ReceiverCheckState) -> bool:
    if state.check.compares_receivers:
        said = abs(said)  # of a difference only the size counts
    return abs(said - state.right_error_deg) <= NEAR_DEG
