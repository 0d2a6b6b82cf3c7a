"""Read the records that a class handed in: a folder of exports, and the files left out."""

from dataclasses import dataclass
from pathlib import Path

from vorlib.io.text import printable
from vorlib.practice.record.exchange import Export, read_export
from vorlib.practice.record.learner import file_name


@dataclass(frozen=True)
class FileLeftOut:
    """A file that could not be used, and why not."""

    file: str
    reason: str


@dataclass(frozen=True)
class ClassRecords:
    """What a folder holds.

    Attributes
    ----------
    learners
        Each learner's answers in the order of time, the learners in that of their names.
    left_out
        The files that are damaged or something else, in the order of their names.
    """

    learners: tuple[Export, ...]
    left_out: tuple[FileLeftOut, ...] = ()


def read_class(folder: str | Path) -> ClassRecords:
    """Return the exported records in a folder, without those in folders inside it.

    A learner may have handed in more than one file: each answer counts once. Files whose names
    begin with a period, which systems keep for themselves, are passed over.

    Raises
    ------
    ValueError
        If there is no such folder, or it cannot be opened.
    """
    where = Path(folder).expanduser()
    if not where.is_dir():
        raise ValueError(f"there is no folder {str(folder)!r}")
    try:
        paths = sorted(path for path in where.iterdir() if not path.name.startswith("."))
    except OSError as error:
        raise ValueError(f"the folder cannot be opened: {error}") from error
    exports: dict[str, list[Export]] = {}
    left_out = []
    for path in paths:
        try:
            export = _read(path)
        except (ValueError, OSError) as error:
            left_out.append(FileLeftOut(printable(path.name), printable(_reason(path, error))))
        else:
            exports.setdefault(file_name(export.learner), []).append(export)
    learners = sorted(map(_together, exports.values()), key=lambda e: e.learner.casefold())
    return ClassRecords(tuple(learners), tuple(left_out))


def _read(path: Path) -> Export:
    if not path.is_file():
        raise ValueError("a folder, not a file: put the files of all learners into one folder")
    return read_export(path)


def _reason(path: Path, error: Exception) -> str:
    """Return what is wrong with a file, without its name in front."""
    return str(error).removeprefix(f"{path.name}: ")


def _together(exports: list[Export]) -> Export:
    """Return the answers of one learner's files, each once, in the order of time."""
    answers = {attempt.key: attempt for export in exports for attempt in export.attempts}
    return Export(exports[0].learner, tuple(sorted(answers.values(), key=lambda a: a.answered_at)))
