"""What an instructor enters into a student's record on this machine, and how it is deleted."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import ipywidgets as widgets

from vorlib.briefing.files import day_from_words
from vorlib.exhibits.base.control import Control
from vorlib.exhibits.base.inputs import Note, paragraphs
from vorlib.exhibits.base.plain import plain
from vorlib.practice.record.record import Record, RecordError
from vorlib.practice.training.deleting import delete_record, what_is_kept
from vorlib.practice.training.entries import TrainingEntry, add_entries, lesson_taught

__all__ = ["EnterAndDelete"]

INVENTED = "This student is invented: name a class folder to keep a record"
ASK = "Delete the record"
SURE = "Delete for good"


class EnterAndDelete(Control):
    """A day, what was done, a remark, and the buttons that enter it; and one that deletes all.

    Nothing is deleted before the question is answered with a second press.
    """

    slot = "more"

    def __init__(self) -> None:
        self.day = _line("Day", "today, or 2026-06-01")
        self.about = _line("Lesson or flight", "05, or the flight")
        self.remark = _line("Remark", "to keep with it")
        self.lesson = self._button("Enter as taught", self._taught)
        self.flight = self._button("Enter as debriefed", self._debriefed)
        self.delete = self._button(ASK, self._deleted)
        buttons = (self.lesson, self.flight, self.delete)
        super().__init__("changed", self.day, self.about, self.remark, *buttons)
        self.widget.add_class("vorlib-across")
        self.note = Note()
        self.widget.children = (*self.widget.children, self.note.widget)
        self._record: Record | None = None

    def follow(self, state: Any) -> None:
        """Keep whose record it is, and take back a question about another."""
        name = self._record and self._record.learner
        self._record = state.own
        if name != (state.own and state.own.learner):
            self.delete.description = ASK
            self.note.say("")

    def _show(self, value: Any) -> None:
        pass

    def _button(self, label: str, press: Callable[[Record], str]) -> widgets.Button:
        button = plain(widgets.Button, description=label)
        button.on_click(lambda _: self._pressed(press))
        return button

    def _pressed(self, press: Callable[[Record], str]) -> None:
        """Carry out a button's order, and say what it did or why it did nothing."""
        try:
            if self._record is None:
                raise ValueError(INVENTED)
            said = press(self._record)
        except (ValueError, RecordError) as error:
            self.say(f"Record: {str(error).rstrip('.')}.")
            return
        self.say("")
        self.note.say(f'<div role="status">{paragraphs(said)}</div>')
        self.ask(lambda state: {"changed": state.changed + 1})

    def _taught(self, record: Record) -> str:
        return self._enter(record, lesson_taught(self.about.value, self._on, self._remark))

    def _debriefed(self, record: Record) -> str:
        about = self.about.value.strip()
        return self._enter(record, TrainingEntry(self._on, "flight", about, self._remark))

    def _enter(self, record: Record, entry: TrainingEntry) -> str:
        add_entries(record, entry)
        self.about.value = self.remark.value = ""
        return f"Entered for {record.learner}: {entry.what} {entry.about} on {entry.day}."

    def _deleted(self, record: Record) -> str:
        if self.delete.description == ASK:
            kept = what_is_kept(record)
            self.delete.description = SURE
            return f"Delete {kept} of {record.learner}? It cannot be undone: press once more."
        self.delete.description = ASK
        return delete_record(record)

    @property
    def _on(self) -> date:
        words = self.day.value.strip()
        return day_from_words(words) if words else date.today()

    @property
    def _remark(self) -> str:
        return str(self.remark.value).strip()


def _line(label: str, example: str) -> widgets.Text:
    return widgets.Text(description=label, placeholder=example).add_class("vorlib-path")
