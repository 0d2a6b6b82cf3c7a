"""New questions of each kind, a few drawn ahead, of which the most telling can be chosen."""

from random import Random

from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import MAXIMUM_DRAWS, SEEDS, draw

AHEAD = 24  # of each kind
PASSED_OVER = 8  # of them make room for others whenever one is asked

Drawn = tuple[int, Question]  # with what it was drawn from


class Stock:
    """Questions drawn ahead, no prompt twice.

    Parameters
    ----------
    chance
        A source of chance, which others may use between.

    Attributes
    ----------
    names
        Of each kind the mistakes that its questions so far foresee; "" where one foresees none.
    """

    def __init__(self, chance: Random) -> None:
        self.names: dict[str, set[str]] = {}
        self._chance = chance
        self._ahead: dict[str, list[Drawn]] = {}
        self._prompts: set[str] = set()

    def of(self, kind: str) -> list[Drawn]:
        """Return new questions of a kind, none where there is none left."""
        ahead = self._ahead.setdefault(kind, [])
        for _ in range(MAXIMUM_DRAWS):
            if len(ahead) >= AHEAD:
                break
            seed = self._chance.randrange(SEEDS)
            question = draw(kind, seed)
            if question.prompt not in self._prompts:
                self._prompts.add(question.prompt)
                self.names.setdefault(kind, set()).update(tells(question))
                ahead.append((seed, question))
        return ahead

    def take(self, drawn: Drawn) -> None:
        """Take a question out, to be asked, and some that were passed over for it."""
        ahead = self._ahead[drawn[1].kind]
        ahead.remove(drawn)
        self._prompts -= {question.prompt for _, question in ahead[:PASSED_OVER]}
        del ahead[:PASSED_OVER]


def tells(question: Question) -> tuple[str, ...]:
    """Return which misconceptions a question could show; those that could show none come too."""
    return question.foreseen or ("",)
