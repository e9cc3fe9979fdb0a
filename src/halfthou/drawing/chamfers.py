"""Chamfers: which edges are meant, and what is taken off each."""

from __future__ import annotations

import math
from collections.abc import Iterator

from halfthou.drawing.built import Built, Solved, along, opposite
from halfthou.drawing.edges import Chamfer, parse_chamfer
from halfthou.drawing.frame import AXIS_OF, SIDES, high_end, main_axis
from halfthou.drawing.geometry import Cone, Prism, TaperTube
from halfthou.drawing.metal import BlockBody, Body, RoundBody
from halfthou.drawing.model import OUTWARD, ChamferCut, Hole, Side
from halfthou.drawing.phrases import parse_reference
from halfthou.drawing.sheet import nearest_side
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.units import Vec3

_SAME = 1e-6


def build_chamfer(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter one chamfer for each edge it names."""
    cut = parse_chamfer(table.text("size"), units=solved.written.units)
    parts = [part.strip() for text in table.texts("on") for part in text.split(",")]
    made = [one for part in parts for one in _edges(solved, built, part, cut, table)]
    built.features.extend(made)
    built.removed.extend(one.region for one in made)


def _edges(
    solved: Solved, built: Built, words: str, cut: Chamfer, table: WrittenTable
) -> Iterator[ChamferCut]:
    to = parse_reference(words)
    hole = next((f for f in built.features if isinstance(f, Hole) and f.name == to.feature), None)
    if hole is not None:
        yield from _mouths(hole, to.side, cut, f"{table.name} {words}")
        return
    if to.side is None:
        raise InputFault(
            f"'{words}' is no edge: it names no side", tries=(f"write '{words} left'",)
        )
    inner = parse_reference(to.feature)
    first = inner.side or to.side
    name = inner.feature or solved.sheet.farthest.get((AXIS_OF[first], high_end(first)), "")
    body = solved.body(name)
    if isinstance(body, RoundBody):
        yield _turned(built, body, to.side, cut, f"{table.name} {words}")
    elif isinstance(body, BlockBody):
        second = to.side if inner.side else None
        yield from _straight(built, body, (first, second), cut, f"{table.name} {words}")
    else:
        raise InputFault(f"'{words}' has no edge to take off", tries=("name a body and a side",))


def _turned(built: Built, body: Body, side: Side, cut: Chamfer, name: str) -> ChamferCut:
    assert isinstance(body, RoundBody)  # noqa: S101  (told apart by the caller)
    if AXIS_OF[side]:
        raise InputFault(
            f"the {side} of {body.name} is round and has no edge",
            tries=(f"write '{body.name} left' or '{body.name} right'",),
        )
    right = side == "right"
    x = body.right if right else body.left
    across = body.right_diameter if right else body.left_diameter
    radial = cut.leg.value * math.tan(cut.angle)
    if 2 * radial >= across:
        raise InputFault(
            f"chamfer {cut.text} is deeper than {body.name} is thick",
            tries=("make it smaller",),
        )
    narrow = across - 2 * radial
    inner_x = x - cut.leg.value if right else x + cut.leg.value
    low, high = (inner_x, x) if right else (x, inner_x)
    region = TaperTube(
        start=(low, 0.0, 0.0),
        end=(high, 0.0, 0.0),
        start_inside=across if right else narrow,
        end_inside=narrow if right else across,
        outside=across,
    )
    plane = built.named(f"{body.name} {side}")
    if plane is not None and plane.feature != body.name:
        raise InputFault(
            f"'{body.name} {side}' is an inside corner and has no edge to take off",
            why=f"{plane.feature} is larger there",
            tries=(f"write '{plane.name}'",),
        )
    return ChamferCut(
        name=name, leg=cut.leg.value, angle=cut.angle, region=region,
        edge=plane.name if plane else f"{body.name} {side}", facing=OUTWARD[side], inside=False,
    )  # fmt: skip


def _mouths(hole: Hole, side: Side | None, cut: Chamfer, name: str) -> Iterator[ChamferCut]:
    axis = main_axis(hole.into)
    entry_side = nearest_side(opposite(hole.into))
    sides = (side,) if side else _open_sides(hole, entry_side, axis)
    for one in sides:
        if AXIS_OF[one] != axis:
            raise InputFault(
                f"{hole.name} has no mouth on the {one}: it runs along another direction",
                tries=(f"write '{hole.name} {entry_side}'",),
            )
        at_entry = one == entry_side
        step = hole.steps[0] if at_entry else hole.steps[-1]
        radial = cut.leg.value * math.tan(cut.angle)
        for number, entry in enumerate(hole.entries, start=1):
            mouth = entry if at_entry else along(entry, hole.into, step.end)
            inward = hole.into if at_entry else OUTWARD[entry_side]
            region = Cone(
                start=mouth,
                end=along(mouth, inward, cut.leg.value),
                start_diameter=step.diameter.nominal + 2 * radial,
                end_diameter=step.diameter.nominal,
            )
            called = name if number == 1 and len(sides) == 1 else f"{name} {one} {number}".strip()
            yield ChamferCut(
                name=called, leg=cut.leg.value, angle=cut.angle, region=region, edge=hole.name,
                facing=OUTWARD[one], inside=True,
            )  # fmt: skip


def _open_sides(hole: Hole, entry_side: Side, axis: int) -> tuple[Side, ...]:
    if not hole.steps[-1].breaks_out:
        return (entry_side,)
    far = next(s for s in SIDES if AXIS_OF[s] == axis and s != entry_side)
    return (entry_side, far)


def _straight(
    built: Built, body: BlockBody, sides: tuple[Side, Side | None], cut: Chamfer, name: str
) -> Iterator[ChamferCut]:
    first, only = sides
    beside = [s for s in SIDES if AXIS_OF[s] != AXIS_OF[first] and only in (None, s)]
    if not beside:
        raise InputFault(
            f"{first} and {only} of {body.name} meet in no edge",
            tries=("name two sides that touch",),
        )
    for second in beside:
        radial = cut.leg.value * math.tan(cut.angle)
        corner = [0.0, 0.0, 0.0]
        for side in (first, second):
            axis = AXIS_OF[side]
            corner[axis] = body.high[axis] if high_end(side) else body.low[axis]
        along_axis = next(n for n in range(3) if n not in (AXIS_OF[first], AXIS_OF[second]))
        corner[along_axis] = body.low[along_axis]
        point: Vec3 = (corner[0], corner[1], corner[2])
        sweep = [0.0, 0.0, 0.0]
        sweep[along_axis] = body.high[along_axis] - body.low[along_axis]
        region = Prism(
            outline=(
                point,
                along(point, OUTWARD[first], -cut.leg.value),
                along(point, OUTWARD[second], -radial),
            ),
            along=(sweep[0], sweep[1], sweep[2]),
        )
        plane = built.named(f"{body.name} {first}")
        yield ChamferCut(
            name=name if only else f"{name} {second}", leg=cut.leg.value, angle=cut.angle,
            region=region, edge=plane.name if plane else first, facing=OUTWARD[first],
            inside=False,
        )  # fmt: skip
