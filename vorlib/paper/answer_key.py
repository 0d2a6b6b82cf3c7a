"""The answer key of a worksheet: for an instructor who grades by hand and wants to know why."""

from __future__ import annotations

from collections.abc import Iterator

from vorlib.paper.block import GUTTER, Block
from vorlib.paper.page import A4, BODY, PRINT, SMALL, TITLE, Column, PageSize, Sheet
from vorlib.paper.worksheet import Worksheet
from vorlib.practice.learning.topic import Topic
from vorlib.practice.questions.by_hand import counts_as_right, written
from vorlib.practice.questions.question import Misconception, Question
from vorlib.views.classroom.question_figure import figure_words
from vorlib.views.drawing.picture import Picture, Text

__all__ = ["key_pages", "slips_of"]

ANSWERS_NAMED = 4  # the most answers named for one slip


def key_pages(worksheet: Worksheet, size: PageSize = A4) -> tuple[Picture, ...]:
    """Return the pages of an answer key: all answers, then worked solutions, then the slips."""
    sheet = Sheet("Answer key", size, f"code {worksheet.code}")
    head = Block(sheet.width)
    head.words(Topic.read(worksheet.topic).title, TITLE)
    head.words(_who_finds_it(worksheet), BODY)
    head.y += 6.0
    head.place(sheet)
    _at_a_glance(worksheet, sheet)
    sheet.heading("Worked solutions, and the slip behind a wrong answer", keep=90.0)
    for number, question in enumerate(worksheet.questions, 1):
        _solution(number, question, sheet.width).place(sheet, ruled=True)
    _slips(worksheet, sheet)
    return sheet.pages()


def _who_finds_it(worksheet: Worksheet) -> str:
    """Say what is needed to print this key again."""
    if worksheet.secret:
        return (
            f"To make this key again: the code above and the secret {worksheet.secret}. The sheet "
            "shows only the code, so keep this page to yourself."
        )
    return "Anybody with the code above can make this key: use the sheet for self-study."


# ---- the answers


def _at_a_glance(worksheet: Worksheet, sheet: Sheet) -> None:
    """Write number, answer and what counts as right, in two halves side by side."""
    rows = [
        [str(number), written(question, question.answer), counts_as_right(question)]
        for number, question in enumerate(worksheet.questions, 1)
    ]
    middle = (len(rows) + 1) // 2
    left, right = rows[:middle], [*rows[middle:], ["", "", ""]]
    columns = (Column("", 0.5, "end"), Column("answer", 2.0), Column("counts as right", 2.8))
    both = [[*one, *other] for one, other in zip(left, right, strict=False)]
    sheet.table((*columns, *columns), both, BODY)


# ---- the solutions


def _solution(number: int, question: Question, width: float) -> Block:
    block = Block(width)
    block.y = 6.0
    block.draw(Text(0.0, block.y + 0.67 * BODY, str(number), 1.2 * BODY, PRINT.text, "start", True))
    shown = f" {figure_words(question.figure)}" if question.figure else ""
    block.words(f"{question.prompt}{shown}", SMALL + 0.5, x=GUTTER, fill=PRINT.muted)
    block.y += 3.0
    block.words(written(question, question.answer), 1.2 * BODY, x=GUTTER, bold=True)
    block.y += 1.0
    block.words(question.worked, BODY, x=GUTTER)
    block.words(question.tolerance_why, SMALL + 0.5, x=GUTTER, fill=PRINT.muted)
    block.y += 3.0
    for name, answers in slips_of(question):
        words = f"If the learner wrote {answers}, the likely slip is: {name}."
        block.words(words, SMALL + 0.5, x=GUTTER)
    block.y += 6.0
    return block


def slips_of(question: Question) -> Iterator[tuple[str, str]]:
    """Yield each foreseen misconception of a question and, in words, the answers that show it."""
    for name in question.foreseen:
        shown = [
            written(question, misconception.would_answer)
            for misconception in question.misconceptions
            if misconception.name == name
        ]
        if len(shown) > ANSWERS_NAMED:
            shown = [*shown[: ANSWERS_NAMED - 1], "another like them"]
        yield name, " or ".join(filter(None, (", ".join(shown[:-1]), shown[-1])))


# ---- the slips


def _slips(worksheet: Worksheet, sheet: Sheet) -> None:
    """Write every slip once: in which questions it can show, why it is tempting, what to ask."""
    misconceptions: dict[str, list[tuple[int, Misconception]]] = {}
    for number, question in enumerate(worksheet.questions, 1):
        for misconception in question.misconceptions:
            misconceptions.setdefault(misconception.name, []).append((number, misconception))
    rows = [
        [
            name,
            ", ".join(str(number) for number in dict.fromkeys(number for number, _ in seen)),
            _only([misconception.why_tempting for _, misconception in seen]),
            _only([misconception.look_again for _, misconception in seen]),
        ]
        for name, seen in sorted(misconceptions.items(), key=lambda item: -len(dict(item[1])))
    ]
    columns = (
        Column("slip", 2.0),
        Column("can show in", 1.3),
        Column("why it is tempting", 2.6),
        Column("what to ask the learner", 2.8),
    )
    if rows:
        sheet.heading("The slips by name: teach again what comes up twice", keep=60.0)
        sheet.table(columns, rows, SMALL + 0.5)


def _only(words: list[str]) -> str:
    """Return the words if all are the same; otherwise say that they differ by question."""
    return words[0] if len(set(words)) == 1 else "differs by question"
