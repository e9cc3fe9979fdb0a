"""Faces on the slant: all metal beyond them is cut off."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from halfthou.drawing.built import Built, Solved
from halfthou.drawing.frame import AXIS_OF, main_axis
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
    _enter(built, table, solved)


def _room(solved: Solved, name: str) -> tuple[Vec3, Vec3]:
    """Return the box in which the face cuts: among several bodies, that of its own."""
    body = solved.body(name)
    alone = body is None or len(solved.bodies) == 1
    low, high = reach(solved.own) if body is None else (body.low, body.high)
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


def _enter(built: Built, table: WrittenTable, solved: Solved) -> None:
    """Enter the face, and shorten what it cuts short: flat sides, and other slanted faces."""
    faces = [one for one in built.features if isinstance(one, AngledFace)]
    new = faces[-1]
    _swallow(built, new)
    for face in faces:
        beside = [other for other in faces if other is not face]
        own = solved.written.feature(face.name) or table
        box = _face_box(_metal(solved, own), face, beside)
        if box is None:
            continue
        built.add(
            Surface(
                name=face.name, feature=face.name, kind="plane", inside=False, point=face.point,
                direction=face.normal, low=box[0], high=box[1],
            )
        )  # fmt: skip


def _metal(solved: Solved, table: WrittenTable) -> tuple[Vec3, Vec3]:
    body = solved.body(parse_reference(table.text("in")).feature)
    return reach(solved.own) if body is None else (body.low, body.high)


def _axes(face: AngledFace) -> tuple[int, int]:
    return AXIS_OF[face.facing], AXIS_OF[face.toward]


def _face_box(
    room: tuple[Vec3, Vec3], face: AngledFace, beside: Sequence[AngledFace]
) -> tuple[Vec3, Vec3] | None:
    """Box round the line in which a face crosses the metal, as far as others leave it."""
    a, b = _axes(face)
    third = 3 - a - b
    low, high = room
    at, along = face.point, {a: -face.normal[b], b: face.normal[a]}
    start, end = -math.inf, math.inf
    for axis, by in along.items():
        if abs(by) > _SAME:
            ends = sorted(((low[axis] - at[axis]) / by, (high[axis] - at[axis]) / by))
            start, end = max(start, ends[0]), min(end, ends[1])
    for other in beside:
        if third in _axes(other):
            continue
        off = sum((at[n] - other.point[n]) * other.normal[n] for n in (a, b))
        rate = sum(along[n] * other.normal[n] for n in (a, b))
        if abs(rate) > _SAME:
            meets = -off / rate
            start, end = (start, min(end, meets)) if rate > 0 else (max(start, meets), end)
    if end - start < _SAME:
        return None
    points = [{n: at[n] + t * along[n] for n in (a, b)} for t in (start, end)]
    lows = (min(p[a] for p in points), min(p[b] for p in points))
    highs = (max(p[a] for p in points), max(p[b] for p in points))
    return _placed((a, b), third, lows, low[third]), _placed((a, b), third, highs, high[third])


def _corners(surface: Surface) -> list[Vec3]:
    low, high = surface.low, surface.high
    return [
        (x, y, z) for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])
    ]


def _swallow(built: Built, face: AngledFace) -> None:
    """Take out each flat side that the cut takes whole; its words then mean the new face."""
    for name, surface in tuple(built.surfaces.items()):
        if surface.kind != "plane" or surface.inside or name == face.name:
            continue
        off = [
            sum((c[n] - face.point[n]) * face.normal[n] for n in range(3))
            for c in _corners(surface)
        ]
        if min(off) > -_SAME and max(off) > _SAME:
            del built.surfaces[name]
            built.aliases[name] = face.name
            for alias, meant in tuple(built.aliases.items()):
                if meant == name:
                    built.aliases[alias] = face.name
        elif max(off) > _SAME:
            _shorten(built, face, surface)


def _shorten(built: Built, face: AngledFace, surface: Surface) -> None:
    """Shorten a flat side that runs into the slant; one that lies along it keeps its box."""
    flat = main_axis(surface.direction)
    if abs(surface.direction[flat]) < 1 - _SAME or flat not in _axes(face):
        return
    along = next(n for n in _axes(face) if n != flat)
    if abs(face.normal[along]) < _SAME:
        return
    level = (surface.point[flat] - face.point[flat]) * face.normal[flat]
    meets = face.point[along] - level / face.normal[along]
    low, high = list(surface.low), list(surface.high)
    if face.normal[along] > 0:
        high[along] = min(high[along], meets)
    else:
        low[along] = max(low[along], meets)
    middle = [(p + q) / 2 for p, q in zip(low, high, strict=True)]
    built.surfaces[surface.name] = replace(
        surface,
        low=(low[0], low[1], low[2]),
        high=(high[0], high[1], high[2]),
        point=(middle[0], middle[1], middle[2]),
    )
