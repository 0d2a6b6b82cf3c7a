"""Who in a class misunderstands what, as a table of shades: learners by misconceptions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from vorlib.practice.classroom.results import ClassFinding, ClassResults, Evidence, Learner
from vorlib.practice.classroom.teaching import lately, needs_you
from vorlib.views.classroom.words import summary_words
from vorlib.views.drawing.layout import text_width, wrapped
from vorlib.views.drawing.picture import Item, Line, Picture, Polygon, Segments, Text
from vorlib.views.drawing.theme import SCREEN, Theme

__all__ = ["MOST_LEARNERS", "MOST_MISCONCEPTIONS", "class_table"]

MOST_LEARNERS, MOST_MISCONCEPTIONS = 40, 15
CELL_WIDTH, CELL_HEIGHT = 3.0, 1.7  # this and all below in sizes of type
GAP, MARGIN = 0.7, 0.8
LONGEST_NAME, LONGEST_HEAD = 13.0, 15.5  # a head goes on in a second line
SLOPE_DEG = 50.0  # of the heads
SHADE_SHOWED = 0.3  # of the color of what is held
KEY = (
    (Evidence(ClassFinding.HOLDS, 4, 5), "holds it: 4 of the latest 5"),
    (Evidence(ClassFinding.SHOWED, 1, 5), "showed it"),
    (Evidence(ClassFinding.CLEAR, 0, 5), "asked, not shown"),
    (Evidence(ClassFinding.NOT_ASKED, 0, 0), "never asked"),
)
COUNT, LATELY = "how many hold it", "right lately"


def class_table(results: ClassResults, theme: Theme = SCREEN) -> Picture:
    """Return the table: a row for each learner and a column for each misconception.

    Those who need the instructor first are at the top, at most 40, and what most of them hold is at
    the left, at most 15. In each field stands behind how many of the latest questions it was. What
    is held is dark with a heavy figure, so that it is told without color as well.
    """
    learners = _in_order(results)[:MOST_LEARNERS]
    heads = results.misconceptions[:MOST_MISCONCEPTIONS]
    table = _Table(tuple(learners), heads, theme)
    items = (*table.fields(), *table.names(), *table.heads(results), *table.key())
    words = _sentence(results, len(learners), len(heads))
    return Picture(table.width, table.height, items, "Class results", words, theme.paper)


def _in_order(results: ClassResults) -> list[Learner]:
    """Return the learners, those who need the instructor first at the top."""
    place = {one.learner: number for number, one in enumerate(needs_you(results))}
    return sorted(results.learners, key=lambda one: place.get(one.name, len(place)))


@dataclass(frozen=True)
class _Table:
    """Where everything stands; lengths in picture units."""

    learners: tuple[Learner, ...]
    misconceptions: tuple[str, ...]
    theme: Theme

    @property
    def size(self) -> float:
        """Height of the type."""
        return self.theme.text_size

    @property
    def left(self) -> float:
        """Where the fields begin, after the names."""
        names = [text_width(COUNT, self.size, bold=True)]
        names += [text_width(self.name(one), self.size) for one in self.learners]
        return max(names) + (MARGIN + GAP) * self.size

    @property
    def top(self) -> float:
        """Where the fields begin, under the heads and a line of counts."""
        tall = sin(radians(SLOPE_DEG)) * LONGEST_HEAD + 2.0 * cos(radians(SLOPE_DEG))
        return (MARGIN + tall + CELL_HEIGHT) * self.size

    @property
    def right(self) -> float:
        """Where the fields end."""
        return self.left + len(self.misconceptions) * CELL_WIDTH * self.size

    @property
    def bottom(self) -> float:
        """Where the fields end, above the key."""
        return self.top + len(self.learners) * CELL_HEIGHT * self.size

    @property
    def width(self) -> float:
        """Width of the whole: a sloping head or the key may reach farther than the fields."""
        beyond = max(GAP + MARGIN + text_width(LATELY, 1.0), cos(radians(SLOPE_DEG)) * LONGEST_HEAD)
        *_, last = self._key_places()
        return max(self.right + beyond * self.size, last + MARGIN * self.size)

    @property
    def height(self) -> float:
        """Height of the whole."""
        return self.bottom + (2 * GAP + CELL_HEIGHT + MARGIN) * self.size

    def name(self, learner: Learner) -> str:
        """Return a learner's name, cut short where there is no room for it."""
        name = learner.name
        while text_width(name, 1.0) > LONGEST_NAME:
            name = f"{name[:-2].rstrip()}\N{HORIZONTAL ELLIPSIS}"
        return name

    def fields(self) -> Iterator[Item]:
        """Yield the fields and the lines between them."""
        for row, learner in enumerate(self.learners):
            for column, name in enumerate(self.misconceptions):
                yield from self._field(*self._corner(column, row), learner.about(name))
        if self.learners and self.misconceptions:
            yield Segments(tuple(self._grid()), self.theme.ring, self.theme.thin)

    def names(self) -> Iterator[Item]:
        """Yield each learner's name before the row, and after it how many were right lately."""
        for row, learner in enumerate(self.learners):
            y = self._corner(0, row)[1] + 0.5 * CELL_HEIGHT * self.size
            yield self._text(self.left - GAP * self.size, y, self.name(learner), "end")
            yield self._text(self.right + GAP * self.size, y, str(lately(learner)), "start")

    def heads(self, results: ClassResults) -> Iterator[Item]:
        """Yield each misconception over its column, and how many hold it."""
        y = self.top - 0.5 * CELL_HEIGHT * self.size
        yield self._text(self.left - GAP * self.size, y, COUNT, "end", bold=True)
        yield self._text(self.right + GAP * self.size, y, LATELY, "start")
        for column, name in enumerate(self.misconceptions):
            x = self.left + (column + 0.5) * CELL_WIDTH * self.size
            holders = len(results.who(name, ClassFinding.HOLDS))
            yield self._text(x, y, str(holders), bold=True)
            yield from self._head(x, y - 0.5 * CELL_HEIGHT * self.size, name)

    def key(self) -> Iterator[Item]:
        """Yield what the fields mean, in a line under them."""
        y = self.bottom + 2 * GAP * self.size
        for x, (evidence, words) in zip(self._key_places(), KEY, strict=False):
            corners = self._corners(x, y)
            yield from self._field(x, y, evidence)
            yield Polygon(corners, stroke=self.theme.ring, width=self.theme.thin)
            beside, middle = CELL_WIDTH + 0.5 * GAP, 0.5 * CELL_HEIGHT
            yield self._text(x + beside * self.size, y + middle * self.size, words, "start")

    def _key_places(self) -> Sequence[float]:
        """Return where each entry of the key begins, and where the last ends."""
        places = [MARGIN * self.size]
        for _, words in KEY:
            room = (CELL_WIDTH + 2.2 * GAP) * self.size + text_width(words, self.size)
            places.append(places[-1] + room)
        return places

    def _field(self, x: float, y: float, evidence: Evidence) -> Iterator[Item]:
        """Yield what there is about one learner and one misconception, with its left top corner."""
        theme, corners = self.theme, self._corners(x, y)
        middle_x, middle_y = x + 0.5 * CELL_WIDTH * self.size, y + 0.5 * CELL_HEIGHT * self.size
        figures = f"{evidence.showed}/{evidence.asked}"
        match evidence.finding:
            case ClassFinding.HOLDS:
                yield Polygon(corners, theme.warning)
                yield Text(middle_x, middle_y, figures, self.size, theme.paper, bold=True)
            case ClassFinding.SHOWED:
                yield Polygon(corners, theme.warning, opacity=SHADE_SHOWED)
                yield self._text(middle_x, middle_y, figures)
            case ClassFinding.CLEAR:
                half = 0.22 * self.size
                ends = middle_x - half, middle_y, middle_x + half, middle_y
                yield Line(*ends, theme.muted, theme.line)
            case ClassFinding.NOT_ASKED:
                yield Polygon(corners, theme.cover)

    def _head(self, x: float, y: float, name: str) -> Iterator[Text]:
        """Yield a misconception's name, which slopes up from a column in one line or two."""
        lines = wrapped(name, LONGEST_HEAD * self.size, self.size)
        for number, line in enumerate(lines):
            right = 1.1 * (number - 0.5 * (len(lines) - 1)) * self.size / sin(radians(SLOPE_DEG))
            yield Text(
                x + right + 0.3 * self.size, y, line, self.size, self.theme.text, "start",
                rotate_deg=-SLOPE_DEG,
            )  # fmt: skip

    def _text(self, x: float, y: float, words: str, anchor: str = "middle", bold: bool = False
              ) -> Text:  # fmt: skip
        return Text(x, y, words, self.size, self.theme.text, anchor, bold)

    def _corner(self, column: float, row: float) -> tuple[float, float]:
        width, height = CELL_WIDTH * self.size, CELL_HEIGHT * self.size
        return self.left + column * width, self.top + row * height

    def _corners(self, x: float, y: float) -> tuple[tuple[float, float], ...]:
        right, bottom = x + CELL_WIDTH * self.size, y + CELL_HEIGHT * self.size
        return (x, y), (right, y), (right, bottom), (x, bottom)

    def _grid(self) -> Iterator[tuple[float, float, float, float]]:
        for column in range(len(self.misconceptions) + 1):
            x, _ = self._corner(column, 0)
            yield x, self.top, x, self.bottom
        for row in range(len(self.learners) + 1):
            _, y = self._corner(0, row)
            yield self.left, y, self.right, y


def _sentence(results: ClassResults, rows: int, columns: int) -> str:
    """Say what the table shows, and what it leaves out."""
    said = [summary_words(results)]
    if rows < len(results.learners):
        said.append(f"The table has the {rows} who need you first.")
    if columns < len(results.misconceptions):
        more = len(results.misconceptions) - columns
        said.append(f"{more} more misconceptions were shown, each held by fewer or by nobody.")
    return " ".join(said)
