"""The person's own workshop file: read over the default one, and written.

Three layers, each saying only what differs from the one before: the default workshop, the
``workshop.toml`` in the person's configuration folder, a ``workshop.toml`` beside the project.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any, Final

import platformdirs
import tomlkit

from halfthou.store.toml_reading import parse_toml, read_text
from halfthou.store.writing import write_whole
from halfthou.workshop.default import default_tables, default_workshop
from halfthou.workshop.described import difference, merged, tables_of, workshop_from
from halfthou.workshop.model import Workshop

NAME: Final = "workshop.toml"


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
    return read_workshop(*(path for path in paths if path.exists()))


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
    told = difference(tables_of(default_workshop()), tables_of(workshop))
    write_whole(path, tomlkit.dumps({"name": workshop.name, **told}), replace=replace)


def _tables(path: Path) -> dict[str, Any]:
    text = read_text(path)
    if not re.sub(r"#.*", "", text).strip():
        return {}
    return parse_toml(text, name=path.name)
