"""Faces on the slant, milled with the side of the cutter, the vice set over on the table.

The work lies square in the vice and the vice is turned until the slant lies along a slide. So
the slant stays square to the side the work lies on, and its angle is set by clock and dials.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import Final, TypeAlias

from halfthou.drawing.model import OUTWARD, AngledFace, Part, Surface
from halfthou.planning.axes import Extents, axis_of, dot
from halfthou.planning.by_rule import by_rule
from halfthou.planning.milled import minutes
from halfthou.planning.milled.cutters import for_side
from halfthou.planning.milled.lump import SIDES, Lump, lump_of
from halfthou.planning.model import Alternative, Operation, Order
from halfthou.planning.who_makes import makers
from halfthou.planning.work import Work
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Workshop

SET_OVER: Final = 10.0
"""Time to turn the vice to an angle by clock and dials, minutes (usual practice)."""
SQUARED_AGAIN: Final = 5.0
"""Time to clock the vice square again afterwards, minutes (usual practice)."""
MARKED: Final = 6.0
"""Time to scribe and pop a line on both sides, minutes (usual practice)."""
SAWN: Final = 60.0
"""Steel sawn by hand, square millimetres a minute (usual practice)."""
FILED_OFF: Final = 8.0
"""Face filed to a line and square, square millimetres a minute (usual practice)."""
MOST_FILED: Final = 400.0
"""A face larger than this is milled where it can be, square millimetres (usual practice)."""
BY_FILE: Final = 0.15
"""How near a face filed to a scribed line is to its place, mm (usual practice)."""
BELOW: Final = 0.5
"""How far the end of a cutter goes below the edge it cuts, mm (usual practice)."""
_SAME: Final = 1e-6
_FEWEST: Final = 3

Flat: TypeAlias = tuple[float, float]


def slants(part: Part) -> tuple[AngledFace, ...]:
    """Give the slanted faces of a part."""
    return tuple(f for f in part.features if isinstance(f, AngledFace))


def slant_of(part: Part, operation: Operation) -> AngledFace | None:
    """Give the slanted face an operation cuts, if it cuts one."""
    return next((f for f in slants(part) if f.name == operation.feature), None)


def out_of_reach(part: Part, operations: tuple[Operation, ...]) -> tuple[Operation, ...]:
    """Give the operations with every slant out of reach: no vice set square mills it."""
    return tuple(
        replace(op, approach=()) if op.machine == "mill" and slant_of(part, op) is not None else op
        for op in operations
    )


def level_axis(face: AngledFace) -> int:
    """Give the axis a slanted face is square to the others along: its own level line."""
    return 3 - axis_of(OUTWARD[face.facing]) - axis_of(OUTWARD[face.toward])


def slant_work(part: Part, workshop: Workshop) -> Work:
    """Give the milling of every slanted face of a block, and the filing where that will do."""
    lump = lump_of(part)
    work = Work()
    for face in slants(part):
        milled, filed = _slant(part, workshop, lump, face), _filed(part, lump, face)
        work += Work(operations=(milled,) if filed is None else (milled, filed))
        if filed is not None:
            bundles = ((milled.key,), (filed.key,))
            name = f"{face.name}: how cut"
            work += Work(alternatives=(Alternative(name=name, bundles=bundles),))
    return work


def _slant(part: Part, workshop: Workshop, lump: Lump, face: AngledFace) -> Operation:
    ups = tuple(OUTWARD[s] for s in SIDES if axis_of(OUTWARD[s]) == level_axis(face))
    thick = lump.part.length(ups[0])
    tools = for_side(workshop, thick + BELOW) or (long_mill(thick),)
    corners = stands_over(lump.part, face, ())
    off = over_the_slant(corners, face)
    return Operation(
        key=f"mill {face.name}",
        verb="mill face",
        stage="only",
        feature=face.name,
        machine="mill",
        makes=tuple(s.name for s in part.surfaces if s.feature == face.name),
        region=(face.region,),
        approach=ups,
        tools=tools,
        minutes=SET_OVER
        + minutes.edging(
            workshop=workshop,
            material=part.material,
            tools=tools,
            length=_along(corners, face),
            deep=thick,
            off=off,
        ),
        cut_size=off,
        angle=face.leans,
    )


def long_mill(thick: Millimetre) -> str:
    """Name the end mill that would reach down a slant so thick, where there is none.

    >>> long_mill(60.0)
    'end mill with flutes 61 long'
    """
    return f"end mill with flutes {math.ceil(thick + BELOW)} long"


def _filed(part: Part, lump: Lump, face: AngledFace) -> Operation | None:
    """Saw and file a slant to a line, where it is small and nothing closer than that is drawn."""
    corners = stands_over(lump.part, face, ())
    thick = lump.part.high[level_axis(face)] - lump.part.low[level_axis(face)]
    area = _along(corners, face) * thick
    if area > MOST_FILED or _closely_drawn(part, face):
        return None
    return Operation(
        key=f"file {face.name}",
        verb="file",
        stage="only",
        feature=face.name,
        machine="bench",
        makes=tuple(s.name for s in part.surfaces if s.feature == face.name),
        region=(face.region,),
        approach=tuple(OUTWARD.values()),
        tools=("file",),
        minutes=MARKED + area / SAWN + area / FILED_OFF,
        angle=face.leans,
    )


def _closely_drawn(part: Part, face: AngledFace) -> bool:
    own = [s.name for s in part.surfaces if s.feature == face.name]
    return any(
        r.origin == "drawn" and r.within < BY_FILE and {r.surface, r.to} & set(own)
        for r in part.requirements
    ) or any(
        d.band.origin == "drawn" and d.band.width < 2 * BY_FILE and {d.a, d.b} & set(own)
        for d in part.distances
    )


def stands_over(body: Extents, face: AngledFace, cut: tuple[AngledFace, ...]) -> tuple[Flat, ...]:
    """Give the outline of the metal beyond a slant, those cut before it gone already."""
    a, b = axis_of(OUTWARD[face.facing]), axis_of(OUTWARD[face.toward])
    low, high = body.low, body.high
    outline: list[Flat] = [
        (low[a], low[b]), (high[a], low[b]), (high[a], high[b]), (low[a], high[b])
    ]  # fmt: skip
    outline = _clipped(outline, face, (a, b), beyond=True)
    for other in cut:
        if level_axis(other) == level_axis(face):
            outline = _clipped(outline, other, (a, b), beyond=False)
    return tuple(outline)


def _clipped(
    outline: list[Flat], face: AngledFace, axes: tuple[int, int], *, beyond: bool
) -> list[Flat]:
    """Keep of an outline what lies beyond a slant, or what lies inside it."""
    a, b = axes
    sign = 1.0 if beyond else -1.0
    heights = [
        sign * ((x - face.point[a]) * face.normal[a] + (y - face.point[b]) * face.normal[b])
        for x, y in outline
    ]
    found: list[Flat] = []
    for number, here in enumerate(outline):
        after = (number + 1) % len(outline)
        there, up, on = outline[after], heights[number], heights[after]
        if up >= -_SAME:
            found.append(here)
        if (up > _SAME and on < -_SAME) or (up < -_SAME and on > _SAME):
            share = up / (up - on)
            found.append(
                (here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1]))
            )
    return found if len(found) >= _FEWEST else []


def over_the_slant(corners: tuple[Flat, ...], face: AngledFace) -> Millimetre:
    """Give how far the highest corner stands over a slant, square to it [mm]."""
    return max((_reading(c, face) for c in corners), default=0.0)


def _reading(corner: Flat, face: AngledFace) -> float:
    a, b = axis_of(OUTWARD[face.facing]), axis_of(OUTWARD[face.toward])
    return (corner[0] - face.point[a]) * face.normal[a] + (corner[1] - face.point[b]) * (
        face.normal[b]
    )


def ends_of_slant(corners: tuple[Flat, ...], face: AngledFace) -> tuple[Flat, Flat] | None:
    """Give the two ends of the line in which a slant leaves the metal; None if it leaves none."""
    on = [c for c in corners if abs(_reading(c, face)) < _SAME]
    if len(on) < 2:  # noqa: PLR2004
        return None
    a, b = axis_of(OUTWARD[face.facing]), axis_of(OUTWARD[face.toward])
    on.sort(key=lambda c: c[0] * -face.normal[b] + c[1] * face.normal[a])
    return on[0], on[-1]


def _along(corners: tuple[Flat, ...], face: AngledFace) -> Millimetre:
    ends = ends_of_slant(corners, face)
    return math.dist(*ends) if ends is not None else 0.0


def placed(face: AngledFace, flat: Flat) -> Vec3:
    """Give a point of the part from its place in the plane a slant is drawn in."""
    point = [0.0, 0.0, 0.0]
    point[axis_of(OUTWARD[face.facing])] = flat[0]
    point[axis_of(OUTWARD[face.toward])] = flat[1]
    point[level_axis(face)] = face.point[level_axis(face)]
    return (point[0], point[1], point[2])


def orders_of_slants(part: Part, operations: tuple[Operation, ...]) -> Iterator[Order]:
    """Order the square sides, and what starts on metal the slant takes, before the slant."""
    own = [(op, f) for op in operations if (f := slant_of(part, op)) is not None]
    slanted = {op.key for op, _ in own}
    for slant, face in own:
        for op in _placed_from_what_goes(part, operations, face):
            if op.key not in slanted:
                yield by_rule(op, slant, "use a side before the slant takes it")
        for op in operations:
            if op.key in slanted:
                continue
            if _outer_side(op):
                yield by_rule(op, slant, "square sides before the slant")
            elif op.verb == "spot" and any(dot(way, face.normal) > _SAME for way in op.approach):
                yield by_rule(op, slant, "drill square faces before sloping ones are cut")


def _placed_from_what_goes(
    part: Part, operations: tuple[Operation, ...], face: AngledFace
) -> Iterator[Operation]:
    """Give what makes surfaces that are drawn from a side the slant takes whole."""
    gone = {s.name for s in part.surfaces if s.name in SIDES and _takes_whole(face, s)}
    for distance in part.distances:
        for side, other in ((distance.a, distance.b), (distance.b, distance.a)):
            if side in gone:
                yield from (op for op in makers(operations, other) if op.machine != "bench")


def _takes_whole(face: AngledFace, side: Surface) -> bool:
    corners = product(*zip(side.low, side.high, strict=True))
    over = [
        sum((c - p) * n for c, p, n in zip(corner, face.point, face.normal, strict=True))
        for corner in corners
    ]
    return min(over) > -_SAME and max(over) > _SAME


def _outer_side(op: Operation) -> bool:
    """Tell whether an operation mills one of the outer sides of the block."""
    return op.verb == "mill face" and op.feature.rsplit(" ", maxsplit=1)[-1] in SIDES
