"""What is heard where an ident should be: letters, or nothing."""

from dataclasses import dataclass

from vorlib.morse import CODE
from vorlib.practice.questions.answers import Answer

MISSING = "missing"
_SILENCES = {MISSING, "none", "nothing", "no ident", "no", "silence"}


@dataclass(frozen=True)
class Heard:
    """The letters of an ident, or "missing" when there are none to hear.

    >>> Heard().parse("q l n"), Heard().parse("Nothing.")
    ('QLN', 'missing')
    """

    def parse(self, text: str) -> str:
        """Read letters, together or apart, or one of the words for hearing nothing."""
        plain = " ".join(text.casefold().strip(" .!").split())
        if plain in _SILENCES:
            return MISSING
        letters = "".join(c for c in plain.upper() if c not in " -,")
        if not letters or any(letter not in CODE for letter in letters):
            raise ValueError("I need the letters you hear, such as QLN, or the word missing")
        return letters

    def apart(self, one: Answer, other: Answer) -> float:
        """Return 0 for the same letters, infinity for others."""
        return 0.0 if one == other else float("inf")

    def show(self, answer: Answer) -> str:
        """Write the letters, or missing."""
        return str(answer)


HEARD = Heard()
