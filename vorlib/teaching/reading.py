"""What to read before a lesson: the chapters of the handbooks, in the editions in force."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from types import MappingProxyType

__all__ = ["HANDBOOKS", "reading_words"]

HANDBOOKS = MappingProxyType(
    {
        "pilot": "Pilot's Handbook (FAA-H-8083-25C), chapter 16",
        "instrument": "Instrument Flying Handbook (FAA-H-8083-15B), chapter 9",
        "AIM 1-1-3": "AIM 1-1-3",
        "AIM 1-1-4": "AIM 1-1-4",
        "AIM 1-1-8": "AIM 1-1-8",
        "receiver checks": "14 CFR 91.171 (United States)",
    }
)
"""By the key that a lesson names: the chapters on VOR navigation; editions read in a copy."""


def reading_words(reading: Iterable[tuple[str, str]]) -> Iterator[str]:
    """Yield each handbook once, with the passages of it that are to be read.

    Parameters
    ----------
    reading
        Keys of handbooks, each with a passage; an empty passage is the whole of it.

    Raises
    ------
    ValueError
        If there is no such handbook.
    """
    passages: dict[str, list[str]] = {}
    for book, passage in reading:
        if book not in HANDBOOKS:
            raise ValueError(f"a handbook must be one of {', '.join(HANDBOOKS)}, got {book!r}")
        passages.setdefault(book, []).append(passage)
    for book, parts in passages.items():
        named = "; ".join(filter(None, parts))
        yield f"{HANDBOOKS[book]}: {named}" if named else HANDBOOKS[book]
