"""The pieces of a part to be planned: what each starts as, and each as a part of its own."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.geometry import Box, Region
from halfthou.drawing.lump import as_cast, joints_of
from halfthou.drawing.model import Joint, Lump, Part, Piece, Surface
from halfthou.planning.axes import Extents, extents_of, extents_of_all
from halfthou.units import Millimetre, Vec3

WHOLE: Final = "whole"
TOGETHER: Final = "together"
_NEAR: Final = 1e-6
_OVER: Final = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieces:
    """A part, the joint it comes apart at (if any), and the lump each piece is made from.

    All stand in the frame of the part put together, whatever their state.
    """

    part: Part
    joint: Joint | None
    starts: tuple[Lump, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The pieces, the one above the joint first."""
        return tuple(lump.name for lump in self.starts)

    def start(self, name: str) -> Lump:
        """Give the lump a piece starts as."""
        return next(lump for lump in self.starts if lump.name == name)


def pieces_of(part: Part) -> Pieces:
    """Give a casting's pieces as they come: two castings, one lump to be sawn, or one piece."""
    joint = next((j for j in joints_of(part) if j.kind in {"sawn", "two castings"}), None)
    lumps = as_cast(part)
    if joint is None:
        return Pieces(part=part, joint=None, starts=(replace(lumps[0], name=WHOLE),))
    if joint.kind == "two castings":
        return Pieces(part=part, joint=joint, starts=lumps)
    return Pieces(part=part, joint=joint, starts=_sawn(part, joint))


def _sawn(part: Part, joint: Joint) -> tuple[Lump, ...]:
    """Give the halves as the saw leaves them: each with its skim, where it will stand."""
    uncut = replace(part, features=tuple(f for f in part.features if not isinstance(f, Joint)))
    whole = as_cast(uncut)[0]
    box = extents_of_all(whole.metal)
    if box is None:
        return ()
    return tuple(
        _half(whole, joint, name, box, above=above)
        for name, above in zip(joint.halves, (True, False), strict=True)
    )


def _half(whole: Lump, joint: Joint, name: str, box: Extents, *, above: bool) -> Lump:
    """Cut a half off the lump; where it has no metal past the joint its section is drawn on."""
    axis, skim = joint.axis, joint.skim
    edge = joint.at - skim if above else joint.at + skim
    low, high = [n - _OVER for n in box.low], [n + _OVER for n in box.high]
    if above:
        high[axis] = edge
    else:
        low[axis] = edge
    beyond = Box(low=_vec(low), high=_vec(high))
    metal = tuple(
        _grown_to(region, axis, edge, joint.at, above=above)
        for region in whole.metal
        if _beside(extents_of(region), axis, joint.at, above=above)
    )
    return Lump(name=name, metal=metal, removed=(*whole.removed, beyond))


def _grown_to(
    region: Region, axis: int, edge: Millimetre, at: Millimetre, *, above: bool
) -> Region:
    """Let a block that ends in the joint reach on to where the saw goes."""
    if not isinstance(region, Box):
        return region
    low, high = list(region.low), list(region.high)
    if above and abs(low[axis] - at) < _OVER + abs(edge - at):
        low[axis] = min(low[axis], edge)
    elif not above and abs(high[axis] - at) < _OVER + abs(edge - at):
        high[axis] = max(high[axis], edge)
    return Box(low=_vec(low), high=_vec(high))


def _beside(box: Extents, axis: int, at: Millimetre, *, above: bool) -> bool:
    return box.high[axis] > at + _NEAR if above else box.low[axis] < at - _NEAR


def _vec(values: list[float]) -> Vec3:
    return (values[0], values[1], values[2])


def piece_of(part: Part, name: str) -> Piece | None:
    """Give the drawing's piece of that name."""
    return next((piece for piece in part.pieces if piece.name == name), None)


def as_part(part: Part, name: str) -> Part:
    """Give one piece as if it were a part: its own metal, surfaces, distances, features.

    The whole part put together is ``together`` or ``whole``.
    """
    piece = piece_of(part, name)
    if piece is None or name in {WHOLE, TOGETHER}:
        return part
    joint = next((j for j in joints_of(part) if name in j.halves), None)
    metal = extents_of_all(piece.metal)
    kept = tuple(s for s in part.surfaces if _shows(s, piece, joint, metal))
    names = {s.name for s in kept}
    return replace(
        part,
        features=tuple(f for f in part.features if getattr(f, "name", "") in piece.features),
        surfaces=kept,
        distances=tuple(d for d in part.distances if {d.a, d.b} <= names),
        requirements=tuple(r for r in part.requirements if {r.surface, r.to} <= names),
        metal=tuple(piece.metal),
        removed=tuple(piece.removed),
        pieces=(piece,),
    )


def _shows(surface: Surface, piece: Piece, joint: Joint | None, metal: Extents | None) -> bool:
    """Tell whether a surface lies on a piece: on its side of the joint, its own joint face."""
    if surface.feature not in piece.features:
        return False
    if joint is None or metal is None:
        return True
    if surface.feature == joint.name:
        return surface.name == f"{piece.name} {joint.name}"
    axis = joint.axis
    low, high = surface.low[axis], surface.high[axis]
    if piece.name == joint.halves[0]:
        return high > joint.at + _NEAR
    return low < joint.at - _NEAR
