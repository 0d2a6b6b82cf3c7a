"""The page of a check flight: show a test, a question and a report."""

from __future__ import annotations

from html import escape
from math import ceil
from typing import Any

import traitlets

from vorlib.exhibits.base.answering import Answering
from vorlib.exhibits.base.html import sized_svg
from vorlib.exhibits.base.scripts import joined
from vorlib.exhibits.check_flight.report import report_page
from vorlib.exhibits.learner.naming import NameTraits
from vorlib.exhibits.signal.ident import player
from vorlib.practice.check_flight.plan import ALLOWED_MIN
from vorlib.practice.check_flight.report import CheckReport
from vorlib.practice.check_flight.session import SavedCheckFlight
from vorlib.practice.kinds.receiver.ident_heard import IN_WORDS
from vorlib.practice.questions.idents import MISSING
from vorlib.views.classroom.question_figure import figure_picture, figure_words

__all__ = ["CheckFlightWidget", "show_clock", "show_question", "show_report", "start", "time_left"]

OVER = f"The {ALLOWED_MIN} minutes are over. Answers from now on count, and are marked as late."


class CheckFlightWidget(NameTraits, Answering):
    """A page that shows a test and reports what is pressed; it knows nothing of the questions.

    Attributes
    ----------
    phase
        "start", "running", "paused" or "done".
    asks_name
        Whether no name was given so far.
    stage, clock
        The part of the flight, and the time left in words.
    prompt, picture, picture_words, sound, answer
        What is asked, shown and heard, and what was answered before.
    place, answered
        The number of the question from 1, and of each question whether it is answered.
    message, status
        What is said about an entry that makes no sense, and about what was done.
    sure
        What is asked before the test is handed in; empty when it is not being asked.
    report
        The report as HTML.
    """

    _esm = joined(
        *("base/parts.js", "base/answers.js", "learner/naming.js"), "check_flight/check_flight.js"
    )
    # the first of them for predictions, as no picture's widget need be on the page
    _css = joined(
        "base/answers.css",
        "base/picture_widget.css",
        "learner/practice.css",
        "check_flight/check_flight.css",
    )

    phase = traitlets.Unicode("start").tag(sync=True)
    asks_name = traitlets.Bool(True).tag(sync=True)
    stage = traitlets.Unicode().tag(sync=True)
    clock = traitlets.Unicode().tag(sync=True)
    prompt = traitlets.Unicode().tag(sync=True)
    picture = traitlets.Unicode().tag(sync=True)
    picture_words = traitlets.Unicode().tag(sync=True)
    sound = traitlets.Unicode().tag(sync=True)
    answer = traitlets.Unicode().tag(sync=True)
    place = traitlets.Int(1).tag(sync=True)
    answered: Any = traitlets.List().tag(sync=True)
    message = traitlets.Unicode().tag(sync=True)
    status = traitlets.Unicode().tag(sync=True)
    sure = traitlets.Unicode().tag(sync=True)
    report = traitlets.Unicode().tag(sync=True)


def start(widget: CheckFlightWidget, learner: str) -> None:
    """Clear the page for a learner who has still to begin, or whose name is still to be given."""
    with widget.hold_sync():
        widget.prompt = widget.picture = widget.picture_words = widget.answer = widget.report = ""
        widget.sound = ""
        widget.message = widget.sure = widget.stage = widget.clock = ""
        widget.status, widget.phase = f"You are {learner}." if learner else "", "start"


def show_question(
    widget: CheckFlightWidget, session: SavedCheckFlight, place: int, status: str = ""
) -> None:
    """Put a question on the page with what was answered to it, or say that the test is paused."""
    planned, figure = session.plan[place - 1], session.plan[place - 1].question.figure
    with widget.hold_sync():
        widget.stage = planned.stage
        words, _, heard = planned.question.prompt.partition(IN_WORDS)
        widget.prompt = f"Question {place} of {len(session.plan)}. {words}"
        widget.sound = _sound(str(planned.question.answer), heard) if heard else ""
        widget.picture = widget.picture_words = ""
        if figure:
            widget.picture = sized_svg(figure_picture(figure))
            widget.picture_words = figure_words(figure)
        widget.answer, widget.place = session.given[place - 1].text, place
        widget.message, widget.status, widget.sure = "", status, ""
        show_clock(widget, session)


def _sound(sent: str, words: str) -> str:
    """Return an ident to play, and the same in words for a page without sound."""
    played = player("" if sent == MISSING else sent, "What you hear")
    return f"{played}<details><summary>Without sound</summary>{escape(words)}</details>"


def show_clock(widget: CheckFlightWidget, session: SavedCheckFlight) -> None:
    """Put the time left on the page, and which questions are answered: what time may change."""
    with widget.hold_sync():
        widget.phase = "paused" if session.paused else "running"
        widget.clock = time_left(session.left_s)
        widget.answered = [bool(given.text) for given in session.given]


def show_report(widget: CheckFlightWidget, report: CheckReport) -> None:
    """Put a report on the page in place of the test."""
    with widget.hold_sync():
        widget.message = widget.sure = widget.prompt = widget.picture = widget.sound = ""
        widget.status = "The report is kept in your record."
        widget.report, widget.phase = report_page(report), "done"


def time_left(left_s: float) -> str:
    """Return the time left in words, in whole minutes: nobody is hurried by seconds.

    >>> time_left(1799.0), time_left(30.0)
    ('30 minutes left', 'the last minute')
    """
    if left_s == 0.0:
        return OVER
    minutes = ceil(left_s / 60.0)
    return "the last minute" if minutes == 1 else f"{minutes} minutes left"
