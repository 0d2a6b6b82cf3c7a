"""The topic of questions: one or more lessons, one kind of question, or the whole course."""

from __future__ import annotations

import re
from dataclasses import dataclass

from vorlib.core.arguments import quoted
from vorlib.practice.learning.lessons import lesson_title
from vorlib.practice.questions.registry import all_kinds, kind_words, kinds_of_lesson

ALL = "all"
MOST_LESSONS = 4  # in one topic: the code of a worksheet, with the topic in it, is typed by hand


@dataclass(frozen=True)
class Topic:
    """The topic of a worksheet or a practice set.

    Attributes
    ----------
    name
        As it stands in the code of a worksheet: "05", "05+06", the name of a kind of question, or
        "all".
    kinds
        Names of its kinds of question.
    lessons
        Numbers of the lessons it touches, in their order.
    """

    name: str
    kinds: tuple[str, ...]
    lessons: tuple[str, ...]

    @classmethod
    def read(cls, words: str) -> Topic:
        """Return the topic that is meant.

        Parameters
        ----------
        words
            A lesson's number such as "05" or "5", up to four of them with commas or plus signs
            between, the name of one kind of question, or "all".

        Raises
        ------
        ValueError
            If there is no such topic; the message says which there are.
        """
        plain = words.strip().casefold()
        if plain == ALL:
            return cls(ALL, tuple(all_kinds()), lessons_with_questions())
        kind = re.sub(r"[\s-]+", "_", plain)
        if kind in all_kinds():
            return cls(kind, (kind,), all_kinds()[kind].lessons)
        known = lessons_with_questions()
        numbers = sorted({part.strip().zfill(2) for part in re.split(r"[,+]", plain)})
        if not set(numbers) <= set(known):
            raise ValueError(
                f"the topic must be a lesson ({', '.join(known)}), all, or a kind of question "
                f"such as {next(iter(all_kinds()))}, got {quoted(words)}"
            )
        if len(numbers) > MOST_LESSONS:
            raise ValueError(f"the topic must be at most {MOST_LESSONS} lessons, or all")
        kinds = dict.fromkeys(kind for n in numbers for kind in kinds_of_lesson(n))
        return cls("+".join(numbers), tuple(kinds), tuple(numbers))

    @property
    def title(self) -> str:
        """The topic in words, for the head of a sheet."""
        if self.name == ALL:
            return "The whole course"
        if self.name in all_kinds():
            return kind_words(self.name).capitalize()
        return ", ".join(lesson_title(number) for number in self.lessons)


def lessons_with_questions() -> tuple[str, ...]:
    """Numbers of the lessons that have questions."""
    return tuple(sorted({lesson for kind in all_kinds().values() for lesson in kind.lessons}))
