"""Project files: the parts of one job, the fits between them, and the order they are made in."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from halfthou.errors import Faults, InputFault
from halfthou.handbook.names import near_names
from halfthou.store.toml_reading import Table, parse_toml, read_text

PROJECT_FILE: Final = "project.toml"
_TOP: Final = ("name", "part", "fit", "first", "assembled", "waits")
_PART: Final = ("file", "quantity")
_FIT: Final = ("hole", "shaft", "as")
_SURFACE_OF: Final = re.compile(r"(?P<surface>.+?) of (?P<part>.+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class ProjectPart:
    """One part of the project: its name there, its file, how many."""

    name: str
    file: str
    quantity: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceOf:
    """A surface of one of the parts."""

    surface: str
    part: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProjectFit:
    """Two surfaces that go together, and how."""

    name: str
    hole: SurfaceOf
    shaft: SurfaceOf
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """A job of several parts.

    ``first`` are parts made before their mates, so that these are made to them as they came out;
    ``assembled`` are groups put together already; ``waits`` is what is left for assembly, as
    part and what is done then.
    """

    name: str
    parts: tuple[ProjectPart, ...]
    fits: tuple[ProjectFit, ...] = ()
    first: tuple[str, ...] = ()
    assembled: tuple[tuple[str, ...], ...] = ()
    waits: tuple[tuple[str, str], ...] = ()


def read_project(path: Path) -> Project:
    """Read a project file.

    Raises
    ------
    Faults
        With every fault of the file.
    """
    return read_project_text(read_text(path), name=path.name)


def read_project_text(text: str, *, name: str) -> Project:
    """Read the text of a project file; ``name`` stands in the place of each fault.

    Raises
    ------
    Faults
        With every fault of the file.
    """
    document = parse_toml(text, name=name)
    faults = list(_unknown(document, _TOP, name, ""))
    parts = tuple(_parts(document, name, faults))
    names = [part.name for part in parts]
    fits = tuple(_fits(document, name, names, faults))
    first = _names(document.get("first", []), f"{name}, first", names, faults)
    groups = document.get("assembled", [])
    assembled = tuple(
        _names(group, f"{name}, assembled", names, faults) for group in _listed(groups)
    )
    waits = tuple(_waits(document, name, names, faults))
    if faults:
        count = f"{len(faults)} fault{'s' if len(faults) > 1 else ''}"
        raise Faults(f"{name} has {count}", faults)
    return Project(
        name=str(document.get("name", "")),
        parts=parts,
        fits=fits,
        first=first,
        assembled=assembled,
        waits=waits,
    )


def _listed(value: object) -> list[Any]:
    return value if isinstance(value, list) else [value]


def _tables(document: Table, key: str, file: str, faults: list[InputFault]) -> Table:
    found = document.get(key, {})
    tables: Table = {}
    for name, table in found.items() if isinstance(found, dict) else ():
        if isinstance(table, dict):
            tables[name] = table
        else:
            faults.append(
                InputFault(
                    f"[{key}] has no name of its own",
                    where=f"{file}, {key}.{name}",
                    tries=(f"write [{key}.NAME]",),
                )
            )
    if not isinstance(found, dict):
        faults.append(
            InputFault(
                f"'{key}' is a table and has a plain value",
                where=f"{file}, {key}",
                tries=(f"write [{key}.NAME] on a line of its own",),
            )
        )
    return tables


def _unknown(table: Table, known: Sequence[str], file: str, place: str) -> Iterator[InputFault]:
    for key in table:
        if key not in known:
            near = near_names(key, known)
            yield InputFault(
                f"'{key}' is not a key of {place or 'a project'}",
                where=f"{file}, {place} {key}" if place else f"{file}, {key}",
                why="its keys are " + ", ".join(known),
                tries=tuple(f"write '{one}'" for one in near[:1]),
            )


def _parts(document: Table, file: str, faults: list[InputFault]) -> Iterator[ProjectPart]:
    tables = _tables(document, "part", file, faults)
    if not tables:
        faults.append(
            InputFault(
                f"{file} names no parts",
                where=file,
                why="a project is the list of its parts",
                tries=('add [part.arbor] and file = "arbor.toml"',),
            )
        )
    for name, table in tables.items():
        place = f"part.{name}"
        faults += _unknown(table, _PART, file, place)
        source, quantity = table.get("file", f"{name}.toml"), table.get("quantity", 1)
        if not isinstance(source, str):
            faults.append(_wrong(f"{file}, {place} file", "file", source, '"arbor.toml"'))
        elif isinstance(quantity, bool) or not isinstance(quantity, int) or quantity < 1:
            faults.append(_wrong(f"{file}, {place} quantity", "quantity", quantity, "2"))
        else:
            yield ProjectPart(name=name, file=source, quantity=quantity)


def _wrong(where: str, key: str, value: object, example: str) -> InputFault:
    given = "missing" if value is None else f"{value!r}"
    return InputFault(
        f"'{key}' is {given}",
        where=where,
        why="it is not of the form that is read there",
        tries=(f"write {key} = {example}",),
    )


def _fits(
    document: Table, file: str, names: Sequence[str], faults: list[InputFault]
) -> Iterator[ProjectFit]:
    for name, table in _tables(document, "fit", file, faults).items():
        place = f"fit.{name}"
        faults += _unknown(table, _FIT, file, place)
        ends = [
            _surface(table.get(key), f"{file}, {place} {key}", key, names, faults)
            for key in ("hole", "shaft")
        ]
        hole, shaft = ends
        if hole is not None and shaft is not None:
            yield ProjectFit(name=name, hole=hole, shaft=shaft, how=str(table.get("as", "")))


def _surface(
    value: object, where: str, key: str, names: Sequence[str], faults: list[InputFault]
) -> SurfaceOf | None:
    found = _SURFACE_OF.fullmatch(value) if isinstance(value, str) else None
    if found is None:
        faults.append(_wrong(where, key, value, '"bore of barrel-end"'))
        return None
    _names([found["part"]], where, names, faults)
    return SurfaceOf(surface=found["surface"], part=found["part"])


def _names(
    value: object, where: str, names: Sequence[str], faults: list[InputFault]
) -> tuple[str, ...]:
    found = []
    for name in _listed(value):
        if name in names:
            found.append(str(name))
            continue
        near = near_names(str(name), names)
        faults.append(
            InputFault(
                f"no part of this project is called '{name}'",
                where=where,
                why=f"its parts are {', '.join(names)}" if names else "",
                tries=tuple(f"write '{one}'" for one in near[:1]),
            )
        )
    return tuple(found)


def _waits(
    document: Table, file: str, names: Sequence[str], faults: list[InputFault]
) -> Iterator[tuple[str, str]]:
    waits = document.get("waits", {})
    if not isinstance(waits, dict):
        faults.append(_wrong(f"{file}, waits", "waits", waits, '{ arbor = "fit the key" }'))
        return
    for part, what in waits.items():
        if _names([part], f"{file}, waits", names, faults):
            for text in _listed(what):
                yield part, str(text)
