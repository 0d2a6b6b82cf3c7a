"""An in-flight card for the kneeboard: tasks of a topic with blanks to fill in, no answers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from vorlib.core.caution import CAUTION
from vorlib.paper.block import Block
from vorlib.paper.page import A4, BODY, PRINT, PageSize, Sheet
from vorlib.practice.learning.lessons import lesson_title
from vorlib.practice.learning.topic import Topic
from vorlib.views.drawing.picture import Line, Picture, Text

__all__ = ["card_pages"]

ROW = 26.0  # height of a row in points: handwriting in a moving aircraft is large
NAME, HEADS, GAP = 13.0, 15.0, 11.0  # a table's name, heads and gap below, in points
STROKE = 0.9
FOLD = 14.0  # length in points of the fold marks in the margins
MOST_TASKS = 5  # the most tables on one card
# Lessons that are flown every time: the ones on the card if not all of a topic fit.
FIRST_FLOWN = ("03", "05", "06", "08", "09")
LOOK_OUT = "Look out: the pilot who flies does not write."

Table = tuple[str, tuple[str, ...]]
IDENTIFY: Table = (
    "Tune and identify",
    ("time", "station", "MHz", "ident heard", "radial", "DME, NM"),
)
NEEDLE: Table = ("Needle", ("time", "selected", "TO / FROM", "dots L / R", "heading", "radial"))
ANY_LESSON = ("time", "ident heard", "radial", "DME, NM", "heading", "over")
TASKS: dict[str, tuple[str, ...]] = {  # columns of lessons that do not use `ANY_LESSON`
    "01": ("time", "ident heard", "radial", "reciprocal", "side of it", "heading"),
    "02": ("time", "selected", "TO / FROM", "dots L / R", "degrees off", "radial"),
    "03": ("time", "ident heard", "FROM at", "side of it", "DME, NM", "over"),
    "04": ("time", "ident heard", "TO at", "heading", "wind from", "overhead"),
    "05": ("radial", "wanted", "in / out", "angle", "heading", "lead", "on it at"),
    "06": ("course", "heading 1", "drift L / R", "heading 2", "it holds", "correction"),
    "07": ("selected", "heading", "TO / FROM", "needle", "normal / rev.", "cured with"),
    "08": ("ident heard", "course", "altitude, ft", "OFF at", "FROM at", "seconds"),
    "09": ("time", "ident 1", "radial 1", "ident 2", "radial 2", "DME, NM", "over"),
    "10": ("ident heard", "time 1", "radial 1", "time 2", "radial 2", "degrees", "min to go"),
    "11": ("date", "over", "published", "read", "error", "pass / fail", "sign"),
    "12": ("station", "MHz", "dots and dashes", "letters", "charted", "use it?"),
}


def card_pages(topic: Topic, size: PageSize = A4) -> tuple[Picture, ...]:
    """Return the one page of the card, which can be folded in the middle.

    For a topic of more than five lessons it has only the tables of those flown every time.
    """
    sheet = Sheet("In-flight card", size, topic.title, f"{CAUTION} {LOOK_OUT}")
    tables = list(_tables(topic))
    half = (len(tables) + 1) // 2
    middle = sheet.top + 0.5 * (sheet.bottom - sheet.top)
    upper = Block(sheet.width)
    _facts(upper)
    _fill(upper, tables[:half], middle - sheet.top)
    lower = Block(sheet.width)
    lower.y = 8.0
    _fill(lower, tables[half:], sheet.bottom - middle)
    upper.place(sheet)
    sheet.y = middle
    sheet.draw(*_fold(sheet, middle))
    lower.place(sheet)
    return sheet.pages()


def _tables(topic: Topic) -> Iterator[Table]:
    lessons = topic.lessons if len(topic.lessons) <= MOST_TASKS else FIRST_FLOWN
    yield IDENTIFY
    if len(lessons) < 3:
        yield NEEDLE
    for number in lessons:
        yield lesson_title(number), TASKS.get(number, ANY_LESSON)


def _facts(block: Block) -> None:
    """Draw lines for the facts that hold for the whole flight."""
    third = block.width / 3.0
    for number, (label, unit) in enumerate((("Date", ""), ("Altitude", "ft"), ("Wind", "kt"))):
        right = (number + 1) * third - (12.0 if number < 2 else 0.0)
        block.blank(number * third, label, right, NAME - 2.0, unit)
    block.y += 28.0


def _fill(block: Block, tables: Sequence[Table], height: float) -> None:
    """Draw tables one below another, with as many rows as fit in the height."""
    room = height - block.y - len(tables) * (1.5 * NAME + HEADS + GAP)
    rows = int(room / ROW)
    for number, (name, heads) in enumerate(tables):
        own = rows // len(tables) + (number < rows % len(tables))
        _table(block, name, heads, own)


def _table(block: Block, name: str, heads: Sequence[str], rows: int) -> None:
    block.words(name, NAME, bold=True)
    block.y += 0.15 * NAME
    top, width = block.y, block.width / len(heads)
    foot = top + HEADS + rows * ROW
    for number, head in enumerate(heads):
        x = number * width
        block.draw(Text(x + width / 2.0, top + HEADS / 2.0, head, BODY, PRINT.text, bold=True))
    for number in range(len(heads) + 1):
        x = number * width
        block.draw(Line(x, top, x, foot, PRINT.text, STROKE))
    for y in (top, *(top + HEADS + ROW * number for number in range(rows + 1))):
        block.draw(Line(0.0, y, block.width, y, PRINT.text, STROKE))
    block.y = foot + GAP


def _fold(sheet: Sheet, y: float) -> Iterator[Line]:
    """Yield marks in both margins where the card is to be folded."""
    for x, out in ((sheet.left, -1.0), (sheet.right, 1.0)):
        yield Line(x + 4.0 * out, y, x + FOLD * out, y, PRINT.muted, 0.7)
