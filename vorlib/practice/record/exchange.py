"""A learner's answers as a JSON or CSV file, to keep, to hand in, and to read in again.

In a CSV file a cell that a spreadsheet would take for a formula has an apostrophe before it, which
is taken off again when the file is read.
"""

import csv
import io
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from vorlib.core.arguments import quoted
from vorlib.io.atomic import write_whole
from vorlib.io.text import FileError, read_text
from vorlib.practice.learning.attempt import SEPARATOR, Attempt
from vorlib.practice.questions.misconceptions import present_names
from vorlib.practice.record.learner import tidy_name

FORMAT, VERSION = "vorlib record", 1
COLUMNS = (
    *("learner", "answered_at", "kind", "seed", "verdict"),
    *("misconception", "foreseen", "hints", "taken_s", "key"),
)
FORMULA = ("=", "+", "-", "@", "\t", "\r", "'")  # an apostrophe in the text itself is doubled


@dataclass(frozen=True)
class Export:
    """A learner's name and answers, as a file holds them."""

    learner: str
    attempts: tuple[Attempt, ...]


def as_json(export: Export) -> str:
    """Return the export as JSON, one answer a line."""
    rows = ",\n".join(
        json.dumps(_values(attempt) | {"foreseen": attempt.foreseen}, ensure_ascii=False)
        for attempt in export.attempts
    )
    head = json.dumps({"format": FORMAT, "version": VERSION, "learner": export.learner})
    return f'{head[:-1]}, "answers": [\n{rows}\n]}}\n'


def as_csv(export: Export) -> str:
    """Return the export as CSV, one answer a line after the names of the columns."""
    text = io.StringIO()
    table = csv.DictWriter(text, COLUMNS, lineterminator="\n")
    table.writeheader()
    for attempt in export.attempts:
        row = {"learner": export.learner, **_values(attempt)}
        table.writerow({column: harmless(str(value)) for column, value in row.items()})
    return text.getvalue()


def from_json(text: str) -> Export:
    """Return what `as_json` wrote.

    Raises
    ------
    ValueError
        If it is something else, or damaged; the message says where.
    """
    try:
        content = json.loads(text)
    except json.JSONDecodeError as error:
        raise ValueError(f"cut short, damaged or not JSON: {error}") from error
    if not isinstance(content, dict) or content.get("format") != FORMAT:
        raise ValueError(f"not an export of a record: its format is not {FORMAT!r}")
    if content.get("version") != VERSION:
        raise ValueError(f"version {content.get('version')} is not known: install a newer vorlib")
    if not isinstance(content.get("answers"), list):
        raise ValueError("not an export of a record: it has no list of answers")
    attempts = tuple(
        _attempt(row, f"answer {number}") for number, row in enumerate(content["answers"], start=1)
    )
    return Export(tidy_name(str(content.get("learner", ""))), attempts)


def from_csv(text: str) -> Export:
    """Return what `as_csv` wrote, also when a spreadsheet saved it again, perhaps with semicolons.

    Raises
    ------
    ValueError
        If it is something else, damaged, empty or of more than one learner; the message says where.
    """
    text = text.removeprefix("\N{BYTE ORDER MARK}")
    head = text.partition("\n")[0]
    has_semicolons = ";" in head and "," not in head
    table = csv.DictReader(io.StringIO(text), delimiter=";" if has_semicolons else ",")
    missing = [column for column in COLUMNS if column not in (table.fieldnames or ())]
    if missing:
        raise ValueError(f"not an export of a record: it has no column {missing[0]!r}")
    names, attempts = set(), []
    for row in table:
        cells = {column: _as_meant(row[column] or "") for column in COLUMNS}
        names.add(cells.pop("learner"))
        if has_semicolons:
            cells["taken_s"] = cells["taken_s"].replace(",", ".")
        foreseen = [name for name in cells["foreseen"].split(SEPARATOR) if name]
        attempts.append(_attempt({**cells, "foreseen": foreseen}, f"line {table.line_num}"))
    if len(names) != 1:
        raise ValueError(f"the file must be of one learner, got {len(names)}")
    return Export(tidy_name(names.pop()), tuple(attempts))


def write_export(export: Export, path: str | Path) -> None:
    """Write the export to a file whose name ends in .json or .csv, whole or not at all.

    Raises
    ------
    ValueError
        If the name ends otherwise.
    OSError
        If it cannot be written; an earlier file of that name is untouched.
    """
    text = {".json": as_json, ".csv": as_csv}[_suffix(Path(path))](export)
    write_whole(path, text.encode())


def read_export(path: str | Path) -> Export:
    """Read a file that `write_export` wrote.

    Raises
    ------
    ValueError
        If the file is not an export, or damaged; the message names the file and the place.
    OSError
        If it cannot be read.
    """
    path = Path(path)
    _suffix(path)  # before a wrong file is read
    return parse_export(path.name, read_text(path))


def parse_export(name: str, text: str) -> Export:
    """Return what a file of a name, which ends in .json or .csv, holds.

    Raises
    ------
    ValueError
        If it is not an export, or damaged; the message names the file and the place.
    """
    read = {".json": from_json, ".csv": from_csv}[_suffix(Path(name))]
    try:
        return read(text)
    except (ValueError, csv.Error, RecursionError) as error:
        raise FileError(f"{name}: {error}") from error


def _suffix(path: Path) -> str:
    suffix = path.suffix.casefold()
    if suffix not in (".json", ".csv"):
        raise ValueError(f"path must end in .json or .csv, got {path.name!r}")
    return suffix


def _values(attempt: Attempt) -> dict[str, Any]:
    return {
        "answered_at": attempt.answered_at.isoformat(),
        "kind": attempt.kind,
        "seed": attempt.seed,
        "verdict": attempt.verdict,
        "misconception": attempt.misconception,
        "foreseen": SEPARATOR.join(attempt.foreseen),
        "hints": attempt.hints,
        "taken_s": attempt.taken_s,
        "key": attempt.key,
    }


def _attempt(row: object, where: str) -> Attempt:
    """Return the answer that a row holds, or raise ValueError with its place."""
    try:
        if not isinstance(row, Mapping):
            raise ValueError(f"must be an object, got {row!r:.40}")
        foreseen = row["foreseen"]
        if not isinstance(foreseen, Sequence) or isinstance(foreseen, str):
            raise ValueError("foreseen must be a list of names")
        return Attempt(
            kind=str(row["kind"]),
            seed=int(row["seed"]),
            verdict=row["verdict"],
            misconception=SEPARATOR.join(present_names(str(row["misconception"]).split(SEPARATOR))),
            foreseen=present_names(map(str, foreseen)),
            hints=int(row["hints"]),
            taken_s=float(row["taken_s"]),
            answered_at=_moment(row["answered_at"]),
            key=str(row["key"]),
        )
    except KeyError as error:
        raise ValueError(f"{where}: {error} is missing") from error
    except (ValueError, TypeError, OverflowError) as error:
        raise ValueError(f"{where}: {error}") from error


def _moment(cell: object) -> datetime:
    try:
        return datetime.fromisoformat(str(cell))
    except ValueError:
        raise ValueError(f"answered_at must be a day and a time, got {quoted(str(cell))}") from None


def harmless(cell: str) -> str:
    """Return a cell with an apostrophe before what a spreadsheet would take for a formula."""
    return f"'{cell}" if cell.startswith(FORMULA) else cell


def _as_meant(cell: str) -> str:
    return cell.removeprefix("'")
