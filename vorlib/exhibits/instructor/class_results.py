"""The results of a class: a folder of exported records in, who misunderstands what out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import ipywidgets as widgets

from vorlib.exhibits.base.control import Changes
from vorlib.exhibits.base.controls import Button, ChoiceControl, Switch
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.inputs import Opened, Words, paragraphs
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.instructor.class_report import report
from vorlib.practice.classroom.demo_class import demo_class
from vorlib.practice.classroom.folder import ClassRecords, read_class
from vorlib.practice.classroom.progress import Span
from vorlib.practice.classroom.results import ClassResults, Learner
from vorlib.views.classroom.chart import class_chart
from vorlib.views.classroom.table import class_table
from vorlib.views.classroom.words import left_out_count, summary_words
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
    """

    records: Records
    by: Span = "week"
    chosen: str = ""
    nameless: bool = False

    @cached_property
    def results(self) -> ClassResults:
        """The results, with names or without."""
        results = ClassResults(self.records.content)
        return results.without_names() if self.nameless else results

    @property
    def learner(self) -> Learner | None:
        """The learner whose progress is shown."""
        return next((one for one in self.results.learners if one.name == self.chosen), None)


def draw(state: ClassResultsState, theme: Theme) -> Picture:
    """Return the table of learners by misconceptions."""
    return class_table(state.results, theme)


def sentence(state: ClassResultsState) -> str:
    """Say what the class's records show."""
    return summary_words(state.results)


class _ByName(ChoiceControl):
    """A learner of the class."""

    def follow(self, state: ClassResultsState) -> None:
        """Offer those there are."""
        offered = NOBODY | {one.name: one.name for one in state.results.learners}
        if offered != self.options:
            self.options = offered
            with self._quietly():
                self.list.options = list(offered.items())


class ClassExhibit(Exhibit[ClassResultsState]):
    """The exhibit, with what to do about the results under the table."""

    def __init__(self, state: ClassResultsState, *arguments: Any) -> None:
        self._report = widgets.HTML().add_class("vorlib-debrief").add_class("vorlib-class")
        super().__init__(state, *arguments)
        self.page.fill(below=[self._report])

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
        example="the folder with the exported records, such as ~/class/june",
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
    ]
    return ClassExhibit(_state(folder), draw, sentence, controls)


def _opened(folder: str) -> Records:
    return Opened(folder, read_class(folder) if folder else demo_class())


def _others(state: ClassResultsState, value: Any) -> Changes:
    """Choose nobody where the learners are others, or stand in another order."""
    return {"chosen": ""}


def _note(state: ClassResultsState) -> str:
    """Return what was read, as HTML."""
    if not state.records.name:
        return paragraphs("No folder: a demonstration class of thirty invented people.")
    count = len(state.results.learners)
    read = f"{count} learner{'' if count == 1 else 's'} read. {left_out_count(state.results)}"
    return paragraphs(read, "The files are read and left as they are; nothing is kept of them.")
