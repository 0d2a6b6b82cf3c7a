"""Practice in a notebook: one question at a time, marked at once, with hints and a tally."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget
import traitlets

from vorlib.practice.question import Marking, Question
from vorlib.practice.session import PracticeSet

__all__ = ["Practice", "practice"]

WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"


class PracticeWidget(anywidget.AnyWidget):
    """A box to answer in, three buttons, and what is said; it knows nothing of the questions.

    Attributes
    ----------
    prompt
        What is asked; a new prompt empties the box.
    message
        What is said beside the box about an entry that makes no sense; empty when it made sense.
    hints, feedback, tally
        What is said below, each spoken by a screen reader when it changes.
    has_hint, has_next
        Whether there is another hint, and another question.
    """

    _esm = Path(__file__).with_name("practice.js")
    _css = Path(__file__).with_name("practice.css")

    prompt = traitlets.Unicode().tag(sync=True)
    message = traitlets.Unicode().tag(sync=True)
    hints = traitlets.Unicode().tag(sync=True)
    feedback = traitlets.Unicode().tag(sync=True)
    tally = traitlets.Unicode().tag(sync=True)
    has_hint = traitlets.Bool(True).tag(sync=True)
    has_next = traitlets.Bool(True).tag(sync=True)


class Practice:
    """Questions of a practice set in turn.

    Displayed in a notebook it is live; saved without a kernel it is the question in words.

    Parameters
    ----------
    questions
        The set, which keeps the tally.
    """

    def __init__(self, questions: PracticeSet) -> None:
        self.questions = questions
        self._number, self._hints = 0, 0
        self.widget = PracticeWidget()
        self.widget.on_msg(self._pressed)
        self._ask()

    @property
    def question(self) -> Question:
        """The question that is asked now."""
        return self.questions.questions[self._number]

    @property
    def sentence(self) -> str:
        """Which question of how many this is, and its prompt."""
        return f"Question {self._number + 1} of {len(self.questions)}. {self.question.prompt}"

    def check(self, text: str) -> Marking:
        """Mark an answer and say what it shows; one that makes no sense is not counted."""
        marking = self.questions.mark(self.question, text)
        understood = marking.verdict != "not understood"
        with self.widget.hold_sync():
            self.widget.message = "" if understood else marking.message
            self.widget.feedback = self._feedback(marking) if understood else ""
            if understood:
                self.widget.tally = self.questions.summary()
        return marking

    def hint(self) -> None:
        """Show one more of the three hints."""
        hints = self.question.hints
        self._hints = min(self._hints + 1, len(hints))
        with self.widget.hold_sync():
            self.widget.hints = "\n".join(
                f"Hint {number}: {hint}"
                for number, hint in enumerate(hints[: self._hints], start=1)
            )
            self.widget.has_hint = self._hints < len(hints)

    def next(self) -> None:
        """Ask the next question, if there is one."""
        if self._number + 1 < len(self.questions):
            self._number += 1
            self._ask()

    def _ask(self) -> None:
        self._hints = 0
        with self.widget.hold_sync():
            self.widget.prompt = self.sentence
            self.widget.message = self.widget.hints = self.widget.feedback = ""
            self.widget.has_hint = True
            self.widget.has_next = self._number + 1 < len(self.questions)

    def _feedback(self, marking: Marking) -> str:
        if marking.verdict != "right":
            return marking.message
        last = "" if self.widget.has_next else " That was the last question."
        return f"{marking.message} {self.question.worked}{last}"

    def _pressed(self, _: PracticeWidget, content: dict[str, Any], __: list[Any]) -> None:
        match content:
            case {"press": "check", "text": str(text)}:
                self.check(text)
            case {"press": "hint"}:
                self.hint()
            case {"press": "next"}:
                self.next()

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        model = {"version_major": 2, "version_minor": 0, "model_id": self.widget.model_id}
        return {"text/plain": self.sentence, WIDGET_VIEW: model}


def practice(*kinds: str, count: int = 5, seed: int = 1) -> Practice:
    """Return practice with questions of some kinds, such as ``practice("reciprocal")``.

    Parameters
    ----------
    kinds
        Names of kinds of question; `vorlib.practice.kinds_of_lesson` lists those of a lesson.
    count
        How many questions.
    seed
        Another seed gives other questions.

    Raises
    ------
    ValueError
        If a kind is unknown, there is none, or the count cannot be filled.
    """
    return Practice(PracticeSet(kinds, count, seed))
