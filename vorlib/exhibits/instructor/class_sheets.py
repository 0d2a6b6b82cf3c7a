"""The sheets of a class: its results as PDF and CSV, and a worksheet for each misconception."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.sheets.save_sheets import SaveSheets
from vorlib.io.atomic import write_whole
from vorlib.paper.classroom.class_sheet import class_pdf
from vorlib.paper.classroom.ready_worksheet import save_ready_worksheet
from vorlib.paper.page import PAGE_SIZES
from vorlib.practice.classroom.results_csv import results_csv
from vorlib.practice.classroom.teaching import TeachAgain, teach_again

__all__ = ["ClassSheets"]


class ClassSheets(SaveSheets):
    """A folder, a button for each form of the results, and one for each misconception held.

    Attributes
    ----------
    worksheets
        The buttons by misconception.
    more
        Where they stand: to be put on the page where there is room for their names.
    """

    def __init__(self) -> None:
        forms = {"Write the results (PDF)": _save_pdf, "Write the results (CSV)": _save_csv}
        super().__init__("folder", forms)
        self.worksheets: dict[str, widgets.Button] = {}
        self.more = plain(widgets.HBox, layout=widgets.Layout(flex_flow="row wrap"))
        self.more.add_class("vorlib-control-row")

    def follow(self, state: Any) -> None:
        """Keep the state, and offer a worksheet for each misconception that is held in it."""
        super().follow(state)
        held = {one.misconception: one for one in teach_again(state.results) if one.question}
        if list(held) == list(self.worksheets):
            return
        self.worksheets = {name: self._button(name) for name in held}
        self.more.children = tuple(self.worksheets.values())

    def _button(self, misconception: str) -> widgets.Button:
        button = plain(
            widgets.Button,
            description=f"Worksheet: {misconception}",
            tooltip=f"Write a worksheet and its key on: {misconception} (PDF)",
            layout=widgets.Layout(width="auto"),
        )
        button.on_click(
            lambda _: self._write(partial(_save_worksheet, misconception=misconception))
        )
        return button


def _save_pdf(state: Any, folder: Path) -> Path:
    pdf = class_pdf(
        state.results,
        PAGE_SIZES[state.paper],
        missing=state.missing,
        since=state.since,
        until=state.until,
    )
    return write_whole(folder / "class-results.pdf", pdf)


def _save_csv(state: Any, folder: Path) -> Path:
    text = results_csv(state.results, state.missing)
    # spreadsheets recognize UTF-8 by this mark
    return write_whole(folder / "class-results.csv", text.encode("utf-8-sig"))


def _save_worksheet(state: Any, folder: Path, misconception: str) -> tuple[Path, ...]:
    return save_ready_worksheet(_about(state, misconception), folder, PAGE_SIZES[state.paper])


def _about(state: Any, misconception: str) -> TeachAgain:
    return next(one for one in teach_again(state.results) if one.misconception == misconception)
