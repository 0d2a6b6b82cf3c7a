"""Learners' names, and the files that their records lie in."""

import os
import unicodedata
from pathlib import Path

import platformdirs

LONGEST_NAME = 40  # characters; even four bytes for each make no file name too long
PUNCTUATION = " '-."
PREFIX, SUFFIX = "learner-", ".sqlite3"


def default_folder() -> Path:
    """Return where records lie when no folder is given: in the user's own data folder."""
    return platformdirs.user_data_path("vorlib") / "records"


def tidy_name(name: str) -> str:
    """Return a learner's name with single spaces and its letters in their usual form.

    >>> tidy_name("  Wenna   Dorrick ")
    'Wenna Dorrick'

    Raises
    ------
    ValueError
        If the name is empty, too long or has characters other than letters, digits, spaces,
        hyphens, apostrophes and periods.
    """
    tidy = " ".join(
        unicodedata.normalize("NFKC", name).replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").split()
    )
    odd = sorted({character for character in tidy if not _is_allowed(character)})
    if odd:
        shown = ", ".join(repr(character) for character in odd)
        raise ValueError(
            "learner's name may have letters, digits, spaces, hyphens, apostrophes and full "
            f"stops, got {shown}"
        )
    if not any(character.isalnum() for character in tidy):
        raise ValueError(f"learner's name must have a letter or a digit, got {name!r}")
    if len(tidy) > LONGEST_NAME:
        raise ValueError(
            f"learner's name may have {LONGEST_NAME} characters, got {len(tidy)}: shorten it"
        )
    return tidy


def name_on_hub() -> str:
    """Return the learner's name on a JupyterHub, as a name that can be one; empty elsewhere."""
    user = os.environ.get("JUPYTERHUB_USER", "").partition("@")[0]
    name = "".join(character if _is_allowed(character) else " " for character in user)
    try:
        return tidy_name(name)
    except ValueError:
        return ""


def file_name(name: str) -> str:
    """Return the name of a learner's file: the same however the name's capitals are written.

    >>> file_name("Wenna Dorrick")
    'learner-wenna_dorrick.sqlite3'
    """
    folded = unicodedata.normalize("NFKC", tidy_name(name).casefold())
    return f"{PREFIX}{folded.replace(' ', '_')}{SUFFIX}"


def _is_allowed(character: str) -> bool:
    # letters, the marks that some scripts add to them, and digits
    return character in PUNCTUATION or unicodedata.category(character)[0] in "LMN"
