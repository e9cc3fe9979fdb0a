"""Slides of the lathe told in their dials; tool, speed and feed of a step in it."""

from collections.abc import Sequence
from typing import Final

from halfthou.cutting.feeds import nearest_feed
from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.hand_feed import seconds_a_turn
from halfthou.cutting.overhang import tool_out
from halfthou.cutting.passes import Cuts
from halfthou.cutting.speeds import speed_for
from halfthou.planning.model import Operation
from halfthou.planning.worked import Feed, Move, Pass, Slide
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import Rounding, division_travel, move
from halfthou.planning.working.landing import Limits, SetTo, landed
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre, RevPerMinute
from halfthou.workshop.model import Dial, Lathe

CHECK_WITHIN: Final[Millimetre] = 0.05
"""How near the coarse check must come to what is expected (usual practice)."""
RULE_WITHIN: Final[Millimetre] = 0.5
"""How near a length must come by rule (usual practice)."""
UNBALANCED_AT_MOST: Final[RevPerMinute] = 350.0
"""Fastest for work that is not round, swinging in the lathe (usual practice)."""
MANY_TURNS: Final = 10
"""More turns of a handle than one likes to count (usual practice)."""


def start_draft(task: Task, op: Operation) -> Draft:
    """Begin a step: its tool, how far that is out, what goes on the cut."""
    name = op.tools[0] if op.tools else op.verb
    tool = task.tool(name)
    out = tool_out(tool.shank) if tool is not None and tool.shank > 0 else None
    return Draft(operation=op, tool=name, fluid=fluid_for(task.metal, op.verb), tool_out=out)


def lathe_speed(task: Task, lathe: Lathe, op: Operation, diameter: Millimetre) -> RevPerMinute:
    """Give the step of the lathe for a diameter, within what the holding stands."""
    return speed_for(
        metal=task.metal,
        verb=op.verb,
        diameter=diameter,
        workshop=task.workshop,
        speeds=lathe.speeds,
        at_most=_at_most(task),
    )


def _at_most(task: Task) -> RevPerMinute:
    """Give the fastest all that holds the work stands, slower for work not round on its axis."""
    told = [one.holder.most_rev_min for one in task.scheme.links if one.holder.most_rev_min > 0]
    stands = min(told, default=0.0)
    if task.part.turned:
        return stands
    return min(stands, UNBALANCED_AT_MOST) if stands > 0 else UNBALANCED_AT_MOST


def power_feed(lathe: Lathe, wanted: Millimetre) -> Feed:
    """Feed by the saddle's power, at or below what is wanted."""
    return Feed(kind="power", per_turn=nearest_feed(lathe.feeds, wanted), slide="saddle")


def hand_feed(
    slide: Slide, dial: Dial, feed: Millimetre, speed: RevPerMinute, far: Millimetre = 0.0
) -> Feed:
    """Feed by hand, told as the seconds of one turn of the handle, or of what it goes of one."""
    return Feed(
        turns=far / dial.lead if 0 < far < dial.lead - 1e-6 else 0.0,
        kind="hand",
        per_turn=feed,
        seconds_a_handle_turn=seconds_a_turn(lead=dial.lead, feed=feed, speed=speed),
        slide=slide,
    )


def saddle_to(task: Task, lathe: Lathe, x: Millimetre) -> tuple[Move, ...]:
    """Give the move of the saddle from the zero face to a place; none for the face itself."""
    travel = task.from_face(x)
    if travel <= 0:
        return ()
    return (along(lathe, travel),)


def by_rule(lathe: Lathe, travel: Millimetre) -> bool:
    """Tell whether a length is more turns of the saddle's handle than one likes to count."""
    dial = lathe.saddle
    return not lathe.readout and (dial is None or travel > MANY_TURNS * dial.lead)


def along(lathe: Lathe, travel: Millimetre) -> Move:
    """Tell a move of the saddle; by rule where it is more turns than one likes to count."""
    dial = None if by_rule(lathe, travel) else lathe.saddle
    return move("saddle", travel, dial, sense="left", readout=lathe.readout)


def infeed(lathe: Lathe, *, inside: bool) -> SetTo:
    """Give how the cross-slide is told for a depth from the touch."""

    def told_at(total: Millimetre, rounding: Rounding) -> Move:
        return move(
            "cross-slide",
            total,
            lathe.cross_slide,
            sense="out" if inside else "in",
            readout=lathe.readout,
            rounding=rounding,
        )

    return told_at


def told_across(
    lathe: Lathe,
    cuts: Sequence[Cuts],
    *,
    size: Millimetre,
    inside: bool,
    limits: Limits | None = None,
) -> tuple[Pass, ...]:
    """Cuts of the cross-slide as passes, each with its setting and what that really leaves."""
    return landed(
        cuts,
        infeed(lathe, inside=inside),
        size=size,
        way=-2 if inside else 2,
        division=division_travel(lathe.cross_slide),
        limits=limits,
    )


def _is_plane(task: Task, name: str) -> bool:
    surface = task.surface(name)
    return surface is not None and surface.kind == "plane"


def shoulder_later(task: Task, operation: Operation) -> bool:
    """Tell whether a roughed length ends at a shoulder that is finished afterwards."""
    later = (*task.operations, *task.later)
    return any(
        op.feature == operation.feature
        and op.stage != "rough"
        and any(_is_plane(task, name) for name in op.makes)
        for op in later
    )


def looked_at_with(task: Task, size: Millimetre) -> str:
    """Name what an outside is looked at twice with: a micrometer in hand that spans it."""
    return next(
        (
            gauge.name
            for gauge in task.workshop.gauges
            if gauge.kind == "micrometer"
            and gauge.in_hand
            and gauge.smallest <= size <= gauge.largest
        ),
        "caliper",
    )
