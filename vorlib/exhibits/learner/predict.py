"""Predict before you see: a question, and what answers it stays covered until it is answered."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from html import escape
from typing import Any

import ipywidgets as widgets

from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.base.saved import widget_view
from vorlib.exhibits.learner.vote import ClassVote, choice_row
from vorlib.practice.learning.predictions import PredictionText, prediction_text
from vorlib.views.sentence import in_lines

__all__ = ["Prediction", "predict"]

COVERED = "Covered until you choose, or skip."
ASK_WHY = "Why? Choose the reason nearest to yours, or skip."
COVERED_UNTIL_WHY = "Covered until you give a reason, or skip."


class Prediction:
    """A question with choices and reasons; afterwards the prediction stands beside the answer.

    Nothing waits for an answer: a notebook runs on past it, and the covered state is an output
    like any other.

    Attributes
    ----------
    predicted
        The choice made; empty as long as there is none, and when it was skipped.
    why
        The reason given for it; empty as long as there is none, and when it was skipped.
    revealed
        Whether the answer is shown.
    buttons
        One for each choice.
    vote
        The counters of a class.
    below
        The box in which what follows stands once the answer is shown.
    """

    def __init__(self, text: PredictionText, then: Exhibit[Any] | None = None) -> None:
        self.text, self.then = text, then
        self.question, self.choices, self.answer = text.question, text.choices, text.answer
        self.predicted, self.why, self.revealed = "", "", False
        self.buttons = [self._button(choice, self.choose) for choice in text.choices]
        skip = plain(
            widgets.Button,
            description="Skip",
            tooltip="See the answer without a prediction",
            classes="vorlib-skip",
        )
        skip.on_click(lambda _: self.skip())
        self._row = choice_row([*self.buttons, skip])
        self._reasons = choice_row([])
        self._result = plain(widgets.HTML)
        self.vote = ClassVote(text.choices)
        self.below = plain(widgets.VBox)  # a column, as an exhibit takes its width from around it
        asked = plain(widgets.HTML, f'<div class="vorlib-question">{escape(self.question)}</div>')
        shown = [asked, self._row, self.vote.widget, self._reasons, self._result, self.below]
        self.widget = plain(widgets.VBox, shown, classes="vorlib-prediction")
        self._show()

    @cached_property
    def reason_buttons(self) -> list[widgets.Button]:
        """One for each reason; they show after a choice."""
        return [self._button(reason, self.give_reason) for reason in self.text.reasons]

    @cached_property
    def _why(self) -> widgets.HTML:
        return plain(widgets.HTML, "<b>Why?</b>")

    def _button(self, words: str, press: Callable[[str], None]) -> widgets.Button:
        button = plain(widgets.Button, description=words)
        button.on_click(lambda _: press(words))
        return button

    def choose(self, choice: str) -> None:
        """Predict `choice`; it can be changed until a reason is given, and not afterwards.

        Raises
        ------
        ValueError
            If it is none of the choices.
        """
        if choice not in self.choices:
            raise ValueError(f"choice must be one of {list(self.choices)}, got {choice!r}")
        if not self.revealed:
            self.predicted = choice
            self._show()

    def give_reason(self, reason: str) -> None:
        """Say why, and see the answer beside the prediction.

        Raises
        ------
        ValueError
            If nothing was predicted, or it is none of the reasons.
        """
        if not self.predicted:
            raise ValueError(f"predict one of {list(self.choices)} before you give a reason")
        if reason not in self.text.reasons:
            raise ValueError(f"reason must be one of {list(self.text.reasons)}, got {reason!r}")
        if not self.revealed:
            self.why, self.revealed = reason, True
            self._show()

    def skip(self) -> None:
        """See the answer without a prediction or, after a choice, without a reason."""
        self.revealed = True
        self._show()

    @property
    def sentence(self) -> str:
        """The question or, once revealed, the prediction beside the answer, and what explains it.

        Between the two it asks for the reason.
        """
        if self.revealed:
            return " ".join(filter(None, [self.question, *self._verdict, self.text.because]))
        if self.predicted:
            offered = " / ".join(self.text.reasons)
            return f"{self.question} You predicted: {self.predicted}. {ASK_WHY} ({offered})"
        return f"{self.question} ({' / '.join(self.choices)}) {COVERED}"

    @property
    def _verdict(self) -> tuple[str, str, str]:
        """What was predicted, the answer, and how the class voted."""
        yours = f"You predicted: {self.predicted}." if self.predicted else "You made no prediction."
        if self.why:
            yours = f"{yours} Your reason: {self.why}."
        answer = f"Answer: {self.answer}. Reason: {self.text.reason}."
        return yours, answer, self.vote.words

    def _show(self) -> None:
        self._mark(self.buttons, self.predicted, self.answer)
        self._row.children[-1].disabled = self.revealed
        if self.predicted and (self.why or not self.revealed):
            self._mark(self.reason_buttons, self.why, self.text.reason)
            self._reasons.children = (self._why, *self.reason_buttons)
        else:
            self._reasons.children = ()
        self._result.value = f'<div class="vorlib-verdict" role="status">{self._said()}</div>'
        if self.revealed:
            self.widget.add_class("vorlib-told")  # a page then uncovers what explains the answer
            self.vote.close()
            if self.then is not None:
                self.below.children = (self.then.widget,)

    def _mark(self, buttons: list[widgets.Button], chosen: str, right: str) -> None:
        """Show on a row of buttons what was chosen and, once revealed, what is right."""
        for button in buttons:
            words = button.description
            button.disabled = self.revealed
            button.icon = "arrow-right" if words == chosen else ""
            if self.revealed and words == right:
                button.icon = "check"
                button.add_class("vorlib-answer")
            elif self.revealed and words == chosen:
                button.icon = "times"
            (button.add_class if words == chosen else button.remove_class)("vorlib-predicted")

    def _said(self) -> str:
        """Return what stands under the choices, in HTML."""
        if not self.revealed:
            said = COVERED_UNTIL_WHY if self.predicted else COVERED
            return f'<span class="vorlib-covered">{escape(said)}</span>'
        lines = "<br>".join(f"<b>{escape(line)}</b>" for line in self._verdict if line)
        return f"{lines}<br>{escape(self.text.because)}"

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        bundle: dict[str, Any] = {"text/plain": in_lines(self.sentence), **widget_view(self.widget)}
        if self.then is not None and self.revealed:
            bundle["image/svg+xml"] = self.then._repr_mimebundle_()["image/svg+xml"]
        return bundle


@offered
def predict(prediction_id: str, then: Exhibit[Any] | None = None) -> Prediction:
    """Return a question of a lesson that is to be answered before anything is revealed.

    Parameters
    ----------
    prediction_id
        Lesson and number, such as "02-1".
    then
        An exhibit that stays covered until a choice is made or the question skipped.

    Raises
    ------
    PredictionError
        If there is no prediction of that id.
    """
    return Prediction(prediction_text(prediction_id), then)
