"""Steps of a lathe set-up that no size and no tool speaks for: a number and a word at the cut."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from halfthou.drawing.geometry import Cone, TaperTube
from halfthou.planning.model import Operation, Verb
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.figures import Display, length
from halfthou.present.picture.crowding import Candidate
from halfthou.present.picture.dimensions import Leader, ways
from halfthou.present.picture.label import Label
from halfthou.present.picture.sheet import Box
from halfthou.present.picture.tools_at_work import Lie
from halfthou.shapes.flat import Point2
from halfthou.units import DEGREE

Tip = tuple[Point2, Point2]

_WORDS: Final[dict[Verb, str]] = {
    "face": "face",
    "centre": "centre",
    "spot": "centre",
    "part off": "part off",
}
_HOLES: Final = frozenset(("drill", "bore", "ream", "tap"))


def pointer_ways(
    worked: WorkedSetUp,
    said: Iterable[int],
    *,
    shown: frozenset[int],
    lie: Lie,
    units: Display,
    work: Box,
) -> list[list[Candidate]]:
    """Return the ways to name each step's cut that has no dimension and no tool of its own.

    A drill's size is named although the drill is shown: nothing else tells it.
    """
    said = frozenset(said)
    found: dict[str, list[Candidate]] = {}
    for step in worked.steps:
        if step.number in said:
            continue
        for one in step.operations:
            if step.number in shown and one.verb != "drill":
                continue
            text, tips = _pointer(one, worked, lie, units)
            if text and tips:
                leader = Leader(tips=tips, label=Label(main=text, step=step.number, passing=True))
                found[f"{text} {one.feature}"] = ways(leader, work=work)
    return list(found.values())


def _pointer(
    one: Operation, worked: WorkedSetUp, lie: Lie, units: Display
) -> tuple[str, tuple[Tip, ...]]:
    view, frame = lie.view, lie.frame
    if one.verb == "chamfer":
        size = length(one.cut_size, units)
        return f"{size} × {one.angle / DEGREE:.3g}°" if one.angle else f"{size} chamfer", tuple(
            tip for region in one.region for tip in _corner(region, lie)
        )
    right, radius = frame.x(view.right), frame.scale * view.radius
    axis = frame.at[1]
    if one.verb == "face":
        return "face", tuple(
            ((right, axis - share * radius), way)
            for share in (0.75, 0.5, 0.9)
            for way in ((1.0, -0.7), (0.7, -1.0), (1.0, -0.2))
        )
    if one.verb in {"centre", "spot"}:
        small = one.cut_size / 2 * frame.scale
        return _WORDS[one.verb], tuple(
            ((right, axis + side * small), (1.0, slope * side))
            for side in (-1.0, 1.0)
            for slope in (1.2, 0.7, 2.0)
        )
    if one.verb == "drill" and _last_of_its_hole(one, worked) and not view.solid:
        wall = axis + one.cut_size / 2 * frame.scale
        left = frame.x(view.left)
        return f"Ø{length(one.cut_size, units)} drill", tuple(
            ((left + share * (right - left), wall), (way, -0.8))
            for share in (0.5, 0.7, 0.3)
            for way in (0.4, -0.4)
        )
    return "", ()


def _last_of_its_hole(one: Operation, worked: WorkedSetUp) -> bool:
    """Whether nothing opens the hole further in this set-up."""
    later = [
        other
        for other in worked.set_up.operations
        if other.verb in _HOLES and other.feature == one.feature
    ]
    return later[-1:] == [one]


def _corner(region: object, lie: Lie) -> Iterable[Tip]:
    """Where a chamfer is: outside ones above and below, inside ones where the work is cut open."""
    if isinstance(region, TaperTube):
        size = (region.start_inside + region.end_inside) / 4
        sides: tuple[float, ...] = (1.0, -1.0)
    elif isinstance(region, Cone):
        size = (region.start_diameter + region.end_diameter) / 4
        sides = (-1.0,)
    else:
        return
    x = lie.sense * (region.start[0] + region.end[0]) / 2
    aside = 1.0 if x > (lie.view.left + lie.view.right) / 2 else -1.0
    outward = 1.0 if isinstance(region, TaperTube) else -1.0
    for side in sides:
        at = lie.frame.to((x, side * size))
        for way in (1.0, 0.4, 2.5):
            yield at, (way * aside, -side * outward)
