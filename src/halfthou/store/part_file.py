"""Part files: read with every fault named, and written back with nothing lost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import tomlkit

from halfthou.drawing.grammar import KINDS, LATER, Kind
from halfthou.drawing.model import Part
from halfthou.drawing.proof_read import proof_read
from halfthou.drawing.solve import solve
from halfthou.drawing.written import Entry, Written, WrittenTable
from halfthou.errors import Faults, InputFault
from halfthou.handbook.names import near_names
from halfthou.store.toml_reading import Table, parse_toml, read_text


def read_part(path: Path) -> Part:
    """Read a part file and solve it.

    Raises
    ------
    Faults
        With every fault of the file.
    """
    return solve(read_part_text(read_text(path), name=path.name))


def read_part_text(text: str, *, name: str) -> Written:
    """Read the text of a part file; ``name`` stands in the place of each fault.

    Raises
    ------
    Faults
        With every fault of the file.
    """
    document = parse_toml(text, name=name)
    faults: list[InputFault] = []
    part = _single(document, "part", name, faults)
    blank = _single(document, "blank", name, faults)
    features = tuple(_features(document, name, faults))
    written = Written(
        file=name,
        source=text,
        part=part,
        blank=blank,
        features=features,
        unread=tuple(_unread(document)),
    )
    faults += proof_read(written)
    if faults:
        raise Faults(f"{name} has {len(faults)} fault{'s' if len(faults) > 1 else ''}", faults)
    return written


def _unread(document: Table) -> Iterator[str]:
    for kind, value in document.items():
        if kind not in KINDS and isinstance(value, dict):
            yield from value


def _single(document: Table, kind: str, file: str, faults: list[InputFault]) -> WrittenTable:
    found = document.get(kind)
    if found is None:
        faults.append(_missing(kind, file))
        return WrittenTable(kind=kind, name="", entries=())
    if not isinstance(found, dict):
        faults.append(_not_a_table(kind, file))
        return WrittenTable(kind=kind, name="", entries=())
    if not found:
        faults.append(_missing(kind, file, empty=True))
    return _table(kind, "", found, file, faults)


def _missing(kind: str, file: str, *, empty: bool = False) -> InputFault:
    said = "an empty" if empty else "no"
    if kind == "part":
        return InputFault(
            f"{file} has {said} [part]",
            where=file,
            why="the part's name, material, units and general tolerance stand there",
            tries=('begin with [part] and name = "..."',),
        )
    return InputFault(
        f"{file} has {said} [blank]",
        where=file,
        why="the way of making it depends on the lump it is made from",
        tries=('add [blank] and bar = "round 25 x 60"', 'add [blank] and plate = "12 x 110 x 90"'),
    )


def _not_a_table(kind: str, file: str) -> InputFault:
    return InputFault(
        f"'{kind}' is a table and has a plain value",
        where=f"{file}, {kind}",
        why="its keys stand below its name in brackets",
        tries=(f"write [{kind}] on a line of its own",),
    )


def _features(document: Table, file: str, faults: list[InputFault]) -> list[WrittenTable]:
    found: list[WrittenTable] = []
    for kind, value in document.items():
        if kind in {"part", "blank"}:
            continue
        if kind not in KINDS:
            faults.append(_unknown_kind(kind, file))
        elif not isinstance(value, dict):
            faults.append(_not_a_table(kind, file))
        elif not KINDS[kind].named:
            found.append(_table(kind, "", value, file, faults))
        else:
            for name, inner in value.items():
                if isinstance(inner, dict):
                    found.append(_table(kind, name, inner, file, faults))
                else:
                    faults.append(_no_name(kind, name, file))
    return found


def _unknown_kind(kind: str, file: str) -> InputFault:
    if kind in LATER:
        return InputFault(
            f"[{kind}] cannot be solved yet",
            where=f"{file}, {kind}",
            why="this version knows " + ", ".join(name for name in KINDS),
            tries=("draw it with those, or leave it out",),
        )
    near = near_names(kind, KINDS)
    return InputFault(
        f"[{kind}] is no kind of feature",
        where=f"{file}, {kind}",
        why="the kinds are " + ", ".join(KINDS),
        tries=tuple(f"write [{name}]" for name in near[:1])
        or (f"draw {kind} with those", "begin its lines with # to keep it as a remark"),
    )


def _no_name(kind: str, key: str, file: str) -> InputFault:
    return InputFault(
        f"[{kind}] has no name of its own",
        where=f"{file}, {kind}.{key}",
        why=f"every {kind} is named, so that others can be measured from it",
        tries=(f"write [{kind}.NAME]",),
    )


def _table(
    kind: str, name: str, found: Table, file: str, faults: list[InputFault]
) -> WrittenTable:
    rules = KINDS[kind]
    place = f"{kind}.{name}" if name else kind
    entries: list[Entry] = []
    for key, value in found.items():
        where = f"{file}, {place} {key}"
        if key not in rules.keys:
            faults.append(_unknown_key(key, kind, rules, where))
            continue
        entry = _entry(key, value, rules, where, faults)
        if entry:
            entries.append(entry)
    written = {entry.key for entry in entries} | set(found)
    faults += [
        InputFault(
            f"{place} does not give '{key}'",
            where=f"{file}, {place}",
            why=f"{key} is {rule.meaning}",
            tries=(f'add {key} = "{rule.example}"',),
        )
        for key, rule in rules.keys.items()
        if rule.needed and key not in written
    ]
    return WrittenTable(kind=kind, name=name, entries=tuple(entries))


def _unknown_key(key: str, kind: str, rules: Kind, where: str) -> InputFault:
    near = near_names(key, rules.keys)
    return InputFault(
        f"'{key}' is not a key of {kind}",
        where=where,
        why="its keys are " + ", ".join(rules.keys),
        tries=tuple(f"write '{name}'" for name in near[:1])
        or ("begin its line with # to keep it as a remark", "take it out"),
    )


def _entry(
    key: str, value: object, rules: Kind, where: str, faults: list[InputFault]
) -> Entry | None:
    rule = rules.keys[key]
    if rule.form == "yes or no" or isinstance(value, bool):
        if isinstance(value, bool) and rule.form == "yes or no":
            return Entry(key=key, texts=("true" if value else "false",))
        faults.append(_wrong_type(key, value, rule.example, where))
        return None
    values = value if isinstance(value, list) else [value]
    if isinstance(value, list) and not (rule.many and value):
        faults.append(_wrong_list(key, value, rule.example, where))
        return None
    for one in values:
        if not isinstance(one, str):
            if rule.form == "count" and isinstance(one, int):
                return Entry(key=key, texts=(str(one),))
            faults.append(_wrong_type(key, one, rule.example, where))
            return None
    return Entry(key=key, texts=tuple(str(one) for one in values))


def _wrong_list(key: str, value: list[object], example: str, where: str) -> InputFault:
    if not value:
        return InputFault(
            f"'{key}' is an empty list",
            where=where,
            why="it says nothing",
            tries=(f'write {key} = "{example}"', "leave it out"),
        )
    return InputFault(
        f"'{key}' is a list and takes one text",
        where=where,
        why="of several texts none would count more than another",
        tries=(f'write {key} = "{example}"',),
    )


def _wrong_type(key: str, value: object, example: str, where: str) -> InputFault:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return InputFault(
            f"'{key}' is a bare number: {value}",
            where=where,
            why="20.00 and 20 mean different tolerances, and a bare number forgets which it was",
            tries=(f'write {key} = "{value}"',),
        )
    kind = "true or false" if isinstance(value, bool) else type(value).__name__
    if isinstance(value, str):
        return InputFault(
            f"'{key}' is a text and takes true or false",
            where=where,
            why="it says that something is so, and needs no words",
            tries=(f"write {key} = true",),
        )
    return InputFault(
        f"'{key}' is {kind} and takes a text",
        where=where,
        why="what the drawing says stands between quotation marks",
        tries=(f'write {key} = "{example}"',),
    )


def changed(written: Written, *, table: str, key: str, text: str) -> str:
    """Return the file's text with one key changed; all else, comments included, stays as it is.

    ``table`` is named as in the file: ``hole.bore``.
    """
    document = tomlkit.parse(written.source)
    found: Any = document
    for name in table.split(".", maxsplit=1):
        found = found[name]
    comment = found[key].trivia.comment if key in found else ""
    value = tomlkit.item(text)
    if comment:
        value.trivia.comment = comment
        value.trivia.comment_ws = found[key].trivia.comment_ws
    found[key] = value
    return tomlkit.dumps(document)
