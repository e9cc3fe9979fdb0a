"""The skin of a casting: hard and full of sand, cut slower than what lies under it."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.cutting.metals import metal_of
from halfthou.cutting.milling import cutter_width
from halfthou.cutting.speeds import A_HAIR_OVER, cutting_speed, speed_for
from halfthou.drawing.model import Part
from halfthou.planning.model import Operation, SetUp
from halfthou.units import Millimetre, RevPerMinute
from halfthou.workshop.model import Workshop

_TURN: Final = 1000.0 / 3.141592653589793
_THROUGH_THE_SKIN: Final = frozenset(("mill face", "face"))


def slow_enough(names: tuple[str, ...], material: str, workshop: Workshop) -> tuple[str, ...]:
    """Leave out cutters so wide that the mill cannot turn them slowly enough for the skin."""
    slowest = min((mill.speeds[0] for mill in workshop.mills), default=0.0)
    most = cutting_speed(
        metal=metal_of(material), verb="mill face", workshop=workshop, skin=True
    ) * (1 + A_HAIR_OVER)
    tools = {tool.name: tool for tool in workshop.tools}
    kept = tuple(n for n in names if slowest * cutter_width(tools.get(n)) <= most * _TURN)
    return kept or names


def told_of_the_skin(
    set_ups: tuple[SetUp, ...], part: Part, workshop: Workshop
) -> tuple[SetUp, ...]:
    """Say with each cut through a casting's skin how fast the first of it goes."""
    return tuple(
        replace(one, operations=tuple(_told(op, part, workshop) for op in one.operations))
        for one in set_ups
    )


def _told(op: Operation, part: Part, workshop: Workshop) -> Operation:
    cored = op.verb == "bore" and op.stage == "rough"
    if not op.remark or (op.verb not in _THROUGH_THE_SKIN and not cored):
        return op
    slow, usual = (_speed(op, part, workshop, skin=skin) for skin in (True, False))
    if slow is None or slow == usual:
        return op
    return replace(op, remark=f"{op.remark}; that cut at {slow:g} rev/min")


def _speed(op: Operation, part: Part, workshop: Workshop, *, skin: bool) -> RevPerMinute | None:
    speeds = (
        next((m.speeds for m in workshop.mills), None)
        if op.machine == "mill"
        else next((m.speeds for m in workshop.lathes), None)
    )
    if speeds is None:
        return None
    return speed_for(
        metal=metal_of(part.material), verb=op.verb, diameter=_across(op, part, workshop),
        workshop=workshop, speeds=speeds, skin=skin,
    )  # fmt: skip


def _across(op: Operation, part: Part, workshop: Workshop) -> Millimetre:
    """Give what turns: the cutter on the mill, the work in the lathe."""
    if op.machine == "mill":
        name = op.tools[0] if op.tools else ""
        return cutter_width(next((t for t in workshop.tools if t.name == name), None))
    return op.cut_size if op.verb == "bore" else part.blank.across or max(part.blank.size)
