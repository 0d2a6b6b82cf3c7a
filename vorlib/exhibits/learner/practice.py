"""Practice in a notebook: one question at a time, marked at once, with hints and a tally.

A learner who gives a name has each answer saved before its marking is shown.
"""

from __future__ import annotations

import time
from typing import Any

import traitlets

from vorlib.core.words import as_sentence
from vorlib.exhibits.base.answering import Answering
from vorlib.exhibits.base.html import sized_svg
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.base.saved import still, widget_view
from vorlib.exhibits.base.scripts import joined
from vorlib.exhibits.learner.naming import NameTraits
from vorlib.exhibits.learner.own_record import OwnRecord, OwnRecordTraits
from vorlib.exhibits.learner.recording import RecordKeeper, this_session
from vorlib.practice.learning.attempt import HINTS, SOLUTION_SHOWN
from vorlib.practice.learning.mastery import agenda
from vorlib.practice.learning.session import PracticeSet
from vorlib.practice.learning.topic import ALL, Topic
from vorlib.practice.questions.question import Marking, Question
from vorlib.practice.questions.registry import kind_words
from vorlib.views.classroom.question_figure import figure_picture, figure_words, question_picture
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.sentence import in_lines

__all__ = ["Practice", "practice"]

COUNT = 5  # questions, where none is given


class PracticeWidget(OwnRecordTraits, NameTraits, Answering):
    """A box to answer in, buttons, and what is said; it knows nothing of the questions.

    Attributes
    ----------
    prompt
        What is asked; a new prompt empties the box.
    picture, picture_words
        What is shown with it, as SVG text and in words; empty where there is nothing to see.
    projector
        Whether type and picture are large; the reader's to change.
    message
        What is said beside the box about an entry that makes no sense; empty when it made sense.
    hints, feedback, tally, saved
        What is said below, each spoken by a screen reader when it changes.
    hint_label
        What the button for the next hint is called.
    has_hint, has_next
        Whether there is another hint, and another question.
    is_right
        Whether the answer in the box was marked right, so that Enter goes on to the next question.
    kinds
        Kinds of question to choose from, as pairs of a name and its words.
    learner, asks_name
        Who practices, and whether that is still to be said.
    has_waiting
        Whether an answer could not be saved yet.
    """

    _esm = joined(
        *("base/parts.js", "base/answers.js", "learner/naming.js", "learner/own_record.js"),
        "learner/practice.js",
    )
    _css = joined("base/answers.css", "learner/practice.css")

    prompt = traitlets.Unicode().tag(sync=True)
    picture = traitlets.Unicode().tag(sync=True)
    picture_words = traitlets.Unicode().tag(sync=True)
    projector = traitlets.Bool(False).tag(sync=True)
    message = traitlets.Unicode().tag(sync=True)
    hints = traitlets.Unicode().tag(sync=True)
    feedback = traitlets.Unicode().tag(sync=True)
    tally = traitlets.Unicode().tag(sync=True)
    saved = traitlets.Unicode().tag(sync=True)
    hint_label = traitlets.Unicode("Hint").tag(sync=True)
    has_hint = traitlets.Bool(True).tag(sync=True)
    has_next = traitlets.Bool(True).tag(sync=True)
    is_right = traitlets.Bool(False).tag(sync=True)
    kinds: Any = traitlets.List().tag(sync=True)
    learner = traitlets.Unicode().tag(sync=True)
    asks_name = traitlets.Bool(True).tag(sync=True)
    has_waiting = traitlets.Bool(False).tag(sync=True)


class Practice:
    """Questions of a practice set in turn.

    Displayed in a notebook it is live; saved without a kernel it is the question in words and its
    picture.

    Parameters
    ----------
    questions
        The set, which keeps the tally.
    recording
        Who practices, and the way to the record.
    """

    def __init__(self, questions: PracticeSet, recording: RecordKeeper) -> None:
        self.questions, self.recording = questions, recording
        self._number, self._hints, self._asked_at = 0, 0, 0.0
        words = [[kind, kind_words(kind)] for kind in questions.kinds]
        self.widget = PracticeWidget(kinds=words if len(words) > 1 else [])
        self.widget.on_msg(self._pressed)
        self.widget.observe(lambda _: self._draw(), "projector")
        self._own_record = OwnRecord(self.widget, recording)
        recording.observe(self._named, "learner")
        recording.observe(lambda _: self._say_saved(), "waiting")
        if recording.learner:
            self._plan(asked=0)
        self._ask()
        self._say_saved()

    @property
    def question(self) -> Question:
        """The question that is asked now."""
        return self.questions.questions[self._number]

    @property
    def sentence(self) -> str:
        """Which question of how many this is, its prompt, and in words what is shown with it."""
        return " ".join(filter(None, (self.widget.prompt, self.widget.picture_words)))

    def check(self, text: str, name: str = "") -> Marking | None:
        """Mark an answer and say what it shows, once it is saved for a learner with a name.

        An answer that makes no sense is not counted. A name that cannot be one is answered beside
        the box, and nothing is marked.
        """
        try:
            self.recording.begin(name)
        except ValueError as error:
            self.widget.message = as_sentence(str(error))
            return None
        taken_s = round(time.monotonic() - self._asked_at, 1)
        is_first = self.questions.state(self.question) == "not attempted"
        marking = self.questions.mark(self.question, text, hints=self._hints, taken_s=taken_s)
        understood = marking.verdict != "not understood"
        adds = False
        if understood:
            self.recording.keep(self.questions.attempts[-1])
            adds = is_first and self.questions.follow_up(self._number + 1)
        with self.widget.hold_sync():
            self._say_saved()
            self.widget.has_next = self._has_next
            self.widget.is_right = marking.verdict == "right"
            self.widget.message = "" if understood else marking.message
            self.widget.feedback = self._feedback(marking, adds) if understood else ""
            if understood:
                self.widget.tally = self.questions.summary()
        return marking

    def hint(self) -> None:
        """Show one more of the three hints, and after them the solution."""
        hints, worked = self.question.hints, self.question.worked
        self._hints = min(self._hints + 1, SOLUTION_SHOWN)
        lines = [f"Hint {number}: {hint}" for number, hint in enumerate(hints, start=1)]
        with self.widget.hold_sync():
            self.widget.hints = "\n".join([*lines, f"Solution: {worked}"][: self._hints])
            self.widget.hint_label = "Hint" if self._hints < HINTS else "Show the solution"
            self.widget.has_hint = self._hints < SOLUTION_SHOWN

    def next(self, kind: str = "") -> None:
        """Ask the next question, if there is one: of a kind that is chosen, or as planned."""
        if kind in self.questions.kinds:
            self.questions.choose(kind, self._number + 1)
        if self._has_next:
            self._number += 1
            self._ask()

    def save(self) -> None:
        """Try again to save the answers that could not be saved."""
        self.recording.save()
        self._say_saved()

    @property
    def _has_next(self) -> bool:
        return self._number + 1 < len(self.questions)

    @property
    def _prompt(self) -> str:
        """Which question of how many this is, and what it asks."""
        asked = "\n".join(self.question.lines)
        return f"Question {self._number + 1} of {len(self.questions)}. {asked}"

    def _ask(self) -> None:
        self._hints, self._asked_at = 0, time.monotonic()
        with self.widget.hold_sync():
            self.widget.prompt = self._prompt
            self._draw()
            self.widget.message = self.widget.hints = self.widget.feedback = ""
            self.widget.hint_label, self.widget.has_hint = "Hint", True
            self.widget.has_next, self.widget.is_right = self._has_next, False

    def _draw(self) -> None:
        """Show the picture of the question, if it has one."""
        figure, svg = self.question.figure, ""
        if figure is not None:
            theme = PROJECTOR if self.widget.projector else SCREEN
            svg = sized_svg(figure_picture(figure, theme))
        with self.widget.hold_sync():
            self.widget.picture = svg
            self.widget.picture_words = figure_words(figure) if figure else ""

    def _named(self, change: dict[str, Any]) -> None:
        if change["old"]:  # another learner: clear the marks of the last one
            self.questions, self._number, self.widget.tally = self.questions.fresh(), 0, ""
        if self.recording.learner:
            self._plan(asked=0 if change["old"] else self._number + 1)
        if change["old"]:
            self._ask()
        self._say_saved()

    def _plan(self, asked: int) -> None:
        """Order what was not asked so far by what went wrong and what is due."""
        kinds = agenda(self.recording.summary(), self.questions.kinds, self.recording.today())
        self.questions.plan(kinds, asked)

    def _say_saved(self) -> None:
        with self.widget.hold_sync():
            self.widget.learner = self.recording.learner
            self.widget.asks_name = not self.recording.learner
            self.widget.saved = self.recording.words
            self.widget.has_waiting = bool(self.recording.waiting)
            self._own_record.tell()

    def _feedback(self, marking: Marking, adds: bool) -> str:
        said = [marking.message]
        if marking.verdict == "right":
            said.append(self.question.worked)
        if adds:
            said.append("One more question is added, to tell a slip from a habit.")
        elif marking.verdict == "right" and not self._has_next:
            said.append("That was the last question.")
        return " ".join(said)

    def _pressed(self, _: PracticeWidget, content: dict[str, Any], __: list[Any]) -> None:
        match content:
            case {"press": "check", "text": str(text)}:
                self.check(text, str(content.get("name", "")))
            case {"press": "hint"}:
                self.hint()
            case {"press": "next"}:
                self.next(str(content.get("kind", "")))
            case {"press": "save"}:
                self.save()
            case _:
                self._own_record.pressed(content)

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        bundle = {"text/plain": in_lines(self.sentence), **widget_view(self.widget)}
        if self.question.figure is not None:
            asked = question_picture(self.widget.prompt, self.question.figure)
            bundle["image/svg+xml"] = sized_svg(still(asked, then="answer"))
        return bundle


@offered
def practice(*topics: str, count: int = COUNT, seed: int = 1) -> Practice:
    """Return practice with questions on some topics, such as ``practice("05")``.

    Parameters
    ----------
    topics
        Lessons by number, or names of kinds of question. With none it is the whole course: what
        went wrong, then what is due by the learner's record.
    count
        How many questions.
    seed
        Another seed gives other questions.

    Raises
    ------
    ValueError
        If a topic is unknown, or the count cannot be filled.
    """
    kinds = dict.fromkeys(kind for topic in topics or (ALL,) for kind in Topic.read(topic).kinds)
    return Practice(PracticeSet(tuple(kinds), count, seed), this_session())
