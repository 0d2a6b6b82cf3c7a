"""One word for one thing: no text of the course says another, and the glossary has each."""

import ast
import re
import tomllib
from pathlib import Path

import pytest

from course.test_sources import CODE, NOTEBOOKS, PREDICTIONS, ROOT, prose

TABLE = tomllib.loads((ROOT / "vorlib" / "data" / "terms.toml").read_text(encoding="utf-8"))
TERMS = TABLE["term"]
NEVER = {
    word: entry.get("term") or entry["say"]
    for entry in (*TERMS, *TABLE["phrase"])
    for word in entry.get("never", [])
}
FORBIDDEN = re.compile(rf"\b(?:{'|'.join(map(re.escape, NEVER))})\b", re.IGNORECASE)
TO_GLOSSARY = re.compile(r"\[([^\]]+)\]\((?:\.\./)?glossary\.ipynb")


def strings(path: Path) -> str:
    """Return all that a module says, and its docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = (node.value for node in ast.walk(tree) if isinstance(node, ast.Constant))
    return "\n".join(value for value in nodes if isinstance(value, str))


def texts():
    """Yield every text of the course by its name."""
    own = (path for path in CODE if path.name != "columns.py")  # which reads what others write
    yield from ((path.name, strings(path)) for path in own)
    for path in (*PREDICTIONS, ROOT / "README.md", ROOT / "DEVELOPERS.md"):
        yield path.name, path.read_text(encoding="utf-8")
    yield from ((path.name, "\n".join(prose(path))) for path in NOTEBOOKS)


def others(text: str) -> list[str]:
    """Return the words of a text that nobody says, with what to say instead."""
    found = (" ".join(one[0].split()) for one in FORBIDDEN.finditer(" ".join(text.split())))
    meant = {word.casefold(): term for word, term in NEVER.items()}
    return [f"{word}: say {meant[word.casefold()]}" for word in found]


def test_no_text_calls_a_thing_by_another_name():
    assert {name: found for name, text in texts() if (found := others(text))} == {}


@pytest.mark.parametrize("text", ["the Cone of\nsilence", "5 per cent", "south-west", "towards it"])
def test_another_name_is_noticed(text):
    assert others(text)


def test_a_term_has_one_meaning_and_is_never_another_ones_wrong_name():
    named = [name.casefold() for term in TERMS for name in (term["term"], *term.get("also", []))]
    assert len(set(named)) == len(named)
    assert not {word.casefold() for word in NEVER} & set(named)


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_what_a_lesson_links_to_the_glossary_stands_there(path):
    known = {name.casefold() for term in TERMS for name in (term["term"], *term.get("also", []))}
    linked = {
        " ".join(word.replace("*", "").split())
        for word in TO_GLOSSARY.findall("\n".join(prose(path)))
    }
    assert {word.casefold() for word in linked} <= known | {"glossary"}
