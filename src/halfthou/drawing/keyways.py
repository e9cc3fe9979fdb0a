"""Keyways along rounds: the floor from what it leaves, or from its depth."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from halfthou.drawing.built import Built, Solved, along, opposite
from halfthou.drawing.geometry import Box, Obround
from halfthou.drawing.metal import RoundBody
from halfthou.drawing.model import (
    OUTWARD,
    Band,
    Keyway,
    Side,
    Surface,
)
from halfthou.drawing.phrases import parse_reference
from halfthou.drawing.sheet import copies_of, places_of, row_step
from halfthou.drawing.sizes import band_of
from halfthou.drawing.told import told
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import parse_size
from halfthou.units import Millimetre, Vec3


def round_of(solved: Solved, table: WrittenTable, name: str) -> RoundBody:
    """Return the round that a cut is made in.

    Raises
    ------
    InputFault
        If it is no round.
    """
    body = solved.body(name)
    if not isinstance(body, RoundBody):
        raise InputFault(
            f"{table.name} is cut into '{name}', which is no round",
            tries=("name one of the rounds",),
        )
    return body


def build_keyway(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a keyway: its floor from what it leaves, or from its depth."""
    to = parse_reference(table.text("in"))
    body = round_of(solved, table, to.feature)
    across = body.left_diameter
    width = band_of(
        parse_size(table.text("wide"), units=solved.written.units),
        rule=solved.rule,
        place=f"{table.place} wide",
        inside=True,
    )
    leaves = _leaves(solved, table, across)
    floor = leaves.nominal - across / 2
    if not -across / 2 < floor < across / 2:
        raise InputFault(
            f"{table.name} leaves {leaves.text} of a round "
            f"{told(across, solved.written.units)} across",
            why="the floor of a keyway lies inside the round",
            tries=("give leaves from the floor to the far side", "give deep"),
        )
    out = _facing(solved, table)
    ends: Literal["round", "square"] = "square" if table.text("ends") == "square" else "round"
    left, right = solved.at(table.name, 0, "low"), solved.at(table.name, 0, "high")
    keyway = Keyway(
        name=table.name, on=body.name, left=left, right=right, width=width, floor=floor,
        leaves=leaves, ends=ends, out=out,
    )  # fmt: skip
    for one in _copies(solved, table, keyway):
        built.features.append(one)
        _cut_keyway(built, one, across / 2)


def _copies(solved: Solved, table: WrittenTable, first: Keyway) -> Iterator[Keyway]:
    """Yield a keyway and its copies along the round: ``key``, ``key 2``."""
    copies = copies_of(solved.written, table)
    if copies is None:
        yield first
        return
    if copies.axis != 0:
        raise InputFault(
            f"'{copies.text}' does not run along the round {table.name} is in",
            why="keyways are repeated along their round",
            tries=("write it like 2 at 40 left to right", "draw each one by itself"),
        )
    for number in range(copies.count):
        by = number * row_step(copies)
        name = first.name if number == 0 else f"{first.name} {number + 1}"
        yield replace(first, name=name, left=first.left + by, right=first.right + by)


def _leaves(solved: Solved, table: WrittenTable, across: Millimetre) -> Band:
    units = solved.written.units
    if table.has("leaves"):
        size = parse_size(table.text("leaves"), units=units)
        return band_of(size, rule=solved.rule, place=f"{table.place} leaves")
    if not table.has("deep"):
        raise InputFault(
            f"{table.name} does not say how deep it goes",
            tries=("give leaves, from the floor to the far side", "give deep"),
        )
    deep = band_of(
        parse_size(table.text("deep"), units=units), rule=solved.rule, place=f"{table.place} deep"
    )
    return Band(
        nominal=across - deep.nominal,
        low=across - deep.high,
        high=across - deep.low,
        text=f"{deep.text} deep",
        origin=deep.origin,
        place=deep.place,
        decimals=deep.decimals,
    )


def _facing(solved: Solved, table: WrittenTable) -> Vec3:
    sides: list[Side] = [
        place.to.side
        for place in places_of(solved.written, table)
        if place.kind == "facing" and place.to.side
    ]
    return OUTWARD[sides[0] if sides else "top"]


def _cut_keyway(built: Built, keyway: Keyway, radius: Millimetre) -> None:
    out, wide = keyway.out, keyway.width.nominal
    into = opposite(out)
    beside = (0.0, out[2], out[1])
    depth = radius - keyway.floor
    cap = wide / 2 if keyway.ends == "round" else 0.0
    start = along((keyway.left + cap, 0.0, 0.0), out, radius)
    end = along((keyway.right - cap, 0.0, 0.0), out, radius)
    if cap and end[0] >= start[0]:
        built.removed.append(
            Obround(start=start, end=end, width=wide, direction=into, depth=depth)
        )
    else:
        low = along(along((keyway.left, 0.0, 0.0), out, keyway.floor), beside, -wide / 2)
        high = along(along((keyway.right, 0.0, 0.0), out, radius), beside, wide / 2)
        pairs = [(min(a, b), max(a, b)) for a, b in zip(low, high, strict=True)]
        built.removed.append(
            Box(
                low=(pairs[0][0], pairs[1][0], pairs[2][0]),
                high=(pairs[0][1], pairs[1][1], pairs[2][1]),
            )
        )
    middle = (keyway.left + keyway.right) / 2
    floor = along((middle, 0.0, 0.0), out, keyway.floor)
    half = (keyway.right - keyway.left) / 2
    _plane(built, f"{keyway.name} floor", keyway.name, floor, out, (half, beside, wide / 2))
    for words, sign in (("near", -1.0), ("far", 1.0)):
        wall = along(
            along((middle, 0.0, 0.0), out, (radius + keyway.floor) / 2), beside, sign * wide / 2
        )
        normal = (-sign * beside[0], -sign * beside[1], -sign * beside[2])
        size = keyway.width if words == "near" else None
        name = keyway.name if words == "near" else f"{keyway.name} far side"
        _plane(built, name, keyway.name, wall, normal, (half, out, depth / 2), size)
    for words, x, facing in (("left", keyway.left, 1.0), ("right", keyway.right, -1.0)):
        end_point = along((x, 0.0, 0.0), out, (radius + keyway.floor) / 2)
        _plane(built, f"{keyway.name} {words}", keyway.name, end_point, (facing, 0.0, 0.0),
               (0.0, beside, wide / 2))  # fmt: skip


def _plane(  # noqa: PLR0917
    built: Built,
    name: str,
    feature: str,
    point: Vec3,
    normal: Vec3,
    spread: tuple[float, Vec3, float],
    size: Band | None = None,
) -> None:
    half, across, reach = spread
    pad = (half, abs(across[1]) * reach, abs(across[2]) * reach)
    low = (point[0] - pad[0], point[1] - pad[1], point[2] - pad[2])
    high = (point[0] + pad[0], point[1] + pad[1], point[2] + pad[2])
    built.add(
        Surface(name=name, feature=feature, kind="plane", inside=True, point=point,
                direction=normal, low=low, high=high, size=size)
    )  # fmt: skip
