"""Holes of castings: those of one piece, those through a joint, and the bore across it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.geometry import Cylinder
from halfthou.drawing.model import Band, Hole, Part
from halfthou.planning.axes import axis_of, moved, opposite
from halfthou.planning.cast.joint_holes import ways_through
from halfthou.planning.cast.pieces import TOGETHER, WHOLE, Pieces, as_part
from halfthou.planning.milled import minutes
from halfthou.planning.milled.bored_in_lathe import bored_in_lathe
from halfthou.planning.milled.holes import Way, boring_heads, ways_to_make
from halfthou.planning.model import Alternative, Machine, Operation
from halfthou.planning.work import Work
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

IN_BAR: Final = "cutter in the boring bar"
LARGE: Final = 13.0
"""Diameter from which a hole in a casting is bored from its core (usual practice). [mm]"""
_FINISH: Final = 0.5
"""Metal left on the diameter for the last cut of a bore, mm (usual practice)."""
_PAST: Final = 2.0
_LEAST_FREEDOM: Final = 0.005


def drilling(pieces: Pieces, workshop: Workshop) -> Work:
    """Give the operations of every hole, and the choices among ways of making it."""
    work = Work()
    for feature in pieces.part.features:
        if isinstance(feature, Hole):
            work += _hole(pieces, feature, workshop)
    return work


def crosses(pieces: Pieces, hole: Hole) -> bool:
    """Tell whether a hole's axis lies in the joint, so that each half has half of it."""
    joint = pieces.joint
    if joint is None or len(owners(pieces, hole.name)) < 2:  # noqa: PLR2004
        return False
    return axis_of(hole.into) != joint.axis


def owners(pieces: Pieces, feature: str) -> tuple[str, ...]:
    """Name the pieces a feature belongs to, of those this job is made of."""
    if pieces.joint is None:
        return (WHOLE,)
    return tuple(n for n in pieces.part.pieces_of(feature) if n in pieces.names)


def _hole(pieces: Pieces, hole: Hole, workshop: Workshop) -> Work:
    own = owners(pieces, hole.name)
    joint = pieces.joint
    if joint is not None and len(own) > 1 and not crosses(pieces, hole):
        return _choice(hole, ways_through(pieces, joint, hole, workshop))
    name = TOGETHER if len(own) > 1 else own[0]
    part = pieces.part if len(own) > 1 else as_part(pieces.part, name)
    ways = list(_bored(pieces, hole, part, workshop))
    if not ways:
        ways = list(ways_to_make(hole, part, workshop, over=pieces.part.blank.stock))
    made = [
        replace(way, operations=tuple(replace(op, piece=name) for op in way.operations))
        for way in ways
    ]
    return _choice(hole, made)


def _choice(hole: Hole, ways: list[Way]) -> Work:
    known: dict[str, Operation] = {}
    bundles = []
    for way in ways:
        named = [
            replace(op, key=f"{op.key}, {way.name}") if op.key in known else op
            for op in way.operations
        ]
        known |= {op.key: op for op in named}
        bundles.append(tuple(op.key for op in named))
    choice = Alternative(name=f"{hole.name}: which way", bundles=tuple(bundles))
    several = len(bundles) > 1
    return Work(operations=tuple(known.values()), alternatives=(choice,) if several else ())


def _bored(pieces: Pieces, hole: Hole, part: Part, workshop: Workshop) -> Iterator[Way]:
    """Give the ways to bore a hole: turning with the work, by a bar, by a head on the mill."""
    asks = any(s.process == "bored" or s.diameter.nominal > LARGE for s in hole.steps)
    plain = len(hole.steps) == 1 and hole.steps[0].thread is None and len(hole.entries) == 1
    if not asks or not plain:
        return
    if hole.cored is None:
        made = bored_in_lathe(hole, part, workshop, over=pieces.part.blank.stock)
        if made:
            yield Way(name="in the lathe", operations=made)
        return
    step = hole.steps[0]
    core = hole.cored.low
    tools = _lathe_bars(workshop, core, step.end)
    if tools:
        yield Way(
            name="turned about it",
            operations=tuple(_cuts(pieces, hole, tools, "lathe", "in the lathe")),
        )
    if any(d.device == "cross-slide" and d.smallest <= core for d in workshop.holding):
        yield Way(
            name="by a bar",
            operations=tuple(_cuts(pieces, hole, (IN_BAR,), "lathe", "with the bar")),
        )
    heads = boring_heads(workshop, core, step.end)
    if heads:
        yield Way(
            name="on the mill",
            operations=tuple(_cuts(pieces, hole, heads, "mill", "on the mill")),
        )


def _lathe_bars(workshop: Workshop, core: Millimetre, deep: Millimetre) -> tuple[str, ...]:
    fits = [
        t
        for t in workshop.tools
        if t.kind == "boring tool"
        and t.machine == "lathe"
        and t.least_bore <= core
        and t.reach >= deep
    ]
    return tuple(t.name for t in sorted(fits, key=lambda t: -t.shank))


def _cuts(
    pieces: Pieces, hole: Hole, tools: tuple[str, ...], machine: Machine, words: str
) -> Iterator[Operation]:
    """Bore a cored hole: under its skin first, then to size."""
    step, over = hole.steps[0], pieces.part.blank.stock
    if hole.cored is None:
        return
    leave = step.diameter.nominal - _FINISH
    common = Operation(
        key=f"bore {hole.name} {words}",
        verb="bore",
        stage="finish",
        feature=hole.name,
        machine=machine,
        makes=tuple(s.name for s in pieces.part.surfaces if s.feature == hole.name),
        region=(_core(hole, step.diameter.nominal, over),),
        approach=(opposite(hole.into), hole.into),
        tools=tools,
        minutes=minutes.boring(depth=step.end, count=1),
        at=hole.entries,
        ends=step.end,
        size=_as_close_as_its_mate(pieces.part, hole, step.diameter),
        cut_size=step.diameter.middle,
        from_size=leave,
        inside=True,
        through=True,
        piece=WHOLE if pieces.joint is None else TOGETHER,
    )
    yield _roughed(common, _core(hole, leave, over), hole.cored.nominal)
    yield common


def _as_close_as_its_mate(part: Part, hole: Hole, drawn: Band) -> Band:
    """Give a bore's size with the width it is made to: to a mate as it came out, its freedom's."""
    mate = next((m for m in part.mates if m.surface == hole.name), None)
    if mate is None or mate.free_low is None or mate.free_high is None:
        return drawn
    half = min(drawn.width, max(mate.free_high - mate.free_low, _LEAST_FREEDOM)) / 2
    return replace(drawn, low=drawn.middle - half, high=drawn.middle + half)


def _roughed(bore: Operation, space: Cylinder, core: Millimetre) -> Operation:
    """Give the cuts before the last: under the skin of the core with the first of them."""
    return replace(
        bore,
        key=f"rough {bore.key}",
        stage="rough",
        makes=(),
        region=(space,),
        minutes=bore.minutes / 2 + (space.diameter - core) / 4,
        size=None,
        cut_size=space.diameter,
        from_size=core,
        remark="under the skin of the core with the first cut",
    )


def _core(hole: Hole, across: Millimetre, over: Millimetre) -> Cylinder:
    return Cylinder(
        start=moved(hole.entries[0], hole.into, -over - _PAST),
        end=moved(hole.entries[0], hole.into, hole.steps[0].end + over + _PAST),
        diameter=across,
    )
