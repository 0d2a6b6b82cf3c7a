"""The records of a class, gathered from the learners' homes without touching them."""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Iterable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from vorlib.practice.record.exchange import Export, as_json
from vorlib.practice.record.learner import PREFIX, SUFFIX
from vorlib.practice.record.record import Record, learners

__all__ = ["Collected", "collect"]

# Below a home on Linux, where hubs are; see `default_folder`.
RECORDS = Path(".local/share/vorlib/records")


@dataclass(frozen=True)
class Collected:
    """What was found in the homes.

    Attributes
    ----------
    files
        By its name, the export of each record.
    left_out
        What could not be read, each with the reason.
    """

    files: dict[str, bytes]
    left_out: list[str]


def collect(homes: Iterable[Path]) -> Collected:
    """Return every record below some homes as a file to hand in.

    A record is copied as it stands at this moment and read from the copy, so that whoever collects
    leaves nothing in a learner's home. What is a link is left out: it may lead anywhere.
    """
    found = Collected({}, [])
    for home in homes:
        for path in sorted((home / RECORDS).glob(f"{PREFIX}*{SUFFIX}")):
            try:
                if any(place.is_symlink() for place in (path, *path.parents[: len(RECORDS.parts)])):
                    raise ValueError("it is a link")
                export = _read(path)
            except (OSError, ValueError, sqlite3.Error) as error:
                found.left_out.append(f"{path}: {error}")
            else:
                name = f"{home.name}-{path.with_suffix('.json').name}"
                found.files[name] = as_json(export).encode()
    return found


def _read(path: Path) -> Export:
    with tempfile.TemporaryDirectory() as folder:
        source = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)
        with closing(source), closing(sqlite3.connect(Path(folder) / path.name)) as copy:
            source.backup(copy)
        for name in learners(folder):
            return Export(name, tuple(Record(name, folder).attempts()))
    raise ValueError("it holds no learner's answers")
