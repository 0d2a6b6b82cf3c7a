"""HTML made of words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

__all__ = ["Markup", "html_table"]


class Markup(str):
    """Text that is HTML already."""

    __slots__ = ()


def html_table(
    caption: str,
    rows: Iterable[Iterable[str]],
    columns: Sequence[str] = (),
    *,
    row_heads: bool = False,
) -> str:
    """Return a table as HTML; cells are plain words unless they are `Markup`.

    Parameters
    ----------
    caption
        What it tells.
    rows
        The cells of each row.
    columns
        What stands above them; nothing for none.
    row_heads
        Whether the first cell of a row names it.

    >>> html_table("Winds", [("310", "< 5")])
    '<table><caption>Winds</caption><tr><td>310</td><td>&lt; 5</td></tr></table>'
    """
    head = "".join(f'<th scope="col">{_html(name)}</th>' for name in columns)
    body = "".join(f"<tr>{_cells(row, row_heads)}</tr>" for row in rows)
    titled = f"<caption>{_html(caption)}</caption>"
    return f"<table>{titled}{f'<tr>{head}</tr>' if head else ''}{body}</table>"


def _cells(row: Iterable[str], named: bool) -> str:
    first, *others = map(_html, row)
    head = f'<th scope="row">{first}</th>' if named else f"<td>{first}</td>"
    return head + "".join(f"<td>{cell}</td>" for cell in others)


def _html(words: str) -> str:
    return words if isinstance(words, Markup) else escape(words)
