"""What is held at one time: a piece by itself, or the pieces together, as faces to hold by."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.drawing.model import OUTWARD, Side
from halfthou.planning.axes import Extents, dot, extents_of, side_toward
from halfthou.planning.cast.pieces import TOGETHER, WHOLE, Pieces, as_part
from halfthou.planning.model import Operation
from halfthou.units import Millimetre

Held: TypeAlias = Literal["raw", "cut"]
"""How a face is when it is held by: as cast, or machined."""

State: TypeAlias = Literal["apart", "clamped", "together", "whole"]
"""How the pieces that are held stand to each other."""
_SQUARE: Final = 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A flat face of a piece: which way it looks, where it lies when finished, its stock.

    ``at`` and ``over`` are along its own outward direction; a face with no stock stays raw.
    """

    name: str
    side: Side
    at: Millimetre
    over: Millimetre
    own: Extents
    clean_up: bool = False

    @property
    def stays_raw(self) -> bool:
        """Whether it is never cut."""
        return self.over <= 0

    def reading(self, held: Held) -> Millimetre:
        """Give where it lies in that state, along its own outward direction [mm]."""
        return self.at + (self.over if held == "raw" else 0.0)

    @property
    def area(self) -> float:
        """Size of the face [mm²]."""
        sizes = sorted(self.own.high[i] - self.own.low[i] for i in range(3))
        return sizes[1] * sizes[2]


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """One piece, or all of them as one: its faces, its raw metal as boxes, its state.

    ``operations`` are all that cut it in any state, ``able`` those that can be done in this one.
    ``need`` and ``ban`` are what brings it into that state and out of it again.
    """

    name: str
    state: State
    pieces: tuple[str, ...]
    faces: tuple[Face, ...]
    metal: tuple[Extents, ...]
    operations: tuple[Operation, ...]
    able: frozenset[str] = frozenset()
    need: tuple[tuple[str, str], ...] = ()
    ban: tuple[tuple[str, str], ...] = ()

    @property
    def box(self) -> Extents:
        """The box round it, raw [mm]."""
        box = self.metal[0]
        for one in self.metal[1:]:
            box = box.joined(one)
        return box

    @property
    def states(self) -> tuple[tuple[str, str], ...]:
        """Each piece held, with the state of the joint."""
        return tuple((name, self.state) for name in self.pieces)

    def looking(self, side: Side) -> tuple[Face, ...]:
        """Give the faces that look to a side, the outermost first."""
        found = [f for f in self.faces if f.side == side]
        return tuple(sorted(found, key=lambda f: (-f.at, f.name)))

    def makers(self, face: Face) -> tuple[str, ...]:
        """Give every operation that finishes a face, whichever alternative is taken."""
        return tuple(op.key for op in self.operations if face.name in op.makes)


def faces_of(pieces: Pieces, name: str) -> tuple[Face, ...]:
    """Give the flat faces square to the frame of a piece, or of the part put together."""
    part = as_part(pieces.part, name)
    joint = pieces.joint
    found = []
    for surface in part.surfaces:
        square = any(abs(dot(surface.direction, d)) > _SQUARE for d in OUTWARD.values())
        inner = joint is not None and surface.feature == joint.name
        if surface.kind != "plane" or not square:
            continue
        if surface.inside and not (inner and name not in {TOGETHER, WHOLE}):
            continue
        side = side_toward(surface.direction)
        stock = _sawn_skim(pieces) if inner else pieces.part.blank.stock
        found.append(
            Face(
                name=surface.name,
                side=side,
                at=dot(surface.point, OUTWARD[side]),
                over=0.0 if surface.raw else stock,
                own=Extents(low=surface.low, high=surface.high),
                clean_up=surface.clean_up,
            )
        )
    return tuple(found)


def _sawn_skim(pieces: Pieces) -> Millimetre:
    joint = pieces.joint
    if joint is not None and joint.kind == "sawn":
        return joint.skim
    return pieces.part.blank.stock


def metal_of(pieces: Pieces, names: tuple[str, ...]) -> tuple[Extents, ...]:
    """Give the raw metal of pieces as boxes."""
    return tuple(extents_of(r) for n in names for r in pieces.start(n).metal)
