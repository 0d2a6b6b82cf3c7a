"""The check flight in a notebook: one question at a time, no marking before the end, a report."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from vorlib.core.words import spoken_count
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.base.saved import widget_view
from vorlib.exhibits.check_flight.widget import (
    CheckFlightWidget,
    show_clock,
    show_question,
    show_report,
    start,
)
from vorlib.exhibits.learner.recording import RecordKeeper, this_session
from vorlib.io.outputs import check_outputs
from vorlib.paper.check_report import save_check_report
from vorlib.practice.check_flight.plan import ALLOWED_MIN, check_flight_plan
from vorlib.practice.check_flight.report import CheckReport
from vorlib.practice.check_flight.session import CheckFlights, ClosedError, SavedCheckFlight
from vorlib.practice.check_flight.words import report_words
from vorlib.practice.record.record import RecordError
from vorlib.views.sentence import in_lines

__all__ = ["CheckFlightPage", "check_flight"]

COUNT = len(check_flight_plan(0))
SENTENCE = (
    f"A check flight: {COUNT} questions on lessons 1 to 12 in {ALLOWED_MIN} minutes. "
    "Run this notebook and give your name to begin, or to go on where you were."
)


class CheckFlightPage:
    """A check flight in a notebook.

    Displayed it is live; saved without a kernel it is a sentence. Nothing is written before it is
    begun under a name.

    Parameters
    ----------
    recording
        Who sits it, and the way to the record.
    seed
        What a new test is drawn from; None for chance.

    Attributes
    ----------
    session
        The test that is under way, as last read; None before it is begun.
    report
        The report that is shown; None before there is one.
    """

    def __init__(self, recording: RecordKeeper, seed: int | None = None) -> None:
        if seed is not None:
            check_flight_plan(seed)  # refuses a bad seed at once
        self.recording, self.seed = recording, seed
        self.session: SavedCheckFlight | None = None
        self.report: CheckReport | None = None
        self._place = 1
        self.widget = CheckFlightWidget(asks_name=not recording.learner)
        start(self.widget, recording.learner)
        self.widget.on_msg(self._pressed)
        recording.observe(self._named, "learner")

    @property
    def sentence(self) -> str:
        """The next step, the question, or the report in words."""
        if self.report is not None:
            return report_words(self.report)
        if self.session is None:
            return SENTENCE
        if self.session.paused:
            return f"The check flight is paused. {self.widget.clock}"
        return f"{self.widget.prompt} {self.widget.picture_words}".strip()

    def begin(self, name: str = "") -> None:
        """Begin a test under a name, or resume the one that is under way."""
        with self._refusals():
            sessions = self._sessions(name)
            known = len(sessions.reports())
            session = sessions.open(self.seed)
            self._place, self.report = session.place, None
            again = any(given.text or given.used_s for given in session.given)
            self._show(
                session,
                f"You go on with question {session.place}; every answer you kept is here."
                if again
                else f"Check flight {known + 1}. Every answer is saved when you keep it.",
            )

    def last(self, name: str = "") -> None:
        """Show the report of the last test that was handed in."""
        with self._refusals():
            reports = self._sessions(name).reports()
            if not reports:
                raise ValueError("No check flight has been handed in under this name yet")
            self._show_report(reports[-1])

    def keep(self, text: str) -> None:
        """Save an answer, and go on to the next question."""
        with self._refusals():
            number = self._place
            self._keep(text, always=True)
            self._turn_to(min(number + 1, len(self._under_way.given)))
            left = len(self._under_way.unanswered)
            rest = "All are answered: look them through, or hand in." if not left else ""
            if number == len(self._under_way.given) and left:
                rest = f"That was the last one; {_questions(left)} without an answer."
            self.widget.status = f"Your answer to question {number} is saved. {rest}".strip()

    def turn_to(self, number: int, text: str = "") -> None:
        """Show another question, after saving what is in the box."""
        with self._refusals():
            self._keep(text)
            self._turn_to(number)

    def pause(self, text: str = "") -> None:
        """Stop the clock and cover the question."""
        with self._refusals():
            self._keep(text)
            self._show(self._sessions().pause(self._under_way, self._place))

    def go_on(self) -> None:
        """Let the clock run again."""
        with self._refusals():
            self._show(self._sessions().go_on(self._under_way, self._place))

    def ask_to_hand_in(self, text: str = "") -> None:
        """Ask whether the test is to be handed in, and say what is still without an answer."""
        with self._refusals():
            self._keep(text)
            missing = ", ".join(map(str, self._under_way.unanswered))
            self._show(self._under_way)
            self.widget.sure = (
                f"Without an answer: {missing}. Hand in all the same?"
                if missing
                else "All questions are answered. Hand in? Nothing can be changed afterwards."
            )

    def hand_in(self, text: str = "") -> None:
        """Hand the test in, and show its report."""
        with self._refusals():
            self._keep(text)
            self._show_report(self._sessions().hand_in(self._under_way, self._place))

    def print(self, path: str) -> None:
        """Write the report that is shown to a PDF file."""
        self.widget.message = self.widget.status = ""
        if self.report is None or not path.strip():
            self.widget.message = "Name the file to write, such as check_flight.pdf."
            return
        self.widget.status = "Writing: this takes some seconds."
        try:
            file = Path(path.strip()).expanduser()
            check_outputs({"the name": file}, force=None)
            written = save_check_report(file, self.report)
        except (OSError, ValueError) as error:
            self.widget.message = f"Nothing was written: {str(error).rstrip('.')}."
            self.widget.status = ""
        else:
            self.widget.status = f"Written: {written.resolve()}"

    def beat(self) -> None:
        """Let the clock run on."""
        if self.session is not None and self.report is None and not self.session.paused:
            with self._refusals():
                self.session = self._sessions().beat(self.session, self._place)
                show_clock(self.widget, self.session)

    # ---- what every press has in common

    @property
    def _under_way(self) -> SavedCheckFlight:
        if self.session is None:
            raise ValueError("Begin a check flight first")
        return self.session

    def _sessions(self, name: str = "") -> CheckFlights:
        self.recording.begin(name)
        if self.recording.record is None:
            raise ValueError("Give your name: without one you could not go on later")
        return CheckFlights(self.recording.record)

    @contextmanager
    def _refusals(self) -> Iterator[None]:
        """Say what went wrong: a wrong entry, another window, or the disk."""
        with self.widget.hold_sync():
            try:
                yield
            except ClosedError:
                self._closed()
            except RecordError as error:
                self.widget.message = f"Not saved: {str(error).rstrip('.')}."
            except ValueError as error:
                self.widget.message, self.widget.status = f"{str(error).rstrip('.')}.", ""

    def _keep(self, text: str, always: bool = False) -> None:
        """Save what is in the box, unless it is empty or saved already."""
        text, kept = text.strip(), self._under_way.given[self._place - 1].text
        if text and text != kept:
            sessions = self._sessions()
            try:
                self.session = sessions.answer(self._under_way, self._place, text)
            except ValueError as error:
                if always:
                    raise
                wanted = str(error).rstrip(".")
                raise ValueError(
                    f"{wanted}. Or empty the box, and go on without an answer"
                ) from None
        elif always and not text:
            raise ValueError("Nothing is written yet. Leave the question for now, if you like")

    def _turn_to(self, number: int) -> None:
        session = self._sessions().turn_to(self._under_way, self._place, number)
        self._place = session.place
        self._show(session)

    def _show(self, session: SavedCheckFlight, status: str = "") -> None:
        self.session = session
        show_question(self.widget, session, self._place, status)

    def _show_report(self, report: CheckReport) -> None:
        self.report = report
        show_report(self.widget, report)

    def _closed(self) -> None:
        """Show the report that another window handed in."""
        reports = self._sessions().reports()
        if reports:
            self._show_report(reports[-1])
            self.widget.status = "This check flight was handed in from another window."
        else:
            self.widget.message = "This check flight is not under way any more."

    def _named(self, change: dict[str, Any]) -> None:
        with self.widget.hold_sync():
            self.widget.asks_name = not self.recording.learner
            if change["old"]:  # another learner: clear what the last one left
                self.session = self.report = None
                start(self.widget, self.recording.learner)

    def _pressed(self, _: CheckFlightWidget, content: dict[str, Any], __: list[Any]) -> None:
        text, name = str(content.get("text", "")), str(content.get("name", ""))
        match content:
            case {"press": "begin"}:
                self.begin(name)
            case {"press": "last"}:
                self.last(name)
            case {"press": "keep"}:
                self.keep(text)
            case {"press": "turn", "to": int(number)}:
                self.turn_to(number, text)
            case {"press": "pause"}:
                self.pause(text)
            case {"press": "go on"}:
                self.go_on()
            case {"press": "hand in"}:
                self.ask_to_hand_in(text)
            case {"press": "hand in now"}:
                self.hand_in(text)
            case {"press": "not yet"}:
                self.widget.sure = ""
            case {"press": "print", "path": str(path)}:
                self.print(path)
            case {"press": "beat"}:
                self.beat()

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"text/plain": in_lines(self.sentence), **widget_view(self.widget)}


def _questions(count: int) -> str:
    return f"{spoken_count(count, 'question')} {'is' if count == 1 else 'are'}"


@offered
def check_flight(seed: int | None = None) -> CheckFlightPage:
    """Return a check flight over the whole course.

    Parameters
    ----------
    seed
        The same seed gives every learner of a class the same test; None draws one by chance.

    Raises
    ------
    ValueError
        If the seed is below 0.
    """
    return CheckFlightPage(this_session(), seed)
