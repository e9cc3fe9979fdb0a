"""Large or true holes in a block, bored with the block turning in the lathe.

The mill's drill chuck ends at 13 mm and a small shop has no boring head: the block is set with
the hole's place running true in the four-jaw chuck or on the faceplate, drilled from the
tailstock and bored out.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from halfthou.drawing.geometry import Cylinder, Region
from halfthou.drawing.model import OUTWARD, Hole, HoleStep, Part, Surface
from halfthou.handbook.drills import Drill
from halfthou.planning.axes import dot, moved, opposite, same
from halfthou.planning.drilling import CentreChoice, centre_drill_for
from halfthou.planning.drills_at_hand import drills_in_hand
from halfthou.planning.milled import minutes
from halfthou.planning.model import Operation, Stage, Verb
from halfthou.units import Millimetre
from halfthou.workshop.model import Tool, Workshop

WORD: Final = "in the lathe"
LARGE: Final = 13.0
"""Diameter above which a hole in a block is better bored than drilled, mm (usual practice)."""
_FINE: Final = 0.05
"""A bore with less tolerance than this is bored or reamed. [mm]"""
_LEAVES: Final = 1.0
"""Least metal left on the diameter for the boring tool. [mm]"""
_PILOT_ABOVE: Final = 8.0
_PAST: Final = 2.0
_SAME: Final = 1e-6


def can_be_bored(hole: Hole) -> bool:
    """Tell whether a hole asks for boring: one place, square to a side, plain, large or fine."""
    square = any(same(hole.into, opposite(side)) for side in OUTWARD.values())
    plain = all(s.kind in ("plain", "counterbore") and s.thread is None for s in hole.steps)
    asks = any(
        s.process == "bored" or s.diameter.nominal > LARGE or s.diameter.width < _FINE
        for s in hole.steps
    )
    return square and plain and asks and len(hole.entries) == 1


def bored_in_lathe(
    hole: Hole, part: Part, workshop: Workshop, *, over: Millimetre
) -> tuple[Operation, ...]:
    """Give the operations of boring a hole in the lathe; none where the tools do not reach."""
    steps = sorted(hole.steps, key=lambda s: s.diameter.nominal)
    smallest = steps[0]
    chuck = max((lathe.drill_chuck for lathe in workshop.lathes), default=0.0)
    most = min(smallest.diameter.low - _LEAVES, chuck)
    drills = [d for d in drills_in_hand(workshop.drills.drills) if d.diameter <= most]
    if not can_be_bored(hole) or not drills:
        return ()
    drill = max(drills, key=lambda d: d.diameter)
    deepest = _depth(hole, smallest, over)
    bored = _drilled(hole, drill, drills, deepest, over)
    centre = centre_drill_for(workshop, bored[0].cut_size)
    made = [_spot(hole, centre), *bored]
    have = drill.diameter
    for step in steps:
        tools = _boring_tools(workshop, have, step)
        if not tools:
            return ()
        made.append(_bored(hole, part, step, tools=tools, have=have, over=over))
        have = step.diameter.middle
    return tuple(made)


def _depth(hole: Hole, step: HoleStep, over: Millimetre) -> Millimetre:
    last = max(s.end for s in hole.steps)
    return step.end + (over + _PAST if step.breaks_out and step.end >= last else 0.0)


def _boring_tools(workshop: Workshop, have: Millimetre, step: HoleStep) -> tuple[str, ...]:
    """Name the lathe's boring tools that enter the hole as it is and reach, stiffest first."""
    fits: list[Tool] = [
        t
        for t in workshop.tools
        if t.kind == "boring tool"
        and t.machine == "lathe"
        and t.least_bore <= have
        and t.reach >= step.end
    ]
    return tuple(t.name for t in sorted(fits, key=lambda t: -t.shank))


def _space(
    hole: Hole, diameter: Millimetre, start: Millimetre, end: Millimetre
) -> tuple[Region, ...]:
    entry = hole.entries[0]
    return (
        Cylinder(
            start=moved(entry, hole.into, start),
            end=moved(entry, hole.into, end),
            diameter=diameter,
        ),
    )


def _operation(
    hole: Hole,
    words: str,
    verb: Verb,
    *,
    stage: Stage,
    tools: tuple[str, ...],
    region: tuple[Region, ...],
    takes: float,
    cut_size: Millimetre,
    ends: Millimetre,
    from_size: Millimetre = 0.0,
    makes: tuple[str, ...] = (),
    step: HoleStep | None = None,
) -> Operation:
    return Operation(
        key=f"{hole.name} {words} {WORD}",
        verb=verb,
        stage=stage,
        feature=hole.name,
        machine="lathe",
        makes=makes,
        region=region,
        approach=(opposite(hole.into),),
        tools=tools,
        minutes=takes,
        at=hole.entries,
        starts=step.start if step is not None else 0.0,
        ends=ends,
        size=step.diameter if step is not None else None,
        cut_size=cut_size,
        from_size=from_size,
        inside=True,
        through=any(s.breaks_out for s in hole.steps),
    )


def _spot(hole: Hole, centre: CentreChoice) -> Operation:
    return _operation(
        hole, "centre", "spot", stage="rough", tools=(centre.tool,), region=(), takes=1.0,
        cut_size=centre.across, ends=centre.deep,
    )  # fmt: skip


def _drilled(
    hole: Hole, drill: Drill, drills: list[Drill], depth: Millimetre, over: Millimetre
) -> list[Operation]:
    """Pilot and drill, from the tailstock."""
    sizes = [drill]
    if drill.diameter > _PILOT_ABOVE:
        sizes.insert(0, min(drills, key=lambda d: abs(d.diameter - drill.diameter / 2)))
    made = []
    for before, one in pairwise([None, *sizes]):
        if one is None:
            continue
        made.append(
            _operation(
                hole,
                "drill" if one is drill else "pilot",
                "drill",
                stage="rough",
                tools=(f"drill {one.name}",),
                region=_space(hole, one.diameter, -over, depth),
                takes=minutes.drilling(depth=depth, diameter=one.diameter, count=1),
                cut_size=one.diameter,
                ends=depth,
                from_size=before.diameter if before is not None else 0.0,
            )
        )
    return made


def _bored(
    hole: Hole,
    part: Part,
    step: HoleStep,
    *,
    tools: tuple[str, ...],
    have: Millimetre,
    over: Millimetre,
) -> Operation:
    number = hole.steps.index(step)
    depth = _depth(hole, step, over)
    words = "bore" if len(hole.steps) == 1 else f"bore step {number + 1}"
    makes = tuple(
        s.name
        for s in part.surfaces
        if s.feature == hole.name and (s.size == step.diameter or _is_floor(hole, step, s))
    )
    return _operation(
        hole,
        words,
        "bore",
        stage="finish",
        tools=tools,
        region=_space(hole, step.diameter.nominal, step.start if step.start > 0 else -over, depth),
        takes=minutes.boring(depth=depth, count=1) + (step.diameter.middle - have) / 4,
        cut_size=step.diameter.middle,
        ends=depth,
        from_size=have,
        makes=makes,
        step=step,
    )


def _is_floor(hole: Hole, step: HoleStep, surface: Surface) -> bool:
    level = dot(surface.point, hole.into) - dot(hole.entries[0], hole.into)
    return surface.kind == "plane" and abs(level - step.end) < _SAME
