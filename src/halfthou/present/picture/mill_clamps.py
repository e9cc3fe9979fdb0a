"""Straps that clamp work to the table: on parallels, clear of the cuts, heels on packing."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.model import OUTWARD
from halfthou.planning.model import Scheme
from halfthou.present.picture.mill_axes import MillAxes, Room, disc_on_mill
from halfthou.present.picture.mill_holding import (
    THINNEST,
    Bearing,
    HoldingPiece,
    Piece,
    Span,
    piece_on_mill,
    seat_level,
)
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

_ALONG: Final = 0.9
_PACKING: Final[Millimetre] = 8.0
_FREE: Final[Millimetre] = 1.0
"""Room left between the table and what hangs over it."""
_STOP: Final[Millimetre] = 10.0
ACROSS: Final = "one strap across"
_STRAP_WIDE: Final[Millimetre] = 12.0
_LOW: Final[Millimetre] = 10.0
"""So much lower than the top, an end is held by a clamp of its own. [mm]"""
_STUD_OUT: Final[Millimetre] = 8.0
_CLEAR: Final[Millimetre] = 6.0
"""Between a strap and a cut: a drill chuck has to come down beside it."""


def clamps(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Work on parallels, a strap on each of two ends clear of what is cut, its heel on packing."""
    work, cuts, foot = bearing.work, bearing.cuts, bearing.foot
    table = table_level(scheme, bearing)
    lay = _laid_clear(scheme, axes, bearing, table)
    straps = _straps(lay, cuts)
    if "one by one" in scheme.links[-1].detail:
        lay, straps = _one_end_first(axes, work, table)
    if ACROSS in scheme.links[-1].detail:
        straps = _across_the_middle(lay, bearing)
    along = lay.along
    low, high = foot.low[along], foot.high[along]
    edge = 0.22 * (high - low)
    wide = 0.1 * (foot.high[1 - along] - foot.low[1 - along])
    sides = (foot.low[1 - along] + wide, foot.high[1 - along] - wide)
    ends = ((low + 0.1 * edge, low + edge), (high - edge, high - 0.1 * edge))
    if bearing.below is not None:
        hangs = bearing.below
        ends = ((low, hangs.low[along] - 0.5), (hangs.high[along] + 0.5, high))
        middle = (foot.low[1 - along] + foot.high[1 - along]) / 2
        sides = (middle - lay.half_wide, middle + lay.half_wide)
    found = [
        lay.piece("parallel", one, sides, (table, seat_level(scheme, work)))
        for one in ends
        if one[1] - one[0] > THINNEST
    ]
    return (*found, *straps)


def table_level(scheme: Scheme, bearing: Bearing) -> Millimetre:
    """How high the table lies under clamped work: clear of what hangs below the seat [mm]."""
    seat = seat_level(scheme, bearing.work)
    if bearing.below is None:
        return bearing.work.low[2] - _PACKING
    return seat - math.ceil(seat - bearing.work.low[2] + _FREE)


def stop_against(
    push: Point2, work: Room, keep: Sequence[Room], *, levels: Span, axes: MillAxes
) -> HoldingPiece:
    """Set a stop at the end of the work that a cut pushes toward, beside what it must clear.

    ``push`` is the way the cut goes over the work; ``keep`` are clamps and the cutter's run;
    ``levels`` how high the table and the work's edge lie.
    """
    along = 0 if abs(push[0]) >= abs(push[1]) else 1
    sense = 1.0 if push[along] >= 0 else -1.0
    at = work.high[along] if sense > 0 else work.low[along]
    low, high = work.low[1 - along], work.high[1 - along]
    half = min(_STOP / 2, 0.12 * (high - low))
    ends = _span(at, at + sense * _STOP)

    def clash(middle: Millimetre) -> float:
        return sum(
            max(0.0, min(room.high[along], ends[1]) - max(room.low[along], ends[0]))
            * max(
                0.0,
                min(room.high[1 - along], middle + half) - max(room.low[1 - along], middle - half),
            )
            for room in keep
        )

    spots = [low + share * (high - low) for share in (0.5, 0.3, 0.7, 0.12, 0.88)]
    middle = min(spots, key=clash)
    table, edge = levels
    top = work.low[2] + 0.6 * (edge - work.low[2])
    x, y = (ends, (middle - half, middle + half))[:: 1 if along == 0 else -1]
    return piece_on_mill("stop", (x[0], y[0], table), (x[1], y[1], top), axes)


def _one_end_first(
    axes: MillAxes, work: Room, table: Millimetre
) -> tuple[_Laid, list[HoldingPiece]]:
    """Lay two straps on the left end, clear of the half cut first; they move to the right end."""
    lay = _Laid(axes=axes, along=0, work=work, half=7.0, clear=_CLEAR, table=table)
    low, high = work.low[1], work.high[1]
    names: tuple[Piece, Piece] = ("clamp", "clamp moved")
    return lay, [
        replace(piece, name=name)
        for name, (at, sense) in zip(names, lay.ends, strict=True)
        for share in (0.25, 0.75)
        for piece in _strap(lay, at, sense, low + share * (high - low))
    ]


def _across_the_middle(lay: _Laid, bearing: Bearing) -> list[HoldingPiece]:
    """Lay one strap over the top of the work the short way, a stud at each of its ends."""
    work = bearing.work
    along = 0 if work.high[0] - work.low[0] < work.high[1] - work.low[1] else 1
    lay = replace(lay, along=along)
    middle = (work.low[1 - along] + work.high[1 - along]) / 2
    sides = (middle - _STRAP_WIDE / 2, middle + _STRAP_WIDE / 2)
    low, high = lay.ends[0][0], lay.ends[1][0]
    top = lay.bears_at((low, high), sides)
    studs = []
    for at in (low - _STUD_OUT, high + _STUD_OUT):
        spot = (at, middle) if along == 0 else (middle, at)
        stud = disc_on_mill(at=spot, bottom=lay.table, top=top + 15.0, diameter=7.0, axes=lay.axes)
        studs.append(HoldingPiece(name="clamp", region=stud))
    reach = (low - 2 * _STUD_OUT, high + 2 * _STUD_OUT)
    over = lay.piece("clamp", reach, sides, (top, top + 8.0))
    return [over, *studs, *_low_at_the_ends(replace(lay, along=1 - along), top)]


def _low_at_the_ends(lay: _Laid, top: Millimetre) -> list[HoldingPiece]:
    """Lay a clamp at either end of the long way where the work stands out low there: on a foot."""
    middle = (lay.work.low[1 - lay.along] + lay.work.high[1 - lay.along]) / 2
    sides = (middle - lay.half_wide, middle + lay.half_wide)
    low = all(lay.bears_at(lay.strap(at, sense), sides) < top - _LOW for at, sense in lay.ends)
    if not low:
        return []
    return [piece for at, sense in lay.ends for piece in _strap(lay, at, sense, middle)]


def _laid_clear(scheme: Scheme, axes: MillAxes, bearing: Bearing, table: Millimetre) -> _Laid:
    """Find how to lay a strap on each of two ends, clear of the cuts if any way is."""
    work, named = bearing.work, _named_ends(scheme, axes)
    tried = [
        _Laid(
            axes=axes,
            along=along,
            work=work,
            half=half,
            clear=clear,
            table=table,
            top_at=bearing.top_at,
        )
        for half, clear in ((7.0, _CLEAR), (5.0, _CLEAR / 2), (5.0, 1.0))
        for along in ((0, 1) if named is None else (named,))
    ]
    fit = [one for one in tried if None not in _places(one, bearing.cuts)]
    return min(fit, key=lambda one: _poor(one, bearing.cuts), default=tried[0])


def _straps(lay: _Laid, cuts: Sequence[Room]) -> list[HoldingPiece]:
    middle = (lay.work.low[1 - lay.along] + lay.work.high[1 - lay.along]) / 2
    return [
        piece
        for (at, sense), spot in zip(lay.ends, _places(lay, cuts), strict=True)
        for piece in _strap(lay, at, sense, middle if spot is None else spot)
    ]


def _poor(lay: _Laid, cuts: Sequence[Room]) -> tuple[bool, bool, float]:
    """Tell how poor a way is: hardly clear first, then aside of the middle, then close."""
    middle = (lay.work.low[1 - lay.along] + lay.work.high[1 - lay.along]) / 2
    aside = sum(abs(spot - middle) for spot in _places(lay, cuts) if spot is not None)
    return lay.clear < _CLEAR / 2, aside > THINNEST, -lay.clear


def _places(lay: _Laid, cuts: Sequence[Room]) -> list[Millimetre | None]:
    return [_clear_of(cuts, lay, lay.strap(at, sense)) for at, sense in lay.ends]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """Work with a strap on each end of one way of the table: ``along`` is 0 for x, 1 for y."""

    axes: MillAxes
    along: int
    work: Room
    half: Millimetre
    clear: Millimetre
    table: Millimetre
    top_at: Callable[[Room], Millimetre] | None = None

    @property
    def ends(self) -> tuple[Span, Span]:
        """The two ends that are held, each with the way that leads off the work."""
        return (self.work.low[self.along], -1.0), (self.work.high[self.along], 1.0)

    @property
    def half_wide(self) -> Millimetre:
        """Half a strap's width; narrow work has narrow ones."""
        across = 1 - self.along
        return min(self.half, 0.2 * (self.work.high[across] - self.work.low[across]))

    @property
    def out(self) -> Millimetre:
        """How far a strap reaches out beyond the work: short ones hold small work."""
        return min(30.0, max(18.0, 0.3 * (self.ends[1][0] - self.ends[0][0])))

    def strap(self, at: Millimetre, sense: float) -> Span:
        """From where to where a strap goes that holds the end at a place."""
        lap = min(9.0, 0.12 * (self.work.high[self.along] - self.work.low[self.along]))
        return _span(at - sense * lap, at + sense * self.out)

    def bears_at(self, ends: Span, sides: Span) -> Millimetre:
        """How high the work stands where a strap bears on it."""
        low, high = self.work.low, self.work.high
        if self.top_at is None:
            return high[2]
        x, y = (ends, sides) if self.along == 0 else (sides, ends)
        inside = Room(
            low=(max(x[0], low[0]), max(y[0], low[1]), low[2]),
            high=(min(x[1], high[0]), min(y[1], high[1]), high[2]),
        )
        return self.top_at(inside)

    def piece(self, name: Piece, ends: Span, sides: Span, levels: Span) -> HoldingPiece:
        """Return a block given along, across and up."""
        x, y = (ends, sides) if self.along == 0 else (sides, ends)
        return piece_on_mill(name, (x[0], y[0], levels[0]), (x[1], y[1], levels[1]), self.axes)


def _strap(lay: _Laid, at: Millimetre, sense: float, middle: Millimetre) -> list[HoldingPiece]:
    ends = lay.strap(at, sense)
    heel = _span(at + sense * 0.7 * lay.out, at + sense * lay.out)
    sides = (middle - lay.half_wide, middle + lay.half_wide)
    top, floor = lay.bears_at(ends, sides), lay.table
    away = at + sense * 0.3 * lay.out
    stud = (away, middle) if lay.along == 0 else (middle, away)
    bolt = disc_on_mill(at=stud, bottom=floor, top=top + 13.0, diameter=7.0, axes=lay.axes)
    return [
        lay.piece("clamp", ends, sides, (top, top + 6.0)),
        lay.piece("clamp", heel, sides, (floor, top)),
        HoldingPiece(name="clamp", region=bolt),
    ]


def _span(one: float, two: float) -> Span:
    return (one, two) if one < two else (two, one)


def _clear_of(cuts: Sequence[Room], lay: _Laid, ends: Span) -> Millimetre | None:
    """Return where along its end a strap lies clear of the cuts; None if it does nowhere."""
    along, across = lay.along, 1 - lay.along
    low, high = lay.work.low[across], lay.work.high[across]
    half, clear = lay.half_wide, lay.clear
    for share in (0.0, 0.15, -0.15, 0.25, -0.25, 0.35, -0.35):
        at = (low + high) / 2 + share * (high - low)
        if not any(
            room.low[along] - clear < ends[1]
            and ends[0] < room.high[along] + clear
            and room.low[across] < at + half + clear
            and at - half - clear < room.high[across]
            for room in cuts
        ):
            return at
    return None


def _named_ends(scheme: Scheme, axes: MillAxes) -> int | None:
    """Along which way of the table the ends lie that its words put the straps on, if any."""
    ends = f"{scheme.links[-1].detail} ".partition("clamps")[2]
    for side, outward in OUTWARD.items():
        if f" {side} " in ends:
            return 1 if abs(axes.on_mill(outward)[1]) > _ALONG else 0
    return None
