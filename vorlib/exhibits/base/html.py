"""HTML made of words and pictures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.svg import to_svg

__all__ = ["Markup", "html_table", "sized_svg"]

UNITS_PER_EM = 18.0  # of a picture that is as wide as the cell at the usual type


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


def sized_svg(picture: Picture, units_per_em: float = UNITS_PER_EM) -> str:
    """Return a picture as SVG that grows with the type around it."""
    return to_svg(picture, display_width=f"{picture.width / units_per_em:.1f}em")


def _cells(row: Iterable[str], named: bool) -> str:
    first, *others = map(_html, row)
    head = f'<th scope="row">{first}</th>' if named else f"<td>{first}</td>"
    return head + "".join(f"<td>{cell}</td>" for cell in others)


def _html(words: str) -> str:
    return words if isinstance(words, Markup) else escape(words)
