"""The person's own workshop file: read over the default one, and written.

Three layers, each saying only what differs from the one before: the default workshop, the
``workshop.toml`` in the person's configuration folder, a ``workshop.toml`` beside the project.
"""

from __future__ import annotations

import os
import tempfile
import tomllib
from pathlib import Path
from typing import Any, Final

import platformdirs
import tomlkit

from halfthou.errors import Faults, InputFault
from halfthou.workshop.default import default_tables, default_workshop
from halfthou.workshop.described import difference, merged, tables_of, workshop_from
from halfthou.workshop.model import Workshop

NAME: Final = "workshop.toml"
_MOST_BYTES: Final = 1_000_000


def own_workshop_path() -> Path:
    """Where this person's workshop file is kept."""
    return platformdirs.user_config_path("halfthou", appauthor=False) / NAME


def workshop_for(project: Path | None = None, *, own: Path | None = None) -> Workshop:
    """Give the workshop to plan with.

    Parameters
    ----------
    project :
        The project's folder, whose own workshop file goes over the person's.
    own :
        The person's workshop file, if not the one in their configuration folder.

    Raises
    ------
    Faults
        All that is wrong in the files, each with its place.
    """
    person = own if own is not None else own_workshop_path()
    paths = [person, *([] if project is None else [project / NAME])]
    return read_workshop(*(path for path in paths if path.is_file()))


def read_workshop(*paths: Path) -> Workshop:
    """Read workshop files, each over the one before and the first over the default."""
    if not paths:
        return default_workshop()
    tables: dict[str, Any] = default_tables()
    tables["name"] = "own workshop"
    for path in paths:
        tables = merged(tables, _tables(path))
    return workshop_from(tables, file=paths[-1].name)


def write_workshop(workshop: Workshop, path: Path, *, replace: bool = False) -> None:
    """Write what differs from the default workshop; whole or not at all.

    Raises
    ------
    InputFault
        If the file is there already and ``replace`` was not asked for.
    """
    if path.exists() and not replace:
        raise InputFault(
            f"{path.name} is there already",
            where=str(path),
            why="nothing a person wrote is written over unasked",
            tries=("give another name", "ask for it to be replaced"),
        )
    told = difference(tables_of(default_workshop()), tables_of(workshop))
    text = tomlkit.dumps({"name": workshop.name, **told})
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def _tables(path: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(_text(path))
    except tomllib.TOMLDecodeError as problem:
        fault = InputFault(
            f"{path.name} is not TOML: {problem}",
            where=str(path),
            why="a figure, quote or bracket is out of place there",
            tries=("mend that line",),
        )
        raise Faults(f"{path.name} cannot be read", [fault]) from None


def _text(path: Path) -> str:
    size = path.stat().st_size
    if size > _MOST_BYTES:
        fault = InputFault(
            f"{path.name} is too large: {size} bytes against {_MOST_BYTES}",
            where=str(path),
            why="a workshop takes a few pages",
            tries=("see that it is the right file",),
        )
        raise Faults(f"{path.name} cannot be read", [fault])
    try:
        return path.read_bytes().decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as problem:
        fault = InputFault(
            f"{path.name} is not UTF-8 text: byte {problem.start} fits no letter",
            where=str(path),
            why="the file was saved in another encoding",
            tries=("save it as UTF-8",),
        )
        raise Faults(f"{path.name} cannot be read", [fault]) from None
