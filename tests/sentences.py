"""What a sentence must not have, whoever says it, and every sentence that the course can say."""

from __future__ import annotations

import dataclasses
import html
import random
import re
from collections.abc import Iterable, Iterator
from typing import Any

from labels import at_random, words_of

from vorlib.aircraft.wind import Wind
from vorlib.debrief.findings import Intercepted, Passage, Phase, Unassured, WrongTurn
from vorlib.debrief.habits.kinds import (
    FixPassed,
    FlownThrough,
    Homed,
    NotIdentified,
    ReverseFollowed,
)
from vorlib.debrief.recorded import debrief_recording
from vorlib.debrief.report.in_order import findings_of
from vorlib.debrief.report.planned import Plan, planned_against_flown
from vorlib.debrief.report.side_by_side import side_by_side
from vorlib.debrief.selection_estimate import estimate_selections
from vorlib.debrief.summary import Debrief
from vorlib.debrief.wind.correction import HeadingSource, WindCorrection
from vorlib.exhibits.base.changes import resolve, spoken_refusal
from vorlib.exhibits.base.controls import Number
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.paper.air_card import card_pages
from vorlib.paper.check_report import check_report_pages
from vorlib.paper.classroom.class_sheet import class_pages
from vorlib.paper.debrief import debrief_sheets
from vorlib.practice import draw, mark
from vorlib.practice.check_flight import words as check_words
from vorlib.practice.check_flight.example import example_report
from vorlib.practice.classroom.demo_class import demo_class
from vorlib.practice.classroom.results import ClassResults
from vorlib.practice.learning.predictions import FOLDER, lessons, read_predictions
from vorlib.practice.learning.topic import Topic, lessons_with_questions
from vorlib.stations.archipelago import AIRFIELDS, STATIONS
from vorlib.tracks.example import example_flight
from vorlib.views.classroom import words as class_words
from vorlib.views.classroom.question_figure import figure_words
from vorlib.views.drawing.picture import Group, Picture
from vorlib.views.drawing.theme import SCREEN
from vorlib.vor.receiver import Flag

__all__ = [
    "faults",
    "label_faults",
    "of_exhibit",
    "of_findings",
    "of_predictions",
    "of_questions",
    "of_reports",
]

# Words in the plural after a 1 that is no part of a longer number, but for those that only look so.
ONE = r"(?<![\d.,:/])(?<!receiver )1 "
ONE_OF_MANY = re.compile(ONE + r"(?!(?:is|was|has|as|its|less|this|plus|across)\b)[a-z]+s\b")
COORDINATES = re.compile(r"-?\d+\.\d{4}, -?\d+\.\d{4}")
MEANT = re.compile(r"\b91\.\d{3}\b|x\.practice\(.*\)")  # a paragraph of a rule, a line to type
# Six figures are none, but for a printed sheet's code, which stands behind the date.
UNROUNDED = re.compile(r"\d\.\d{3,}|\d[eE][-+]\d|(?<!-\d\d  )\b\d{6,}\b")
MORSE = re.compile(r"(?<![^\s(])[.-]{1,6}(?: [.-]{1,6})*(?=[.;:,)]*(?:\s|$))")
RUN_IN = re.compile(r"(?<=[ :])[.-]+(?=$|\s+[A-Z])")
BEGINS = re.compile(r"^[\"'(]*[A-Z0-9+-]")
ENDS = re.compile(r"[.?!:][\"')]*$|\? \((?:such as|one of) [^)]*\)$")
STOP = re.compile(r"(?<=[.?!])\s+(?=[^\s(])")

LABEL_FAULTS = {
    "plural of one": ONE_OF_MANY,
    "nothing told as a number": re.compile(r"(?<![\d.,])-?0\.0+(?!\d)"),
    "minus nothing": re.compile(r"(?<![\d\w])-0(?![\d.])"),
    "unrounded": UNROUNDED,
    "an argument's name": re.compile(r"\b[a-z]+(?:_[a-z0-9]+)+\b"),
    "Python": re.compile(r"\bnan\b|\binf\b|\bNone\b|\bFalse\b|\w\[|[<>{}]"),
    "a word said twice": re.compile(r"\b([a-z]+) \1\b"),
}
DOUBLED = re.compile(r"  +|\s[.,;:?!](?=\s|$)|[.,;:?!]{2,}")


def label_faults(words: str) -> Iterator[str]:
    """Yield what is wrong with words that need not be a sentence."""
    plain = MEANT.sub("so", COORDINATES.sub("a place", MORSE.sub("Morse", words)))
    for fault, pattern in LABEL_FAULTS.items():
        if found := pattern.search(plain):
            yield f"{fault}: {found[0]!r} in {words!r}"


def faults(words: str) -> Iterator[str]:
    """Yield what is wrong with one or more sentences."""
    yield from label_faults(words)
    if found := DOUBLED.search(MORSE.sub("Morse", words)):
        yield f"doubled: {found[0]!r} in {words!r}"
    if RUN_IN.search(words):
        yield f"Morse runs into a stop: {words!r}"
    for line in words.splitlines():
        if not ENDS.search(line.strip()):
            yield f"no stop: {words!r}"
        for sentence in STOP.split(MORSE.sub("Morse", line.strip())):
            if not BEGINS.search(sentence):
                yield f"no capital: {sentence!r} in {words!r}"


# ---- exhibits


def of_picture(picture: Picture) -> Iterator[str]:
    """Yield what is wrong with the words of a picture, those drawn and those read aloud."""
    words = [one.text for one in words_of(picture.items)]
    for text in (*words, *_labels(picture.items), picture.title):
        yield from label_faults(text)
    yield from faults(picture.description or "A picture.")


def _labels(items: Iterable[Any]) -> Iterator[str]:
    for item in items:
        if isinstance(item, Group):
            yield item.label
            yield from _labels(item.items)


def of_exhibit(
    exhibit: Exhibit[Any], states: int, seed: int, pictures: bool = True
) -> Iterator[str]:
    """Yield what is wrong with what an exhibit says in states at random, and refuses of them."""
    chance = random.Random(seed)
    for number in range(states):
        state = _at_an_edge(exhibit, at_random(exhibit, chance), chance)
        try:
            said = exhibit._say(state)
            if pictures and not number % 4:
                yield from of_picture(exhibit.draw(state, SCREEN))
        except ValueError as error:  # shown beside a control
            yield from faults(spoken_refusal(error, exhibit.controls))
            continue
        yield from faults(said)
        for control in exhibit.controls:
            for note in ("note", "notes"):
                if box := getattr(control, note, None):
                    control.follow(state)
                    yield from label_faults(plain(box.html))
        for control in exhibit.controls:  # each number once beyond its end, or as strange a one
            if isinstance(control, Number):
                beyond = f"{control.low - 1.0:g}", f"{control.high + 1.0:g}"
                wrong = chance.choice(("", "abc", *beyond))
                _, answers = resolve(state, {control.field: wrong}, exhibit.controls)
                for answer in answers.values():
                    yield from faults(answer)


def _at_an_edge(exhibit: Exhibit[Any], state: Any, chance: random.Random) -> Any:
    """Return a state with some of its numbers at an end, at 0 or at 1, where words go wrong."""
    for control in exhibit.controls:
        if isinstance(control, Number) and chance.random() < 0.3:
            value = chance.choice((control.low, control.high, 0.0, 1.0))
            state, _ = resolve(state, {control.field: value}, exhibit.controls)
    return state


def plain(text: str) -> str:
    """Return HTML as plain text, its tags away."""
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


# ---- questions


def of_questions(kind: str, count: int, seed: int = 0) -> Iterator[str]:
    """Yield what is wrong with what questions of a kind say: asked, hinted, worked and marked."""
    for number in range(seed, seed + count):
        question = draw(kind, number)
        said = [question.prompt, question.tolerance_why, *question.hints, question.worked]
        if question.figure:
            said.append(figure_words(question.figure))
        for misconception in question.misconceptions:
            answer = question.form.show(misconception.would_answer)
            said += [misconception.why_tempting, misconception.look_again]
            said.append(mark(question, answer).message)
        said.append(mark(question, question.form.show(question.answer)).message)
        for words in said:
            yield from faults(words)


# ---- findings

FINDINGS = (
    Phase, Intercepted, Passage, WrongTurn, Unassured,
    Homed, ReverseFollowed, FlownThrough, FixPassed, NotIdentified, WindCorrection,
)  # fmt: skip
SMALL = (0.0, 0.01, 0.04, 0.4, 0.6, 1.0, 1.04, 2.0, 3.0)


def of_findings(count: int, seed: int) -> Iterator[str]:
    """Yield what is wrong with what findings say, their numbers at random."""
    chance = random.Random(seed)
    for number in range(count):
        kind = FINDINGS[number % len(FINDINGS)]
        finding = kind(**{field.name: _any(field, chance) for field in dataclasses.fields(kind)})
        for name in ("words", "measured_words"):
            yield from faults(getattr(finding, name, "Nothing."))
        whole = Debrief(
            *(_seconds(chance) for _ in range(4)), chance.randrange(4), chance.randrange(4),
            wrong_turns=(None,) * chance.randrange(4),  # only counted
        )  # fmt: skip
        for words in whole.overall:
            yield from faults(words)


def _seconds(chance: random.Random) -> float:
    return chance.choice((0.0, 0.2, 1.0, 59.6, 60.0, 61.0, 3600.0, chance.uniform(0.0, 9000.0)))


def _any(field: dataclasses.Field[Any], chance: random.Random) -> Any:
    """Return some value that a field of a finding may hold."""
    flags = (Flag.TO, Flag.FROM)
    if "None" in field.type and chance.random() < 0.2:
        return None
    made = {
        "str": lambda: chance.choice(("Quillon", "Marrow Sound")),
        "bool": lambda: chance.random() < 0.5,
        "int": lambda: chance.choice((1, 2, 3, 12)),
        "Flag": lambda: chance.choice(flags),
        "HeadingSource": lambda: chance.choice(tuple(HeadingSource)),
        "tuple[Flag, Flag]": lambda: (chance.choice(flags), Flag.FROM),
        "tuple[float, float]": lambda: (chance.uniform(0.0, 360.0), chance.uniform(0.0, 360.0)),
    }.get(field.type)
    if made:
        return made()
    if field.name.endswith("_s"):
        return _seconds(chance) * (-1.0 if "None" in field.type and chance.random() < 0.3 else 1.0)
    if field.name == "within_limit":
        return chance.random()
    size = chance.choice((*SMALL, chance.uniform(0.0, 10.0), chance.uniform(0.0, 90.0)))
    signed = field.name in ("dots", "turned_deg", "mean_off_deg", "used_deg", "needed_deg")
    return -size if signed and chance.random() < 0.5 else size


# ---- what is written in files, and printed


def of_predictions() -> Iterator[str]:
    """Yield what is wrong with the predictions of the lessons."""
    for lesson in lessons():
        text = (FOLDER / f"{lesson}.toml").read_text(encoding="utf-8")
        for one in read_predictions(text, lesson).values():
            yield from faults(one.question)
            yield from faults(" ".join(one.because.split()))
            for words in (*one.choices, *one.reasons):
                yield from label_faults(words)


PLAN = Plan(Wind(250.0, 18.0), 3500.0, 105.0, tuple(AIRFIELDS.values()))


def of_reports() -> Iterator[str]:
    """Yield what is wrong with reports: of the example flight, a check flight, the invented class.

    The lines of their printed pages are looked at too, with those of the cards for the air.
    """
    flown, report, results = example_flight(), example_report(), ClassResults(demo_class())
    debrief = debrief_recording(flown.recording.flight, flown.selections)
    said = [*debrief.sentences, *estimate_selections(debrief.flight, STATIONS.values()).words]
    said += [finding.words for finding in findings_of(debrief)]
    said += [tell(report) for tell in (check_words.score, check_words.course, check_words.verdict)]
    said += [class_words.summary_words(results), class_words.progress_words(results)]
    for words in said:
        yield from faults(words)
    for row in (*side_by_side(debrief, debrief), *planned_against_flown(debrief, PLAN)):
        for words in row:
            yield from label_faults(words)
    pages = [
        *debrief_sheets(debrief, plan=PLAN),
        *check_report_pages(report),
        *class_pages(results),
    ]
    for lesson in lessons_with_questions():
        pages += card_pages(Topic.read(lesson))
    for one in (line for page in pages for line in words_of(page.items)):
        yield from label_faults(one.text)
