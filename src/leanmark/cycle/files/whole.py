"""Files read and written in one go."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import Final

from leanmark.cycle.files.problems import failure

LARGEST_FILE_BYTES: Final = 500_000_000
"""Own figure: 2000 trainees for 16 weeks; a session takes about 6 kB of JSON."""
_RIGHTS: Final = 0o644
"""The owner writes, everybody reads: a temporary file alone is the owner's only."""


def write_whole(path: Path, content: bytes) -> Path:
    """Write a file so that it is there whole or not at all; gives the path.

    Raises:
        OSError: the folder is missing or cannot be written to.
    """
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.stem[:40]}-", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        part.chmod(_RIGHTS)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return path


def read_whole(path: Path, what: str) -> bytes:
    """The bytes of a file; ``what`` is what it should be, such as ``a cycle file``.

    Raises:
        CycleFileError: no such file, a folder, empty, too large, or unreadable.
    """
    file = str(path)
    try:
        if path.is_dir():
            raise failure(file, "this is a folder", f"give {what} inside it")
        if not path.is_file():
            raise failure(file, "there is no such file", f"check the path of {what}")
        size_bytes = path.stat().st_size
        if size_bytes > LARGEST_FILE_BYTES:
            too_large = f"the file has {size_bytes / 1e6:.0f} MB, more than {LARGEST_FILE_BYTES / 1e6:g} MB"
            raise failure(file, too_large, f"give {what}, or build the squad in several parts")
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise failure(file, f"the file cannot be read ({reason})", "check its path and rights") from None
    if not data.strip():
        raise failure(file, "the file is empty", f"give {what}")
    return data
