"""Faces on the slant: all metal beyond them is cut off."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, TypeAlias

from halfthou.drawing.built import Built, Solved
from halfthou.drawing.frame import AXIS_OF
from halfthou.drawing.geometry import Prism
from halfthou.drawing.leanings import leaning, parse_leans
from halfthou.drawing.metal import reach
from halfthou.drawing.model import OUTWARD, AngledFace, Finding, Surface
from halfthou.drawing.phrases import parse_reference
from halfthou.drawing.written import WrittenTable
from halfthou.units import Millimetre, Vec3

Flat: TypeAlias = tuple[float, float]
_OVER: Final = 1.0
"""How far the cut runs past the metal, where nothing else stands beside it [mm]."""
_SAME: Final = 1e-7
_FEWEST: Final = 3


def build_face(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a slanted face with what it cuts off."""
    _, side = solved.face(table)
    leans = parse_leans(table.text("leans"))
    normal = leaning(OUTWARD[side], leans, facing=side)
    axes = (AXIS_OF[side], AXIS_OF[leans.toward])
    third = 3 - sum(axes)
    low, high = _room(solved, parse_reference(table.text("in")).feature)
    point = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    for axis in axes:
        point[axis] = solved.at(table.name, axis)
    at = (point[0], point[1], point[2])
    outline = _beyond(low, high, axes, at, normal)
    if len(outline) < _FEWEST:
        built.findings.append(_cuts_nothing(table, at))
        return
    corners = [_placed(axes, third, corner, low[third]) for corner in outline]
    sweep = _placed(axes, third, (0.0, 0.0), high[third] - low[third])
    region = Prism(outline=tuple(corners), along=sweep)
    built.features.append(
        AngledFace(name=table.name, facing=side, toward=leans.toward, leans=leans.angle,
                   point=at, normal=normal, region=region)
    )  # fmt: skip
    built.removed.append(region)
    _enter(built, table, solved, (at, normal), (axes, third))


def _room(solved: Solved, name: str) -> tuple[Vec3, Vec3]:
    """Return the box in which the face cuts: among several bodies, that of its own."""
    body = solved.body(name)
    alone = body is None or len(solved.bodies) == 1
    low, high = reach(solved.bodies) if body is None else (body.low, body.high)
    over = _OVER if alone else 0.0
    return (
        (low[0] - over, low[1] - over, low[2] - over),
        (high[0] + over, high[1] + over, high[2] + over),
    )


def _placed(axes: tuple[int, int], third: int, flat: Flat, along: Millimetre) -> Vec3:
    point = [0.0, 0.0, 0.0]
    point[axes[0]], point[axes[1]], point[third] = flat[0], flat[1], along
    return (point[0], point[1], point[2])


def _beyond(low: Vec3, high: Vec3, axes: tuple[int, int], at: Vec3, normal: Vec3) -> list[Flat]:
    """Corners of the part of a rectangle that lies beyond a line."""
    a, b = axes
    box = [(low[a], low[b]), (high[a], low[b]), (high[a], high[b]), (low[a], high[b])]
    heights = [(x - at[a]) * normal[a] + (y - at[b]) * normal[b] for x, y in box]
    return _clipped(box, heights)


def _clipped(box: Sequence[Flat], heights: Sequence[float]) -> list[Flat]:
    found: list[Flat] = []
    for number, here in enumerate(box):
        after = (number + 1) % len(box)
        there, up, on = box[after], heights[number], heights[after]
        if up > _SAME:
            found.append(here)
        if (up > _SAME) != (on > _SAME) and abs(up - on) > _SAME:
            share = up / (up - on)
            found.append(
                (here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1]))
            )
    return found


def _cuts_nothing(table: WrittenTable, at: Vec3) -> Finding:
    return Finding(
        what=f"{table.name} cuts nothing off",
        feature=table.name,
        why="no metal lies beyond it",
        tries=("check its at", "check which way it leans"),
        grave=True,
        at=at,
    )


def _enter(
    built: Built,
    table: WrittenTable,
    solved: Solved,
    plane: tuple[Vec3, Vec3],
    axes: tuple[tuple[int, int], int],
) -> None:
    at, normal = plane
    low, high = _face_box(solved, table, at, normal, axes)
    _swallow(built, table.name, at, normal)
    built.add(
        Surface(name=table.name, feature=table.name, kind="plane", inside=False, point=at,
                direction=normal, low=low, high=high)
    )  # fmt: skip


def _face_box(
    solved: Solved,
    table: WrittenTable,
    at: Vec3,
    normal: Vec3,
    axes: tuple[tuple[int, int], int],
) -> tuple[Vec3, Vec3]:
    """Box round the line in which the plane crosses the room it cuts in."""
    (a, b), third = axes
    body = solved.body(parse_reference(table.text("in")).feature)
    low, high = reach(solved.bodies) if body is None else (body.low, body.high)
    along = (-normal[b], normal[a])
    spans = [(-math.inf, math.inf)]
    for axis, by in zip((a, b), along, strict=True):
        if abs(by) > _SAME:
            ends = sorted(((low[axis] - at[axis]) / by, (high[axis] - at[axis]) / by))
            spans.append((ends[0], ends[1]))
    start, end = max(span[0] for span in spans), min(span[1] for span in spans)
    points = [(at[a] + t * along[0], at[b] + t * along[1]) for t in (start, end)]
    lows = (min(p[0] for p in points), min(p[1] for p in points))
    highs = (max(p[0] for p in points), max(p[1] for p in points))
    return _placed((a, b), third, lows, low[third]), _placed((a, b), third, highs, high[third])


def _swallow(built: Built, name: str, at: Vec3, normal: Vec3) -> None:
    """Take out each flat side that the cut takes whole; its words then mean the new face."""
    for other, surface in tuple(built.surfaces.items()):
        if surface.kind != "plane" or surface.inside:
            continue
        corners = [
            (x, y, z)
            for x in (surface.low[0], surface.high[0])
            for y in (surface.low[1], surface.high[1])
            for z in (surface.low[2], surface.high[2])
        ]
        off = [sum((c[n] - at[n]) * normal[n] for n in range(3)) for c in corners]
        if min(off) > -_SAME and max(off) > _SAME:
            del built.surfaces[other]
            built.aliases[other] = name
            for alias, meant in tuple(built.aliases.items()):
                if meant == other:
                    built.aliases[alias] = name
