"""Cuts in turned work: grooves and centre holes."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.built import Built, Solved, along, opposite
from halfthou.drawing.frame import AXIS_OF
from halfthou.drawing.geometry import Cone, Cylinder
from halfthou.drawing.keyways import round_of
from halfthou.drawing.metal import RoundBody
from halfthou.drawing.model import (
    OUTWARD,
    Band,
    Centres,
    Finding,
    Groove,
    Hole,
    Side,
    Surface,
)
from halfthou.drawing.phrases import parse_reference
from halfthou.drawing.rounds import build_groove
from halfthou.drawing.sizes import band_from, band_of
from halfthou.drawing.told import told
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.handbook.centre_drills import find_centre_drill
from halfthou.quantities import DrawingUnits, parse_size
from halfthou.units import DEGREE, Millimetre

CENTRE_ANGLE: Final = 60 * DEGREE
CENTRE_SHARE: Final = 0.7
"""A centre is drilled until its cone is this share of the drill's body across."""
_PILOT_DEPTH: Final = 1.3


def build_turned_groove(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a groove in a round or in a hole on the axis."""
    to = parse_reference(table.text("in"))
    ends = (solved.at(table.name, 0, "low"), solved.at(table.name, 0, "high"))
    hole = next((f for f in built.features if isinstance(f, Hole) and f.name == to.feature), None)
    if hole is not None:
        _inside_groove(solved, built, table, hole, ends)
        return
    body = round_of(solved, table, to.feature)
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
            _one_centre(
                built, body, side, (drill.pilot, drill.body), stay=stay, units=solved.written.units
            )


def _one_centre(
    built: Built,
    body: RoundBody,
    side: Side,
    sizes: tuple[float, float],
    *,
    stay: bool,
    units: DrawingUnits,
) -> None:
    pilot, across = sizes[0], sizes[1] * CENTRE_SHARE
    x = body.left if side == "left" else body.right
    end_diameter = body.left_diameter if side == "left" else body.right_diameter
    if across >= end_diameter:
        built.findings.append(
            Finding(
                what=f"the centre in the {side} end is as wide as the end",
                feature="centres",
                why=f"its cone is {told(across, units)} across, "
                f"the end {told(end_diameter, units)}",
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
