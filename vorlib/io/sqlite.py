"""Small durable SQLite files: what was acknowledged stays.

Whatever is added together is one transaction with SQLite's rollback journal, on the disk before
`Store.writing` ends. Not a write-ahead log, because without one a store is a single file, also in a
network folder.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from vorlib.io.atomic import GET_RIGHTS, MAKE_ROOM, what_to_do
from vorlib.io.text import shortened

WAIT_S = 10.0  # for another process that is writing

WAIT = "Another program is writing to it: do it again in a minute."
PUT_ASIDE = "Put a backup in its place, or move it elsewhere to begin a new one."
ADVICE = {
    sqlite3.SQLITE_FULL: MAKE_ROOM,
    sqlite3.SQLITE_IOERR: MAKE_ROOM,  # what a file answers that may not grow
    sqlite3.SQLITE_READONLY: GET_RIGHTS,
    sqlite3.SQLITE_PERM: GET_RIGHTS,
    sqlite3.SQLITE_CANTOPEN: GET_RIGHTS,
    sqlite3.SQLITE_BUSY: WAIT,
    sqlite3.SQLITE_LOCKED: WAIT,
}
LONGEST_REASON = 80  # characters: SQLite quotes whole statements


class StoreError(OSError):
    """A store could not be read or written; what was in it is still there."""


@dataclass(frozen=True)
class Store:
    """One file, which is made when it is first written to.

    Parameters
    ----------
    path
        The file.
    name
        What its messages call it, such as "log".
    holds
        What is in it, such as "receiver checks", for the message about a file of another sort.
    application_id
        The number in the file's header that tells it from other databases.
    steps
        Statements which bring the schema from each version to the next, beginning with nothing. A
        file of an older version is brought up to date when it is opened, all steps or none.
    error
        The error that is raised: StoreError or a subclass.
    """

    path: Path
    name: str
    holds: str
    application_id: int
    steps: tuple[tuple[str, ...], ...]
    error: type[StoreError] = StoreError

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Open a transaction to write in; when the block ends, it is on the disk.

        Raises
        ------
        StoreError
            If it cannot be written: nothing was added and nothing lost.
        """
        with self._refusals("written; nothing was added"):
            self._make_private()
            with closing(self.connect()) as database:
                database.execute("BEGIN IMMEDIATE")
                self._prepare(database)
                yield database
                database.execute("COMMIT")

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection | None]:
        """Open the file as it is at this moment; None where nothing was ever written.

        Raises
        ------
        StoreError
            If the file cannot be read.
        """
        with self._refusals("read"):
            if not self.path.exists() or self.path.stat().st_size == 0:
                yield None
                return
            with closing(self.connect()) as database:
                if _number(database, "schema_version") == 0:  # made, but nothing ever written
                    yield None
                    return
                if self._version(database) < len(self.steps):
                    database.execute("BEGIN IMMEDIATE")
                    self._prepare(database)
                    database.execute("COMMIT")
                database.execute("BEGIN")
                yield database

    def _make_private(self) -> None:
        """Make the folder and the file if they do not exist, readable by this user only."""
        self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with suppress(FileExistsError):
            self.path.touch(mode=0o600, exist_ok=False)

    def connect(self) -> sqlite3.Connection:
        """Return a connection that puts what it commits on the disk at once."""
        database = sqlite3.connect(self.path, timeout=WAIT_S, isolation_level=None)
        # FULL puts the entry on the disk before COMMIT returns, EXTRA the removal of the journal
        # as well: https://sqlite.org/pragma.html#pragma_synchronous (from memory)
        database.execute("PRAGMA synchronous = EXTRA")
        return database

    def _prepare(self, database: sqlite3.Connection) -> None:
        """Bring the schema up to date; within a writer's transaction, so only one does."""
        if _number(database, "schema_version") == 0:
            database.execute(f"PRAGMA application_id = {self.application_id}")
        version = self._version(database)
        for number, step in enumerate(self.steps[version:], start=version + 1):
            for statement in step:
                database.execute(statement)
            database.execute(f"PRAGMA user_version = {number}")

    def _version(self, database: sqlite3.Connection) -> int:
        """Return the file's version, or raise when another program made the file."""
        if _number(database, "application_id") != self.application_id:
            raise self.error(f"{self.path} is a database, but not a {self.name} of {self.holds}")
        version = _number(database, "user_version")
        if version > len(self.steps):
            raise self.error(
                f"the {self.name} {self.path} has version {version}, newer than this vorlib "
                f"knows ({len(self.steps)}): install a newer vorlib"
            )
        return version

    @contextmanager
    def _refusals(self, what: str) -> Iterator[None]:
        """Turn whatever a disk or a database answers into one error in words."""
        try:
            yield
        except self.error:
            raise
        except (sqlite3.Error, OSError, ValueError) as error:
            raise self.error(
                f"the {self.name} {self.path} could not be {what}: "
                f"{shortened(str(error), LONGEST_REASON)}. "
                f"What was in it before is untouched. {_advice(error)}"
            ) from error


def _advice(error: Exception) -> str:
    """Return what to do about what a disk or a database answers: a damaged file is put aside."""
    if isinstance(error, OSError):
        return what_to_do(error) or GET_RIGHTS
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_CORRUPT) & 0xFF
    return ADVICE.get(code, PUT_ASIDE)


def _number(database: sqlite3.Connection, pragma: str) -> int:
    return int(database.execute(f"PRAGMA {pragma}").fetchone()[0])
