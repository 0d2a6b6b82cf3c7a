"""Choose the questions of a check flight: every lesson at least once, along one flight."""

import hashlib
from dataclasses import dataclass
from functools import lru_cache
from random import Random

from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import SEEDS, draw

ALLOWED_MIN = 30


@dataclass(frozen=True)
class CheckFlightStage:
    """A part of the flight.

    Attributes
    ----------
    title
        What happens in it.
    slots
        For each of its questions, the kinds from which one is drawn; easier slots come first.
    """

    title: str
    slots: tuple[tuple[str, ...], ...]


STAGES = (
    CheckFlightStage(
        "At the desk: the chart and the signal",
        (
            ("reciprocal",),
            ("radial_from_tones",),
            ("radial_from_place", "radial_from_map", "radial_from_true"),
        ),
    ),
    CheckFlightStage(
        "On the apron: may the receiver be trusted?",
        (("log_entry", "check_days"), ("check_verdict", "two_receivers"), ("ident_heard",)),
    ),
    CheckFlightStage(
        "Airborne: what the indicator says",
        (("flag_for_course", "needle_reading"), ("indicator_for_place",)),
    ),
    CheckFlightStage(
        "Where are you?", (("centred_direction", "centred_radial"), ("place_for_indicator",))
    ),
    CheckFlightStage(
        "To the station",
        (("homing_end", "bearing_to_station"), ("direct_course", "turn_direct")),
    ),
    CheckFlightStage(
        "Onto a radial", (("intercept_angle", "lead_degrees"), ("intercept_inbound",))
    ),
    CheckFlightStage(
        "Along it in wind", (("wind_side",), ("wind_correction_heading", "groundspeed"))
    ),
    CheckFlightStage(
        "How far is it still?", (("time_to_station", "distance_to_station", "isosceles_time"),)
    ),
    CheckFlightStage(
        "Over the station",
        (("flag_after_passing", "needle_near_station"), ("cone_radius", "seconds_in_cone")),
    ),
    CheckFlightStage(
        "Outbound, with a needle that may mislead",
        (("intercept_outbound", "bracket_heading"), ("sensing", "turn_to_line")),
    ),
    CheckFlightStage(
        "A fix before the field", (("best_pair",), ("fix_two_radials", "slant_to_ground"))
    ),
    CheckFlightStage("The indicator looks odd", (("whats_wrong",),)),
)


@dataclass(frozen=True)
class Planned:
    """A question of a check flight: its stage, and the kind and seed from which it is drawn."""

    stage: str
    kind: str
    seed: int
    question: Question

    @property
    def fingerprint(self) -> str:
        """A short code that changes if the question or its answer does."""
        return fingerprint(self.question)


def fingerprint(question: Question) -> str:
    """Return a short code that identifies a question with its figure and answer."""
    text = f"{question.kind}\n{question.spelled}"
    return hashlib.sha256(text.encode()).hexdigest()[:8]


@lru_cache(maxsize=64)
def check_flight_plan(seed: int) -> tuple[Planned, ...]:
    """Return the questions of a check flight in order; the same seed gives the same ones.

    Raises
    ------
    ValueError
        If the seed is below 0.
    """
    if seed < 0:
        raise ValueError(f"seed must be 0 or more, got {seed}")
    chance = Random(f"check flight/{seed}")
    return tuple(
        _planned(stage.title, chance.choice(kinds), chance.randrange(SEEDS))
        for stage in STAGES
        for kinds in stage.slots
    )


def _planned(stage: str, kind: str, seed: int) -> Planned:
    return Planned(stage, kind, seed, draw(kind, seed))
