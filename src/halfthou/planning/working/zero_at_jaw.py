"""Where work in the vice is picked up across: at the fixed jaw, or on a round out of the jaws."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Surface
from halfthou.planning.axes import dot, extents_of_all, same
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre, Vec3

FIXED_JAW: Final = " on the fixed jaw, beside the work"
EMPTY_JAW: Final = " on the fixed jaw, before the work goes in"
AT_THE_JAW: Final = (FIXED_JAW, EMPTY_JAW)
_BESIDE: Final[Millimetre] = 2.0
"""Room a finder wants along the work besides its own width (usual practice)."""
_FLAT: Final = 0.99


def at_fixed_jaw(task: Task, edge: Surface, way: Vec3) -> bool:
    """Tell whether an edge lies hidden against the fixed jaw, which looks toward the person."""
    return (
        task.scheme.device.device == "vice"
        and same(way, task.away)
        and bool(task.scheme.grips)
        and edge.name == task.scheme.grips[0]
    )


def free_round(task: Task, edge: Surface, way: Vec3, finder: Millimetre) -> Surface | None:
    """Give the round to find the middle of level work on: a true one that stands out of the jaws.

    The round between the jaws hides its sides, and bars the finder's way to the jaw. Best is the
    one whose run-out to the held round the drawing limits, then the one of closest limits.
    """
    jaws = task.scheme.jaws
    if jaws is None or edge.kind != "cylinder" or not at_fixed_jaw(task, edge, way):
        return None
    there = task.there_before()
    found = [
        one for one in task.part.surfaces
        if one.kind == "cylinder" and not one.inside and one.name in there
        and one.size is not None and one.name != edge.name
        and abs(dot(one.direction, task.along)) > _FLAT
        and _out_of(jaws, task, one) >= finder + _BESIDE
    ]  # fmt: skip
    tied = {edge.name, edge.feature}
    asked = {
        name
        for r in task.part.requirements
        if tied & {r.surface, r.to}
        for name in (r.surface, r.to)
    }
    return min(
        found,
        key=lambda one: (
            not asked & {one.name, one.feature},
            one.size.width if one.size is not None else 0.0,
        ),
        default=None,
    )


def _out_of(jaws: tuple[Millimetre, Millimetre], task: Task, one: Surface) -> Millimetre:
    """Give how much of a round stands out of the jaws, on the side where there is more."""
    ends = sorted((dot(one.low, task.along), dot(one.high, task.along)))
    return max(min(jaws[0], ends[1]) - ends[0], ends[1] - max(jaws[1], ends[0]))


def which_jaw(task: Task, edge: Surface, finder: Millimetre) -> str:
    """Tell whether the finder comes at the fixed jaw beside the work, or only without it."""
    jaws, metal = task.scheme.jaws, extents_of_all(task.part.metal)
    if jaws is None or metal is None or edge.kind != "cylinder":
        return FIXED_JAW
    free = max(metal.least(task.along) - jaws[0], jaws[1] - metal.most(task.along))
    return FIXED_JAW if free >= finder + _BESIDE else EMPTY_JAW


def at_the_jaw(edge: Surface, half: Millimetre) -> Millimetre:
    """Where the finder's middle is as it touches the fixed jaw from in front, from the zero.

    A round touches the jaw its radius beyond its axis.
    """
    if edge.kind == "cylinder":
        radius = edge.size.middle / 2 if edge.size is not None else 0.0
        return radius - half
    return -half
