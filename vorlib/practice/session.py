"""A set of questions worked through in one sitting, with a tally of the mistakes made."""

from collections import Counter
from collections.abc import Iterator, Sequence
from random import Random

from vorlib.practice.question import Marking, Question, mark
from vorlib.practice.registry import draw

SEEDS = 10**9
MAXIMUM_DRAWS = 100  # after which a kind is taken to have no new question left


class PracticeSet:
    """Questions of some kinds in a shuffled order, no prompt twice, kept in memory only.

    Parameters
    ----------
    kinds
        Names of kinds of question; each comes up equally often, or once more than another.
    count
        How many questions, 1 or more.
    seed
        The same seed gives the same questions.

    Attributes
    ----------
    questions
        The questions.
    tally
        How often each misconception, by name, has been behind an answer.

    Raises
    ------
    ValueError
        If a kind is unknown, there is none, or the count is below 1 or more than there are
        different questions.
    """

    def __init__(self, kinds: Sequence[str], count: int, seed: int) -> None:
        if not kinds:
            raise ValueError("kinds must hold at least one kind of question, got none")
        if count < 1:
            raise ValueError(f"count must be 1 or more, got {count}")
        self.questions = tuple(_questions(kinds, count, Random(f"set/{seed}")))
        self.tally: Counter[str] = Counter()
        self._right: set[str] = set()

    def __iter__(self) -> Iterator[Question]:
        return iter(self.questions)

    def __len__(self) -> int:
        return len(self.questions)

    @property
    def right(self) -> int:
        """How many of the questions have been answered right, at whichever try."""
        return len(self._right)

    def mark(self, question: Question, text: str) -> Marking:
        """Mark an answer to a question and count what it shows."""
        marking = mark(question, text)
        if marking.verdict == "right":
            self._right.add(question.prompt)
        if marking.misconception is not None:
            self.tally[marking.misconception.name] += 1
        return marking

    def summary(self) -> str:
        """Return in a sentence or two how many are right and which mistakes came up."""
        score = f"{self.right} of {len(self)} right."
        if not self.tally:
            return score
        mistakes = ", ".join(f"{name} ({times})" for name, times in self.tally.most_common())
        return f"{score} Look again at: {mistakes}."


def _questions(kinds: Sequence[str], count: int, chance: Random) -> Iterator[Question]:
    seen: set[str] = set()
    round_of_kinds: list[str] = []
    for _ in range(count):
        if not round_of_kinds:
            round_of_kinds = chance.sample(list(kinds), len(kinds))
        kind = round_of_kinds.pop()
        question = _new_question(kind, seen, chance)
        seen.add(question.prompt)
        yield question


def _new_question(kind: str, seen: set[str], chance: Random) -> Question:
    for _ in range(MAXIMUM_DRAWS):
        question = draw(kind, chance.randrange(SEEDS))
        if question.prompt not in seen:
            return question
    raise ValueError(f"count must be smaller: {kind!r} has no new question after {len(seen)}")
