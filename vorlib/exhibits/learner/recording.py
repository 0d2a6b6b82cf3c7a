"""Record who practices in this notebook, and save each answer to the learner's record."""

from datetime import UTC, date, datetime
from typing import Any

import traitlets

from vorlib.core.words import spoken_count
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.mastery import Summary
from vorlib.practice.record.exchange import Export, as_csv, as_json, parse_export
from vorlib.practice.record.record import Record, RecordError

__all__ = ["RecordKeeper", "this_session"]


class RecordKeeper(traitlets.HasTraits):
    """The record of the learner who practices, once a name is given; nothing is kept before.

    Attributes
    ----------
    learner
        The name; empty while there is none, and then nothing is recorded.
    waiting
        Answers that could not be saved yet, the oldest first.
    trouble
        What stood in the way when the record was last used; empty when nothing did.
    news
        What became of the record of whoever practiced before; empty when nobody did.
    """

    learner = traitlets.Unicode()
    waiting: Any = traitlets.Tuple()

    def __init__(self) -> None:
        super().__init__()
        self.trouble = self.news = ""
        self._record: Record | None = None

    def begin(self, name: str) -> None:
        """Record what is answered from now on under a name.

        A blank one changes nothing, and neither does a second one: `change` takes another.

        Raises
        ------
        ValueError
            If the name cannot be one; the message says what is allowed.
        """
        if name.strip() and not self.learner:
            self._record = Record(name)
            self.learner = self._record.learner

    def change(self, name: str) -> None:
        """Record under another name from now on, or with a blank one under none.

        Raises
        ------
        ValueError
            If the name cannot be one, or is that of who practices already.
        RecordError
            If answers still wait to be saved under the name there is.
        """
        if not self.save() and self.waiting:
            raise RecordError(self.words)
        record = Record(name) if name.strip() else None
        if record and self._record and record.path == self._record.path:
            raise ValueError(f"name must be another one, got {name.strip()!r} again")
        was, self._record = self.learner, record
        self.news = f"Nothing is saved for {was} any more; what was saved is kept." if was else ""
        self.learner = record.learner if record else ""

    def exported(self, suffix: str) -> tuple[str, str]:
        """Return all answers as a file's name and its text, with the suffix "json" or "csv".

        Raises
        ------
        ValueError
            If nobody has given a name.
        RecordError
            If the record cannot be read.
        """
        record = self._given_record()
        export = Export(record.learner, tuple(record.attempts()))
        text = {"json": as_json, "csv": as_csv}[suffix](export)
        return record.path.with_suffix(f".{suffix}").name, text

    def bring_in(self, name: str, text: str) -> int:
        """Add the answers of an exported file, given its name and text; return how many are new.

        Raises
        ------
        ValueError
            If nobody has given a name, or the file is damaged, no export, or another learner's.
        RecordError
            If the record cannot be written.
        """
        return self._given_record().bring_in(parse_export(name, text))

    def delete(self) -> None:
        """Delete the record, with what waits to be saved, and record nothing from now on.

        Raises
        ------
        ValueError
            If nobody has given a name.
        RecordError
            If it cannot be deleted.
        """
        self._given_record().delete()
        self._record, self.trouble, self.waiting = None, "", ()
        self.news = f"The record of {self.learner} is deleted."
        self.learner = ""

    def _given_record(self) -> Record:
        if self._record is None:
            raise ValueError("name must be given before there is a record")
        return self._record

    @property
    def record(self) -> Record | None:
        """The learner's record; None without a name."""
        return self._record

    def keep(self, attempt: Attempt) -> bool:
        """Save an answer, after those that wait, and return whether it is on the disk."""
        if self._record is None:
            return False
        self.waiting = (*self.waiting, attempt)
        return self.save()

    def save(self) -> bool:
        """Try to save the answers that wait, and return whether all are on the disk."""
        if self._record is None:
            return False
        self.trouble = ""
        if self.waiting:
            try:
                self._record.add(*self.waiting)
            except RecordError as error:
                self.trouble = str(error)
            else:
                self.waiting = ()
        return not self.waiting

    def summary(self) -> Summary:
        """Return how the learner stands; nothing is known without a name or a readable record."""
        if self._record is None:
            return Summary()
        try:
            return self._record.summary()
        except RecordError as error:
            self.trouble = str(error)
            return Summary()

    def today(self) -> date:
        """Return the day as the record counts days."""
        return datetime.now(UTC).date()

    @property
    def words(self) -> str:
        """The note at the exhibit: who is recorded, and what could not be saved."""
        if self.waiting:
            kept = spoken_count(len(self.waiting), "answer")
            kept = f"{kept} {'is' if len(self.waiting) == 1 else 'are'}"
            return (
                f"Not saved: {self.trouble} {kept} kept here and saved "
                "with the next one, or when you press Save again."
            )
        if self.trouble:
            return f"Your record cannot be used: {self.trouble}"
        return f"Answers are saved for {self.learner}." if self.learner else self.news


_session = RecordKeeper()


def this_session() -> RecordKeeper:
    """Return the one recording of this notebook: a name is asked for once, whichever practice."""
    return _session
