"""Files that are there whole or not at all."""

import os
import tempfile
from pathlib import Path


def write_whole(path: str | os.PathLike[str], data: bytes) -> Path:
    """Write a file under another name beside it and rename it when it is on the disk.

    Whatever goes wrong, a file that was there before stays as it was, and no half-written one is
    left behind.

    Raises
    ------
    OSError
        If the folder is not there or cannot be written to, or the disk is full.
    """
    target = Path(path)
    if not target.parent.is_dir():
        raise FileNotFoundError(f"the folder {target.parent} for {target.name} is not there")
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, 0o666 & ~_umask())
        os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    return target


def _umask() -> int:
    """What the user takes from a new file's permissions; mkstemp takes nearly all of them."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
