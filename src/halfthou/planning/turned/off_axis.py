"""Holes along the axis and off it, bored with the work set over in the lathe.

A drill wanders by more than such a hole may be out of place, and a reamer follows it: where the
place is asked for closely, or the hole is too large for the mill's drill chuck, the work is thrown
over until the hole's own line turns true, and the hole is made as any other on the axis.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import Final

from halfthou.drawing.geometry import Cone, Cylinder, Region
from halfthou.drawing.model import Band, Hole, Part, Round
from halfthou.planning.axes import moved
from halfthou.planning.by_rule import by_rule
from halfthou.planning.milled.holes import Way, boring_heads, ways_to_make
from halfthou.planning.model import Alternative, Operation, Order
from halfthou.planning.turned.entered import Entered
from halfthou.planning.turned.on_axis import made_for
from halfthou.planning.turned.shape import ENDS, NEAR, End
from halfthou.planning.turned.stock import Stock
from halfthou.planning.work import Work
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Workshop

PLACED: Final = 0.15
"""A place with less tolerance than this, from end to end, is not left to a drill, mm."""
DRILLED_TO: Final = 13.0
"""A larger hole does not come from the drill chuck, mm (usual practice)."""
OVER: Final = 2.0
"""How far a cut on the mill reaches out of the metal, mm."""


def off_axis_holes(part: Part) -> tuple[Hole, ...]:
    """Give the plain holes that lie along the axis of the turning and off it, one of a kind."""
    return tuple(
        f
        for f in part.features
        if isinstance(f, Hole)
        and not f.on_axis
        and abs(f.into[0]) > 1 - NEAR
        and len(f.entries) == 1
        and all(s.thread is None and s.kind in {"plain", "counterbore"} for s in f.steps)
    )


def throw_of(hole: Hole) -> Vec3:
    """Give where a hole's line lies from the work's own axis; [mm]."""
    _, y, z = hole.entries[0]
    return (0.0, y, z)


def place_band(part: Part, hole: Hole) -> Band | None:
    """Give the closest size across the axis that places a hole."""
    own = {s.name for s in part.surfaces if s.feature == hole.name}
    bands = [
        d.band
        for d in part.distances
        if (d.a in own or d.b in own) and abs(d.direction[0]) < NEAR and d.band.origin == "drawn"
    ]
    return min(bands, key=lambda b: b.width, default=None)


def set_over(part: Part, workshop: Workshop) -> tuple[Hole, ...]:
    """Give the holes that are worth throwing the work over for."""
    return tuple(hole for hole in off_axis_holes(part) if _worth_it(part, workshop, hole))


def _worth_it(part: Part, workshop: Workshop, hole: Hole) -> bool:
    to_bore = [s for s in hole.steps if s.process == "bored" or s.diameter.nominal > DRILLED_TO]
    return _placed(part, hole) or any(
        not boring_heads(workshop, s.diameter.nominal, s.end) for s in to_bore
    )


def _placed(part: Part, hole: Hole) -> bool:
    band = place_band(part, hole)
    return band is not None and band.width < PLACED


def set_over_work(part: Part, workshop: Workshop, stock: Stock) -> Work:
    """Give what is done to each such hole, in the lathe or by a boring head on the mill."""
    work = Work()
    for hole in set_over(part, workshop):
        ways = (*_in_lathe(part, workshop, stock, hole), *_on_the_mill(part, workshop, hole))
        work += Work(operations=tuple(op for way in ways for op in way.operations))
        if len(ways) > 1:
            bundles = tuple(tuple(op.key for op in way.operations) for way in ways)
            choice = Alternative(name=f"{hole.name}: which way", bundles=bundles)
            work += Work(alternatives=(choice,))
    return work


def orders_set_over(
    part: Part, workshop: Workshop, operations: tuple[Operation, ...]
) -> Iterator[Order]:
    """Give what comes before a hole that the drawing ties to a bore on the axis: that bore."""
    for hole in set_over(part, workshop):
        own = {s.name for s in part.surfaces if s.feature == hole.name}
        tied = {r.to if r.surface in own else r.surface for r in part.requirements
                if r.origin == "drawn" and own & {r.surface, r.to}}  # fmt: skip
        for bore, cut in product(operations, operations):
            if bore.inside and tied & set(bore.makes) and cut.feature == hole.name:
                yield by_rule(bore, cut, "bore first, what is set off from it after")


def _on_the_mill(part: Part, workshop: Workshop, hole: Hole) -> tuple[Way, ...]:
    """Give the ways on the mill that keep the place: by coordinates, bored to size."""
    ways = ways_to_make(hole, part, workshop, over=OVER, also_far=True)
    able = [way for way in ways if all(op.tools for op in way.operations)]
    return tuple(
        way
        for way in able
        if not _placed(part, hole) or any(op.verb == "bore" for op in way.operations)
    )


def _in_lathe(part: Part, workshop: Workshop, stock: Stock, hole: Hole) -> tuple[Way, ...]:
    throw = throw_of(hole)
    alone = replace(part, features=tuple(f for f in part.features if isinstance(f, Round)))
    ways = []
    for end, begins in _entered_from(hole):
        _, y, z = hole.entries[0]
        on_axis = replace(
            hole, entries=((begins, y - throw[1], z - throw[2]),), on_axis=True,
        )  # fmt: skip
        one = Entered(
            part=alone,
            workshop=workshop,
            stock=stock,
            hole=on_axis,
            end=end,
            tag=f" set over, from {end}",
            begins=begins,
            placed=True,
        )
        made = tuple(_thrown(op, throw) for op in made_for(one))
        ways.append(Way(name=f"set over, from {end}", operations=made))
    return tuple(ways)


def _entered_from(hole: Hole) -> tuple[tuple[End, Millimetre], ...]:
    """Give the ends a hole can be entered from, and where it begins along x."""
    own: End = "right" if hole.into[0] < 0 else "left"
    x, step = hole.entries[0][0], hole.steps[0]
    if len(hole.steps) > 1 or not step.breaks_out:
        return ((own, x),)
    far = x + hole.into[0] * step.end
    return tuple((end, x if end == own else far) for end in ENDS)


def _thrown(op: Operation, throw: Vec3) -> Operation:
    """Give an operation on the axis as one on the line so far off it."""
    return replace(
        op,
        region=tuple(_moved(one, throw) for one in op.region),
        at=tuple(_sum(point, throw) for point in op.at),
    )


def _moved(region: Region, throw: Vec3) -> Region:
    if isinstance(region, Cylinder | Cone):
        return replace(region, start=_sum(region.start, throw), end=_sum(region.end, throw))
    raise TypeError(f"a hole off the axis leaves no {type(region).__name__}")


def _sum(point: Vec3, throw: Vec3) -> Vec3:
    return moved(point, throw, 1.0)
