"""Class results in a notebook: read a folder of exports, show who misunderstands what."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any

import ipywidgets as widgets

from vorlib.briefing.files import day_from_words
from vorlib.core.words import spoken_count
from vorlib.exhibits.base.control import Changes, Control
from vorlib.exhibits.base.controls import Button, ChoiceControl, Switch
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.inputs import FileEntry, Opened, Words, paragraphs
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.instructor.class_report import report
from vorlib.exhibits.instructor.class_sheets import ClassSheets
from vorlib.paper.page import PAGE_SIZES
from vorlib.practice.classroom.choosing import HandedIn, between, handed_in, read_class_list
from vorlib.practice.classroom.demo_class import demo_class
from vorlib.practice.classroom.folder import ClassRecords, read_class
from vorlib.practice.classroom.progress import Span
from vorlib.practice.classroom.results import ClassResults, Learner
from vorlib.views.classroom.chart import class_chart
from vorlib.views.classroom.table import class_table
from vorlib.views.classroom.words import days_words, left_out_count, missing_words, summary_words
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import Theme

__all__ = ["ClassExhibit", "ClassResultsState", "class_results", "draw", "sentence"]

Records = Opened[ClassRecords]

NOBODY = {"nobody": ""}  # chosen


@dataclass(frozen=True)
class ClassResultsState:
    """What is shown of which class.

    Attributes
    ----------
    records
        The folder's name and what was read from it; without a name it is the demonstration class.
    by
        What the progress is counted by.
    chosen
        Name of the learner whose progress is shown as well, or empty.
    nameless
        Whether the learners have numbers for names.
    since, until
        The days that the answers are of, both included; None for all before, or after.
    listed
        The class list, if there is one: who should hand in.
    paper, folder
        Name of the size of paper of the sheets, and where they are to be written.
    """

    records: Records
    by: Span = "week"
    chosen: str = ""
    nameless: bool = False
    since: date | None = None
    until: date | None = None
    listed: Opened[tuple[str, ...]] | None = None
    paper: str = "A4"
    folder: str = ""

    @cached_property
    def results(self) -> ClassResults:
        """The results of the days, with names or without."""
        results = ClassResults(between(self.records.content, self.since, self.until))
        return results.without_names() if self.nameless else results

    @cached_property
    def handed_in(self) -> HandedIn | None:
        """The class list compared with the records; None without a list."""
        return handed_in(self.listed.content, self.records.content) if self.listed else None

    @property
    def missing(self) -> tuple[str, ...]:
        """Who has handed in nothing, by name; nobody where no name is to be shown."""
        return self.handed_in.missing if self.handed_in and not self.nameless else ()

    @property
    def learner(self) -> Learner | None:
        """The learner whose progress is shown."""
        return next((one for one in self.results.learners if one.name == self.chosen), None)


def draw(state: ClassResultsState, theme: Theme) -> Picture:
    """Return the table of learners by misconceptions."""
    return class_table(state.results, theme)


def sentence(state: ClassResultsState) -> str:
    """Say what the class's records show."""
    days = f" Answers {days_words(state.since, state.until)}." if state.since or state.until else ""
    words = summary_words(state.results) + days
    if state.handed_in is None:
        return words
    if state.nameless:
        return f"{words} Not handed in: {len(state.handed_in.missing)}."
    return f"{words} {missing_words(state.missing)}"


class _ByName(ChoiceControl):
    """A learner of the class."""

    def follow(self, state: ClassResultsState) -> None:
        """Offer the learners there are."""
        offered = NOBODY | {one.name: one.name for one in state.results.learners}
        if offered != self.options:
            self.options = offered
            with self._quietly():
                self.list.options = list(offered.items())


class ClassExhibit(Exhibit[ClassResultsState]):
    """The exhibit, with what to do about the results under the table."""

    def __init__(self, state: ClassResultsState, *arguments: Any) -> None:
        self._report = plain(widgets.HTML, classes="vorlib-debrief vorlib-class")
        super().__init__(state, *arguments)
        worksheets = [one.more for one in self.controls if isinstance(one, ClassSheets)]
        self.page.fill(below=[*worksheets, self._report])

    @property
    def results(self) -> ClassResults:
        """The results that are shown."""
        return self.state.results

    def _tell(self, sentence: str) -> None:
        super()._tell(sentence)
        state = self.state
        chart = class_chart(state.results, state.by, state.learner, self.theme)
        self._report.value = report(state.results, chart)


def _state(folder: str = "") -> ClassResultsState:
    return ClassResultsState(_opened(folder))


@exhibit(lesson="class_results", state=_state)
def class_results(folder: str = "") -> ClassExhibit:
    """Return the results of a class from its folder of records, or of the demonstration class.

    Raises
    ------
    ValueError
        If there is no such folder.
    """
    box = Words(
        "records", "Class folder", _opened, lambda records: records.name,
        example="such as ~/class/june",
        note=_note, consequences=_others,
    )  # fmt: skip
    box.box.remove_class("vorlib-words").add_class("vorlib-path")
    box.widget.add_class("vorlib-across")
    nameless = Switch("nameless", "Numbers for names")
    nameless.consequences = _others
    controls = [
        box,
        ChoiceControl("by", "Progress by", {"week": "week", "day": "day"}),
        _ByName("chosen", "and of", NOBODY),
        Button("records", "Read again", lambda state: {"records": state.records.name}),
        Button("records", "Demonstration class", lambda state: {"records": ""}),
        nameless,
        _day("since", "From day"),
        _day("until", "To day"),
        FileEntry("listed", "Class list", read_class_list, _listed_note).put_away(),
        ChoiceControl("paper", "Paper", {name: name for name in PAGE_SIZES}).put_away(),
        ClassSheets(),
    ]
    return ClassExhibit(_state(folder), draw, sentence, controls)


def _day(field: str, label: str) -> Control:
    """Return a day in words; without one there is no bound."""
    words = Words(
        field,
        label,
        lambda text: day_from_words(text) if text else None,
        lambda day: str(day or ""),
        example="all, or 2026-06-01",
        consequences=_others,
    )
    return words.put_away()


def _listed_note(state: ClassResultsState) -> str:
    """Return who of the class list has not handed in, as HTML."""
    if state.handed_in is None:
        return paragraphs("No list: a text file with one name a line shows who has not handed in.")
    if state.nameless:
        return paragraphs(f"Not handed in: {len(state.handed_in.missing)}.")
    strangers = state.handed_in.strangers
    others = [f"Not on the list: {', '.join(strangers)}."] if strangers else []
    return paragraphs(missing_words(state.handed_in.missing), *others)


def _opened(folder: str) -> Records:
    return Opened(folder, read_class(folder) if folder else demo_class())


def _others(state: ClassResultsState, value: Any) -> Changes:
    """Choose nobody where the learners are others, or stand in another order."""
    return {"chosen": ""}


def _note(state: ClassResultsState) -> str:
    """Return what was read, as HTML."""
    if not state.records.name:
        return paragraphs("No folder: a demonstration class of thirty invented people.")
    learners = spoken_count(len(state.results.learners), "learner")
    read = f"{learners} read. {left_out_count(state.results)}".rstrip()
    return paragraphs(read, "The files are only read; nothing from them is kept.")
