"""The sheet of a marking out, in words: where each line is scribed and each centre popped."""

from __future__ import annotations

from halfthou.drawing.model import Part
from halfthou.planning.worked import Mark, Step
from halfthou.present.numbers import Units, joined, plain
from halfthou.present.words_surfaces import surface_words


def marks_words(step: Step, part: Part, units: Units) -> tuple[str, ...]:
    """Say every line and pop, those from one datum together."""
    by_datum: dict[str, list[Mark]] = {}
    for mark in step.marks:
        by_datum.setdefault(mark.datum, []).append(mark)
    return tuple(_from(datum, marks, part, units) for datum, marks in by_datum.items())


def _from(datum: str, marks: list[Mark], part: Part, units: Units) -> str:
    from_where = (
        "the " + datum if datum.startswith("middle") else surface_words(datum, part, units)
    )
    told = tuple(_one(mark, part, units) for mark in marks)
    return f"From {from_where}: {joined(told)}."


def _one(mark: Mark, part: Part, units: Units) -> str:
    what = surface_words(mark.what, part, units)
    if mark.kind == "pop":
        place = "on the line" if abs(mark.height) < 1e-6 else plain(mark.height, units)  # noqa: PLR2004
        return f"{what} popped, {place}"
    return f"{what} {plain(abs(mark.height), units)}"
