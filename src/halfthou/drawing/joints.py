"""Joints: the plane between two pieces, and what holds and places them."""

from __future__ import annotations

import re

from halfthou.drawing.built import Built, Solved
from halfthou.drawing.edges import parse_kerf
from halfthou.drawing.frame import side_of
from halfthou.drawing.metal import Body, reach
from halfthou.drawing.model import OUTWARD, Joint, Surface
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import parse_length
from halfthou.units import Millimetre, Vec3

_HALVES = 2
_SAME = 1e-7


def build_joint(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a joint, its plane and the two faces that meet there.

    All dimensions hold with the joint together. Each half's own face is called by the half:
    ``cap split``.
    """
    halves = table.texts("halves")
    if len(halves) != _HALVES or halves[0] == halves[1]:
        raise InputFault(
            f"{table.name} has {len(set(halves))} halves",
            why="a joint lies between the piece above it and the piece below",
            tries=('write halves = ["cap", "base"]',),
        )
    kerf = parse_kerf(table.text("cut"), units=solved.written.units)
    axis = next(n for n in range(3) if (table.name, n, "middle") in solved.places)
    at = solved.at(table.name, axis)
    built.features.append(
        Joint(
            name=table.name,
            surface=table.name,
            kind=kerf.kind,
            kerf=kerf.width,
            halves=(halves[0], halves[1]),
            bolts=table.text("bolts"),
            located_by=table.text("located_by"),
            locators=_locators(solved, table),
            moves=_moves(table, (halves[0], halves[1])),
            skim=_skim(solved, table),
            axis=axis,
            at=at,
        )
    )
    low, high = _plane(reach(solved.own), axis, at)
    built.add(_surface(table.name, table.name, (low, high), OUTWARD[side_of(axis, 1)]))
    for half, above in ((halves[0], True), (halves[1], False)):
        _own_face(solved, built, table, half, above=above)


def _own_face(
    solved: Solved, built: Built, table: WrittenTable, half: str, *, above: bool
) -> None:
    """Enter the face of one half; sides of bodies that end there mean it too."""
    axis = next(n for n in range(3) if (table.name, n, "middle") in solved.places)
    at = solved.at(table.name, axis)
    met = [
        body
        for body in solved.around(table.name)
        if body.low[axis] < at + _SAME
        and body.high[axis] > at - _SAME
        and _reaches(body, axis, at, above=above)
    ]
    if not met:
        return
    side = side_of(axis, 0 if above else 1)
    words = [f"{body.name} {side}" for body in met if _ends_at(body, axis, at, above=above)]
    free = [one for one in words if built.named(one) is None]
    corners = _plane(reach(met), axis, at)
    built.add(_surface(f"{half} {table.name}", table.name, corners, OUTWARD[side]), *free)


def _surface(name: str, feature: str, corners: tuple[Vec3, Vec3], direction: Vec3) -> Surface:
    low, high = corners
    x, y, z = ((a + b) / 2 for a, b in zip(low, high, strict=True))
    return Surface(
        name=name, feature=feature, kind="plane", inside=True, point=(x, y, z),
        direction=direction, low=low, high=high,
    )  # fmt: skip


def _plane(box: tuple[Vec3, Vec3], axis: int, at: Millimetre) -> tuple[Vec3, Vec3]:
    low, high = list(box[0]), list(box[1])
    low[axis] = high[axis] = at
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _reaches(body: Body, axis: int, at: Millimetre, *, above: bool) -> bool:
    return body.high[axis] > at + _SAME if above else body.low[axis] < at - _SAME


def _ends_at(body: Body, axis: int, at: Millimetre, *, above: bool) -> bool:
    return abs((body.low if above else body.high)[axis] - at) < _SAME


def _moves(table: WrittenTable, halves: tuple[str, str]) -> str:
    moves = table.text("moves", halves[0])
    if moves not in halves:
        raise InputFault(
            f"'{moves}' is no half of {table.name}",
            why=f"its halves are {halves[0]} and {halves[1]}",
            tries=(f"write '{halves[0]}'", f"write '{halves[1]}'"),
        )
    return moves


def _locators(solved: Solved, table: WrittenTable) -> tuple[str, ...]:
    """Return the features named in ``located_by``: ``2 dowels`` names the hole ``dowel``."""
    words = set(re.findall(r"[\w-]+", table.text("located_by")))
    names = [one.name for one in solved.written.features if one.name and one is not table]
    return tuple(name for name in names if words & {name, f"{name}s"})


def _skim(solved: Solved, table: WrittenTable) -> Millimetre:
    if not table.has("skim"):
        return 0.0
    return parse_length(table.text("skim"), units=solved.written.units).value
