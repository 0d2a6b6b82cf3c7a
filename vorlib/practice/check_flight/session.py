"""One learner's attempt at the check flight: start, pause, resume, submit.

Everything lies in the learner's record and is on the disk before a method returns. The clock is the
sum of the time from beat to beat: whatever shows the questions beats every few seconds, and where
the beats stop, for a closed page or a failed computer, the clock stands still by itself.
"""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Callable
from datetime import UTC, datetime
from secrets import randbelow
from uuid import UUID, uuid4, uuid5

from vorlib.practice.check_flight import store
from vorlib.practice.check_flight.plan import check_flight_plan
from vorlib.practice.check_flight.report import CheckReport, Item, assess, from_json, to_json
from vorlib.practice.check_flight.store import Given, SavedCheckFlight
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.questions.question import mark
from vorlib.practice.questions.registry import SEEDS
from vorlib.practice.record.record import Record, RecordError, insert

__all__ = ["BEAT_S", "CheckFlights", "ClosedError", "SavedCheckFlight"]

BEAT_S = 10.0
OTHER_WINDOW_S = 2.0 * BEAT_S  # a beat this recent means that another window shows the questions


class ClosedError(RecordError):
    """The check flight is over: it was handed in, here or in another window."""


class CheckFlights:
    """The check flights of a learner, of which one at most is under way.

    Every method raises `RecordError` when the record cannot be read or written; then nothing has
    changed. All that change a check flight raise `ClosedError` when it is not under way any more.

    Parameters
    ----------
    record
        The learner's record.
    clock
        Seconds since 1970.
    """

    def __init__(self, record: Record, clock: Callable[[], float] = time.time) -> None:
        self.record, self.clock = record, clock

    def open(self, seed: int | None = None) -> SavedCheckFlight:
        """Resume the check flight that is under way, or begin one.

        One whose questions this vorlib draws otherwise is set aside, and another begun.

        Parameters
        ----------
        seed
            What a new one is drawn from; None for chance.

        Raises
        ------
        ValueError
            If the seed is below 0.
        """
        seed = randbelow(SEEDS) if seed is None else seed
        plan = check_flight_plan(seed)
        with self.record.writing() as database:
            session = store.under_way(database)
            if session is not None and not store.is_as_drawn(database, session):
                store.change(database, session, state="set aside")
                session = None
            if session is None:
                store.begin(database, str(uuid4()), seed, self._now(), plan)
            elif session.paused:
                store.change(database, session, paused=0, beat_s=self.clock())
            elif self.clock() - store.last_beat_s(database, session) > OTHER_WINDOW_S:
                store.change(database, session, pauses=session.pauses + 1, beat_s=self.clock())
            session = store.under_way(database)
        assert session is not None
        return session

    def beat(self, session: SavedCheckFlight, place: int) -> SavedCheckFlight:
        """Run the clock on with a question shown, and return the check flight as it stands."""
        return self._change(session, place, lambda database, now: None)

    def answer(self, session: SavedCheckFlight, place: int, text: str) -> SavedCheckFlight:
        """Save an answer to a question in place of an earlier one.

        Raises
        ------
        ValueError
            If the text makes no sense as an answer: the message says what is wanted.
        """
        marking = mark(session.plan[place - 1].question, text)
        if marking.verdict == "not understood":
            raise ValueError(marking.message)

        def keep(database: sqlite3.Connection, now: SavedCheckFlight) -> None:
            given = Given(text.strip(), self._now(), now.left_s == 0.0, used_s=0.0)
            store.keep_answer(database, now, place, given)

        return self._change(session, place, keep)

    def turn_to(self, session: SavedCheckFlight, place: int, to: int) -> SavedCheckFlight:
        """Show another question; a number outside the test changes nothing."""

        def turn(database: sqlite3.Connection, now: SavedCheckFlight) -> None:
            if 1 <= to <= len(now.given):
                store.change(database, now, place=to)

        return self._change(session, place, turn)

    def pause(self, session: SavedCheckFlight, place: int) -> SavedCheckFlight:
        """Stop the clock."""

        def stop(database: sqlite3.Connection, now: SavedCheckFlight) -> None:
            if not now.paused:
                store.change(database, now, paused=1, pauses=now.pauses + 1)

        return self._change(session, place, stop)

    def go_on(self, session: SavedCheckFlight, place: int) -> SavedCheckFlight:
        """Let the clock run again after a pause."""
        return self._change(
            session, place, lambda database, now: store.change(database, now, paused=0)
        )

    def hand_in(self, session: SavedCheckFlight, place: int) -> CheckReport:
        """Mark a check flight, count its answers in the record, and return the report.

        All of it happens or nothing; each answer counts once, whatever is done again.
        """
        reports = []

        def close(database: sqlite3.Connection, now: SavedCheckFlight) -> None:
            report = self._report(now)
            insert(database, [_attempt(now, item) for item in report.items if item.given])
            store.change(database, now, state="handed in", report=to_json(report))
            reports.append(report)

        self._change(session, place, close)
        return reports[0]

    def reports(self) -> list[CheckReport]:
        """Return the reports of all check flights that were handed in, the latest last."""
        with self.record.store.reading() as database:
            return [] if database is None else [from_json(r) for r in store.reports(database)]

    def _change(
        self,
        session: SavedCheckFlight,
        place: int,
        act: Callable[[sqlite3.Connection, SavedCheckFlight], None],
    ) -> SavedCheckFlight:
        """Run the clock on and act, in one transaction; return the check flight after it."""
        with self.record.writing() as database:
            now = store.under_way(database)
            if now is None or now.key != session.key:
                raise ClosedError("this check flight is not under way any more")
            store.beat(database, now, place, self.clock())
            act(database, store.load(database, now.number))
            after = store.load(database, now.number)
        return after

    def _report(self, session: SavedCheckFlight) -> CheckReport:
        both = zip(session.plan, session.given, strict=True)
        items = tuple(
            assess(number, planned, given.text, given.late)
            for number, (planned, given) in enumerate(both, start=1)
        )
        return CheckReport(
            self.record.learner,
            session.seed,
            session.begun_at,
            self._now(),
            round(session.used_s / 60.0, 2),
            session.pauses,
            items,
        )

    def _now(self) -> datetime:
        return datetime.fromtimestamp(self.clock(), UTC)


def _attempt(session: SavedCheckFlight, item: Item) -> Attempt:
    """Return an answer as the record keeps those of practice, always under the same key."""
    given = session.given[item.number - 1]
    assert item.verdict != "not answered"
    assert given.at is not None
    return Attempt(
        item.kind,
        item.seed,
        item.verdict,
        item.misconception,
        item.foreseen,
        taken_s=round(given.used_s, 1),
        answered_at=given.at,
        key=str(uuid5(UUID(session.key), str(item.number))),
    )
