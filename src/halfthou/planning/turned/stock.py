"""The lump as sawn: where the metal lies round the finished part before the first cut.

A turned part may be sawn to its length with a skim for each face, or left longer at one end: the
chucking piece, by which it is held until it is parted off. Centres that do not stay in the part
are drilled in metal left beyond its ends and faced off. Each lump is one the planner tries.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.geometry import Cylinder, Region, hexagon_bar, square_bar
from halfthou.drawing.model import Part
from halfthou.planning.turned.shape import (
    ENDS,
    End,
    end_at,
    ends,
    holes_on_axis,
    largest,
    other_end,
    rounds,
)
from halfthou.planning.turned.turned_off import spare_for_centre
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

FACING: Final = 1.0
"""Metal left on each sawn end for facing it clean, mm (usual practice)."""
PARTED: Final = 0.5
"""Metal left on a parted face for facing it true, mm (usual practice)."""
SAWN: Final = 1.5
"""Metal left on a face sawn off a chucking piece, for facing it true, mm (usual practice)."""
PARTING_ROOM: Final = 2.0
"""Clear space between parting tool and jaws, mm (usual practice)."""
LEAST_GRIP: Final = 10.0
"""Least length in the jaws, mm (usual practice)."""
OVER_CORNERS: Final = {"hexagon bar": 2 / math.sqrt(3), "square bar": math.sqrt(2)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A blank in the part's own frame. ``chucking`` is the end left long to hold by, if any.

    ``low`` and ``high`` are its ends along x; ``across`` its diameter (across the corners for
    hexagon and square bar), ``solid`` the largest round that lies wholly inside it. ``spare`` is
    the metal beyond each finished end, left there for a centre that is faced off, by end.
    ``sawn_off`` says that the chucking piece is too thick for the parting tool.
    """

    low: Millimetre
    high: Millimetre
    across: Millimetre
    metal: tuple[Region, ...]
    chucking: End | None = None
    parting_width: Millimetre = 0.0
    sawn_off: bool = False
    saw: Millimetre = 0.0
    solid: Millimetre = 0.0
    spare: tuple[tuple[End, Millimetre], ...] = ()

    def end(self, end: End) -> Millimetre:
        """Where the metal ends along x as sawn; [mm]."""
        return self.high if end == "right" else self.low

    def spare_at(self, end: End) -> Millimetre:
        """Metal left beyond the finished end for a centre; [mm]."""
        return dict(self.spare).get(end, 0.0)

    def to_face(self, end: End) -> Millimetre:
        """Metal left at an end once it is sawn or parted off, before it is faced; [mm]."""
        if self.chucking != end:
            return FACING + self.spare_at(end)
        return (SAWN if self.sawn_off else PARTED) + self.spare_at(end)


def longest(part: Part, stock: Stock, end: End) -> Millimetre:
    """Give how far the metal reaches at an end when tools come to it, along x; [mm]."""
    if stock.chucking != end:
        return stock.end(end)
    sign = 1.0 if end == "right" else -1.0
    return end_at(part, end) + sign * stock.to_face(end)


def grip_wanted(diameter: Millimetre, jaws: Millimetre) -> Millimetre:
    """Give the length to hold by: one diameter, no less than 10 nor more than the jaws; [mm]."""
    return max(LEAST_GRIP, min(diameter, jaws))


def turned_stocks(part: Part, workshop: Workshop) -> tuple[Stock, ...]:
    """Give every blank worth trying: sawn to length, or with a chucking piece at either end."""
    x0, x1 = ends(part)
    spare = tuple((end, spare_for_centre(part, end)) for end in ENDS)
    there = _length_given(part) - (x1 - x0) - sum(s for _, s in spare)
    if there <= 0:
        return ()
    side = min(FACING, there / 2)
    tried = [_stock(part, spare, left=side, right=side)]
    for end in ENDS:
        piece = _chucking_piece(workshop, part, end)
        if piece is not None and piece.length + FACING <= there:
            tried.append(_with_piece(part, spare, end, piece))
    return tuple(tried)


def _with_piece(
    part: Part, spare: tuple[tuple[End, Millimetre], ...], end: End, piece: _Piece
) -> Stock:
    left, right = (piece.length, FACING) if end == "left" else (FACING, piece.length)
    sawn = _stock(part, spare, left=left, right=right)
    return replace(sawn, chucking=end, parting_width=piece.width, sawn_off=piece.sawn_off)


def _length_given(part: Part) -> Millimetre:
    """Length of the bar; as long as need be where the part file gives none."""
    return part.blank.size[0] if part.blank.size[0] > 0 else math.inf


def _bar(part: Part, low: float, high: float) -> tuple[Region, ...]:
    start, end = (low, 0.0, 0.0), (high, 0.0, 0.0)
    across = part.blank.across
    match part.blank.form:
        case "hexagon bar":
            return (hexagon_bar(across_flats=across, start=start, end=end),)
        case "square bar":
            return (square_bar(across_flats=across, start=start, end=end),)
        case _:
            return (Cylinder(start=start, end=end, diameter=across),)


def _over_corners(part: Part) -> Millimetre:
    return part.blank.across * OVER_CORNERS.get(part.blank.form, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    """A chucking piece: its length beyond the part, and what takes it off."""

    length: Millimetre
    width: Millimetre
    sawn_off: bool


def _chucking_piece(workshop: Workshop, part: Part, end: End) -> _Piece | None:
    """Metal to hold by: parted off where the tool reaches through, else sawn off."""
    across = _over_corners(part)
    jaws = [d for d in workshop.holding if d.device in {"three-jaw chuck", "four-jaw chuck"}]
    jaws = [d for d in jaws if d.smallest <= across <= d.largest]
    if not jaws:
        return None
    parting = next((t for t in workshop.tools if t.kind == "parting tool"), None)
    reaches = parting is not None and parting.reach >= _to_part_through(part, end)
    width = parting.width if parting is not None and reaches else workshop.saw_kerf
    grip = grip_wanted(across, jaws[0].jaw_depth)
    left = PARTED if reaches else SAWN
    return _Piece(length=grip + PARTING_ROOM + width + left, width=width, sawn_off=not reaches)


def _to_part_through(part: Part, end: End) -> Millimetre:
    """Metal a side for the parting tool: the end as turned, less a hole right through it."""
    last = rounds(part)[-1 if end == "right" else 0]
    bores = [
        step.diameter.nominal
        for hole in holes_on_axis(part)
        for step in hole.steps
        if step.breaks_out
    ]
    return (largest(last) - max(bores, default=0.0)) / 2


def _stock(
    part: Part,
    spare: tuple[tuple[End, Millimetre], ...],
    *,
    left: Millimetre,
    right: Millimetre,
) -> Stock:
    x0, x1 = ends(part)
    kept = dict(spare)
    low, high = x0 - left - kept["left"], x1 + right + kept["right"]
    return Stock(
        low=low,
        high=high,
        across=_over_corners(part),
        metal=_bar(part, low, high),
        saw=high - low,
        solid=part.blank.across,
        spare=spare,
    )


def far_from(part: Part, stock: Stock, end: End) -> Millimetre:
    """Give where a cut from ``end`` right through comes out: past the parting tool, or the saw."""
    far = other_end(end)
    if stock.chucking != far:
        return stock.end(far)
    sign = 1.0 if far == "right" else -1.0
    return end_at(part, far) + sign * (stock.to_face(far) + stock.parting_width)
