"""Faces of castings: milled piece by piece, or across the joint when bolted up."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, Literal

from halfthou.drawing.geometry import Box
from halfthou.drawing.model import OUTWARD, Side
from halfthou.planning.axes import Extents, axis_of, extents_of
from halfthou.planning.cast.body import Face, faces_of
from halfthou.planning.cast.pieces import TOGETHER, Pieces, as_part
from halfthou.planning.cast.skin import slow_enough
from halfthou.planning.milled import minutes
from halfthou.planning.milled.cutters import for_face
from halfthou.planning.model import Alternative, Operation
from halfthou.planning.work import Work
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Workshop

PAST: Final = 2.0
"""How far the space of a face reaches past the metal. [mm]"""
UNDER_THE_SKIN: Final = "the first cut goes under the skin: it is hard and full of sand"
CLEAN_UP: Final = "no more than leaves no skin: its height is free"
_SAME: Final = 1e-6
_FACE_A_MINUTE: Final = 6.0
"""Radius faced a minute in the lathe, with its two cuts, mm (usual practice)."""


def facing(pieces: Pieces, workshop: Workshop) -> Work:
    """Give the cuts of every machined face, and the choice where a joint runs across it."""
    work = Work()
    joint = pieces.joint
    machined = {
        name: [f for f in faces_of(pieces, name) if not f.stays_raw] for name in pieces.names
    }
    across: set[str] = set()
    if joint is not None:
        for side in OUTWARD:
            level = [_level(machined, pieces, name, side) for name in pieces.names]
            if all(level) and len({round(f.at, 6) for f in level if f}) == 1:
                both = [f for f in level if f is not None]
                across |= {f.name for f in both}
                work += _across(pieces, workshop, both, side)
    for name, faces in machined.items():
        for face in faces:
            if face.name not in across:
                work += Work(operations=(milled(pieces, workshop, (face,), name),))
    return work


def _level(machined: dict[str, list[Face]], pieces: Pieces, name: str, side: Side) -> Face | None:
    """Give a piece's one machined face to a side that meets the joint."""
    joint = pieces.joint
    if joint is None or axis_of(OUTWARD[side]) == joint.axis:
        return None
    axis = joint.axis
    found = [
        f for f in machined[name]
        if f.side == side
        and f.own.low[axis] - _SAME <= joint.at <= f.own.high[axis] + _SAME
    ]  # fmt: skip
    return found[0] if len(found) == 1 else None


def _across(pieces: Pieces, workshop: Workshop, faces: list[Face], side: Side) -> Work:
    """Face each half by itself, or both at once when bolted up: on the mill, in the lathe."""
    single = [
        milled(pieces, workshop, (face,), name)
        for name, face in zip(pieces.names, faces, strict=True)
    ]
    if len({op.key for op in single}) == 1:  # one face of the drawing lies on both halves
        single = [replace(op, key=f"{op.key} of the {op.piece}") for op in single]
    on_mill = milled(pieces, workshop, tuple(faces), TOGETHER)
    in_lathe = turned(pieces, workshop, tuple(faces), TOGETHER)
    bundles = [tuple(op.key for op in single), (on_mill.key,)]
    made = [*single, on_mill]
    if in_lathe.tools:
        bundles.append((in_lathe.key,))
        made.append(in_lathe)
    choice = Alternative(name=f"{side}: each half or across the joint", bundles=tuple(bundles))
    return Work(operations=tuple(made), alternatives=(choice,))


def space_over(pieces: Pieces, face: Face, name: str, leaves: Millimetre = 0.0) -> Box:
    """Give the space over a face: as far sideways as its stock, where no other metal stands."""
    out = OUTWARD[face.side]
    axis = axis_of(out)
    low, high = list(face.own.low), list(face.own.high)
    edge = face.at + leaves
    if out[axis] > 0:
        low[axis], high[axis] = edge, face.at + face.over + PAST
    else:
        low[axis], high[axis] = -face.at - face.over - PAST, -edge
    own = _finished(pieces, name)
    for i in range(3):
        if i == axis:
            continue
        for end, sense in ((low, -1.0), (high, 1.0)):
            kept = end[i]
            end[i] += sense * (PAST + _stock_beside(pieces, name, (i, sense * kept, sense)))
            if any(_box(low, high).overlaps(metal) for metal in own):
                end[i] = kept
    return Box(low=_vec(low), high=_vec(high))


def _stock_beside(pieces: Pieces, name: str, edge: tuple[int, Millimetre, float]) -> Millimetre:
    """Give the stock on the machined sides that end a face; a raw side bears none."""
    axis, at, sense = edge
    return max(
        (
            f.over
            for f in faces_of(pieces, name)
            if OUTWARD[f.side][axis] == sense and abs(f.at - at) < _SAME
        ),
        default=0.0,
    )


def _finished(pieces: Pieces, name: str) -> list[Extents]:
    """Give the finished bodies of a piece as boxes; a joint's own stock is no metal."""
    return [extents_of(region) for region in as_part(pieces.part, name).metal]


def _box(low: list[float], high: list[float]) -> Extents:
    return Extents(low=_vec(low), high=_vec(high))


def _vec(values: list[float]) -> Vec3:
    return (values[0], values[1], values[2])


def milled(pieces: Pieces, workshop: Workshop, faces: tuple[Face, ...], name: str) -> Operation:
    """Mill one face, or the faces of both halves that lie level, from above."""
    side = faces[0].side
    size = _size(faces)
    tools = slow_enough(for_face(workshop, min(size)), pieces.part.material, workshop)
    return Operation(
        key=_key("mill", faces, side),
        verb="mill face",
        stage="only",
        feature=_named(faces, side),
        machine="mill",
        makes=tuple(f.name for f in faces),
        region=tuple(space_over(pieces, f, name) for f in faces),
        approach=(OUTWARD[side],),
        tools=tools,
        minutes=minutes.facing(
            workshop=workshop, material=pieces.part.material, tools=tools, size=size,
            off=faces[0].over,
        ),
        starts=faces[0].over,
        ends=0.0,
        cut_size=faces[0].over,
        piece=name,
        remark=CLEAN_UP if faces[0].clean_up else UNDER_THE_SKIN,
    )  # fmt: skip


def turned(pieces: Pieces, workshop: Workshop, faces: tuple[Face, ...], name: str) -> Operation:
    """Face across both halves in the lathe, bolted up."""
    side = faces[0].side
    at, over = faces[0].at, faces[0].over
    size = _size(faces)
    tools = tuple(t.name for t in workshop.tools if t.machine == "lathe" and "facing" in t.kind)
    sense = 1.0 if OUTWARD[side][0] > 0 else -1.0
    return Operation(
        key=_key("face", faces, side),
        verb="face",
        stage="only",
        feature=_named(faces, side),
        machine="lathe",
        makes=tuple(f.name for f in faces),
        region=tuple(space_over(pieces, f, name) for f in faces),
        approach=(OUTWARD[side],),
        tools=tools or tuple(t.name for t in workshop.tools if "knife" in t.kind)[:1],
        minutes=2.0 + 2 * max(size) / _FACE_A_MINUTE,
        starts=sense * at,
        ends=sense * at,
        cut_size=over,
        from_size=over,
        piece=name,
        remark=UNDER_THE_SKIN,
    )


Word = Literal["mill", "face"]


def _key(verb: Word, faces: tuple[Face, ...], side: Side) -> str:
    one = faces[0].name if len(faces) == 1 else f"{side} across the joint"
    return f"{verb} {one}" if verb == "mill" else f"{verb} {one} in the lathe"


def _named(faces: tuple[Face, ...], side: Side) -> str:
    return faces[0].name if len(faces) == 1 else side


def _size(faces: tuple[Face, ...]) -> tuple[Millimetre, Millimetre]:
    box = faces[0].own
    for face in faces[1:]:
        box = box.joined(face.own)
    axis = axis_of(OUTWARD[faces[0].side])
    a, b = (box.high[i] - box.low[i] for i in range(3) if i != axis)
    return max(a, 1.0), max(b, 1.0)
