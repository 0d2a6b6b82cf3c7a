"""Read and write check flights in a learner's record."""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from vorlib.practice.check_flight.plan import ALLOWED_MIN, Planned, check_flight_plan

LONGEST_BEAT_S = 75.0  # browsers let a page that is out of sight beat once a minute
ALLOWED_S = 60.0 * ALLOWED_MIN


@dataclass(frozen=True)
class Given:
    """The answer to a question, empty where there is none, and the time it took."""

    text: str
    at: datetime | None
    late: bool
    used_s: float


@dataclass(frozen=True)
class SavedCheckFlight:
    """A check flight as it stands in the record.

    Attributes
    ----------
    number, key
        Its number in the record, and what tells it from any other anywhere.
    seed
        What its questions are drawn from.
    begun_at
        Moment of its beginning, with time zone.
    place
        Number of the question that is on the page, from 1.
    paused, pauses
        Whether the clock stands still, and how often it has.
    given
        The answers in the order of the questions.
    """

    number: int
    key: str
    seed: int
    begun_at: datetime
    place: int
    paused: bool
    pauses: int
    given: tuple[Given, ...]

    @property
    def plan(self) -> tuple[Planned, ...]:
        """The questions."""
        return check_flight_plan(self.seed)

    @property
    def used_s(self) -> float:
        """Seconds that the clock ran."""
        return sum(given.used_s for given in self.given)

    @property
    def left_s(self) -> float:
        """Seconds that are left; 0 when the time is over."""
        return max(0.0, ALLOWED_S - self.used_s)

    @property
    def unanswered(self) -> tuple[int, ...]:
        """Numbers of the questions without an answer."""
        return tuple(n for n, given in enumerate(self.given, start=1) if not given.text)


def begin(
    database: sqlite3.Connection, key: str, seed: int, begun_at: datetime, plan: Sequence[Planned]
) -> None:
    """Add a check flight that is under way."""
    cursor = database.execute(
        "INSERT INTO sitting (key, seed, begun_at, beat_s) VALUES (?, ?, ?, ?)",
        (key, seed, begun_at.isoformat(), begun_at.timestamp()),
    )
    rows = [(cursor.lastrowid, n, p.fingerprint) for n, p in enumerate(plan, start=1)]
    database.executemany(
        "INSERT INTO sitting_answer (sitting, number, fingerprint) VALUES (?, ?, ?)", rows
    )


def under_way(database: sqlite3.Connection) -> SavedCheckFlight | None:
    """Return the check flight that is under way, if there is one."""
    found = database.execute("SELECT number FROM sitting WHERE state = 'open'").fetchone()
    return load(database, found[0]) if found else None


def load(database: sqlite3.Connection, number: int) -> SavedCheckFlight:
    """Return a check flight by its number."""
    columns = "key, seed, begun_at, place, paused, pauses"
    key, seed, begun_at, place, paused, pauses = database.execute(
        f"SELECT {columns} FROM sitting WHERE number = ?", (number,)
    ).fetchone()
    rows = database.execute(
        "SELECT given, given_at, late, used_s FROM sitting_answer WHERE sitting = ? "
        "ORDER BY number",
        (number,),
    )
    given = tuple(
        Given(text, datetime.fromisoformat(at) if at else None, bool(late), used_s)
        for text, at, late, used_s in rows
    )
    begun = datetime.fromisoformat(begun_at)
    return SavedCheckFlight(number, key, seed, begun, place, bool(paused), pauses, given)


def is_as_drawn(database: sqlite3.Connection, session: SavedCheckFlight) -> bool:
    """Whether its questions are still the ones that its seed gives."""
    rows = database.execute(
        "SELECT fingerprint FROM sitting_answer WHERE sitting = ? ORDER BY number",
        (session.number,),
    )
    drawn = [planned.fingerprint for planned in session.plan]
    return [fingerprint for (fingerprint,) in rows] == drawn


def beat(database: sqlite3.Connection, session: SavedCheckFlight, place: int, now_s: float) -> None:
    """Run the clock on from the last beat; a beat too long ago means a pause."""
    since_s = now_s - last_beat_s(database, session)
    change(database, session, beat_s=now_s)
    if session.paused:
        return
    if since_s > LONGEST_BEAT_S:
        change(database, session, pauses=session.pauses + 1)
    elif since_s > 0.0:  # a clock may be set back
        database.execute(
            "UPDATE sitting_answer SET used_s = used_s + ? WHERE sitting = ? AND number = ?",
            (since_s, session.number, place),
        )


def last_beat_s(database: sqlite3.Connection, session: SavedCheckFlight) -> float:
    """Return when the clock of a check flight last ran on, in seconds since 1970."""
    row = database.execute("SELECT beat_s FROM sitting WHERE number = ?", (session.number,))
    return float(row.fetchone()[0])


def keep_answer(
    database: sqlite3.Connection, session: SavedCheckFlight, place: int, given: Given
) -> None:
    """Put an answer in place of an earlier one."""
    database.execute(
        "UPDATE sitting_answer SET given = ?, given_at = ?, late = ? "
        "WHERE sitting = ? AND number = ?",
        (given.text, given.at and given.at.isoformat(), given.late, session.number, place),
    )


def change(database: sqlite3.Connection, session: SavedCheckFlight, **values: str | float) -> None:
    """Set columns of a check flight; their names come from this program alone."""
    columns = ", ".join(f"{name} = ?" for name in values)
    database.execute(
        f"UPDATE sitting SET {columns} WHERE number = ?", (*values.values(), session.number)
    )


def reports(database: sqlite3.Connection) -> list[str]:
    """Return the reports of the check flights that were handed in, in their order."""
    rows = database.execute("SELECT report FROM sitting WHERE state = 'handed in' ORDER BY number")
    return [report for (report,) in rows]
