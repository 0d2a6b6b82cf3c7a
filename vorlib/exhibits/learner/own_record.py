"""A learner's controls for the record: export it, bring it in, delete it."""

from __future__ import annotations

from typing import Any

import traitlets

from vorlib.core.words import spoken_count
from vorlib.exhibits.learner.recording import RecordKeeper
from vorlib.practice.record.record import RecordError

__all__ = ["OwnRecord", "OwnRecordTraits"]


class OwnRecordTraits(traitlets.HasTraits):
    """What the browser shows of a record, folded out under a practice.

    Attributes
    ----------
    record_open
        Whether it is folded out; the reader's to change.
    record
        What is kept, and what became of an export or of one brought in.
    record_message
        What stood in the way of what was last asked for; empty when nothing did.
    record_sure
        What is asked before a record is deleted; empty when it is not being asked.
    """

    record_open = traitlets.Bool(False).tag(sync=True)
    record = traitlets.Unicode().tag(sync=True)
    record_message = traitlets.Unicode().tag(sync=True)
    record_sure = traitlets.Unicode().tag(sync=True)


class OwnRecord:
    """The way from the controls of the fold-out to the record.

    Parameters
    ----------
    widget
        A widget with `OwnRecordTraits`.
    recording
        Who practices, and the way to the record.
    """

    def __init__(self, widget: Any, recording: RecordKeeper) -> None:
        self.widget, self.recording = widget, recording
        widget.observe(lambda _: self.tell(), "record_open")

    def tell(self) -> None:
        """Say what is kept, if that is to be seen, and take back a question and a message."""
        with self.widget.hold_sync():
            self.widget.record = self._kept() if self.widget.record_open else ""
            self.widget.record_message = self.widget.record_sure = ""

    def pressed(self, content: dict[str, Any]) -> None:
        """Carry out a button's order; what goes wrong is said beside it.

        Nothing is deleted but in answer to the question.
        """
        is_asked = bool(self.widget.record_sure)
        self.tell()
        try:
            match content:
                case {"press": "export", "as": "json" | "csv" as suffix}:
                    self._export(suffix)
                case {"press": "bring in", "name": str(name), "text": str(text)}:
                    self._bring_in(name, text)
                case {"press": "somebody else", "name": str(name)}:
                    self.recording.change(name)
                case {"press": "delete"}:
                    self.widget.record_sure = self._question()
                case {"press": "delete for good"} if is_asked:
                    self.recording.delete()
        except (ValueError, RecordError) as error:
            self.widget.record_message = f"{str(error).rstrip('.')}."

    def _export(self, suffix: str) -> None:
        name, text = self.recording.exported(suffix)
        self.widget.send({"download": name, "text": text})
        self.widget.record = f"{name} is handed to your browser, which saves it."

    def _bring_in(self, name: str, text: str) -> None:
        count = self.recording.bring_in(name, text)
        self.widget.record = f"{spoken_count(count, 'answer')} of {name} added. {self._kept()}"

    def _kept(self) -> str:
        record = self.recording.record
        if record is None:
            return ""
        return f"{self._counted()} of {record.learner} in {record.path} and nowhere else."

    def _question(self) -> str:
        what = f"the record of {self.recording.learner}: {self._counted()}"
        more = "with any check flight and entry of training"
        return f"Delete {what}, {more}? It cannot be undone."

    def _counted(self) -> str:
        return spoken_count(self.recording.summary().answered, "answer")
