"""A set of questions worked through in one sitting, which grows where a slip asks for it."""

from collections import Counter
from collections.abc import Iterator, Sequence
from random import Random
from typing import Literal

from vorlib.practice.learning.attempt import SEPARATOR, Attempt
from vorlib.practice.learning.diagnosis import explain, first_tries, guesses, unsettled
from vorlib.practice.learning.explanation import Answers
from vorlib.practice.learning.stock import Drawn, Stock, tells
from vorlib.practice.learning.telling import Doubt
from vorlib.practice.questions.question import Marking, Question, mark

GUESSED = "Many answers look guessed. Go back to the lesson, and take a hint where you are unsure."

State = Literal["not attempted", "wrong", "close", "right"]


class PracticeSet:
    """Questions of some kinds in a shuffled order, no prompt twice.

    First comes one of each kind, then always one that could show the misconception which the fewest
    so far could show, unless what was answered asks for another.

    Parameters
    ----------
    kinds
        Names of kinds of question.
    count
        How many questions, 1 or more.
    seed
        The same seed gives the same questions.

    Attributes
    ----------
    kinds
        The kinds, as given.
    questions
        The questions.
    attempts
        The answers that made sense, in their order.

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
        self.kinds, self._given = tuple(kinds), (count, seed)
        self.questions: list[Question] = []
        self.attempts: list[Attempt] = []
        self._seeds: dict[str, int] = {}  # by prompt
        self._foreseen: Counter[str] = Counter()
        self._chance = Random(f"set/{seed}")
        self._stock = Stock(self._chance)
        self._fill(self._shuffled(self.kinds)[::-1], count)
        if len(self) < count:
            raise ValueError(
                f"count must be smaller: {', '.join(kinds)} have no new question after {len(self)}"
            )

    def __iter__(self) -> Iterator[Question]:
        return iter(self.questions)

    def __len__(self) -> int:
        return len(self.questions)

    def fresh(self) -> "PracticeSet":
        """Return the set as it was at first, for somebody else."""
        return PracticeSet(self.kinds, *self._given)

    @property
    def right(self) -> int:
        """How many of the questions have been answered right, at whichever try."""
        return sum(self.state(question) == "right" for question in self)

    @property
    def tally(self) -> Counter[str]:
        """How often each misconception, by name, has been behind an answer."""
        return Counter(explain([a.shown for a in self.attempts if a.shown]))

    def state(self, question: Question) -> State:
        """Return how a question of the set stands: right once it was, else as its last answer."""
        here = question.kind, self._seeds[question.prompt]
        verdicts = [a.verdict for a in self.attempts if (a.kind, a.seed) == here]
        if not verdicts:
            return "not attempted"
        return "right" if "right" in verdicts else verdicts[-1]

    def mark(
        self, question: Question, text: str, *, hints: int = 0, taken_s: float = 0.0
    ) -> Marking:
        """Mark an answer and keep what it shows in `attempts`, unless it makes no sense."""
        marking = mark(question, text)
        if marking.verdict != "not understood":
            self.attempts.append(
                Attempt(
                    kind=question.kind,
                    seed=self._seeds[question.prompt],
                    verdict=marking.verdict,
                    misconception=SEPARATOR.join(marking.names),
                    foreseen=question.foreseen,
                    hints=hints,
                    taken_s=taken_s,
                )
            )
        return marking

    def summary(self) -> str:
        """Return in a sentence or two how many are right and which mistakes came up."""
        score = f"{self.right} of {len(self)} right."
        if guesses(self.attempts):
            return f"{score} {GUESSED}"
        if not self.tally:
            return score
        mistakes = ", ".join(f"{name} ({times})" for name, times in self.tally.most_common())
        return f"{score} Look again at: {mistakes}."

    # ---- what comes next

    def plan(self, kinds: Sequence[str], asked: int) -> None:
        """Draw all but the first *asked* questions again, of the kinds in that order."""
        count = len(self)
        while len(self) > asked:
            self._take_out(asked)
        self._fill(kinds, count)

    def follow_up(self, asked: int) -> bool:
        """See to it that the question after the first *asked* tells most; say if one was added.

        One is added where it would tell a misconception from a slip. Else the next question is
        changed for one that tells more, once each of several kinds was asked or something is held.
        """
        answers = Answers(first_tries(self.attempts))
        slips = unsettled(self.attempts, answers.held)
        follows = bool(answers.held) or 1 < len(self.kinds) <= asked
        if not slips and (asked >= len(self) or not follows):
            return False
        names = self._stock.names
        kinds = [kind for kind in names if not slips or names[kind].intersection(slips)]
        new = [drawn for kind in self._shuffled(kinds) for drawn in self._stock.of(kind)]
        if slips:
            new = [drawn for drawn in new if not set(slips).isdisjoint(drawn[1].foreseen)]
        if not new:
            return False
        if not slips:
            self._take_out(asked)
        doubt = Doubt(answers, sorted(set().union(*names.values())))
        self._insert(asked, max(new, key=lambda drawn: doubt.told_by(drawn[1])))
        return bool(slips)

    def choose(self, kind: str, asked: int) -> bool:
        """Add a question of a kind after the first *asked*, if there is a new one."""
        return self._add(kind, asked)

    def _fill(self, order: Sequence[str], count: int) -> None:
        """Add questions up to a count, or up to the first kind that has no new one."""
        while len(self) < count and self._add(self._next_kind(order), len(self)):
            pass

    def _next_kind(self, order: Sequence[str]) -> str:
        """Return the kind that has most to tell; at first each in its order."""
        asked = Counter(question.kind for question in self)
        for kind in order:
            if not asked[kind]:
                return kind
        return min(
            self._shuffled(order), key=lambda kind: (self._least_foreseen(kind), asked[kind])
        )

    def _shuffled(self, kinds: Sequence[str]) -> list[str]:
        return self._chance.sample(kinds, len(kinds))

    def _least_foreseen(self, kind: str) -> int:
        """Return how many questions could show the misconception of a kind that fewest could."""
        return min(self._foreseen[name] for name in self._stock.names[kind])

    def _add(self, kind: str, place: int) -> bool:
        """Insert the most telling of a few new questions of a kind, if there is any."""

        def known(drawn: Drawn) -> int:
            return min(self._foreseen[name] for name in tells(drawn[1]))

        new = self._stock.of(kind)
        if new:
            self._insert(place, min(new, key=known))
        return bool(new)

    def _insert(self, place: int, drawn: Drawn) -> None:
        self._stock.take(drawn)
        seed, question = drawn
        self._seeds[question.prompt] = seed
        self._foreseen.update(tells(question))
        self.questions.insert(place, question)

    def _take_out(self, place: int) -> None:
        question = self.questions.pop(place)
        del self._seeds[question.prompt]
        self._foreseen.subtract(tells(question))
