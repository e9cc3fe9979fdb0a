"""Joints: the plane between two pieces, and what holds and places them."""

from __future__ import annotations

from halfthou.drawing.built import Built, Solved
from halfthou.drawing.edges import parse_kerf
from halfthou.drawing.frame import side_of
from halfthou.drawing.metal import reach
from halfthou.drawing.model import OUTWARD, Joint, Surface
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault

_HALVES = 2


def build_joint(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a joint and its plane; all dimensions hold with the joint together."""
    halves = table.texts("halves")
    if len(halves) != _HALVES:
        raise InputFault(
            f"{table.name} has {len(halves)} halves",
            why="a joint lies between the piece above it and the piece below",
            tries=('write halves = ["cap", "base"]',),
        )
    kerf = parse_kerf(table.text("cut"), units=solved.written.units)
    axis = next(n for n in range(3) if (table.name, n, "middle") in solved.places)
    low, high = (list(corner) for corner in reach(solved.bodies))
    low[axis] = high[axis] = solved.at(table.name, axis)
    middle = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    built.features.append(
        Joint(
            name=table.name,
            surface=table.name,
            kind=kerf.kind,
            kerf=kerf.width,
            halves=(halves[0], halves[1]),
            bolts=table.text("bolts"),
            located_by=table.text("located_by"),
        )
    )
    built.add(
        Surface(
            name=table.name,
            feature=table.name,
            kind="plane",
            inside=True,
            point=(middle[0], middle[1], middle[2]),
            direction=OUTWARD[side_of(axis, 1)],
            low=(low[0], low[1], low[2]),
            high=(high[0], high[1], high[2]),
        )
    )
