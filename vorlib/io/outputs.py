"""Check what may be written where, before any work begins."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from vorlib.io.atomic import check_folder

__all__ = ["check_outputs"]

HEADS = {".pdf": b"%PDF-", ".ipynb": b"{", ".json": b"{"}  # what a file of a kind begins with
LOOKED_AT_BYTES = 1024


def check_outputs(
    outputs: Mapping[str, Path | None],
    inputs: Iterable[Path | None] = (),
    *,
    kinds: Mapping[str, str] | None = None,
    force: bool | None = False,
) -> None:
    """Raise an error unless files can be written without harm to what is there.

    A file is replaced by one of its own kind. Whatever else is there stays, unless *force* is
    given; an input, a folder and what is not an ordinary file stay in any case.

    Parameters
    ----------
    outputs
        What is to be written, by the option that names it; None where it is not wanted.
    inputs
        What is read.
    kinds
        The ending of a name by its option, ".pdf" where none is given.
    force
        Whether a file of another kind may be replaced; None where nobody can ask for that.

    Raises
    ------
    ValueError
        If a name has another ending, or is that of an input or of another output.
    OSError
        If there is no folder for it, or something is there that has to stay.
    """
    taken = [(path, "an input") for path in inputs if path is not None]
    for option, path in outputs.items():
        if path is None:
            continue
        for other, what in taken:
            if _is_same(path, other):
                raise ValueError(f"{option} and {what} must be two files, got {path} for both")
        taken.append((path, option))
        check_folder(path)
        _check_there(option, path, (kinds or {}).get(option, ".pdf"), force)


def _is_same(path: Path, other: Path) -> bool:
    if path.exists() and other.exists():
        return path.samefile(other)  # by whatever name or link
    return path.resolve() == other.resolve()


def _check_there(option: str, path: Path, kind: str, force: bool | None) -> None:
    if path.is_dir():
        raise IsADirectoryError(f"{path} is a folder; name a file for {option}")
    if path.exists() and not path.is_file():
        raise FileExistsError(f"{path} is not an ordinary file; name another for {option}")
    if path.suffix.lower() != kind:
        raise ValueError(f"{option} must end in {kind}, got {path}")
    if path.is_file() and not force and not _is_of_kind(path, kind):
        raise FileExistsError(
            f"{path} exists and does not hold {kind.lstrip('.').upper()}: name another file"
            + (", or give --force to replace it" if force is False else "")
        )


def _is_of_kind(path: Path, kind: str) -> bool:
    """Return whether a file is empty or holds what its name says; a table holds no other kind."""
    with path.open("rb") as file:
        head = file.read(LOOKED_AT_BYTES)
    if not head:
        return True
    if kind in HEADS:
        return head.lstrip().startswith(HEADS[kind])
    return b"\0" not in head and not head.startswith(tuple(HEADS.values()))
