"""Each step of a hole on the axis brought to its size: reamed, bored, tapped, countersunk."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.geometry import Cone, Region
from halfthou.drawing.model import HoleStep
from halfthou.planning.drilling import ReamerChoice, reamer_for, reamer_to_get
from halfthou.planning.model import Operation, Stage
from halfthou.planning.turned.entered import Entered, coarse
from halfthou.planning.turned.shape import BEYOND
from halfthou.planning.turned.tools import boring_tool, goes_in
from halfthou.units import Millimetre

FINISH_BORE: Final = 0.25
"""Metal left a side for the last cuts with the boring tool, mm (usual practice)."""
WORTH_A_CUT: Final = 0.2
"""Less metal than this on the diameter is not roughed apart, mm (usual practice)."""
RIGHT_ANGLE: Final = math.radians(90.0)


def sized(one: Entered, step: HoleStep, have: Millimetre) -> list[Operation]:
    """From a hole of diameter ``have`` to the step's own size."""
    if step.kind == "countersink":
        return [_countersunk(one, step, have)]
    if step.thread is not None:
        return _tapped(one, step, have)
    within = step.diameter.low <= have <= step.diameter.high
    if within and coarse(step) and step.process != "bored":
        return []
    reamer = _reamer(one, step, have)
    return _reamed(one, step, have, reamer) if reamer is not None else _bored(one, step, have)


def _suffix(one: Entered, step: HoleStep) -> str:
    number = one.hole.steps.index(step)
    return "" if number == 0 else f" step {number + 1}"


def _reamer(one: Entered, step: HoleStep, have: Millimetre) -> ReamerChoice | None:
    """Give a reamer in hand; or one to be got, where no boring tool goes into the hole."""
    if step.process == "bored":
        return None
    in_hand = reamer_for(one.workshop, step.diameter)
    if in_hand is not None or goes_in(one.workshop, have) or coarse(step):
        return in_hand
    return reamer_to_get(step.diameter)


def _whole(one: Entered, step: HoleStep, depth: Millimetre) -> tuple[Region, ...]:
    """Give the space of a step as drawn, its drill's point with it."""
    space: tuple[Region, ...] = (one.cylinder(step.diameter.nominal, step.start, depth),)
    if step.point and not step.breaks_out:
        space += (one.point(step.diameter.nominal, depth),)
    return space


def _cut(
    one: Entered,
    words: str,
    step: HoleStep,
    *,
    to: Millimetre,
    stage: Stage,
    come_from: Millimetre,
    makes: tuple[str, ...] = (),
) -> Operation:
    """One boring of a step."""
    depth = one.depth_of(step)
    return one.operation(
        words + _suffix(one, step),
        "bore",
        step,
        stage=stage,
        cut=to,
        come_from=come_from,
        depth=depth,
        tools=boring_tool(one.workshop, come_from, deep=depth),
        region=_whole(one, step, depth)
        if makes
        else (one.cylinder(min(to, step.diameter.nominal), step.start, depth),),
        makes=makes,
    )


def _reamed(
    one: Entered, step: HoleStep, have: Millimetre, reamer: ReamerChoice
) -> list[Operation]:
    final = step.diameter.middle
    leaves = final - reamer.allowance
    made: list[Operation] = []
    # where the place is asked for closely it is bored, with a tool to be got if need be
    can_bore = one.placed or goes_in(one.workshop, have)
    if can_bore and (one.tied or have < leaves - WORTH_A_CUT) and have < leaves:
        made.append(_cut(one, "bore", step, to=leaves, stage="rough", come_from=have))
    depth = one.depth_of(step)
    made.append(
        one.operation(
            "ream" + _suffix(one, step),
            "ream",
            step,
            stage="finish",
            cut=final,
            come_from=leaves if made else have,
            depth=depth,
            tools=(reamer.tool,),
            region=_whole(one, step, depth),
            makes=one.makes(step),
        )
    )
    return made


def _bored(one: Entered, step: HoleStep, have: Millimetre) -> list[Operation]:
    final, makes = step.diameter.middle, one.makes(step)
    if coarse(step):
        return [_cut(one, "bore", step, to=final, stage="only", come_from=have, makes=makes)]
    made: list[Operation] = []
    leaves = final - 2 * FINISH_BORE
    if leaves > have + WORTH_A_CUT:
        made.append(_cut(one, "rough bore", step, to=leaves, stage="rough", come_from=have))
        have = leaves
    made.append(_cut(one, "bore", step, to=final, stage="finish", come_from=have, makes=makes))
    return made


def _tapped(one: Entered, step: HoleStep, have: Millimetre) -> list[Operation]:
    thread = step.thread
    if thread is None:
        return []
    made: list[Operation] = []
    depth = one.depth_of(step)
    if have < step.diameter.nominal - WORTH_A_CUT and goes_in(one.workshop, have):
        made.append(
            _cut(one, "bore to tap", step, to=step.diameter.nominal, stage="rough", come_from=have)
        )
    tap = one.operation(
        "tap" + _suffix(one, step),
        "tap",
        step,
        stage="only",
        cut=thread.major,
        come_from=thread.minor,
        depth=depth,
        tools=(f"taps {thread.designation}",),
        region=_whole(one, step, depth),
        makes=one.makes(step),
    )
    return [*made, tap]


def _countersunk(one: Entered, step: HoleStep, have: Millimetre) -> Operation:
    wide = step.diameter.nominal
    angle = step.angle or RIGHT_ANGLE
    deep = (wide - have) / 2 / math.tan(angle / 2)
    region: tuple[Region, ...] = (
        Cone(
            start=(one.x(0.0), 0.0, 0.0),
            end=(one.x(deep), 0.0, 0.0),
            start_diameter=wide,
            end_diameter=have,
        ),
    )
    if abs(one.stock.end(one.end) - one.mouth) > BEYOND:
        region += (one.cylinder(wide, 0.0, 1e-3),)
    return one.operation(
        "countersink",
        "countersink",
        step,
        stage="only",
        cut=wide,
        come_from=have,
        depth=deep,
        tools=(f"countersink {math.degrees(angle):g}°",),
        region=region,
        makes=one.makes(step),
    )
