"""Writing files: whole or not at all, and never over what is there unless that was asked for."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from halfthou.errors import InputFault


def write_whole(path: Path, content: bytes | str, *, replace: bool = False) -> None:
    """Write a file through a neighbour of another name, so that no half of it is ever seen.

    Text is written as UTF-8 with line feeds on every system. The folder is made if need be.

    Raises
    ------
    InputFault
        If the file is there already and ``replace`` was not asked for, or cannot be written.
    """
    if path.exists() and not replace:
        raise already_there(path)
    data = content.encode() if isinstance(content, str) else content
    try:
        _through_a_neighbour(path, data)
    except OSError as error:
        raise InputFault(
            f"{path.name} cannot be written",
            where=str(path),
            why=(error.strerror or str(error)).lower(),
            tries=("give a folder you may write in", "close the file where it is open"),
        ) from error


def already_there(path: Path) -> InputFault:
    """Fault of a file that would be written over unasked."""
    return InputFault(
        f"{path.name} is there already",
        where=str(path),
        why="nothing is written over unasked",
        tries=("give another name", "move the file away first"),
    )


def _through_a_neighbour(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    neighbour = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        neighbour.chmod(0o644)
        neighbour.replace(path)
    except BaseException:
        neighbour.unlink(missing_ok=True)
        raise
