"""Slots slit with the rim of a saw: it turns level, is set at one height, and is fed sideways."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.cutting.hand_feed import seconds_a_turn
from halfthou.cutting.speeds import speed_for
from halfthou.drawing.model import OUTWARD, Cutout
from halfthou.planning.axes import dot, extents_of_all, other_side, side_toward
from halfthou.planning.milled.operations import SLIT
from halfthou.planning.model import Operation
from halfthou.planning.worked import CoarseCheck, Pass
from halfthou.planning.working import mill_words, words
from halfthou.planning.working.aims import aimed
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.places import (
    against_the_cutter,
    as_touched,
    down,
    line_move,
    set_at,
)
from halfthou.planning.working.task import Task
from halfthou.planning.working.zero import over_the_zero
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill, Tool

COLLAR: Final[Millimetre] = 13.5
"""Radius of the collars of a saw's arbor: what of a saw is no reach (usual practice)."""
TOOTH: Final[Millimetre] = 0.005
"""Feed a tooth of a slitting saw, by hand (usual practice)."""
THICKNESSES: Final = 3.0
"""Deepest a saw is fed in one go, in its own thicknesses (usual practice)."""
NUT: Final[Millimetre] = 12.0
"""How far the nut and collar of a saw's arbor hang below the saw (usual practice)."""
PAST_NUT: Final[Millimetre] = 2.0
"""Room between a nut that turns and a jaw beside it (usual practice)."""
FREE: Final[Millimetre] = 5.0
"""Room between the work's top and the arbor's nut or chuck (usual practice)."""
_NEAR: Final[Millimetre] = 0.5
_LEVEL: Final = 0.99


def is_slit(operation: Operation) -> bool:
    """Tell whether a slot is slit with the rim of a saw."""
    return operation.remark == SLIT


def slit(task: Task, mill: Mill, draft: Draft, tool: Tool | None, zero: Vec3) -> None:
    """One height for the saw's under side; then sideways to the depth of the slot."""
    op, up = draft.operation, task.up
    space = extents_of_all(op.region)
    cutout = next(
        (f for f in task.part.features if isinstance(f, Cutout) and f.name == op.feature), None
    )
    if space is None or cutout is None or tool is None:
        return
    out = OUTWARD[other_side(cutout.floor)]
    way = task.along if abs(dot(out, task.along)) > _LEVEL else task.away
    across = task.away if way == task.along else task.along
    top = aimed(task, None, up, dot(zero, up))
    deep = top - aimed(task, op, up, space.least(up)) + over_the_zero(task, op)
    reach = next((m.aim for m in draft.measures if m.surface == f"{op.feature} floor"), None)
    wanted = reach if reach is not None else op.cut_size
    count = max(1, math.ceil(wanted / (THICKNESSES * tool.width) - 1e-9))
    inward = -1.0 if dot(out, way) > 0 else 1.0
    sideways = tuple(
        as_touched(line_move(mill, task, way, inward * wanted * done / count))
        for done in range(1, count + 1)
    )
    cut = Pass(count=count, depth=wanted / count, leaves=wanted, purpose="rough")
    draft.passes = set_at((cut,), sideways, division=mill.x.division)
    draft.moves = (down(mill, deep, quill=False), *sideways)
    draft.tool_out = float(math.ceil(deep + FREE))
    _set(task, mill, draft, tool)
    along = across == task.along
    draft.lock = ("cross-table" if along else "table", "quill", "knee")
    if draft.feed is not None:
        draft.feed = replace(
            draft.feed,
            slide="table" if along else "cross-table",
            table_goes=against_the_cutter(task, out),
        )
    draft.remarks += [mill_words.UNDERSIDE, mill_words.RIM, words.RIGHT_ACROSS]
    draft.check = _by_rule(task, space.most(up))
    draft.takes(length=_length(task, across) + 2 * COLLAR, passes=count)


def jaw_beside_saw(task: Task) -> Millimetre | None:
    r"""Give how much jaw may stand past the face a saw enters, its nut hanging beside it.

    .. math:: r_{saw} - t - r_{nut} - c

    Returns
    -------
    :
        What is left of the saw's radius less the slot's depth :math:`t`, the collar and room for
        it; None where nothing is slit or the nut turns above the jaws. [mm]
    """
    op = next((one for one in task.operations if is_slit(one)), None)
    tool = next((t for t in task.workshop.tools if op is not None and t.name in op.tools), None)
    space = extents_of_all(op.region) if op is not None else None
    if op is None or tool is None or space is None or task.scheme.device.device != "vice":
        return None
    under = space.least(task.up) - NUT
    if under > task.scheme.grip_high:
        return None
    return max(0.0, float(math.floor(tool.reach - op.cut_size - PAST_NUT)))


def nut_words(task: Task) -> tuple[str, ...]:
    """Say where in the jaws work stands that is slit, so that the saw's nut clears them."""
    most = jaw_beside_saw(task)
    op = next((one for one in task.operations if is_slit(one)), None)
    cutout = next(
        (f for f in task.part.features
         if isinstance(f, Cutout) and op is not None and f.name == op.feature), None
    )  # fmt: skip
    if most is None or cutout is None:
        return ()
    out = OUTWARD[other_side(cutout.floor)]
    if abs(dot(out, task.along)) < _LEVEL:
        return (NUT_OVER_JAWS,)
    end = "right" if dot(out, task.along) > 0 else "left"
    said = (
        f"at the {end}-hand end of the jaws, no more than {most:g} of jaw past the face the saw "
        "enters: the nut under the saw hangs clear beside them; packing as thick as the work at "
        "the other end"
    )
    return (said,)


NUT_OVER_JAWS: Final = (
    "the nut under the saw turns below the tops of the jaws: see it clear them right across"
)


def saw_diameter(tool: Tool) -> Millimetre:
    """Give a saw's diameter: its reach and its arbor's collars, twice [mm]."""
    return 2 * (tool.reach + COLLAR)


def _set(task: Task, mill: Mill, draft: Draft, tool: Tool) -> None:
    """Set speed and feed by the saw's diameter, not by its thickness."""
    speed = speed_for(
        metal=task.metal,
        verb=draft.operation.verb,
        diameter=saw_diameter(tool),
        workshop=task.workshop,
        speeds=mill.speeds,
    )
    draft.speed = speed
    per_turn = TOOTH * tool.teeth
    seconds = seconds_a_turn(lead=mill.x.lead, feed=per_turn, speed=speed)
    if draft.feed is not None:
        draft.feed = replace(draft.feed, per_turn=per_turn, seconds_a_handle_turn=seconds)
    if speed <= min(mill.speeds):
        draft.remarks.append(mill_words.SLOWEST)
    draft.remarks.append(mill_words.STALLS)


def _length(task: Task, way: Vec3) -> Millimetre:
    metal = extents_of_all(task.part.metal)
    return metal.length(way) if metal is not None else 0.0


def _by_rule(task: Task, upper: Millimetre) -> CoarseCheck | None:
    """Look at the saw's height before it cuts: its upper side from the top of the work."""
    metal = extents_of_all(task.part.metal)
    if metal is None:
        return None
    return CoarseCheck(
        what=f"upper side of the saw below the {side_toward(task.up)} face, saw beside the work",
        means="rule", expect=metal.most(task.up) - upper, within=_NEAR,
    )  # fmt: skip
