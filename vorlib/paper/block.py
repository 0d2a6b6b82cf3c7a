"""Blocks of a page that stay together: words, rules and pictures, never split over two pages."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from vorlib.paper.page import BODY, BOLD, LEADING, PRINT, PageSize, Sheet
from vorlib.views.drawing.layout import text_width, wrapped
from vorlib.views.drawing.picture import Group, Item, Line, Picture, Text
from vorlib.views.drawing.scaling import framed

__all__ = ["GUTTER", "Block", "height_of", "side_by_side"]

GUTTER = 24.0  # room for the numbers of questions
BETWEEN = 16.0  # gap between two pieces side by side, in points
NARROWEST = 220.0  # least width in points of a table with room to write
TALL = 1e5  # height in points of a page on which anything fits, to measure it

Piece = Callable[[Sheet], None]


class Block:
    """A block to fill from the top down and then put on a sheet in one piece.

    Parameters
    ----------
    width
        In points.

    Attributes
    ----------
    y
        Where the next thing begins, in points from the top; finally the block's height.
    """

    def __init__(self, width: float) -> None:
        self.width, self.y = width, 0.0
        self._items: list[Item] = []

    @property
    def items(self) -> tuple[Item, ...]:
        """The items of the block."""
        return tuple(self._items)

    def draw(self, *items: Item) -> None:
        """Put items at their own coordinates, from the block's upper left corner; keep `y`."""
        self._items.extend(items)

    def words(
        self,
        words: str,
        size: float = BODY,
        *,
        x: float = 0.0,
        width: float | None = None,
        bold: bool = False,
        fill: str = PRINT.text,
    ) -> None:
        """Write words from `x` on, wrapped to `width` points."""
        room = self.width - x if width is None else width
        for line in wrapped(words, room / (BOLD if bold else 1.0), size):
            self.draw(Text(x, self.y + 0.5 * LEADING * size, line, size, fill, "start", bold))
            self.y += LEADING * size

    def blank(
        self, x: float, label: str, right: float, size: float = BODY, after: str = ""
    ) -> None:
        """Draw a line to write on, from a label to `right`, at the present `y`; keep `y`.

        Print `after` behind the line, ending at `right`.
        """
        middle = self.y + 0.5 * LEADING * size
        begin, end = x + _room(label, size), right - _room(after, size)
        foot = middle + 0.45 * size
        self.draw(
            Text(x, middle, label, size, PRINT.muted, "start"),
            Line(begin, foot, end, foot, PRINT.text, 0.7),
        )
        if after:
            self.draw(Text(right, middle, after, size, PRINT.muted, "end"))

    def picture(self, picture: Picture, x: float, y: float, width: float) -> float:
        """Place a picture `width` points wide, and return its lower edge; keep `y`."""
        self.draw(framed(picture, width, x, y))
        return y + width * picture.height / picture.width

    def place(self, sheet: Sheet, ruled: bool = False) -> None:
        """Put the block on the sheet, on a new page if the present one has no room for it.

        `ruled` draws a rule above it, except at the top of a page, where the header has one.
        """
        sheet.need(self.y)
        if ruled and sheet.y > sheet.top:
            sheet.draw(Line(sheet.left, sheet.y, sheet.right, sheet.y, PRINT.ring, 0.5))
        sheet.draw(Group(self.items, sheet.left, sheet.y))
        sheet.gap(self.y)


def _room(words: str, size: float) -> float:
    """Return the width of a label with its gap, or 0 without words."""
    return text_width(words, size) + 0.6 * size if words else 0.0


def side_by_side(sheet: Sheet, pieces: Sequence[Piece]) -> None:
    """Write pieces from left to right and then down, side by side if the paper is wide enough."""
    count = 2 if sheet.width >= 2.0 * NARROWEST + BETWEEN else 1
    left, right = sheet.left, sheet.right
    width = (sheet.width - (count - 1) * BETWEEN) / count
    for first in range(0, len(pieces), count):
        row = pieces[first : first + count]
        sheet.need(max(height_of(piece, sheet, width) for piece in row))
        top, feet = sheet.y, []
        for number, piece in enumerate(row):
            sheet.y, sheet.left = top, left + number * (width + BETWEEN)
            sheet.right = sheet.left + width
            piece(sheet)
            feet.append(sheet.y)
        sheet.y, sheet.left, sheet.right = max(feet), left, right


def height_of(piece: Piece, sheet: Sheet, width: float) -> float:
    """Return how tall a piece is when it is written so many points wide."""
    trial = Sheet("", PageSize("tall", sheet.size.width, TALL))
    trial.right = trial.left + width
    piece(trial)
    return trial.y - trial.top
