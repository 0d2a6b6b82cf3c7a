"""Write files whole or not at all."""

from __future__ import annotations

import errno
import os
import secrets
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

AnyPath = str | os.PathLike[str]

MAKE_ROOM = "Make room on the disk and do it again."
GET_RIGHTS = "Get the right to write there and do it again."
_WHAT_TO_DO = {errno.ENOSPC: MAKE_ROOM} | dict.fromkeys(
    (errno.EACCES, errno.EPERM, errno.EROFS), GET_RIGHTS
)


def write_whole(path: AnyPath, data: bytes) -> Path:
    """Write a file under another name beside it and rename it when it is on the disk.

    Whatever goes wrong, a file that was there before stays as it was, and no half-written one is
    left behind.

    Raises
    ------
    OSError
        If the folder is not there or cannot be written to, or the disk is full.
    """
    return write_all({path: data})[0]


def write_all(files: Mapping[AnyPath, bytes]) -> tuple[Path, ...]:
    """Write files that belong together: none takes its name before all are on the disk.

    Raises
    ------
    OSError
        If a folder is not there or cannot be written to, a name is that of a folder, or the disk
        is full.
    """
    targets = [Path(path) for path in files]
    for target in targets:
        if not target.parent.is_dir():
            raise FileNotFoundError(f"there is no folder {target.parent} for {target.name}")
        if target.is_dir():
            raise IsADirectoryError(f"{target} is a folder; name a file")
    written: list[Path] = []
    target = Path()
    try:
        for target, data in zip(targets, files.values(), strict=True):
            name = target.parent / f".{target.name}.{secrets.token_hex(4)}"
            with name.open("xb") as file:  # with the permissions that the user gives new files
                written.append(name)
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
        for name, target in zip(written, targets, strict=True):
            os.replace(name, target)
    except BaseException as error:
        for name in written:
            with suppress(OSError):
                name.unlink(missing_ok=True)
        if isinstance(error, OSError):
            why = (error.strerror or str(error)).lower()
            words = f"{target} could not be written: {why}. {what_to_do(error)}"
            raise type(error)(words.rstrip()) from error
        raise
    return tuple(targets)


def what_to_do(error: OSError) -> str:
    """Return what to do about a disk that refuses; empty where that is not known."""
    return _WHAT_TO_DO.get(error.errno or 0, "")


def check_folder(path: str | os.PathLike[str]) -> Path:
    """Return the path of a file to be written, or raise FileNotFoundError if it has no folder."""
    target = Path(path)
    if not target.parent.is_dir():
        raise FileNotFoundError(f"there is no folder {target.parent} for {target.name}")
    return target
