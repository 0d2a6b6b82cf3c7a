"""Who in a class misunderstands what: learners by misconceptions, counted from their records."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

from vorlib.practice.classroom.folder import ClassRecords, FileLeftOut
from vorlib.practice.learning.attempt import SOLUTION_SHOWN, Attempt
from vorlib.practice.learning.diagnosis import LATEST, chances, diagnose, first_tries
from vorlib.practice.record.exchange import Export


class ClassFinding(Enum):
    """What the latest questions that could show a misconception say of a learner."""

    HOLDS = "holds it"
    SHOWED = "showed it, perhaps a slip"
    CLEAR = "could have shown it, and did not"
    NOT_ASKED = "never asked"


@dataclass(frozen=True)
class Evidence:
    """The evidence about one learner and one misconception.

    Attributes
    ----------
    finding
        What it comes to, by the diagnosis that practice makes.
    showed, asked
        Behind how many first answers it was, of how many of the latest, up to 8, that spoke for or
        against it.
    """

    finding: ClassFinding
    showed: int
    asked: int


NAMELESS = "switch the numbers off to see the reason"
NOTHING = Evidence(ClassFinding.NOT_ASKED, 0, 0)


@dataclass(frozen=True)
class Score:
    """How many first answers were right, of how many."""

    right: int
    answered: int

    def __str__(self) -> str:
        return f"{self.right:,} of {self.answered:,}"

    @property
    def share(self) -> float:
        """The share that was right; 0 without answers."""
        return self.right / self.answered if self.answered else 0.0


def is_right(attempt: Attempt) -> bool:
    """Tell whether an answer was right without the solution having been shown."""
    return attempt.verdict == "right" and attempt.hints < SOLUTION_SHOWN


def score(attempts: Iterable[Attempt]) -> Score:
    """Return how many of the answers are right."""
    rights = [is_right(attempt) for attempt in attempts]
    return Score(sum(rights), len(rights))


class Learner:
    """One learner of a class.

    Parameters
    ----------
    export
        The name, and the answers in the order of time.
    """

    def __init__(self, export: Export) -> None:
        self.name, self.attempts = export.learner, export.attempts

    @cached_property
    def first_tries(self) -> list[Attempt]:
        """The first answer to each question."""
        return first_tries(self.attempts)

    @cached_property
    def holds(self) -> tuple[str, ...]:
        """Names of the misconceptions held now, the most often shown first."""
        return diagnose(self.first_tries)

    @cached_property
    def evidence(self) -> dict[str, Evidence]:
        """The evidence about each misconception that a question could have shown."""
        return {
            name: self._weighed(name, showed[-LATEST:])
            for name, showed in chances(self.first_tries, self.holds).items()
        }

    def about(self, misconception: str) -> Evidence:
        """Return what there is about one misconception."""
        return self.evidence.get(misconception, NOTHING)

    def _weighed(self, name: str, showed: list[bool]) -> Evidence:
        if name in self.holds:
            finding = ClassFinding.HOLDS
        else:
            finding = ClassFinding.SHOWED if any(showed) else ClassFinding.CLEAR
        return Evidence(finding, sum(showed), len(showed))


class ClassResults:
    """The results of a class.

    Parameters
    ----------
    records
        What the class handed in.
    """

    def __init__(self, records: ClassRecords) -> None:
        self.learners = tuple(map(Learner, records.learners))
        self.left_out = records.left_out
        self._records = records

    @property
    def answered(self) -> int:
        """How many answers there are."""
        return sum(len(learner.attempts) for learner in self.learners)

    @cached_property
    def misconceptions(self) -> tuple[str, ...]:
        """Misconceptions shown lately: first those that most hold, then those that most showed."""
        held, showed = self._counted(ClassFinding.HOLDS), self._counted(ClassFinding.SHOWED)
        names = sorted({*held, *showed})
        return tuple(sorted(names, key=lambda name: (-held[name], -showed[name])))

    def who(self, misconception: str, finding: ClassFinding) -> tuple[str, ...]:
        """Return the names of the learners of whom this was found."""
        return tuple(
            learner.name
            for learner in self.learners
            if learner.about(misconception).finding is finding
        )

    def asked(self, misconception: str) -> int:
        """Return how many learners a question could have shown it of."""
        return len(self.learners) - len(self.who(misconception, ClassFinding.NOT_ASKED))

    def without_names(self) -> "ClassResults":
        """Return the same results with numbers for names, to show them to the class.

        The numbers follow the keys of the answers, which are random: to count through the class
        by the alphabet gives no name away. Files left out are numbered too.
        """
        exports = sorted(
            (export.attempts for export in self._records.learners),
            key=lambda attempts: [attempt.key for attempt in attempts],
        )
        width = len(str(len(exports)))
        learners = (Export(f"Learner {n:0{width}}", a) for n, a in enumerate(exports, start=1))
        files = (FileLeftOut(f"File {n + 1}", NAMELESS) for n in range(len(self.left_out)))
        return ClassResults(ClassRecords(tuple(learners), tuple(files)))

    def _counted(self, finding: ClassFinding) -> Counter[str]:
        return Counter(
            name
            for learner in self.learners
            for name, evidence in learner.evidence.items()
            if evidence.finding is finding
        )
