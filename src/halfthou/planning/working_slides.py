"""Slides of the lathe told in their dials; tool, speed and feed of a step in it."""

from typing import Final

from halfthou.cutting.feeds import nearest_feed
from halfthou.cutting.fluid import fluid_for
from halfthou.cutting.hand_feed import seconds_a_turn
from halfthou.cutting.overhang import tool_out
from halfthou.cutting.passes import (
    Cuts,
)
from halfthou.cutting.speeds import speed_for
from halfthou.planning import working_words as words
from halfthou.planning.dials import move
from halfthou.planning.model import Operation
from halfthou.planning.worked import Feed, Move, Slide
from halfthou.planning.working_cuts import Draft, reached
from halfthou.planning.working_task import Task
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
    """Give the fastest the holding stands, slower for work that is not round about its axis."""
    stands = task.scheme.device.most_rev_min
    if task.part.turned:
        return stands
    return min(stands, UNBALANCED_AT_MOST) if stands > 0 else UNBALANCED_AT_MOST


def power_feed(lathe: Lathe, wanted: Millimetre) -> Feed:
    """Feed by the saddle's power, at or below what is wanted."""
    return Feed(kind="power", per_turn=nearest_feed(lathe.feeds, wanted), slide="saddle")


def hand_feed(slide: Slide, dial: Dial, feed: Millimetre, speed: RevPerMinute) -> Feed:
    """Feed by hand, told as the seconds of one turn of the handle."""
    return Feed(
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


def along(lathe: Lathe, travel: Millimetre) -> Move:
    """Tell a move of the saddle; by rule where it is more turns than one likes to count."""
    dial = lathe.saddle
    if dial is not None and travel > MANY_TURNS * dial.lead:
        dial = None
    return move("saddle", travel, dial, sense="left", readout=lathe.readout)


def across(lathe: Lathe, cuts: tuple[Cuts, ...], *, inside: bool) -> tuple[Move, ...]:
    """Tell the cross-slide after each group of cuts, from where the tool first touched.

    The last is set just short where the dial cannot show it: metal can still come off.
    """
    totals = reached(cuts)
    return tuple(
        move(
            "cross-slide",
            total,
            lathe.cross_slide,
            sense="out" if inside else "in",
            readout=lathe.readout,
            rounding="short" if number == len(totals) else "near",
        )
        for number, total in enumerate(totals, start=1)
    )


def note_turns(task: Task, draft: Draft) -> None:
    """Say how a length is come to that is too many turns of the handle."""
    if not any(m.slide == "saddle" and m.by == "rule" for m in draft.moves):
        return
    op = draft.operation
    shoulder = any(_is_plane(task, name) for name in op.makes)
    if op.stage == "rough" and shoulder_later(task, op):
        draft.remarks.append(words.STOP_SHORT)
    elif shoulder:
        draft.remarks.append(words.COME_NEAR)


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
