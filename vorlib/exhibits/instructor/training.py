"""A student's training record as printed, kept on this machine and nowhere else."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

from vorlib.exhibits.base.control import Changes
from vorlib.exhibits.base.controls import Button, ChoiceControl
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.inputs import Opened, Words, paragraphs
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.instructor.training_entries import EnterAndDelete
from vorlib.exhibits.sheets.page_preview import as_picture
from vorlib.exhibits.sheets.save_sheets import SaveSheets
from vorlib.io.atomic import write_whole
from vorlib.paper.classroom.training_record import training_pages, training_pdf
from vorlib.paper.page import PAGE_SIZES
from vorlib.practice.check_flight.session import CheckFlights
from vorlib.practice.classroom.demo_class import demo_class
from vorlib.practice.classroom.folder import ClassRecords, read_class
from vorlib.practice.record.record import Record
from vorlib.practice.training.entries import entries_of
from vorlib.practice.training.files import training_csv, training_json
from vorlib.practice.training.training_record import TrainingRecord, training_record
from vorlib.stations.archipelago import TODAY
from vorlib.views.classroom.training_words import training_sentence
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme

__all__ = ["TrainingState", "training"]


@dataclass(frozen=True)
class TrainingState:
    """Whose record is shown.

    Attributes
    ----------
    records
        The folder that the class handed in to; without a name it is the demonstration class.
    student
        The name; empty for the first of the folder.
    page
        Which page, counted round and round from 1.
    paper, folder
        Name of the size of paper, and where the files are to be written.
    changed
        How often something was entered or deleted.
    """

    records: Opened[ClassRecords]
    student: str = ""
    page: int = 1
    paper: str = "A4"
    folder: str = ""
    changed: int = 0

    def __post_init__(self) -> None:
        if not self.records.content.learners:
            raise ValueError("the class folder holds no record that can be read")

    @property
    def names(self) -> tuple[str, ...]:
        """The records of the folder."""
        return tuple(export.learner for export in self.records.content.learners)

    @property
    def name(self) -> str:
        """The student's name."""
        return self.student if self.student in self.names else self.names[0]

    @property
    def own(self) -> Record | None:
        """The student's record on this machine; None for one who is invented."""
        return Record(self.name) if self.records.name else None

    @property
    def on(self) -> date:
        """The day that stands on it: for an invented student that of the lessons."""
        return date.today() if self.records.name else TODAY

    @cached_property
    def training(self) -> TrainingRecord:
        """What was handed in, with what was entered on this machine."""
        (export,) = (e for e in self.records.content.learners if e.learner == self.name)
        if self.own is None:
            return training_record(export)
        return training_record(export, entries_of(self.own), CheckFlights(self.own).reports())

    @cached_property
    def pages(self) -> tuple[Picture, ...]:
        """The pages as they will be printed."""
        return training_pages(self.training, self.on, PAGE_SIZES[self.paper])


def draw(state: TrainingState, theme: Theme) -> Picture:
    """Return the page that is shown."""
    return as_picture(state.pages[(state.page - 1) % len(state.pages)], theme)


def sentence(state: TrainingState) -> str:
    """Say how far the student has come."""
    return training_sentence(state.training)


class _Student(ChoiceControl):
    """A student of the folder."""

    def follow(self, state: TrainingState) -> None:
        """Offer the learners there are."""
        offered = {name: name for name in state.names}
        if offered != self.options:
            self.options = offered
            with self._quietly():
                self.list.options = list(offered.items())
        self._name = state.name

    def _show(self, value: str) -> None:
        self.list.value = self._name


def _state(folder: str = "", student: str = "") -> TrainingState:
    return TrainingState(_opened(folder), student)


@exhibit(lesson="round", state=_state)
def training(folder: str = "", student: str = "") -> Exhibit[TrainingState]:
    """Return a student's record of training, of a class folder or of the demonstration class.

    Raises
    ------
    ValueError
        If there is no such folder, or no record in it.
    """
    records = Words(
        "records", "Class folder", _opened, lambda records: records.name,
        example="such as ~/class/june",
        note=_note, consequences=_first,
    )  # fmt: skip
    controls = [
        records,
        _Student("student", "Student", {}, lambda state, value: {"page": 1}),
        ChoiceControl("paper", "Paper", {name: name for name in PAGE_SIZES}).put_away(),
        EnterAndDelete(),
        SaveSheets(
            "folder",
            {
                "Write the record (PDF)": _save_pdf,
                "Write the record (CSV)": _save_csv,
                "Write the record (JSON)": _save_json,
            },
        ),
        Button("page", "Next page", lambda state: {"page": state.page + 1}).put("transport"),
    ]
    made = Exhibit(_state(folder, student), draw, sentence, controls)
    made.widget.add_class("vorlib-prepare")
    return made


def _opened(folder: str) -> Opened[ClassRecords]:
    return Opened(folder, read_class(folder) if folder else demo_class())


def _first(state: TrainingState, value: Any) -> Changes:
    """Show the first student of another folder."""
    return {"student": "", "page": 1}


def _note(state: TrainingState) -> str:
    if state.own is None:
        return paragraphs("No folder: a demonstration class of invented people.")
    return paragraphs(
        "Names and entries stay on this machine. The files in the folder are only read."
    )


def _save_pdf(state: TrainingState, folder: Path) -> Path:
    pdf = training_pdf(state.training, state.on, PAGE_SIZES[state.paper])
    return write_whole(folder / f"{_file(state)}.pdf", pdf)


def _save_csv(state: TrainingState, folder: Path) -> Path:
    text = training_csv(state.training)
    # spreadsheets recognize UTF-8 by this mark
    return write_whole(folder / f"{_file(state)}.csv", text.encode("utf-8-sig"))


def _save_json(state: TrainingState, folder: Path) -> Path:
    text = training_json(state.training, state.on)
    return write_whole(folder / f"{_file(state)}.json", text.encode())


def _file(state: TrainingState) -> str:
    return f"training-{state.name.casefold().replace(' ', '-')}"
