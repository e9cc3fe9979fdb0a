"""Pieces of a metal of their own, put into turned work: each as a part by itself, on its own axis.

A pin pressed into a crank disc is turned from its own bar, about its own line; what is done to it
has no business with the disc until the two go together.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.drawing.geometry import Cone, Cylinder, Region, TaperTube, Tube
from halfthou.drawing.model import (
    Boss,
    Centres,
    ChamferCut,
    Feature,
    Hole,
    HoleStep,
    Part,
    Piece,
    Round,
    Surface,
)
from halfthou.errors import NoPlan
from halfthou.planning.axes import dot
from halfthou.planning.model import Scheme
from halfthou.units import Millimetre, Vec3

APART: Final = "apart"
TOGETHER: Final = "together"
_NEAR: Final[Millimetre] = 1e-6
_AXIS: Final = 0


def fixed_pieces(part: Part) -> tuple[Piece, ...]:
    """Give the pieces that are put into turned work; none where the work is not turned."""
    return tuple(piece for piece in part.pieces if piece.fixed) if part.turned else ()


def main_part(part: Part) -> Part:
    """Give turned work without what is put into it."""
    apart = frozenset(name for piece in fixed_pieces(part) for name in piece.features)
    alone = replace(part, pieces=tuple(p for p in part.pieces if not p.fixed))
    return _keeping(alone, frozenset(name_of(f) for f in part.features) - apart)


def _moved_surface(one: Surface, by: Vec3) -> Surface:
    """Give a surface of a piece by itself: the wall it is put in by is its own feature then."""
    return replace(
        one,
        feature=one.name if one.name == inside_of(one.feature) else one.feature,
        point=_sum(one.point, by),
        low=_sum(one.low, by),
        high=_sum(one.high, by),
    )


def own_part(part: Part, piece: Piece) -> Part:
    """Give one piece as a part of its own, moved sideways until its axis is that of turned work.

    Raises
    ------
    NoPlan
        If the piece is not turned work itself, or nothing says what it is made from.
    """
    bodies = [f for f in part.features if isinstance(f, Boss) and f.name in piece.features]
    if not bodies or any(b.axis != _AXIS or not _in_line(b, bodies[0]) for b in bodies):
        raise NoPlan(
            f"the {piece.name} of the {part.name} is not turned work",
            where=f"[piece.{piece.name}]",
            why="a piece put into turned work is planned where it is round, "
            "on one line along the work's own axis",
            tries=("give it a part file of its own",),
        )
    if piece.blank is None:
        raise NoPlan(
            f"nothing says what the {piece.name} of the {part.name} is made from",
            where=f"[piece.{piece.name}]",
            why="a piece of a metal of its own has a bar of its own",
            tries=(f'bar = "round {bodies[0].diameter.nominal + 1:.0f} x 100"',),
        )
    alone = _keeping(part, frozenset(piece.features))
    off = place_of(part, piece)
    by: Vec3 = (0.0, -off[1], -off[2])
    return replace(
        alone,
        name=piece.name,
        material=piece.material,
        blank=piece.blank,
        features=tuple(moved for f in alone.features for moved in _moved(f, by)),
        surfaces=tuple(_moved_surface(s, by) for s in alone.surfaces),
        metal=tuple(_filled(moved_region(r, by)) for r in piece.metal),
        removed=tuple(
            moved_region(r, by)
            for r in (*piece.removed, *(hollow for m in piece.metal for hollow in _hollow(m)))
        ),
        findings=(),
        pieces=(),
        mates=tuple(m for m in part.mates if m.surface in {s.name for s in alone.surfaces}),
        notes=(),
        aliases=(),
        treatment="",
    )


def inside_of(name: str) -> str:
    """Name the bore of a ring: planned as a hole through it, under the name of its surface."""
    return f"{name} inside"


def _filled(region: Region) -> Region:
    """Give a ring as the bar it is bored from."""
    if isinstance(region, Tube):
        return Cylinder(start=region.start, end=region.end, diameter=region.outside)
    return region


def _hollow(region: Region) -> tuple[Region, ...]:
    """Give what is bored out of a ring."""
    if isinstance(region, Tube):
        return (Cylinder(start=region.start, end=region.end, diameter=region.inside),)
    return ()


def _bore_of(ring: Boss) -> tuple[Hole, ...]:
    """Give the bore of a ring as a hole right through."""
    if ring.inside is None:
        return ()
    step = HoleStep(
        kind="plain", diameter=ring.inside, start=0.0, end=ring.end - ring.start,
        breaks_out=True, point=False, text=ring.inside.text,
    )  # fmt: skip
    return (
        Hole(
            name=inside_of(ring.name), entries=((ring.start, 0.0, 0.0),), into=(1.0, 0.0, 0.0),
            steps=(step,), face="left", on_axis=True,
        ),
    )  # fmt: skip


def place_of(part: Part, piece: Piece) -> Vec3:
    """Give how far a piece's axis lies beside the axis of the work it is put into; [mm]."""
    body = next(f for f in part.features if isinstance(f, Boss) and f.name in piece.features)
    return (0.0, body.centre[1], body.centre[2])


def held_piece(scheme: Scheme) -> str:
    """Name the piece that is held by itself; empty for the work it is put into."""
    state = scheme.piece_state
    return state[0][0] if len(state) == 1 and state[0][1] == APART else ""


def seen_in(part: Part, scheme: Scheme) -> Part:
    """Give the part as a set-up sees it: the piece held by itself, else all of it."""
    name = held_piece(scheme)
    piece = next((p for p in fixed_pieces(part) if p.name == name), None)
    return part if piece is None else own_part(part, piece)


def name_of(feature: Feature) -> str:
    """Name a feature; centres in the ends go by none."""
    return "" if isinstance(feature, Centres) else feature.name


def _keeping(part: Part, names: frozenset[str]) -> Part:
    """Give the part with only these features, and what is said between their surfaces."""
    surfaces = tuple(s for s in part.surfaces if s.feature in names)
    own = {s.name for s in surfaces}
    return replace(
        part,
        features=tuple(f for f in part.features if name_of(f) in names),
        surfaces=surfaces,
        distances=tuple(d for d in part.distances if {d.a, d.b} <= own),
        requirements=tuple(r for r in part.requirements if {r.surface, r.to} <= own),
    )


def _in_line(a: Boss, b: Boss) -> bool:
    return math.dist(a.centre[1:], b.centre[1:]) < _NEAR


def _moved(feature: Feature, by: Vec3) -> tuple[Feature, ...]:
    match feature:
        case Boss():
            outside = Round(
                name=feature.name,
                left=feature.start,
                right=feature.end,
                diameter=feature.diameter,
            )
            return (outside, *_bore_of(feature))
        case Hole():
            entries = tuple(_sum(entry, by) for entry in feature.entries)
            along = abs(dot(feature.into, (1.0, 0.0, 0.0))) > 1 - _NEAR
            centred = along and all(math.hypot(e[1], e[2]) < _NEAR for e in entries)
            return (replace(feature, entries=entries, on_axis=centred),)
        case ChamferCut():
            return (replace(feature, region=moved_region(feature.region, by)),)
        case _:
            return (feature,)


def moved_region(region: Region, by: Vec3) -> Region:
    """Give a round region moved."""
    if isinstance(region, Cylinder | Cone | Tube | TaperTube):
        return replace(region, start=_sum(region.start, by), end=_sum(region.end, by))
    raise TypeError(f"a piece of turned work has no {type(region).__name__}")


def _sum(point: Vec3, by: Vec3) -> Vec3:
    return (point[0] + by[0], point[1] + by[1], point[2] + by[2])
