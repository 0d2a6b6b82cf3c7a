"""The common parts of all printed sheets: paper, header, caution, tables.

A page is a `vorlib.views.drawing.picture.Picture` whose unit is the printer's point, so that a
notebook shows it as it will be printed. Everything is black, white and gray.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from vorlib.core.arguments import quoted
from vorlib.core.caution import CAUTION
from vorlib.views.drawing.layout import wrapped
from vorlib.views.drawing.picture import Item, Line, Picture, Text
from vorlib.views.drawing.scaling import framed
from vorlib.views.drawing.theme import SCREEN

__all__ = [
    "A4",
    "LETTER",
    "PAGE_SIZES",
    "PRINT",
    "Column",
    "PageSize",
    "Sheet",
    "page_size",
]

POINTS_PER_MM = 72.0 / 25.4
MARGIN = 40.0
HEADER, FOOTER = 42.0, 40.0  # their heights inside the margins, in points
BODY, SMALL, HEADING, TITLE = 8.5, 7.0, 10.5, 14.0  # sizes of type in points
LEADING = 1.35  # line spacing, in sizes of type
PARAGRAPH_GAP = 3.0  # below a paragraph, in points
BOLD = 1.12  # width of bold type relative to regular

# Grays on white: contrast of 7 to 1 or better for text, 3 to 1 for lines.
PRINT = replace(
    SCREEN,
    sea="#ffffff",
    land="#ececec",
    coast="#6e6e6e",
    text="#000000",
    muted="#454545",
    rose="#333333",
    ring="#7a7a7a",
    station="#000000",
    course="#000000",
    aircraft="#000000",
    track="#333333",
    to_half="#6e6e6e",
    from_half="#6e6e6e",
    cone="#222222",
    needle="#000000",
    cover="#e4e4e4",
    warning="#000000",
)


@dataclass(frozen=True)
class PageSize:
    """A size of paper in portrait, in points of 1/72 inch."""

    name: str
    width: float
    height: float


A4 = PageSize("A4", 210.0 * POINTS_PER_MM, 297.0 * POINTS_PER_MM)
LETTER = PageSize("Letter", 8.5 * 72.0, 11.0 * 72.0)
PAGE_SIZES = {size.name: size for size in (A4, LETTER)}


def page_size(name: str) -> PageSize:
    """Return a size of paper by name in either case.

    Raises
    ------
    ValueError
        If there is no such size; the message names all.
    """
    for size in PAGE_SIZES.values():
        if size.name.casefold() == name.casefold():
            return size
    raise ValueError(f"the paper must be one of {', '.join(PAGE_SIZES)}, got {quoted(name)}")


@dataclass(frozen=True)
class Column:
    """A column of a table: its title, its share of the width, and "start", "middle" or "end"."""

    title: str
    share: float
    anchor: str = "start"


class Sheet:
    """Pages to fill from the top down; what does not fit goes on the next page.

    Parameters
    ----------
    title
        For the header of every page.
    size
        The paper.
    reference
        For the header of every page: a short word that identifies the sheet.
    caution
        For the foot of every page.

    Attributes
    ----------
    left, right, bottom
        Limits of the content, in points.
    y
        Where the next thing begins, in points from the top of the page.
    """

    def __init__(
        self, title: str, size: PageSize = A4, reference: str = "", caution: str = CAUTION
    ) -> None:
        self.title, self.size, self.reference, self.caution = title, size, reference, caution
        self.left, self.right = MARGIN, size.width - MARGIN
        self.top, self.bottom = MARGIN + HEADER, size.height - MARGIN - FOOTER
        self.y = self.top
        self._pages: list[list[Item]] = [[]]

    @property
    def width(self) -> float:
        """Width of the content, in points."""
        return self.right - self.left

    @property
    def count(self) -> int:
        """Number of pages so far."""
        return len([items for items in self._pages if items])

    def draw(self, *items: Item) -> None:
        """Put items on the present page at their own coordinates; keep `y`."""
        self._pages[-1].extend(items)

    def new_page(self) -> None:
        """Go on at the top of a new page, unless the present one is still empty."""
        if self._pages[-1]:
            self._pages.append([])
        self.y = self.top

    def need(self, height: float) -> None:
        """Go on with a new page if less than `height` points are left."""
        if self.y + height > self.bottom:
            self.new_page()

    def gap(self, height: float = 6.0) -> None:
        """Leave `height` points empty."""
        self.y += height

    def heading(self, words: str, keep: float = 40.0) -> None:
        """Write a heading, on the same page as the next `keep` points."""
        self.need(2.0 * HEADING + keep)
        self.gap(4.0)
        self._line(words, HEADING, bold=True)
        self.gap(2.0)

    def paragraph(self, words: str, size: float = BODY, bold: bool = False) -> None:
        """Write words, wrapped to the width of the content."""
        for line in self._lines(words, size, bold):
            self.need(LEADING * size)
            self._line(line, size, bold)
        self.gap(PARAGRAPH_GAP)

    def height_of(self, words: str, size: float = BODY, bold: bool = False) -> float:
        """Return the height of a paragraph in points, to keep it on one page."""
        return LEADING * size * len(self._lines(words, size, bold)) + PARAGRAPH_GAP

    def _lines(self, words: str, size: float, bold: bool) -> list[str]:
        return wrapped(words, self.width / (BOLD if bold else 1.0), size)

    def picture(self, picture: Picture, width: float | None = None) -> None:
        """Place a picture, centered, `width` points wide or as wide as the content."""
        width = self.width if width is None else width
        height = width * picture.height / picture.width
        self.need(height)
        self.draw(framed(picture, width, self.left + (self.width - width) / 2.0, self.y))
        self.y += height

    def table(
        self,
        columns: Sequence[Column],
        rows: Sequence[Sequence[str]],
        size: float = SMALL,
        least_height: float = 0.0,
    ) -> None:
        """Write a table, and repeat its titles on each page; empty cells are room to fill in.

        Parameters
        ----------
        columns
            Titles, alignments and relative widths.
        rows
            The words of the cells, one for each column; long ones are wrapped.
        size
            The size of type in points.
        least_height
            The least height of a row in points, for cells to fill in by hand.
        """
        titles = [column.title for column in columns]
        head = self._height(columns, titles, size, 0.0, bold=True)
        self.need(
            head + max([self._height(columns, r, size, least_height) for r in rows[:1]] + [0])
        )
        self._row(columns, titles, size, head, bold=True)
        for row in rows:
            height = self._height(columns, row, size, least_height)
            if self.y + height > self.bottom:
                self.new_page()
                self._row(columns, titles, size, head, bold=True)
            self._row(columns, row, size, height)
        self.gap()

    def pages(self) -> tuple[Picture, ...]:
        """Return the pages with header and footer."""
        filled = [items for items in self._pages if items] or [[]]
        return tuple(
            Picture(
                self.size.width,
                self.size.height,
                (*self._furniture(number, len(filled)), *items),
                title=f"{self.title}, page {number} of {len(filled)}",
                description=self.caution,
            )
            for number, items in enumerate(filled, 1)
        )

    def _line(self, words: str, size: float, bold: bool = False) -> None:
        self.draw(
            Text(self.left, self.y + 0.5 * LEADING * size, words, size, PRINT.text, "start", bold)
        )
        self.y += LEADING * size

    def _furniture(self, number: int, count: int) -> list[Item]:
        rule = self.top - 8.0
        page = f"page {number} of {count}"
        foot = self.size.height - MARGIN - FOOTER + 14.0
        items: list[Item] = [
            Text(self.left, MARGIN + 12.0, self.title, TITLE, PRINT.text, "start", bold=True),
            Text(self.right, MARGIN + 12.0, self.reference, BODY, PRINT.text, "end"),
            Line(self.left, rule, self.right, rule, PRINT.text, 1.0),
            Line(self.left, foot - 10.0, self.right, foot - 10.0, PRINT.text, 0.5),
            Text(self.right, foot, page, SMALL, PRINT.muted, "end"),
        ]
        words = wrapped(self.caution, (self.width - 60.0) / BOLD, SMALL + 0.5)
        for line, text in enumerate(words):
            y = foot + LEADING * SMALL * line
            items.append(Text(self.left, y, text, SMALL + 0.5, PRINT.text, "start", bold=True))
        return items

    def _cells(
        self, columns: Sequence[Column], row: Sequence[str], size: float, bold: bool
    ) -> list[tuple[float, float, list[str]]]:
        """Return left side, width and lines of each cell of a row."""
        total = sum(column.share for column in columns)
        cells, x = [], self.left
        for column, words in zip(columns, row, strict=True):
            width = self.width * column.share / total
            cells.append((x, width, wrapped(words, (width - 5.0) / (BOLD if bold else 1.0), size)))
            x += width
        return cells

    def _height(
        self,
        columns: Sequence[Column],
        row: Sequence[str],
        size: float,
        least: float,
        bold: bool = False,
    ) -> float:
        lines = max(len(lines) for _, _, lines in self._cells(columns, row, size, bold))
        return max(least, LEADING * size * max(lines, 1) + 4.0)

    def _row(
        self,
        columns: Sequence[Column],
        row: Sequence[str],
        size: float,
        height: float,
        bold: bool = False,
    ) -> None:
        for column, (x, width, lines) in zip(
            columns, self._cells(columns, row, size, bold), strict=True
        ):
            at = {"start": x + 2.5, "middle": x + width / 2.0, "end": x + width - 2.5}[
                column.anchor
            ]
            for number, line in enumerate(lines):
                y = self.y + 2.0 + LEADING * size * (number + 0.5)
                self.draw(Text(at, y, line, size, PRINT.text, column.anchor, bold))
            if x > self.left:
                self.draw(Line(x, self.y, x, self.y + height, PRINT.ring, 0.3))
        self.y += height
        weight = 0.8 if bold else 0.3
        self.draw(Line(self.left, self.y, self.right, self.y, PRINT.text, weight))
