"""The receiver check: do what the rule asks, read the error, decide, and write it in a log."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from vorlib.core.angles import format_direction
from vorlib.exhibits.base.controls import Button, ChoiceControl, Number
from vorlib.exhibits.base.exhibit import Exhibit, Grip
from vorlib.exhibits.base.inputs import Words
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.base.plain import put_away
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.receiver_check.bench import ReceiverCheckState
from vorlib.exhibits.receiver_check.marking import (
    is_well_read,
    mark_decision,
    mark_error,
    mark_last_check,
)
from vorlib.exhibits.scene.at_station import GAP
from vorlib.exhibits.scene.grips import turned_deg
from vorlib.receiver_check.check import LogEntry
from vorlib.receiver_check.log import CheckLog, CheckLogError
from vorlib.receiver_check.rules import RULES
from vorlib.stations.archipelago import TODAY
from vorlib.views.drawing.layout import wrapped
from vorlib.views.drawing.picture import Group, Picture, Text, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.instrument import indicator as dial
from vorlib.views.sentence import flag_words, needle_words
from vorlib.vor.receiver import Reading

__all__ = ["ReceiverCheckState", "draw", "receiver_check", "sentence"]

PANEL_WIDTH = 400.0
MARGIN = 10.0
LINE = 1.3  # times the height of the type
CAUTION = "This is a log for training; the legal one is the operator's own."

Changes = dict[str, Any]


def draw(state: ReceiverCheckState, theme: Theme) -> Picture:
    """Return what is to be done, and beside it the indicator of each receiver."""
    picture = _panel(state, theme)
    for number, (course, reading) in enumerate(
        zip(state.courses_deg, state.readings, strict=True), start=1
    ):
        shown = dial.indicator(dial.IndicatorScene.of(course, reading), theme)
        picture = beside(picture, shown if number == 1 else _second(shown), GAP)
    return picture


def _second(shown: Picture) -> Picture:
    """Return the second receiver's indicator, its ring under a name of its own."""
    items = tuple(
        replace(item, grab="second ring", label=item.label.replace("Selected", "Second selected"))
        if isinstance(item, Group) and item.grab == "ring"
        else item
        for item in shown.items
    )
    return replace(shown, items=items)


def _panel(state: ReceiverCheckState, theme: Theme) -> Picture:
    """Return the check in words: where, what is published, what to do, and the last check."""
    paragraphs = [
        (f"{_titled(state)} {state.where}", True),
        (state.tuned, False),
        *((f"{number}. {step}", False) for number, step in enumerate(state.check.to_do, start=1)),
        (f"Last check {state.bench.last_made_on.isoformat()}, today {TODAY.isoformat()}.", True),
    ]
    for body in (theme.text_size, theme.small_size):
        lines = list(_lines(paragraphs, body))
        if lines[-1].y < dial.HEIGHT - MARGIN:
            break
    drop = (dial.HEIGHT - lines[-1].y) / 2
    items = tuple(replace(line, y=line.y + drop, fill=theme.text) for line in lines)
    words = " ".join(text if text.endswith(".") else f"{text}." for text, _ in paragraphs)
    return Picture(PANEL_WIDTH, dial.HEIGHT, items, "What to do", words, theme.paper)


def _lines(paragraphs: list[tuple[str, bool]], body: float) -> Iterator[Text]:
    """Yield the lines of paragraphs, each plain or bold, from the top down."""
    y = 0.0
    for text, bold in paragraphs:
        size = 1.15 * body if bold else body
        for line in wrapped(text, (PANEL_WIDTH - 2 * MARGIN) / (1.12 if bold else 1.0), size):
            yield Text(MARGIN, y, line, size, "", "start", bold)
            y += LINE * size
        y += 0.5 * body


def sentence(state: ReceiverCheckState) -> str:
    """Say what is shown and, once marked, what was right and what was wrong."""
    said = f"{_place_words(state)} {_shown_words(state)}"
    if not state.marked:
        return f"{said} {_hint(state)}"
    marks = f"{mark_error(state)} {mark_decision(state)} {mark_last_check(state)}"
    return f"{said} {marks} {state.log_answer}".rstrip()


def _place_words(state: ReceiverCheckState) -> str:
    return f"{_titled(state)} {state.where}. {state.tuned}"


def _titled(state: ReceiverCheckState) -> str:
    name = state.check.name
    return f"{name[0].upper()}{name[1:]}"


def _shown_words(state: ReceiverCheckState) -> str:
    names = ("Receiver 1: with", "Receiver 2: with") if len(state.courses_deg) > 1 else ("With",)
    shown = zip(names, state.courses_deg, state.readings, strict=True)
    return " ".join(
        f"{name} {format_direction(course)} selected {_reading_words(reading)}."
        for name, course, reading in shown
    )


def _reading_words(reading: Reading) -> str:
    return f"{flag_words(reading)} and {needle_words(reading)}"


def _hint(state: ReceiverCheckState) -> str:
    if not state.centered:
        which = (
            "each ring until its needle is" if len(state.readings) > 1 else "the ring until it is"
        )
        return f"Turn {which} centered."
    return "Centered: what is the error, and does the check pass?"


def _turn(field: str, column: int) -> Grip[ReceiverCheckState]:
    """Return what a hand on a course ring does; the indicators stand right of the panel."""
    left = PANEL_WIDTH + GAP + column * (dial.WIDTH + GAP)
    center = left + dial.CENTER[0], dial.CENTER[1]

    def dragged(state: ReceiverCheckState, drag: Drag, theme: Theme) -> Changes:
        return _turned(float(round(getattr(state, field) - turned_deg(drag, center))))

    def stepped(state: ReceiverCheckState, steps: Steps) -> Changes:
        return _turned(getattr(state, field) + steps.right + steps.up)

    def _turned(course_deg: float) -> Changes:
        return {field: course_deg}

    return Grip(dragged, stepped, wheel=True)


class _SecondCourse(Number):
    """The second receiver's course, which only shows for a check of two."""

    def follow(self, state: ReceiverCheckState) -> None:
        """Show or hide the control."""
        put_away(self.widget, not state.check.compares_receivers)


FRESH: Changes = {
    "course_deg": 30.0,
    "second_course_deg": 30.0,
    "error_deg": None,
    "decision": "",
    "last_check": "",
    "marked": False,
    "log_answer": "",
}


class _Kind(ChoiceControl):
    """The kind of check; another one begins afresh."""

    def _entered(self, change: Any) -> None:
        if not self._showing:
            self.ask({**FRESH, self.field: change["new"]})


def _write(log: CheckLog, state: ReceiverCheckState) -> Changes:
    """Write the check in the log if it is fit to be written, and return what the log answers."""
    if not (state.marked and is_well_read(state)):
        return {"marked": True, "log_answer": "Not written: first read the error correctly."}
    try:
        entry = LogEntry(
            TODAY, state.place, state.kind, state.right_error_deg, state.signature, TODAY
        )
        number = log.add(entry)
    except (ValueError, CheckLogError) as error:
        return {"log_answer": f"Not written: {error}"}
    return {"log_answer": f"Written in the log as number {number}. {CAUTION}"}


@exhibit(lesson="11", state=ReceiverCheckState)
def receiver_check(
    kind: str = "test signal", seed: int = 1, log: str | Path | None = None, **start: Any
) -> Exhibit[ReceiverCheckState]:
    """Return the receiver check exhibit; nothing is written before the button is pressed.

    Parameters
    ----------
    kind
        Key of the kind of check, such as "two receivers".
    seed
        Decides the place and the hidden errors.
    log
        File of the log; None for the user's own.
    **start
        Other fields of `ReceiverCheckState` to start from.
    """
    kinds = {check.name: key for key, check in RULES.kinds.items()}
    book = CheckLog(log)
    return Exhibit(
        ReceiverCheckState(kind, seed, **start),
        draw,
        sentence,
        [
            _Kind("kind", "Check", kinds),
            Number("course_deg", "Selected course", direction=True),
            _SecondCourse("second_course_deg", "Second receiver", direction=True),
            Number("error_deg", "Error you read", low=-180.0, high=180.0, optional=True),
            ChoiceControl(
                "decision", "Your decision", {"choose": "", "pass": "pass", "fail": "fail"}
            ),
            ChoiceControl(
                "last_check",
                "The last check",
                {"choose": "", "still good today": "good", "out of date": "out of date"},
            ),
            Words("place", "Place", str, str),
            Words("signature", "Signature", str, str),
            Button("marked", "Mark", lambda state: {"marked": True}),
            Button("log_answer", "Write it in the log", lambda state: _write(book, state)),
            Button("seed", "Another aircraft", lambda state: {**FRESH, "seed": state.seed + 1}),
        ],
        {"ring": _turn("course_deg", 0), "second ring": _turn("second_course_deg", 1)},
    )
