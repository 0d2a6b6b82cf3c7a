"""Which two of three radials give the best fix."""

from itertools import combinations
from random import Random

from vorlib.core.angles import format_direction, wrap_360
from vorlib.practice.questions.answers import ChoiceAnswer
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.standards import POSITION
from vorlib.procedures.fixing import cut_angle_deg

NAMES = ("A", "B", "C")
PAIR = ChoiceAnswer({f"{a} and {b}": (f"{a}{b}".lower(), f"{b} and {a}".lower(), f"{b}{a}".lower(),
                                f"{a} {b}".lower(), f"{a}, {b}".lower())
               for a, b in combinations(NAMES, 2)})  # fmt: skip


@question_kind("best_pair", lessons=("09",))
def make(chance: Random) -> Question:
    """Ask for the pair that cuts best; another pair is nearly parallel but looks far apart."""
    first = chance.randint(1, 360)
    turn = chance.choice((1, -1))
    second = first + turn * chance.randint(93, 105)
    third = second + turn * chance.randint(45, 58)
    radials = [round(float(wrap_360(r))) for r in (first, second, third)]
    places = chance.sample(range(3), 3)  # which radial each of A, B and C has
    by_name = {name: radials[place] for name, place in zip(NAMES, places, strict=True)}

    def pair(*numbers: int) -> str:
        return " and ".join(sorted(NAMES[places.index(number)] for number in numbers))

    cuts = {
        f"{a} and {b}": float(cut_angle_deg(by_name[a], by_name[b]))
        for a, b in combinations(NAMES, 2)
    }
    best = max(cuts, key=lambda names: cuts[names])
    told = ", ".join(f"{name} {format_direction(radial)}" for name, radial in by_name.items())
    cut_words = "; ".join(f"{names} {cut:.0f}" for names, cut in cuts.items())
    return Question(
        kind="best_pair",
        prompt=f"Three stations, A, B and C, are about equally far away. You are on these radials: "
        f"{told}. Which two give the best fix? (such as A and B)",
        form=PAIR,
        answer=best,
        tolerance=0.0,
        tolerance_why="One pair cuts best.",
        hints=(
            "A fix is best where the two lines cross most squarely.",
            "Subtract the radials. 90 is best; 0 and 180 both mean that the lines run parallel.",
            f"The lines cut at, in degrees: {cut_words}.",
        ),
        worked=f"The cut angles are {cut_words}: {best} cut nearest to 90.",
        element=POSITION,
        level="understanding",
        misconceptions=(
            Misconception(
                "widest difference taken for the best cut",
                pair(0, 2),
                "The stations lie in nearly opposite directions, which looks well spread.",
                "Lay a ruler along both lines. How do two radials of 010 and 180 cross?",
            ),
            Misconception(
                "neighboring radials taken for the best cut",
                pair(1, 2),
                "Stations on the same side seem to confirm each other.",
                "If both lines lean the same way, how far can the crossing slide along them?",
            ),
        ),
    )
