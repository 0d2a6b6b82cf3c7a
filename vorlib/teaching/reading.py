"""What to read before a lesson: the passages that the course's sources name for it."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

__all__ = ["reading_before"]

CHAPTER = re.compile(r"(chapter \d+), (.+)")
RULES = "Rules and information of the United States"  # a section of the sources


def reading_before(number: str) -> tuple[str, ...]:
    """Return the chapters of handbooks, then the rules, with the passages that a lesson uses.

    Each document once, in the edition in force, as `vorlib/data/sources.toml` has them.

    Parameters
    ----------
    number
        Of the lesson, such as "05".
    """
    chapters: dict[str, dict[str, list[str]]] = {}
    rules: dict[str, list[str]] = {}
    for document in _documents():
        name = document["document"]
        for fact in document["fact"]:
            if int(number) not in fact["lessons"]:
                continue
            if chapter := CHAPTER.fullmatch(fact["place"]):
                chapters.setdefault(name, {}).setdefault(chapter[1], []).append(chapter[2])
            elif document["section"] == RULES:
                rules.setdefault(name, []).append(fact["place"])
    handbooks = (
        (name, [f"{chapter}: {', '.join(passages)}" for chapter, passages in of.items()])
        for name, of in chapters.items()
    )
    return tuple(f"{name}, {'; '.join(places)}" for name, places in (*handbooks, *rules.items()))


@cache
def _documents() -> list[dict[str, Any]]:
    text = files("vorlib").joinpath("data", "sources.toml").read_text(encoding="utf-8")
    documents: list[dict[str, Any]] = tomllib.loads(text)["document"]
    return documents
