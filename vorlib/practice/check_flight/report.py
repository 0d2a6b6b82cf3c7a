"""The report of a check flight: by element, lesson and misconception, and each question."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any, Literal

from vorlib.practice.check_flight.plan import Planned
from vorlib.practice.learning.attempt import SEPARATOR, Mark
from vorlib.practice.learning.diagnosis import explain
from vorlib.practice.learning.lessons import lesson_title
from vorlib.practice.questions.figures import QuestionFigure
from vorlib.practice.questions.misconceptions import BELIEFS, present_names
from vorlib.practice.questions.question import mark
from vorlib.practice.questions.registry import all_kinds, draw
from vorlib.practice.questions.standards import ELEMENTS

POINTS = {"right": 1.0, "close": 0.5, "wrong": 0.0, "not answered": 0.0}

Verdict = Mark | Literal["not answered"]


@dataclass(frozen=True)
class Item:
    """One question of a check flight, its answer and its marking.

    Attributes
    ----------
    number
        Its place, from 1.
    stage, kind, seed, lessons, element, level, prompt
        Which question it was; `vorlib.practice.draw` makes it again from kind and seed.
    given
        The learner's answer as it was written; empty when there was none.
    right_answer, worked
        The right answer and how it is found.
    verdict
        "right", "close", "wrong" or "not answered".
    misconception, why_tempting, look_again
        The slip behind a wrong answer, if it was foreseen; else empty. Where several would lead to
        it, their names with "|" between, and what is said of the first.
    foreseen
        Names of the slips that the question could show.
    late
        Whether the answer came after the time allowed.
    """

    number: int
    stage: str
    kind: str
    seed: int
    lessons: tuple[str, ...]
    element: str
    level: str
    prompt: str
    given: str
    right_answer: str
    worked: str
    verdict: Verdict
    misconception: str = ""
    why_tempting: str = ""
    look_again: str = ""
    foreseen: tuple[str, ...] = ()
    late: bool = False

    @property
    def shown(self) -> tuple[str, ...]:
        """Names of the slips that would each lead to the answer."""
        return tuple(self.misconception.split(SEPARATOR)) if self.misconception else ()

    @property
    def points(self) -> float:
        """1 for a right answer, a half for a close one."""
        return POINTS[self.verdict]

    @property
    def figure(self) -> QuestionFigure | None:
        """The figure shown with it, if this vorlib still draws the question as it was asked."""
        if self.kind not in all_kinds():
            return None
        question = draw(self.kind, self.seed)
        return question.figure if question.prompt == self.prompt else None


@dataclass(frozen=True)
class Share:
    """Points reached in a part of a check flight.

    Attributes
    ----------
    name
        An element or the number of a lesson.
    title
        The same in words: what the element is about, or what the lesson is called.
    points, out_of
        How many were reached, of how many.
    kinds
        The kinds of question that lost some.
    """

    name: str
    title: str
    points: float
    out_of: int
    kinds: tuple[str, ...]

    @property
    def lost(self) -> float:
        """How many points were not reached."""
        return self.out_of - self.points


@dataclass(frozen=True)
class ReportedSlip:
    """A misconception: how often it showed, of how many questions that could show it."""

    name: str
    times: int
    chances: int
    why_tempting: str
    look_again: str
    lessons: tuple[str, ...]


@dataclass(frozen=True)
class CheckReport:
    """A check flight that was handed in.

    Attributes
    ----------
    learner
        Who sat it.
    seed
        What its questions were drawn from.
    begun_at, handed_in_at
        Moments, with their time zone.
    used_min
        Minutes that the clock ran.
    pauses
        How often it stood still.
    items
        The questions in their order.
    """

    learner: str
    seed: int
    begun_at: datetime
    handed_in_at: datetime
    used_min: float
    pauses: int
    items: tuple[Item, ...]

    @property
    def points(self) -> float:
        """Points reached."""
        return sum(item.points for item in self.items)

    @property
    def late_points(self) -> float:
        """Points from answers that came after the time allowed."""
        return sum(item.points for item in self.items if item.late)

    @property
    def out_of(self) -> int:
        """Points possible: one a question."""
        return len(self.items)

    def count(self, verdict: Verdict) -> int:
        """Return how many questions got a verdict."""
        return sum(item.verdict == verdict for item in self.items)

    def by_element(self) -> tuple[Share, ...]:
        """Return the points by element of the training standard, in the standard's order."""
        return self._shares(lambda item: (item.element,), ELEMENTS)

    def by_lesson(self) -> tuple[Share, ...]:
        """Return the points by lesson; a question of two lessons counts in both."""
        lessons = {number for item in self.items for number in item.lessons}
        titles = {number: f"{number} {lesson_title(number)}" for number in lessons}
        return self._shares(lambda item: item.lessons, titles)

    def to_revise(self) -> tuple[Share, ...]:
        """Return the lessons in which points were lost, the most first."""
        return tuple(sorted((s for s in self.by_lesson() if s.lost), key=lambda s: -s.lost))

    def slips(self) -> tuple[ReportedSlip, ...]:
        """Return the misconceptions that showed, each answer under one, the most often first."""
        wrong = [item for item in self.items if item.shown]
        shown: dict[str, list[Item]] = {}
        for item, name in zip(wrong, explain([item.shown for item in wrong]), strict=True):
            shown.setdefault(name, []).append(item)
        slips = [self._slip(name, items) for name, items in shown.items()]
        return tuple(sorted(slips, key=lambda slip: -slip.times))

    def _slip(self, name: str, items: list[Item]) -> ReportedSlip:
        chances = sum(name in item.foreseen for item in self.items if item.given)
        lessons = tuple(dict.fromkeys(lesson for item in items for lesson in item.lessons))
        # what an item says is about the first of its slips
        said = next((item for item in items if item.shown[0] == name), None)
        why, where = (said.why_tempting, said.look_again) if said else _told_of(name)
        return ReportedSlip(name, len(items), chances, why, where, lessons)

    def _shares(
        self, names: Callable[[Item], Iterable[str]], titles: Mapping[str, str]
    ) -> tuple[Share, ...]:
        groups: dict[str, list[Item]] = {}
        for item in self.items:
            for name in names(item):
                groups.setdefault(name, []).append(item)
        # a report may be older than the table of its titles
        return tuple(
            _share(name, titles.get(name, name), items) for name, items in sorted(groups.items())
        )


def _told_of(name: str) -> tuple[str, str]:
    belief = BELIEFS.get(name)
    return (belief.why_tempting, belief.look_again) if belief else ("", "")


def _share(name: str, title: str, items: list[Item]) -> Share:
    kinds = dict.fromkeys(item.kind for item in items if item.points < 1.0)
    return Share(name, title, sum(item.points for item in items), len(items), tuple(kinds))


def assess(number: int, planned: Planned, given: str, late: bool = False) -> Item:
    """Return a question of a check flight with the marking of what was answered, if anything."""
    question = planned.question
    marking = mark(question, given)
    misconception = marking.misconception
    return Item(
        number,
        planned.stage,
        planned.kind,
        planned.seed,
        all_kinds()[planned.kind].lessons,
        question.element,
        question.level,
        question.prompt,
        given,
        question.form.show(question.answer),
        question.worked,
        "not answered" if marking.verdict == "not understood" else marking.verdict,
        misconception=SEPARATOR.join(marking.names),
        why_tempting=misconception.why_tempting if misconception else "",
        look_again=misconception.look_again if misconception else "",
        foreseen=question.foreseen,
        late=late,
    )


def to_json(report: CheckReport) -> str:
    """Return a report as it is kept."""
    return json.dumps(asdict(report), default=datetime.isoformat, ensure_ascii=False)


def from_json(text: str) -> CheckReport:
    """Return the report that `to_json` wrote."""
    content: dict[str, Any] = json.loads(text)
    moments = {name: datetime.fromisoformat(content[name]) for name in ("begun_at", "handed_in_at")}
    items = tuple(
        Item(**item | {"lessons": tuple(item["lessons"])} | _slips_now(item))
        for item in content["items"]
    )
    return CheckReport(**content | moments | {"items": items})


def _slips_now(item: Mapping[str, Any]) -> dict[str, Any]:
    """Return the slips of a kept item, as they are called now."""
    shown = present_names(item["misconception"].split(SEPARATOR))
    return {"misconception": SEPARATOR.join(shown), "foreseen": present_names(item["foreseen"])}
