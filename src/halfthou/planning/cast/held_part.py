"""The part as a set-up sees it: only the piece that is held, its sizes among themselves."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.lump import joints_of
from halfthou.drawing.model import Band, Distance, Joint, Part, Surface
from halfthou.planning.axes import dot
from halfthou.planning.cast.pieces import as_part
from halfthou.planning.model import Plan

_SAME: Final = 1e-6


def held_part(part: Part, plan: Plan, number: int) -> Part:
    """Give the part for a set-up: the one piece it holds, or all of it."""
    held = plan.set_ups[number - 1].scheme.piece_state
    if not plan.lumps:
        return part
    if len(held) != 1 or held[0][1] != "apart":
        return _by_what_is_cut(part)
    piece = as_part(part, held[0][0])
    joint = next((j for j in joints_of(part) if held[0][0] in j.halves), None)
    return piece if joint is None else _with_joint(piece, joint)


def _by_what_is_cut(part: Part) -> Part:
    """Leave out how far a cut face lies from a raw one, where a cut one tells its place.

    A raw face is nowhere to a tenth: nothing cut is measured from it that need not be.
    """
    return replace(
        part, distances=tuple(d for d in part.distances if not _from_raw_as_well(part, d))
    )


def _from_raw_as_well(part: Part, distance: Distance) -> bool:
    a, b = part.surface(distance.a), part.surface(distance.b)
    if {a.kind, b.kind} != {"plane"} or a.raw == b.raw:
        return False
    cut = b if a.raw else a
    others = [part.surface(n) for d in part.distances for n in (d.a, d.b) if _ends_at(d, cut)]
    return any(s is not cut and s.kind == "plane" and not s.raw for s in others)


def _ends_at(distance: Distance, surface: Surface) -> bool:
    return surface.name in {distance.a, distance.b}


def _with_joint(piece: Part, joint: Joint) -> Part:
    """Give a half the distance of its joint face, which the drawing gives by way of the bore.

    A bore that lies across the joint is not there while the half is by itself.
    """
    face = next((s for s in piece.surfaces if s.feature == joint.name), None)
    if face is None:
        return piece
    outer = tuple(replace(s, inside=False) if s is face else s for s in piece.surfaces)
    piece = replace(piece, surfaces=outer)
    kept = tuple(d for d in piece.distances if not _by_the_bore(piece, d, joint))
    if any(_tells_its_place(piece, d, face) for d in kept):
        return replace(piece, distances=kept)
    far = _across_from(piece, face)
    return replace(
        piece, distances=(*kept, *(() if far is None else (_between(piece, far, face),)))
    )


def _tells_its_place(piece: Part, distance: Distance, face: Surface) -> bool:
    """Tell whether a distance places the joint face: not the depth of a hole that starts there."""
    ends = [piece.surface(n) for n in (distance.a, distance.b)]
    return (
        _ends_at(distance, face)
        and all(s.kind == "plane" for s in ends)
        and not any(s.inside for s in ends if s.name != face.name)
    )


def _by_the_bore(piece: Part, distance: Distance, joint: Joint) -> bool:
    """Tell whether a distance is drawn to a round whose axis lies in the joint."""
    ends = [piece.surface(name) for name in (distance.a, distance.b)]
    return any(
        s.kind == "cylinder" and s.low[joint.axis] < joint.at - _SAME < s.high[joint.axis]
        and abs(s.direction[joint.axis]) < _SAME
        for s in ends
    )  # fmt: skip


def _across_from(piece: Part, face: Surface) -> Surface | None:
    """Give the machined face that looks the other way, farthest off."""
    found = [
        s
        for s in piece.surfaces
        if s.kind == "plane" and not s.raw and dot(s.direction, face.direction) < -1 + _SAME
    ]
    return min(found, key=lambda s: dot(s.point, face.direction), default=None)


def _between(piece: Part, far: Surface, face: Surface) -> Distance:
    size = dot(face.point, face.direction) - dot(far.point, face.direction)
    drawn = [d.band for d in piece.distances if far.name in {d.a, d.b} and d.band.nominal == size]
    half = max((band.width / 2 for band in drawn), default=0.1)
    return Distance(
        name=f"{far.name} to {face.name}",
        a=far.name,
        b=face.name,
        direction=face.direction,
        band=Band(
            nominal=size, low=size - half, high=size + half, text=f"{size:g}", origin="general",
            place=face.feature,
        ),
    )  # fmt: skip
