"""Printed practice chosen on a page: topic, number and seed in, the sheets live, and out as PDF.

The pages are those of `vorlib.paper`. For training on the ground, not for navigation.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

from vorlib.core.words import spoken_count
from vorlib.exhibits.base.control import Changes, Control
from vorlib.exhibits.base.controls import Button, ChoiceControl
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.inputs import Words
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.sheets.page_preview import PROJECTOR_PAGE, as_picture
from vorlib.exhibits.sheets.save_sheets import SaveSheets
from vorlib.paper.air_card import card_pages
from vorlib.paper.answer_key import key_pages
from vorlib.paper.page import PAGE_SIZES, PageSize
from vorlib.paper.problem_sheet import ROOM, SOME, problem_pages
from vorlib.paper.sheet_code import FIRST
from vorlib.paper.worksheet import (
    VARIANTS,
    Worksheet,
    new_secret,
    new_seed,
    read_secret,
    whole_number,
)
from vorlib.paper.worksheet_files import save_card, save_worksheet
from vorlib.practice.learning.lessons import lesson_title
from vorlib.practice.learning.topic import Topic, lessons_with_questions
from vorlib.practice.questions.registry import all_kinds
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.theme import PROJECTOR, SCREEN, Theme

__all__ = ["Worksheets", "worksheets"]

CARD = "In-flight card"
OPEN = "Whoever has this code can make the key: before you hand the sheet out, press Lock."
LOCKED = "To make the key again takes the secret as well, which only the key shows."
SWAP_ONE = "choose a number"
SHEETS: dict[str, Callable[[Worksheet, PageSize, str], tuple[Picture, ...]]] = {
    "Problem sheet": problem_pages,
    "Answer key": lambda worksheet, size, room: key_pages(worksheet, size),
    CARD: lambda worksheet, size, room: card_pages(Topic.read(worksheet.topic), size),
}


@dataclass(frozen=True)
class WorksheetsState:
    """The choices for a worksheet.

    Attributes
    ----------
    topic, count, seed, variant, swaps, secret
        As of `vorlib.paper.worksheet.Worksheet`.
    variants
        How many variants are written.
    room
        To work in, as of `vorlib.paper.problem_sheet.problem_pages`.
    paper
        Name of the paper's size.
    shown, page
        Which of the sheets is shown, and which page, counted round and round from 1.
    found
        The code by which the worksheet was found, or empty.
    folder
        Where the sheets are to be written.
    """

    topic: str = "05"
    count: int = 20
    seed: int = 7
    variant: str = FIRST
    swaps: tuple[int, ...] = ()
    secret: str = ""
    variants: int = 1
    room: str = SOME
    paper: str = "A4"
    shown: str = "Problem sheet"
    page: int = 1
    found: str = ""
    folder: str = ""

    @cached_property
    def worksheet(self) -> Worksheet:
        """The questions."""
        return _worksheet(self.topic, self.count, self.seed, self.variant, self.swaps, self.secret)

    @property
    def size(self) -> PageSize:
        """The paper."""
        return PAGE_SIZES[self.paper]


@lru_cache(maxsize=4)
def _worksheet(
    topic: str, count: int, seed: int, variant: str, swaps: tuple[int, ...], secret: str
) -> Worksheet:
    return Worksheet(topic, count, seed, variant, swaps, secret)


@lru_cache(maxsize=8)
def _pages(worksheet: Worksheet, shown: str, size: PageSize, room: str) -> tuple[Picture, ...]:
    return SHEETS[shown](worksheet, size, room)


def draw(state: WorksheetsState, theme: Theme) -> Picture:
    """Return the page that is shown, as it will be printed; for the projector a narrower one.

    The card has large type anyway.
    """
    is_narrow = theme is PROJECTOR and state.shown != CARD
    size = PROJECTOR_PAGE if is_narrow else state.size
    pages = _pages(state.worksheet, state.shown, size, state.room)
    return as_picture(pages[(state.page - 1) % len(pages)], theme)


def sentence(state: WorksheetsState) -> str:
    """Say what was drawn, how many pages it takes, and its code."""
    sheet = state.worksheet
    title = Topic.read(sheet.topic).title
    pages, key = (
        len(_pages(sheet, name, state.size, state.room)) for name in ("Problem sheet", "Answer key")
    )
    return (
        f"{title}: {spoken_count(sheet.count, 'question')} on {spoken_count(pages, 'page')} of "
        f"{state.paper}, and an answer key of {spoken_count(key, 'page')}. Their code is "
        f"{sheet.code}. "
        f"{LOCKED if sheet.secret else OPEN}"
    )


class Worksheets(Exhibit[WorksheetsState]):
    """The exhibit with the pages of its sheets as pictures."""

    @property
    def code(self) -> str:
        """The code by which the worksheet is found again."""
        return self.state.worksheet.code

    def first_page(self, sheet: str) -> Picture:
        """Return the first page of the "Problem sheet", "Answer key" or "In-flight card"."""
        state = self.state
        return as_picture(_pages(state.worksheet, sheet, state.size, state.room)[0], SCREEN)


class _Topics(ChoiceControl):
    """The topics in a list, to which one that a code names is added."""

    def read(self, value: Any) -> str:
        """Return the topic's name, or raise ValueError that says what is allowed."""
        return Topic.read(str(value)).name

    def follow(self, state: WorksheetsState) -> None:
        """Add the topic to the list if it is not there."""
        if state.topic not in self.options.values():
            self.options[Topic.read(state.topic).title] = state.topic
            with self._quietly():
                self.list.options = list(self.options.items())


def _no_longer_found(state: WorksheetsState, value: Any) -> Changes:
    """Forget the code of another sheet."""
    return {"found": ""}


class _Swap(ChoiceControl):
    """The numbers of the questions: to choose one is to swap it for another of its kind."""

    def __init__(self) -> None:
        super().__init__("swaps", "Swap question", {SWAP_ONE: ()}, _no_longer_found)

    def read(self, value: Any) -> tuple[int, ...]:
        """Return the numbers of the questions swapped so far."""
        return tuple(value)

    def follow(self, state: WorksheetsState) -> None:
        """Offer each question: what the sheet would be with it swapped as well."""
        swapped = {str(n): (*state.swaps, n) for n in range(1, state.count + 1)}
        with self._quietly():
            self.list.options = [(SWAP_ONE, state.swaps), *swapped.items()]

    def _show(self, value: tuple[int, ...]) -> None:
        self.list.index = 0


class _Code(Words):
    """The code of a sheet made before; its secret is entered first."""

    def __init__(self) -> None:
        super().__init__("found", "Find by its code", self._found, str, example="05-20-7-KXR")
        self._secret = ""
        self.consequences = lambda state, code: _of_code(code, state.secret)

    def follow(self, state: WorksheetsState) -> None:
        """Keep the secret that was entered."""
        self._secret = state.secret

    def _found(self, words: str) -> str:
        return Worksheet.of_code(words, self._secret).code if words else ""


@exhibit(lesson="worksheets", state=WorksheetsState)
def worksheets() -> Worksheets:
    """Return the exhibit that prints practice; nothing is written before a button is pressed."""
    controls = [
        _drawn_anew(_Topics("topic", "Topic", _topics())),
        ChoiceControl(
            "shown", "Show", {name: name for name in SHEETS}, lambda state, shown: {"page": 1}
        ),
        _drawn_anew(_number("count", "Questions")),
        ChoiceControl("paper", "Paper", {name: name for name in PAGE_SIZES}).put_away(),
        _drawn_anew(_number("seed", "Seed")),
        _Swap(),
        ChoiceControl("variant", "Variant", {v: v for v in VARIANTS}, _no_longer_found),
        ChoiceControl(
            "variants", "Write variants", {str(n): n for n in range(1, len(VARIANTS) + 1)}
        ).put_away(),
        ChoiceControl("room", "Room to work", {name: name for name in ROOM}).put_away(),
        _drawn_anew(
            Words("secret", "Secret", read_secret, str, example="if the sheet has one")
        ).put_away(),
        _Code(),
        SaveSheets(
            "folder",
            {"Write sheet and key (PDF)": _save, "Write the card (PDF)": _save_card},
        ),
        Button("seed", "Other questions", lambda state: {"seed": new_seed()}),
        Button("swaps", "Undo swaps", lambda state: {"swaps": ()}),
        Button("secret", "Lock with a new secret", lambda state: {"secret": new_secret()}),
        Button("page", "Previous page", lambda state: {"page": state.page - 1}).put("transport"),
        Button("page", "Next page", lambda state: {"page": state.page + 1}).put("transport"),
    ]
    exhibit = Worksheets(WorksheetsState(), draw, sentence, controls)
    exhibit.widget.add_class("vorlib-prepare")
    return exhibit


def _topics() -> dict[str, str]:
    """Return what the list of topics says, and what it stands for: lessons, everything, kinds."""
    lessons = {f"{number} {lesson_title(number)}": number for number in lessons_with_questions()}
    kinds = {f"only: {kind.replace('_', ' ')}": kind for kind in all_kinds()}
    return {**lessons, Topic.read("all").title: "all", **kinds}


def _number(field: str, label: str) -> Words:
    return Words(field, label, lambda words: whole_number(field, words), str)


def _drawn_anew(control: Control) -> Control:
    """Return a control whose change draws other questions than those of the code."""
    control.consequences = lambda state, value: {"found": "", "page": 1, "swaps": ()}
    return control


def _of_code(code: str, secret: str) -> Changes:
    """Return what changes with a code: all that the questions are drawn from."""
    if not code:
        return {}
    sheet = Worksheet.of_code(code, secret)
    drawn_from = ("topic", "count", "seed", "variant", "swaps", "secret")
    return {name: getattr(sheet, name) for name in drawn_from} | {"page": 1}


def _save(state: WorksheetsState, folder: Path) -> tuple[Path, ...]:
    """Write sheet and key under their code: other questions do not overwrite them."""
    name = f"worksheet-{state.worksheet.code}"
    paths = (folder / f"{name}.pdf", folder / f"{name}-key.pdf")
    room, variants = state.room, state.variants
    return save_worksheet(state.worksheet, *paths, size=state.size, room=room, variants=variants)


def _save_card(state: WorksheetsState, folder: Path) -> Path:
    topic = Topic.read(state.topic)
    return save_card(topic, folder / f"in-flight-card-{topic.name}.pdf", state.size)
