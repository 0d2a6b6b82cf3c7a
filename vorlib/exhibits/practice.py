"""Practice in a notebook: one question at a time, marked at once, with hints and a tally."""

from __future__ import annotations

from html import escape
from typing import Any

import anywidget
import ipywidgets as widgets
import traitlets

from vorlib.practice.question import Marking, Question
from vorlib.practice.session import PracticeSet

__all__ = ["Practice", "practice"]

WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"


class Status(anywidget.AnyWidget):
    """Lines of words which stay in one place of the page, so that a screen reader speaks changes.

    Parameters
    ----------
    words
        The words; a new line begins a new paragraph.
    """

    _esm = """
    export default { render({ model, el }) {
      el.classList.add("vorlib-status");
      el.setAttribute("role", "status");
      el.setAttribute("aria-live", "polite");
      const say = () => { el.textContent = model.get("words"); };
      model.on("change:words", say);
      say();
    } };
    """
    _css = """
    .vorlib-practice { max-width: 60em; padding: 4px; line-height: 1.45; overflow: visible; }
    .vorlib-practice .widget-html-content, .vorlib-practice .vorlib-status {
      font-size: calc(var(--jp-widgets-font-size, 13px) * 1.2); line-height: 1.45;
    }
    .vorlib-practice .vorlib-status { white-space: pre-line; }
    .vorlib-practice .vorlib-status:empty { display: none; }
    .vorlib-practice .vorlib-message {
      padding-left: 6px; border-left: 4px solid #9c1324; color: #9c1324;
    }
    """

    words = traitlets.Unicode().tag(sync=True)


class Practice:
    """Questions of a practice set in turn, each with a box to answer in.

    Displayed in a notebook it is live; saved without a kernel it is the question in words.

    Parameters
    ----------
    questions
        The set, which keeps the tally.
    """

    def __init__(self, questions: PracticeSet) -> None:
        self.questions = questions
        self._number, self._hints = 0, 0
        self.prompt, self.message = widgets.HTML(), widgets.HTML()
        self.hints, self.feedback, self.tally = Status(), Status(), Status()
        self.box = widgets.Text(
            description="Your answer",
            tooltip="Your answer; Enter checks it",
            style={"description_width": "initial"},
        )
        self.check_button = widgets.Button(description="Check", button_style="primary")
        self.hint_button = widgets.Button(description="Hint")
        self.next_button = widgets.Button(description="Next")
        self.box.on_msg(self._entered)
        self.check_button.on_click(lambda _: self.check())
        self.hint_button.on_click(lambda _: self.hint())
        self.next_button.on_click(lambda _: self.next())
        self.widget = widgets.VBox(
            [
                self.prompt,
                widgets.HBox([self.box, self.check_button, self.message]),
                widgets.HBox([self.hint_button, self.next_button]),
                self.hints,
                self.feedback,
                self.tally,
            ]
        )
        self.widget.add_class("vorlib-practice")
        self._ask()

    @property
    def question(self) -> Question:
        """The question that is asked now."""
        return self.questions.questions[self._number]

    @property
    def sentence(self) -> str:
        """Which question of how many this is, and its prompt."""
        return f"Question {self._number + 1} of {len(self.questions)}. {self.question.prompt}"

    def check(self) -> Marking:
        """Mark what stands in the box, and say what it shows."""
        marking = self.questions.mark(self.question, self.box.value)
        if marking.verdict == "not understood":
            self._say_beside_box(marking.message)
            self.feedback.words = ""
        else:
            self._say_beside_box("")
            self.feedback.words = self._feedback(marking)
            self.tally.words = self.questions.summary()
        return marking

    def hint(self) -> None:
        """Show one more of the three hints."""
        self._hints = min(self._hints + 1, len(self.question.hints))
        self.hints.words = "\n".join(
            f"Hint {number}: {hint}"
            for number, hint in enumerate(self.question.hints[: self._hints], start=1)
        )
        self.hint_button.disabled = self._hints == len(self.question.hints)

    def next(self) -> None:
        """Ask the next question, if there is one."""
        if self._number + 1 < len(self.questions):
            self._number += 1
            self._ask()
            self.box.focus()

    def _ask(self) -> None:
        self._hints = 0
        number, _, prompt = self.sentence.partition(". ")
        self.prompt.value = f"<p><b>{escape(number)}.</b> {escape(prompt)}</p>"
        self.box.value = ""
        self._say_beside_box("")
        self.hints.words = self.feedback.words = ""
        self.hint_button.disabled = False
        self.next_button.disabled = self._number + 1 == len(self.questions)

    def _feedback(self, marking: Marking) -> str:
        if marking.verdict != "right":
            return marking.message
        last = " That was the last question." if self.next_button.disabled else ""
        return f"{marking.message} {self.question.worked}{last}"

    def _say_beside_box(self, message: str) -> None:
        words = f'<div class="vorlib-message" role="alert">{escape(message)}</div>'
        self.message.value = words if message else ""

    def _entered(self, _: widgets.Widget, content: dict[str, Any], __: list[Any]) -> None:
        if content.get("event") == "submit":
            self.check()

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
