"""The heading that intercepts an assigned radial outbound."""

from random import Random

from vorlib.practice.questions.intercepts import intercept_heading
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import question_kind


@question_kind("intercept_outbound", lessons=("05",))
def make(chance: Random) -> Question:
    """Ask for the intercept heading, outbound."""
    return intercept_heading(chance, "intercept_outbound", inbound=False)
