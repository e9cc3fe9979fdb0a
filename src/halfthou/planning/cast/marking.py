"""The sheet of a marking out: heights of lines and places of centre-pops, from datum faces."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.drawing.lump import joints_of
from halfthou.drawing.model import OUTWARD, Hole, Joint, Part, Side, Surface
from halfthou.planning.axes import axis_of, dot, extents_of_all, opposite, other_side, side_toward
from halfthou.planning.cast.body import Face, faces_of
from halfthou.planning.cast.firsts import first_face
from halfthou.planning.cast.pieces import WHOLE, Pieces, as_part, pieces_of
from halfthou.planning.worked import Mark
from halfthou.units import Millimetre

_NEAR: Final = 0.02
_SAME: Final = 1e-6
_RAW: Final = "middle of the raw metal"


def marks_on(part: Part, name: str) -> tuple[Mark, ...]:
    """Give all that is scribed on a casting before its first cut, way by way.

    Along the way of the first face, heights count from its finished line, which itself is set
    by the raw face opposite; the other ways count from the middle of what stays raw. On a lump
    that is to be sawn, the half that moves is marked as far out as it stands.
    """
    if part.blank.form != "casting":
        return ()
    pieces = pieces_of(part)
    joint = next(iter(joints_of(part)), None)
    own = _still(joint) if name == WHOLE and joint is not None else name
    first = first_face(pieces, own)
    if first is None:
        return ()
    found = [*_datum(pieces, own, first), *_faces(pieces, name, first, joint)]
    found += _bores(pieces, name, first)
    return tuple(found)


def _still(joint: Joint) -> str:
    return joint.halves[1] if joint.moves == joint.halves[0] else joint.halves[0]


def _datum(pieces: Pieces, name: str, first: Face) -> Iterator[Mark]:
    """Scribe the first face's line so far from the raw face that looks the other way."""
    raw = [f for f in faces_of(pieces, name) if f.side == other_side(first.side) and f.stays_raw]
    if not raw:
        return
    nearest = max(raw, key=lambda f: (f.area, -f.at))
    yield Mark(
        kind="line", what=first.name, side=first.side, height=first.at + nearest.at,
        datum=nearest.name,
    )  # fmt: skip


def _faces(pieces: Pieces, name: str, first: Face, joint: Joint | None) -> Iterator[Mark]:
    names = pieces.names if name == WHOLE else (name,)
    axis = axis_of(OUTWARD[first.side])
    for half in names:
        for face in faces_of(pieces, half):
            if face.stays_raw or face.name == first.name or face.clean_up:
                continue
            sign = dot(OUTWARD[face.side], OUTWARD[first.side])
            if axis_of(OUTWARD[face.side]) == axis:
                height = abs(first.at - sign * face.at) + _further(joint, name, half)
                yield Mark(
                    kind="line", what=face.name, side=face.side, height=height, datum=first.name
                )
            else:
                middle, by = _middle(pieces.part, half, face.side)
                yield Mark(
                    kind="line", what=face.name, side=face.side, height=face.at - middle,
                    datum=by,
                )  # fmt: skip


def _further(joint: Joint | None, name: str, half: str) -> Millimetre:
    """Give how much further out a half stands before it is sawn off."""
    if joint is None or name != WHOLE or half != joint.moves:
        return 0.0
    return joint.over


def _middle(part: Part, name: str, side: Side) -> tuple[Millimetre, str]:
    """Give the middle of the raw metal along a way, read toward a side; and what shows it."""
    own = as_part(part, name)
    out = OUTWARD[side]
    raw = [s for s in own.surfaces if s.raw and s.kind == "plane"]
    pairs = [(a, b) for a in raw for b in raw if _opposite(a, b, out)]
    if pairs:
        a, b = max(pairs, key=lambda p: dot(p[0].point, out))
        first, second = sorted((a.name, b.name))
        return (dot(a.point, out) + dot(b.point, out)) / 2, f"middle of {first} and {second}"
    box = extents_of_all(own.metal)
    return ((box.most(out) + box.least(out)) / 2 if box is not None else 0.0), _RAW


def _opposite(a: Surface, b: Surface, out: tuple[float, float, float]) -> bool:
    return dot(a.direction, out) > 1 - _NEAR and dot(b.direction, out) < -1 + _NEAR


def _bores(pieces: Pieces, name: str, first: Face) -> Iterator[Mark]:
    """Scribe the height of each cored bore and pop its middle, both ends."""
    out = OUTWARD[first.side]
    part = pieces.part if name == WHOLE else as_part(pieces.part, name)
    for hole in part.features:
        if not isinstance(hole, Hole) or not _bored(hole):
            continue
        if axis_of(hole.into) == axis_of(out):
            continue
        across = next(s for s in OUTWARD if _level(s, hole, first.side))
        middle, by = _middle(part, name, across)
        entry, toward = hole.entries[0], side_toward(opposite(hole.into))
        height = abs(first.at - dot(entry, out))
        if height > _SAME:
            yield Mark(
                kind="line", what=hole.name, side=first.side, height=height, datum=first.name
            )
        aside = dot(entry, OUTWARD[across]) - middle
        yield Mark(kind="pop", what=hole.name, side=toward, height=aside, datum=by, at=entry)


def _bored(hole: Hole) -> bool:
    return hole.cored is not None or any(step.process == "bored" for step in hole.steps)


def _level(side: Side, hole: Hole, first: Side) -> bool:
    axis = axis_of(OUTWARD[side])
    return axis not in {axis_of(hole.into), axis_of(OUTWARD[first])} and max(OUTWARD[side]) > 0
