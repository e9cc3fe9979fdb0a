"""The part file as a JSON Schema, for editors that help while typing.

It says which tables and keys there are and what each means. Whether a text can be read, and
whether the drawing agrees with itself, only reading it tells.
"""

from __future__ import annotations

from typing import Any, Final, TypeAlias

from halfthou.drawing.frame import DIRECTIONS, SIDES
from halfthou.drawing.grammar import KINDS, Form, Key, Kind
from halfthou.drawing.leanings import FIXED

Schema: TypeAlias = dict[str, Any]
DRAFT: Final = "https://json-schema.org/draft/2020-12/schema"
_CHOICES: Final[dict[Form, tuple[str, ...]]] = {
    "units": ("mm", "in"),
    "ends": ("round", "square"),
    "side": SIDES,
    "fixed": FIXED,
    "axis": tuple(DIRECTIONS),
}


def part_file_schema() -> Schema:
    """Return the schema of a part file, made from the grammar the reader itself uses."""
    return {
        "$schema": DRAFT,
        "title": "halfthou part file",
        "description": "One part as its drawing says: metal, cuts, what must hold.",
        "type": "object",
        "required": ["part", "blank"],
        "additionalProperties": False,
        "properties": {name: _kind(kind) for name, kind in KINDS.items()},
    }


def _kind(kind: Kind) -> Schema:
    table = _table(kind)
    if not kind.named:
        return table
    return {
        "type": "object",
        "description": f"{kind.meaning}; each has a name",
        "additionalProperties": table,
    }


def _table(kind: Kind) -> Schema:
    needed = [name for name, key in kind.keys.items() if key.needed]
    return {
        "type": "object",
        "description": kind.meaning,
        "additionalProperties": False,
        "required": needed,
        "properties": {name: _key(key) for name, key in kind.keys.items()},
    }


def _key(key: Key) -> Schema:
    told: Schema = {"description": key.meaning}
    if key.form == "yes or no":
        return {**told, "type": "boolean"}
    if key.form == "count":
        return {**told, "type": ["integer", "string"], "examples": [1]}
    text: Schema = {"type": "string", "minLength": 1}
    if key.form in _CHOICES:
        text["enum"] = list(_CHOICES[key.form])
    told["examples"] = [key.example]
    if not key.many:
        return {**told, **text}
    return {**told, "anyOf": [text, {"type": "array", "minItems": 1, "items": text}]}
