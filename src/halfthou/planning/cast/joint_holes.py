"""Holes that go through both halves along the bolts: clamped, before sawing, marked through.

They must meet when the halves are put together again. Where the drill reaches they go through
both at once, with the faced halves clamped or in the lump before it is sawn. Where it does not,
the upper half is drilled by itself, the lower one spotted through it and drilled apart.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.geometry import Cylinder, Region
from halfthou.drawing.model import Hole, HoleStep, Joint
from halfthou.handbook.drills import drilling_depth
from halfthou.planning.axes import dot, moved
from halfthou.planning.cast.handwork import dowels_of
from halfthou.planning.cast.pieces import TOGETHER, Pieces
from halfthou.planning.milled.holes import Way, ways_to_make
from halfthou.planning.model import Operation
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Workshop

BEFORE: Final = ", before sawing"
"""How the key of an operation ends that is done in the lump."""
THROUGH: Final = "spot through"
_TO_THE_JOINT: Final = "to the joint, and no deeper than clears the thread"
_TO_THE_KERF: Final = "to below where the saw goes: the thread starts under it"
_SAME: Final = 1e-6
_SPOTTED: Final = 1.0
"""How deep the lower half is spotted through the upper one, mm (usual practice)."""


def ways_through(pieces: Pieces, joint: Joint, hole: Hole, workshop: Workshop) -> list[Way]:
    """Give every way to make a hole along the bolts, through both halves."""
    stock = pieces.part.blank.stock
    found: list[Way] = []
    for way in ways_to_make(hole, pieces.part, workshop, over=stock):
        made = tuple(_through_both(pieces, hole, op) for op in way.operations)
        lump = tuple(_in_the_lump(joint, op) for op in made)
        sawn = joint.kind == "sawn" and hole.name not in dowels_of(pieces)
        if _reaches(made):
            found.append(Way(name=f"{way.name}, the halves clamped", operations=made))
            if sawn and _reaches(lump):
                found.append(Way(name=f"{way.name}{BEFORE}", operations=lump))
        else:
            apart = tuple(_apart(joint, hole, made))
            found.append(Way(name="marked through", operations=apart or made))
    return found


def _reaches(operations: tuple[Operation, ...]) -> bool:
    """Tell whether every drill is long enough, its chips still coming out."""
    for op in operations:
        reach = drilling_depth(op.cut_size) if op.verb == "drill" else None
        if reach is not None and op.ends > reach:
            return False
    return True


def _through_both(pieces: Pieces, hole: Hole, op: Operation) -> Operation:
    """Say that an operation cuts both halves, and how far a clearing drill really goes."""
    step = _clearing(hole, op)
    if step is None:
        return replace(op, piece=TOGETHER)
    deep = _drawn_deep(pieces, hole, step)
    region = _cylinders(hole, step.diameter.nominal, -pieces.part.blank.stock, deep)
    return replace(
        op, piece=TOGETHER, region=region, ends=deep, through=False, remark=_TO_THE_JOINT
    )


def _in_the_lump(joint: Joint, op: Operation) -> Operation:
    """Give the same cut in the lump, where the lower half lies a kerf and two skims deeper."""
    deeper = 0.0 if op.verb == "spot" else joint.over
    clears = op.verb == "drill" and op.remark == _TO_THE_JOINT
    return replace(
        op,
        key=f"{op.key}{BEFORE}",
        ends=op.ends + deeper,
        remark=_TO_THE_KERF if clears else op.remark,
        region=tuple(_begun_higher(r, op, joint.over) for r in op.region),
    )


def _begun_higher(region: Region, op: Operation, over: Millimetre) -> Region:
    """Let a hole's space begin where the upper half stands before it is sawn off."""
    if isinstance(region, Cylinder) and any(_on_axis(region.start, p, op) for p in op.at):
        return replace(region, start=moved(region.start, op.approach[0], over))
    return region


def _on_axis(start: Vec3, entry: Vec3, op: Operation) -> bool:
    """Tell whether a space starts at, or over, an entry of its hole."""
    up = op.approach[0]
    off = dot(start, up) - dot(entry, up)
    return off > -_SAME and math.dist(start, moved(entry, up, off)) < _SAME


def _clearing(hole: Hole, op: Operation) -> HoleStep | None:
    """Give the clearing step that a drill makes, in a hole that ends tapped."""
    if op.verb != "drill" or op.size is None or not any(s.thread for s in hole.steps):
        return None
    return next((s for s in hole.steps if s.clears and s.diameter == op.size), None)


def _drawn_deep(pieces: Pieces, hole: Hole, step: HoleStep) -> Millimetre:
    """Give how deep the drawing's space of a clearing step goes."""
    drawn = [
        abs(dot(r.end, hole.into) - dot(hole.entries[0], hole.into))
        for r in pieces.part.removed
        if isinstance(r, Cylinder)
        and abs(r.diameter - step.diameter.nominal) < _SAME
        and math.dist(r.start, hole.entries[0]) < _SAME
    ]
    return max(drawn, default=step.end)


def _cylinders(
    hole: Hole, across: Millimetre, start: Millimetre, end: Millimetre
) -> tuple[Cylinder, ...]:
    return tuple(
        Cylinder(start=moved(e, hole.into, start), end=moved(e, hole.into, end), diameter=across)
        for e in hole.entries
    )


# --- where the drill does not reach through both ---


def _apart(joint: Joint, hole: Hole, made: tuple[Operation, ...]) -> Iterator[Operation]:
    """Drill the near half, spot the far one through it, drill and tap that by itself."""
    near, far = _near_and_far(joint, hole)
    clear = next((op for op in made if op.remark == _TO_THE_JOINT), None)
    if clear is None:
        return
    deep = next(s.end for s in hole.steps if s.diameter == clear.size)
    for op in made:
        if op.verb == "spot":
            yield replace(op, piece=near)
        elif op is clear:
            yield replace(op, piece=near, through=True, ends=deep, remark="")
            yield _spotted_through(hole, clear, deep, near)
        else:
            yield _from_the_joint(hole, op, deep, far)


def _near_and_far(joint: Joint, hole: Hole) -> tuple[str, str]:
    above = hole.into[joint.axis] < 0
    return joint.halves if above else (joint.halves[1], joint.halves[0])


def _spotted_through(hole: Hole, clear: Operation, deep: Millimetre, near: str) -> Operation:
    return replace(
        clear,
        key=f"{hole.name} {THROUGH} the {near}",
        verb="spot",
        stage="rough",
        makes=(),
        region=(),
        size=None,
        minutes=1.0,
        piece=TOGETHER,
        through=False,
        ends=deep + _SPOTTED,
        remark=f"with the drill that made the holes of the {near}: so the two meet",
    )


def _from_the_joint(hole: Hole, op: Operation, deep: Millimetre, far: str) -> Operation:
    """Let an operation start at the joint's face of the far half, by itself."""
    keep = tuple(_cut_short(r, hole, deep) for r in op.region)
    return replace(
        op,
        piece=far,
        at=tuple(moved(entry, hole.into, deep) for entry in hole.entries),
        starts=max(0.0, op.starts - deep),
        ends=op.ends - deep,
        region=keep,
    )


def _cut_short(region: Region, hole: Hole, deep: Millimetre) -> Region:
    if not isinstance(region, Cylinder):
        return region
    gone = deep - (dot(region.start, hole.into) - dot(hole.entries[0], hole.into))
    return replace(region, start=moved(region.start, hole.into, max(0.0, gone)))
