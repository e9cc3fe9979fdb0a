"""Grooves and undercuts outside and inside, and the edges taken off."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.geometry import Cylinder, Tube
from halfthou.drawing.model import ChamferCut, Groove, Hole, Part
from halfthou.planning.model import Operation
from halfthou.planning.turned.minutes import minutes_for
from halfthou.planning.turned.shape import (
    TOWARD,
    End,
    end_at,
    largest,
    rounds,
    turned_from,
)
from halfthou.planning.turned.tools import plunging_tool, tool_for
from halfthou.planning.work import Work
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Workshop

INSIDE_TOOL: Final = "inside grooving tool"
"""A tool ground for the job: none is among the kinds a workshop lists."""


def small_cutting(part: Part, workshop: Workshop) -> Work:
    """Give the grooves and chamfers of turned work."""
    made = []
    for one in part.features:
        if isinstance(one, Groove):
            made.append(_inside_groove(part, one) if one.inside else _groove(part, workshop, one))
        elif isinstance(one, ChamferCut):
            made.append(_chamfer(workshop, one))
    return Work(operations=tuple(made))


def _grooving(
    part: Part, one: Groove, *, across: Millimetre, tools: tuple[str, ...], ways: tuple[Vec3, ...]
) -> Operation:
    """Give the groove but for its region; ``across`` is the diameter it is sunk from."""
    length, deep = one.right - one.left, abs(across - one.diameter.middle) / 2
    return Operation(
        key=one.name,
        verb="groove",
        stage="only",
        feature=one.name,
        machine="lathe",
        makes=tuple(s.name for s in part.surfaces if s.feature == one.name),
        region=(
            Cylinder(
                start=(one.left, 0.0, 0.0),
                end=(one.right, 0.0, 0.0),
                diameter=one.diameter.nominal,
            )
            if one.inside
            else Tube(
                start=(one.left, 0.0, 0.0),
                end=(one.right, 0.0, 0.0),
                inside=one.diameter.nominal,
                outside=across,
            ),
        ),
        approach=ways,
        tools=tools,
        minutes=minutes_for("groove", length=length, across=across, depth=deep),
        starts=one.left,
        ends=one.right,
        size=one.diameter,
        cut_size=one.diameter.middle,
        from_size=across,
        inside=one.inside,
        follows=one.on if one.inside else "",
    )


def _groove(part: Part, workshop: Workshop, one: Groove) -> Operation:
    on = next(r for r in rounds(part) if r.name == one.on)
    across = largest(on)
    deep = (across - one.diameter.nominal) / 2
    return _grooving(
        part,
        one,
        across=across,
        tools=plunging_tool(workshop, room=one.right - one.left, deep=deep),
        ways=tuple(TOWARD[end] for end in turned_from(part)[on.name]),
    )


def _inside_groove(part: Part, one: Groove) -> Operation:
    """Give a groove in a hole, from the end or ends that the hole is open to there."""
    hole = next(f for f in part.features if isinstance(f, Hole) and f.name == one.on)
    own: End = "right" if hole.into[0] < 0 else "left"
    ways: tuple[Vec3, ...] = (TOWARD[own],)
    if len(hole.steps) == 1 and hole.steps[0].breaks_out:
        ways = (TOWARD["right"], TOWARD["left"])
    depth = abs(end_at(part, own) - (one.left + one.right) / 2)
    here = [s for s in hole.steps if s.start <= depth <= s.end + 1.0]
    across = min((s.diameter.nominal for s in here or hole.steps), default=0.0)
    return _grooving(part, one, across=across, tools=(INSIDE_TOOL,), ways=ways)


def _chamfer(workshop: Workshop, one: ChamferCut) -> Operation:
    return Operation(
        key=one.name,
        verb="chamfer",
        stage="only",
        feature=one.name,
        machine="lathe",
        makes=(),
        region=(one.region,),
        approach=(one.facing,),
        tools=tool_for(workshop, "chamfer tool"),
        minutes=minutes_for("chamfer", length=one.leg, across=2 * one.leg, depth=one.leg),
        cut_size=one.leg,
        angle=one.angle,
        inside=one.inside,
        follows=one.edge if one.inside else "",
    )
