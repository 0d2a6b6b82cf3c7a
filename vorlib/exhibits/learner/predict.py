"""Predict before you see: a question, and what answers it stays covered until it is answered."""

from __future__ import annotations

from html import escape
from typing import Any

import ipywidgets as widgets

from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.base.saved import widget_view
from vorlib.exhibits.learner.predictions import PredictionText, prediction_text
from vorlib.views.sentence import in_lines

__all__ = ["Prediction", "predict"]

COVERED = "Covered until you choose, or skip."


class Prediction:
    """A question with choices; afterwards what was predicted beside what is so, and why.

    Nothing waits for an answer: a notebook runs on past it, and the covered state is an output
    like any other.

    Attributes
    ----------
    predicted
        The choice made; empty as long as there is none, and when it was skipped.
    revealed
        Whether the answer is shown.
    buttons
        One for each choice.
    below
        The box in which what follows stands once the answer is shown.
    """

    def __init__(self, text: PredictionText, then: Exhibit[Any] | None = None) -> None:
        self.question, self.choices = text.question, text.choices
        self.answer, self.because, self.then = text.answer, text.because, then
        self.predicted = ""
        self.revealed = False
        self.buttons = [self._button(choice) for choice in self.choices]
        skip = widgets.Button(description="Skip", tooltip="See the answer without a prediction")
        skip.on_click(lambda _: self.skip())
        self._row = widgets.Box([*self.buttons, skip.add_class("vorlib-skip")])
        self._result = widgets.HTML()
        self.below = widgets.Box()
        asked = widgets.HTML(f'<div class="vorlib-question">{escape(self.question)}</div>')
        self.widget = widgets.VBox(
            [asked, self._row.add_class("vorlib-choices"), self._result, self.below]
        ).add_class("vorlib-prediction")
        self._show()

    def _button(self, choice: str) -> widgets.Button:
        button = widgets.Button(description=choice)
        button.on_click(lambda _: self.choose(choice))
        return button

    def choose(self, choice: str) -> None:
        """Predict `choice` and see what is so; once the answer is shown, the first one stands.

        Raises
        ------
        ValueError
            If it is none of the choices.
        """
        if choice not in self.choices:
            raise ValueError(f"choice must be one of {list(self.choices)}, got {choice!r}")
        if not self.revealed:
            self.predicted, self.revealed = choice, True
            self._show()

    def skip(self) -> None:
        """See what is so without a prediction."""
        self.revealed = True
        self._show()

    @property
    def sentence(self) -> str:
        """The question or, once revealed, the prediction beside the answer and the reason."""
        if not self.revealed:
            return f"{self.question} ({' / '.join(self.choices)}) {COVERED}"
        return f"{self.question} {self._verdict} {self.because}"

    @property
    def _verdict(self) -> str:
        if not self.predicted:
            return f"You made no prediction. What is so: {self.answer}."
        if self.predicted == self.answer:
            return f"You predicted: {self.predicted}. And so it is."
        return f"You predicted: {self.predicted}. What is so: {self.answer}."

    def _show(self) -> None:
        for button in self._row.children:
            button.disabled = self.revealed
        for button, choice in zip(self.buttons, self.choices, strict=True):
            if self.revealed and choice == self.answer:
                button.icon = "check"
                button.add_class("vorlib-answer")
            if self.predicted == choice:
                button.add_class("vorlib-predicted")
        verdict = f"<b>{escape(self._verdict)}</b> {escape(self.because)}"
        shown = verdict if self.revealed else f'<span class="vorlib-covered">{COVERED}</span>'
        self._result.value = f'<div class="vorlib-verdict" role="status">{shown}</div>'
        if self.then is not None and self.revealed:
            self.below.children = (self.then.widget,)

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
