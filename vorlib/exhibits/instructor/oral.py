"""Questions to ask a class aloud, one at a time on the projector, with the answer covered.

One button, or a clicker's key where the page is presented, uncovers the answer and then goes on.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from vorlib.core.words import spoken_count
from vorlib.exhibits.base.control import Changes, Control
from vorlib.exhibits.base.controls import Button, ChoiceControl
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.inputs import Opened, Words, paragraphs
from vorlib.exhibits.base.registry import exhibit
from vorlib.practice.classroom.demo_class import demo_class
from vorlib.practice.classroom.folder import ClassRecords, read_class
from vorlib.practice.classroom.oral import (
    OralQuestion,
    OralSubject,
    beliefs_by_kind,
    oral_questions,
)
from vorlib.practice.classroom.results import ClassResults
from vorlib.practice.learning.lessons import lesson_title
from vorlib.practice.learning.topic import ALL, lessons_with_questions
from vorlib.practice.questions.standards import ELEMENTS
from vorlib.views.classroom.oral_question import oral_picture, oral_words
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme

__all__ = ["OralState", "oral"]

DEMONSTRATION = "demonstration"
NO_CLASS: Opened[ClassRecords | None] = Opened("", None)


@dataclass(frozen=True)
class OralState:
    """Which question is shown, and whether its answer is.

    Attributes
    ----------
    subject
        In words, as `OralSubject.read` takes them.
    number
        Of the question, from 1.
    revealed
        Whether the answer is shown.
    seed
        Another gives other questions.
    records
        The class whose weak points come first; without one the order is by chance.
    """

    subject: str = "05"
    number: int = 1
    revealed: bool = False
    seed: int = 1
    records: Opened[ClassRecords | None] = NO_CLASS

    @property
    def questions(self) -> tuple[OralQuestion, ...]:
        """All that will be asked."""
        return _questions(self.subject, self.seed, self.records)

    @property
    def asked(self) -> OralQuestion:
        """The one that is shown."""
        return self.questions[self.number - 1]

    @property
    def head(self) -> str:
        """Which question of how many this is; with the answer also why it was drawn."""
        which = f"Question {self.number} of {len(self.questions)}"
        why = self.asked.why if self.revealed else ""
        return f"{which}. {why[:1].upper()}{why[1:]}" if why else which

    @property
    def is_last(self) -> bool:
        """Whether nothing comes after what is shown."""
        return self.revealed and self.number == len(self.questions)

    @property
    def is_first(self) -> bool:
        """Whether nothing comes before what is shown."""
        return not self.revealed and self.number == 1

    def on(self) -> Changes:
        """Return what uncovers the answer, or goes on to the next question."""
        if self.is_last:
            return {}
        if self.revealed:
            return {"number": self.number + 1, "revealed": False}
        return {"revealed": True}

    def back(self) -> Changes:
        """Return what covers the answer again, or goes back to the question before."""
        if self.is_first:
            return {}
        return {"revealed": False} if self.revealed else {"number": self.number - 1}


@lru_cache(maxsize=8)
def _drawn(subject: str, seed: int) -> tuple[OralQuestion, ...]:
    return oral_questions(OralSubject.read(subject), seed)


def _questions(
    subject: str, seed: int, records: Opened[ClassRecords | None]
) -> tuple[OralQuestion, ...]:
    if records.content is None:
        return _drawn(subject, seed)
    return _for_class(subject, seed, records.content)


@lru_cache(maxsize=4)
def _for_class(subject: str, seed: int, records: ClassRecords) -> tuple[OralQuestion, ...]:
    return oral_questions(OralSubject.read(subject), seed, ClassResults(records))


def draw(state: OralState, theme: Theme) -> Picture:
    """Return the question, and its answer if that is shown."""
    return oral_picture(state.asked.question, state.head, state.revealed, theme)


def sentence(state: OralState) -> str:
    """Say what the picture shows."""
    return oral_words(state.asked.question, state.head, state.revealed)


class _On(Button):
    """Uncovers the answer, and then goes on."""

    def __init__(self) -> None:
        super().__init__("number", "Show the answer", OralState.on)
        self.button.add_class("vorlib-clicker-on")

    def follow(self, state: OralState) -> None:
        """Say what comes next."""
        self.button.description = "Next question" if state.revealed else "Show the answer"
        self.button.disabled = state.is_last


class _Back(Button):
    """Goes back."""

    def __init__(self) -> None:
        super().__init__("number", "Back", OralState.back)
        self.button.add_class("vorlib-clicker-back")

    def follow(self, state: OralState) -> None:
        """Disable the button where nothing comes before."""
        self.button.disabled = state.is_first


def _state(subject: str = "05", folder: str = "") -> OralState:
    return OralState(OralSubject.read(subject).words, records=_opened(folder))


@exhibit(lesson="round", state=_state)
def oral(subject: str = "05", folder: str = "") -> Exhibit[OralState]:
    """Return questions to ask a class aloud.

    Parameters
    ----------
    subject
        A lesson such as "05", an element by its code, a misconception by its name, or "all".
    folder
        With the class's exported records, or "demonstration": its weak points come first.

    Raises
    ------
    ValueError
        If there is no such subject or folder.
    """
    controls = [
        _from_the_start(ChoiceControl("subject", "Ask about", _subjects())),
        _from_the_start(_class_folder()),
        _Back().put("transport"),
        _On().put("transport"),
        _from_the_start(Button("seed", "Other questions", lambda state: {"seed": state.seed + 1})),
    ]
    made = Exhibit(_state(subject, folder), draw, sentence, controls)
    made.widget.add_class("vorlib-oral")
    return made


def _class_folder() -> Words:
    return Words(
        "records",
        "Class folder",
        _opened,
        lambda records: records.name,
        example="such as ~/class/june",
        note=_note,
    )


def _subjects() -> dict[str, str]:
    """Return what the list says and what it stands for: lessons, elements, misconceptions."""
    lessons = {f"{number} {lesson_title(number)}": number for number in lessons_with_questions()}
    elements = {f"{code} {title}": code for code, title in ELEMENTS.items()}
    beliefs = sorted(frozenset[str]().union(*beliefs_by_kind().values()))
    return {**lessons, "The whole course": ALL, **elements, **{f"if held: {b}": b for b in beliefs}}


def _from_the_start(control: Control) -> Control:
    """Return a control whose change begins at the first question again, covered."""
    control.consequences = lambda state, value: {"number": 1, "revealed": False}
    return control


def _opened(folder: str) -> Opened[ClassRecords | None]:
    if folder in ("", DEMONSTRATION):
        return Opened(folder, demo_class() if folder else None)
    return Opened(folder, read_class(folder))


def _note(state: OralState) -> str:
    """Return whose weak points come first, as HTML."""
    if state.records.content is None:
        return paragraphs("No class: the order is random.")
    learners = spoken_count(len(state.records.content.learners), "learner")
    return paragraphs(
        f"The weak points of {learners} come first. No name is shown, and nothing is kept."
    )
