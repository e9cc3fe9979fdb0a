"""Walls: the thinnest metal beside and below each hole, against the limit the drawing states."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product
from typing import Final

from halfthou.drawing.boss_metal import BossBody
from halfthou.drawing.built import Solved, along
from halfthou.drawing.frame import AXIS_OF, ENDS, SIDES, cross_axes, high_end, main_axis
from halfthou.drawing.metal import BlockBody, Body, RoundBody, crossings, in_metal
from halfthou.drawing.model import Cutout, Finding, Hole, HoleStep, Part
from halfthou.drawing.sheet import belongs
from halfthou.drawing.told import told
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-6
_JUST: Final = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """Metal between a hole and something else, and where it is thinnest."""

    hole: str
    beside: str
    thick: Millimetre
    at: Vec3


def wall_findings(part: Part, solved: Solved) -> Iterator[Finding]:
    """Find each wall under the limit; where none is stated, holes that run into each other."""
    holes = [one for one in part.features if isinstance(one, Hole) and _straight(one)]
    walls = [
        *(
            wall
            for a, b in combinations(holes, 2)
            if belongs(solved.written, a.name) & belongs(solved.written, b.name)
            for wall in _between(a, b)
        ),
        *(wall for hole in holes for wall in _outward(hole, solved)),
        *(wall for hole in holes for wall in _below(hole, solved)),
        *(
            wall
            for one in part.features
            if isinstance(one, Cutout)
            for wall in _beside(one, solved)
        ),
    ]
    thinnest: dict[tuple[str, str], Wall] = {}
    for wall in walls:
        held = thinnest.get((wall.hole, wall.beside))
        if held is None or wall.thick < held.thick:
            thinnest[wall.hole, wall.beside] = wall
    limit = part.wall if part.wall is not None else 0.0
    for wall in thinnest.values():
        if wall.thick < limit - _SAME:
            yield _too_thin(wall, part)


def _too_thin(wall: Wall, part: Part) -> Finding:
    limit = part.wall
    if limit is None or wall.thick <= 0:
        by = told(-wall.thick, part.units)
        what = f"{wall.hole} breaks into {wall.beside}: they overlap by {by}"
        why = "no metal is left between them"
    else:
        what = (
            f"the wall between {wall.hole} and {wall.beside} is {told(wall.thick, part.units)} "
            f"against {told(limit, part.units)}"
        )
        why = "the part states how thin a wall may be"
    return Finding(
        what=what,
        feature=wall.hole.removesuffix(" floor"),
        why=why,
        tries=("move one of them", "make one of them smaller"),
        grave=True,
        at=wall.at,
    )


def _axis(hole: Hole) -> int:
    return main_axis(hole.into)


def _straight(hole: Hole) -> bool:
    """Whether a hole runs along one of the part's directions; others are not judged."""
    return max(map(abs, hole.into)) > 1 - _SAME


def _stretch(hole: Hole, step: HoleStep, entry: Vec3) -> tuple[float, float]:
    axis = _axis(hole)
    ends = sorted(along(entry, hole.into, depth)[axis] for depth in (step.start, step.end))
    return ends[0], ends[1]


def _drilled(hole: Hole, step: HoleStep, entry: Vec3) -> tuple[float, float]:
    """Stretch of a step and a hair past its open ends: what stands there is drilled into too."""
    axis = _axis(hole)
    start = step.start - (_JUST if step.start <= _SAME else 0.0)
    end = step.end + (_JUST if step.breaks_out else 0.0)
    low, high = sorted(along(entry, hole.into, depth)[axis] for depth in (start, end))
    return low, high


def _between(a: Hole, b: Hole) -> Iterator[Wall]:
    """Walls between parallel holes; holes on one axis are one bore in steps."""
    axis = _axis(a)
    if axis != _axis(b):
        return
    for first, second in product(a.entries, b.entries):
        apart = math.hypot(*(first[n] - second[n] for n in cross_axes(axis)))
        if apart < _SAME:
            continue
        for one, other in product(a.steps, b.steps):
            low, high = _stretch(a, one, first), _stretch(b, other, second)
            if min(low[1], high[1]) - max(low[0], high[0]) > _SAME:
                thick = apart - (one.diameter.nominal + other.diameter.nominal) / 2
                yield Wall(hole=a.name, beside=b.name, thick=thick, at=first)


def _outward(hole: Hole, solved: Solved) -> Iterator[Wall]:
    axis = _axis(hole)
    for entry, step in product(hole.entries, hole.steps):
        low, high = _drilled(hole, step, entry)
        radius = step.diameter.nominal / 2
        for body in solved.around(hole.name):
            if min(high, body.high[axis]) - max(low, body.low[axis]) <= _SAME:
                continue
            if isinstance(body, BlockBody):
                yield from _to_sides(hole, body, entry, radius)
            elif isinstance(body, RoundBody) and axis == 0:
                yield from _to_outside(hole, body, entry, radius, ends=(low, high), solved=solved)
            elif isinstance(body, RoundBody):
                yield from _across(hole, body, entry, radius, ends=(low, high), solved=solved)
            elif isinstance(body, BossBody) and axis == body.axis:
                yield from _to_boss(hole, body, entry, radius)


def _to_sides(hole: Hole, body: BlockBody, entry: Vec3, radius: float) -> Iterator[Wall]:
    axes = cross_axes(_axis(hole))
    if not all(body.low[n] < entry[n] < body.high[n] for n in axes):
        return
    for number in axes:
        for side, gap in zip(
            ENDS[number], (entry[number] - body.low[number], body.high[number] - entry[number]),
            strict=True,
        ):  # fmt: skip
            thick = gap - radius
            yield Wall(hole=hole.name, beside=f"{body.name} {side}", thick=thick, at=entry)


def _to_outside(
    hole: Hole,
    body: RoundBody,
    entry: Vec3,
    radius: float,
    *,
    ends: tuple[float, float],
    solved: Solved,
) -> Iterator[Wall]:
    """Walls of a hole along turned metal, its axis inside the outside or past it.

    Where the axis comes out through a slant, nothing is judged: the hole ends there.
    """
    off = math.hypot(entry[1], entry[2])
    span = max(ends[0], body.left), min(ends[1], body.right)
    outer, widest = sorted(body.radius_at(x) for x in span)
    passes = off - radius >= widest - _SAME
    leaves = outer <= off < widest
    if passes or leaves or _inside_another(solved.around(hole.name), body, span, off + radius):
        return
    thick = (outer - off if off < outer else off - outer) - radius
    yield Wall(hole=hole.name, beside=body.name, thick=thick, at=entry)


def _inside_another(
    bodies: Sequence[Body], own: RoundBody, span: tuple[float, float], reach: float
) -> bool:
    """Whether a wider round that lies over the same stretch has the hole all in its metal."""
    return any(
        body is not own
        and body.left <= span[0] + _SAME
        and body.right >= span[1] - _SAME
        and min(map(body.radius_at, span)) >= max(reach, *map(own.radius_at, span))
        for body in bodies
        if isinstance(body, RoundBody)
    )


def _across(
    hole: Hole,
    body: RoundBody,
    entry: Vec3,
    radius: float,
    *,
    ends: tuple[float, float],
    solved: Solved,
) -> Iterator[Wall]:
    """Walls of a hole square to the axis of turned metal.

    Beside it the wall is judged at the middle of the work, where it is thickest: at its mouths a
    hole near the outside has none. A hole that ends before the middle is not judged so.
    """
    if not body.left < entry[0] < body.right:
        return
    off = abs(entry[3 - _axis(hole)])
    low, high = max(body.left, entry[0] - radius), min(body.right, entry[0] + radius)
    outer = min(body.radius_at(low), body.radius_at(high))
    if ends[0] < -_SAME and ends[1] > _SAME and off - radius < outer - _SAME:
        yield Wall(hole=hole.name, beside=body.name, thick=outer - off - radius, at=entry)
    middle = list(entry)
    middle[_axis(hole)] = sum(ends) / 2
    for side, end, out in zip(ENDS[0], (body.left, body.right), (-_JUST, _JUST), strict=True):
        if not in_metal(solved.around(hole.name), (end + out, middle[1], middle[2])):
            thick = abs(end - entry[0]) - radius
            yield Wall(hole=hole.name, beside=f"{body.name} {side}", thick=thick, at=entry)


def _to_boss(hole: Hole, body: BossBody, entry: Vec3, radius: float) -> Iterator[Wall]:
    off = math.hypot(*(entry[n] - body.centre[n] for n in cross_axes(body.axis)))
    outer = min(body.start_diameter, body.end_diameter) / 2
    if body.inside / 2 <= off < outer:
        yield Wall(hole=hole.name, beside=body.name, thick=outer - off - radius, at=entry)
        if body.inside:
            inner = off - radius - body.inside / 2
            yield Wall(hole=hole.name, beside=f"{body.name} inside", thick=inner, at=entry)


def _beside(cutout: Cutout, solved: Solved) -> Iterator[Wall]:
    """Walls of a pocket, slot or step toward the sides of the block it is in, floor included."""
    middle = [(a + b) / 2 for a, b in zip(cutout.low, cutout.high, strict=True)]
    point = (middle[0], middle[1], middle[2])
    for body in solved.bodies:
        if not isinstance(body, BlockBody) or body.crossed(point, 0) is None:
            continue
        for side in SIDES:
            axis, top = AXIS_OF[side], high_end(side)
            thick = (
                (body.high[axis] - cutout.high[axis])
                if top
                else (cutout.low[axis] - body.low[axis])
            )
            if side not in cutout.open_sides and thick > _SAME:
                name = f"{cutout.name} floor" if side == cutout.floor else cutout.name
                yield Wall(hole=name, beside=f"{body.name} {side}", thick=thick, at=point)


def _below(hole: Hole, solved: Solved) -> Iterator[Wall]:
    last = hole.steps[-1]
    if last.breaks_out:
        return
    axis = _axis(hole)
    for entry in hole.entries:
        floor = along(entry, hole.into, last.end)
        for low, high in crossings(solved.around(hole.name), entry, axis):
            if low - _SAME <= floor[axis] <= high + _SAME:
                far = high if hole.into[axis] > 0 else low
                thick = abs(far - floor[axis])
                yield Wall(hole=f"{hole.name} floor", beside="the far side", thick=thick, at=floor)
