"""Cuts in turned work: keyways, grooves, centre holes."""

from __future__ import annotations

import math
from typing import Final, Literal

from halfthou.drawing.built import Built, Solved, along, opposite
from halfthou.drawing.frame import AXIS_OF
from halfthou.drawing.geometry import Box, Cone, Cylinder, Obround
from halfthou.drawing.metal import RoundBody
from halfthou.drawing.model import (
    OUTWARD,
    Band,
    Centres,
    Finding,
    Groove,
    Hole,
    Keyway,
    Side,
    Surface,
)
from halfthou.drawing.phrases import parse_reference
from halfthou.drawing.rounds import build_groove
from halfthou.drawing.setting_out import places_of
from halfthou.drawing.sizes import band_from, band_of
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.handbook.centre_drills import find_centre_drill
from halfthou.quantities import parse_size
from halfthou.units import DEGREE, Millimetre, Vec3

CENTRE_ANGLE: Final = 60 * DEGREE
CENTRE_SHARE: Final = 0.7
"""A centre is drilled until its cone is this share of the drill's body across."""
_PILOT_DEPTH: Final = 1.3


def build_keyway(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a keyway: its floor from what it leaves, or from its depth."""
    to = parse_reference(table.text("in"))
    body = _round(solved, table, to.feature)
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
            f"{table.name} leaves {leaves.text} of a round {across:.3f} mm across",
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
    built.features.append(keyway)
    _cut_keyway(built, keyway, across / 2)


def _round(solved: Solved, table: WrittenTable, name: str) -> RoundBody:
    body = solved.body(name)
    if not isinstance(body, RoundBody):
        raise InputFault(
            f"{table.name} is cut into '{name}', which is no round",
            tries=("name one of the rounds",),
        )
    return body


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


def build_turned_groove(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a groove in a round or in a hole on the axis."""
    to = parse_reference(table.text("in"))
    ends = (solved.at(table.name, 0, "low"), solved.at(table.name, 0, "high"))
    hole = next((f for f in built.features if isinstance(f, Hole) and f.name == to.feature), None)
    if hole is not None:
        _inside_groove(solved, built, table, hole, ends)
        return
    body = _round(solved, table, to.feature)
    band = _groove_band(solved, table, body.left_diameter, inside=False)
    build_groove(built, name=table.name, body=body, ends=ends, band=band)


def _groove_band(solved: Solved, table: WrittenTable, across: Millimetre, *, inside: bool) -> Band:
    units = solved.written.units
    if table.has("diameter"):
        size = parse_size(table.text("diameter"), units=units)
        return band_of(size, rule=solved.rule, place=f"{table.place} diameter", inside=inside)
    if not table.has("deep"):
        raise InputFault(
            f"{table.name} does not say how deep it goes", tries=("give diameter", "give deep")
        )
    deep = parse_size(table.text("deep"), units=units).nominal.value
    nominal = across + 2 * deep if inside else across - 2 * deep
    text = f"{table.text('deep')} deep"
    return band_from(
        nominal, rule=solved.rule, place=f"{table.place} deep", text=text, written=solved.written
    )


def _inside_groove(
    solved: Solved, built: Built, table: WrittenTable, hole: Hole, ends: tuple[float, float]
) -> None:
    widest = max(step.diameter.nominal for step in hole.steps)
    band = _groove_band(solved, table, widest, inside=True)
    left, right = ends
    built.features.append(
        Groove(name=table.name, on=hole.name, left=left, right=right, diameter=band, inside=True)
    )
    start, end = (left, 0.0, 0.0), (right, 0.0, 0.0)
    built.removed.append(Cylinder(start=start, end=end, diameter=band.nominal))
    radius = band.nominal / 2
    built.add(
        Surface(name=table.name, feature=table.name, kind="cylinder", inside=True, point=start,
                direction=(1.0, 0.0, 0.0), low=(left, -radius, -radius),
                high=(right, radius, radius), size=band)
    )  # fmt: skip


def build_centres(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter centre holes; they are cut from the finished part only where they stay in."""
    stay = table.text("left_in") == "true"
    bodies = [body for body in solved.bodies if isinstance(body, RoundBody)]
    if not bodies:
        raise InputFault("centres are drilled in turned work, and this part has no rounds")
    both: tuple[Side, ...] = ("left", "right")
    for ends, key in ((both, "both"), (both[:1], "left"), (both[1:], "right")):
        if not table.has(key):
            continue
        drill = find_centre_drill(table.text(key))
        built.features.append(
            Centres(
                ends=frozenset(ends),
                size=table.text(key),
                pilot=drill.pilot,
                body=drill.body,
                left_in=stay,
            )
        )
        for side in ends:
            body = bodies[0] if side == "left" else bodies[-1]
            _one_centre(built, body, side, (drill.pilot, drill.body), stay=stay)


def _one_centre(
    built: Built, body: RoundBody, side: Side, sizes: tuple[float, float], *, stay: bool
) -> None:
    pilot, across = sizes[0], sizes[1] * CENTRE_SHARE
    x = body.left if side == "left" else body.right
    end_diameter = body.left_diameter if side == "left" else body.right_diameter
    if across >= end_diameter:
        built.findings.append(
            Finding(
                what=f"the centre in the {side} end is as wide as the end",
                feature="centres",
                why=f"its cone is {across:.2f} mm across, the end {end_diameter:.2f} mm",
                tries=("take a smaller centre drill",),
                grave=False,
                at=(x, 0.0, 0.0),
            )
        )
    if not stay:
        return
    into = opposite(OUTWARD[side])
    depth = (across - pilot) / 2 / math.tan(CENTRE_ANGLE / 2)
    mouth, neck = (x, 0.0, 0.0), along((x, 0.0, 0.0), into, depth)
    bottom = along(neck, into, _PILOT_DEPTH * pilot)
    built.removed.append(Cone(start=mouth, end=neck, start_diameter=across, end_diameter=pilot))
    built.removed.append(Cylinder(start=neck, end=bottom, diameter=pilot))
    axis = AXIS_OF[side]
    name = f"centre {side}"
    half = across / 2
    built.add(
        Surface(name=name, feature="centres", kind="cone", inside=True, point=mouth,
                direction=into, low=(min(mouth[axis], bottom[0]), -half, -half),
                high=(max(mouth[axis], bottom[0]), half, half))
    )  # fmt: skip
