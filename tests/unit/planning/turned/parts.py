"""Turned parts for tests, written as on a drawing."""

from __future__ import annotations

from functools import cache

from halfthou.drawing.model import Part
from halfthou.drawing.solve import solve
from halfthou.planning.assemble import Case
from halfthou.planning.turned.case import cases_turned
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop
from halfthou.workshop.model import Workshop

HEAD = """
[part]
name = "pin"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"
"""


def part_of(text: str) -> Part:
    return solve(read_part_text(HEAD + text, name="pin.toml"))


@cache
def workshop() -> Workshop:
    return default_workshop()


def cases_of(text: str) -> tuple[Case, ...]:
    return cases_turned(part_of(text), workshop())


def sawn(text: str) -> Case:
    """Give the case of the blank sawn to length."""
    return cases_of(text)[0]


def keys(case: Case, *starts: str) -> list[str]:
    return [op.key for op in case.operations if op.key.startswith(starts)]
