"""The one casting before it is sawn: the half that moves stands a kerf and two skims out."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.lump import as_cast
from halfthou.drawing.model import OUTWARD, Joint, Lump
from halfthou.planning.axes import Extents, axis_of, extents_of
from halfthou.planning.cast.body import Body, Face, faces_of
from halfthou.planning.cast.handwork import SAW
from halfthou.planning.cast.joint_holes import BEFORE
from halfthou.planning.cast.pieces import Pieces
from halfthou.planning.model import Operation
from halfthou.units import Millimetre, Vec3

LUMP: Final = "lump"
_WHOLE: Final = "it is one casting until it is sawn"


def uncut(pieces: Pieces) -> tuple[Lump, ...]:
    """Give the one casting that is sawn into halves; nothing where there are two."""
    joint = pieces.joint
    return as_cast(pieces.part) if joint is not None and joint.kind == "sawn" else ()


def stays_put(pieces: Pieces) -> str:
    """Name the half that lies in the lump where it lies when all is put together."""
    joint = pieces.joint
    if joint is None or joint.kind != "sawn":
        return ""
    return joint.halves[1] if joint.moves == joint.halves[0] else joint.halves[0]


def lump_body(pieces: Pieces, joint: Joint, operations: tuple[Operation, ...]) -> Body:
    """Give the lump as something to hold: what is cut on it before the saw.

    That is the half that lies where it will stay, and the holes that go through both.
    """
    still = stays_put(pieces)
    up = joint.moves == joint.halves[0]
    by = joint.over if up else -joint.over
    faces = [f for f in faces_of(pieces, still) if f.name != f"{still} {joint.name}"]
    faces += [
        _moved(f, joint.axis, by)
        for f in faces_of(pieces, joint.moves)
        if f.name != f"{joint.moves} {joint.name}"
    ]
    own = {f.name for f in faces}
    return Body(
        name=LUMP,
        state="whole",
        pieces=pieces.names,
        faces=tuple(faces),
        metal=tuple(extents_of(r) for lump in uncut(pieces) for r in lump.metal),
        operations=operations,
        able=frozenset(
            op.key
            for op in operations
            if op.key.endswith(BEFORE)
            or (op.piece == still and (op.verb != "mill face" or set(op.makes) <= own))
        ),
        need=(),
        ban=((f"{SAW} {joint.name}", _WHOLE),),
    )


def _moved(face: Face, axis: int, by: Millimetre) -> Face:
    """Move a face with its half, outward or inward of where it will be."""
    out = OUTWARD[face.side]
    shift: Vec3 = (
        by if axis == 0 else 0.0,
        by if axis == 1 else 0.0,
        by if axis == 2 else 0.0,  # noqa: PLR2004  (the third axis)
    )
    low = tuple(a + b for a, b in zip(face.own.low, shift, strict=True))
    high = tuple(a + b for a, b in zip(face.own.high, shift, strict=True))
    at = face.at + (by * out[axis] if axis_of(out) == axis else 0.0)
    own = Extents(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))
    return replace(face, at=at, own=own)
