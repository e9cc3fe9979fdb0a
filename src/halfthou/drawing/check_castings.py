"""What cannot be in castings, levers and split parts: metal in the air, joints adrift."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, product
from typing import Final

from halfthou.drawing.boss_metal import BossBody
from halfthou.drawing.built import Solved
from halfthou.drawing.frame import ALONG, main_axis
from halfthou.drawing.lump import as_cast, joints_of
from halfthou.drawing.metal import Body, in_metal
from halfthou.drawing.model import Arm, Block, Boss, Finding, Hole, Joint, Part, Piece
from halfthou.drawing.region_space import plus, reach_of_all, unit
from halfthou.drawing.sheet import belongs
from halfthou.drawing.told import told
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-6
_BESIDE: Final = 2e-3
"""How far beside a shared face each body is looked for [mm]."""
_POINTS: Final = 5


def casting_findings(part: Part, solved: Solved) -> Iterator[Finding]:
    """Find metal in the air, joints that do not hold or miss, castings too small."""
    yield from _in_the_air(solved)
    for joint in joints_of(part):
        yield from _joint(part, joint)
    for piece in part.pieces:
        if piece.into:
            yield from _put_in(part, piece, solved)
    if part.blank.form == "casting":
        yield from _casting(part)


def _middle(body: Body) -> Vec3:
    x, y, z = ((a + b) / 2 for a, b in zip(body.low, body.high, strict=True))
    return (x, y, z)


def _in_the_air(solved: Solved) -> Iterator[Finding]:
    """Find bodies that touch no other metal of their piece, nor through others."""
    for piece in dict.fromkeys(belongs(solved.written, body.name) for body in solved.bodies):
        bodies = [body for body in solved.bodies if belongs(solved.written, body.name) == piece]
        groups = [{body.name} for body in bodies]
        for a, b in combinations(bodies, 2):
            if _touch(a, b):
                one = next(group for group in groups if a.name in group)
                other = next(group for group in groups if b.name in group)
                if one is not other:
                    one |= other
                    groups.remove(other)
        for group in groups[1:]:
            body = next(one for one in bodies if one.name in group)
            yield Finding(
                what=f"{body.name} stands in the air: it touches no other metal",
                feature=body.name,
                why=f"nothing joins it to {bodies[0].name}",
                tries=("check its at", "join it with an arm or a block"),
                grave=True,
                at=_middle(body),
            )


def _touch(a: Body, b: Body) -> bool:
    low = [max(p, q) for p, q in zip(a.low, b.low, strict=True)]
    high = [min(p, q) for p, q in zip(a.high, b.high, strict=True)]
    if any(top - bottom < -_SAME for bottom, top in zip(low, high, strict=True)):
        return False
    steps = [(n + 0.5) / _POINTS for n in range(_POINTS)]
    return any(
        _near(a, point) and _near(b, point)
        for shares in product(steps, repeat=3)
        for point in [_between(low, high, shares)]
    )


def _between(low: Sequence[float], high: Sequence[float], shares: Sequence[float]) -> Vec3:
    x, y, z = (a + share * (b - a) for a, b, share in zip(low, high, shares, strict=True))
    return (x, y, z)


def _near(body: Body, point: Vec3) -> bool:
    """Whether a point lies in a body or in its skin."""
    beside = (point, *(plus(point, unit(n, by)) for n in range(3) for by in (-_BESIDE, _BESIDE)))
    return any(in_metal((body,), one) for one in beside)


def _joint(part: Part, joint: Joint) -> Iterator[Finding]:
    halves = [piece for piece in part.pieces if piece.name in joint.halves]
    at = part.surface(joint.surface).point
    empty = next((piece for piece in halves if not piece.metal), None)
    if empty is not None:
        yield Finding(
            what=f"{joint.name} misses the metal: nothing is left for {empty.name}",
            feature=joint.name,
            why="a joint runs between two pieces of metal",
            tries=("check its at",),
            grave=True,
            at=at,
        )
        return
    yield from _bolts(part, joint, at)
    yield from _bore(part, joint)


def _bolts(part: Part, joint: Joint, at: Vec3) -> Iterator[Finding]:
    both = " and ".join(joint.halves)
    bolt = next((f for f in part.features if isinstance(f, Hole) and f.name == joint.bolts), None)
    if not joint.bolts:
        yield Finding(
            what=f"nothing holds {both} together",
            feature=joint.name,
            why=f"{joint.name} names no bolts",
            tries=('draw a hole through both and write bolts = "stud"',),
            grave=True,
            at=at,
        )
        return
    if bolt is None or not _crosses(bolt, joint):
        yield Finding(
            what=f"{joint.bolts} does not hold {both} together",
            feature=joint.name,
            why=f"it is no hole that goes through {joint.name}",
            tries=("check where the hole goes", "name another hole"),
            grave=True,
            at=at,
        )
    if not joint.located_by:
        yield Finding(
            what=f"nothing brings {both} back to one place",
            feature=joint.name,
            why="bolts in clearing holes hold a cap but do not place it",
            tries=('write located_by = "2 dowels"', "draw a register, or fitted bolts"),
            grave=False,
            at=at,
        )


def _crosses(hole: Hole, joint: Joint) -> bool:
    axis = joint.axis
    ends = [
        entry[axis] + depth * hole.into[axis]
        for entry in hole.entries
        for depth in (0.0, hole.steps[-1].end)
    ]
    return min(ends) < joint.at - _SAME and max(ends) > joint.at + _SAME


def _bore(part: Part, joint: Joint) -> Iterator[Finding]:
    """Find a joint that misses the bore it is there to divide, or cuts it beside its middle."""
    lengthwise = [
        (abs(hole.entries[0][joint.axis] - joint.at), _radius(hole), hole)
        for hole in part.features
        if isinstance(hole, Hole) and main_axis(hole.into) != joint.axis
    ]
    if not lengthwise:
        return
    off, radius, hole = min(lengthwise, key=lambda one: one[0] - one[1])
    if off <= _SAME:
        return
    misses = off >= radius
    by = told(off, part.units)
    yield Finding(
        what=f"{joint.name} misses {hole.name}: it passes {by} from its axis"
        if misses
        else f"{joint.name} cuts {hole.name} {by} beside its middle",
        feature=joint.name,
        why=f"{hole.name} is {told(radius, part.units)} in radius"
        if misses
        else "the larger half closes on what lies in it",
        tries=(f'write at = "level with {hole.name} {ALONG[joint.axis]}"',),
        grave=misses,
        at=hole.entries[0],
    )


def _radius(hole: Hole) -> Millimetre:
    return max(step.diameter.nominal for step in hole.steps) / 2


def _put_in(part: Part, piece: Piece, solved: Solved) -> Iterator[Finding]:
    """Find a pin or bush that does not lie in the hole it is put into."""
    hole = next((f for f in part.features if isinstance(f, Hole) and f.name == piece.into), None)
    for body in solved.bodies:
        if body.name not in piece.features or not isinstance(body, BossBody) or hole is None:
            continue
        off = [
            math.dist(
                [n for axis, n in enumerate(entry) if axis != body.axis],
                [n for axis, n in enumerate(body.centre) if axis != body.axis],
            )
            for entry in hole.entries
        ]
        if min(off) > _SAME or main_axis(hole.into) != body.axis:
            yield Finding(
                what=f"{body.name} is not on the axis of {hole.name}",
                feature=body.name,
                why=f"it is {piece.fixed} into it, and lies {told(min(off), part.units)} off",
                tries=(f'write at = "level with {hole.name}"',),
                grave=True,
                at=_middle(body),
            )


def _casting(part: Part) -> Iterator[Finding]:
    if not part.blank.stock and "stock" in part.blank.text:
        cut = [
            feature.name
            for feature in part.features
            if isinstance(feature, Block | Boss | Arm) and feature.machined
        ]
        if cut:
            yield Finding(
                what=f"the casting has no metal to take off {', '.join(cut)}",
                feature="blank",
                why="its stock is nothing, and they have machined sides",
                tries=("give it stock 2",),
                grave=True,
            )
    low, high = reach_of_all(region for lump in as_cast(part) for region in lump.metal)
    for axis in range(3):
        need, have = high[axis] - low[axis], part.blank.size[axis]
        if need > have + _SAME:
            yield Finding(
                what=f"the casting is smaller than the part with its stock: "
                f"{told(have, part.units)} {ALONG[axis]} against {told(need, part.units)}",
                feature="blank",
                why=f"machined sides stand out by {told(part.blank.stock, part.units)}",
                tries=("measure the casting again", "check the sizes of the part"),
                grave=True,
                at=(low[0], high[1], low[2]),
            )
