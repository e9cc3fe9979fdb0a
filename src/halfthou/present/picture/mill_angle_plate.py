"""Work against an angle plate on the mill: the plate, straps through it, a jack under the rest."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.geometry import Cylinder
from halfthou.drawing.model import OUTWARD
from halfthou.planning.model import Scheme
from halfthou.present.picture.mill_axes import MillAxes, Room, disc_on_mill
from halfthou.present.picture.mill_holding import (
    Bearing,
    HoldingPiece,
    Piece,
    Span,
    piece_on_mill,
)
from halfthou.units import Millimetre

_THICK: Final[Millimetre] = 9.0
_LEG: Final[Millimetre] = 34.0
"""How much of the leg that lies on the table is drawn behind the plate."""
_BESIDE: Final[Millimetre] = 14.0
_JACK: Final[Millimetre] = 20.0
"""Room under the work for a jack."""
_LOWER: Final[Millimetre] = 4.0
"""How far the plate ends below the top of the work: the cutter runs over it."""
_STRAP: Final[Millimetre] = 6.0
_STRAP_WIDE: Final[Millimetre] = 12.0
_OUT: Final[Millimetre] = 20.0
_COLUMN: Final[Millimetre] = 4.0
_SQUARE: Final = 0.5


def lies_against(scheme: Scheme, axes: MillAxes) -> tuple[int, float]:
    """Along which way of the table, and to which side, the work lies against the plate."""
    for name in scheme.seats:
        side = name.split(" ")[-1]
        for known, outward in OUTWARD.items():
            if side != known:
                continue
            out = axes.on_mill(outward)
            for way in (0, 1):
                if abs(out[way]) > _SQUARE:
                    return way, 1.0 if out[way] > 0 else -1.0
    return 1, 1.0


def angle_plate(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Draw the plate, its leg on the table, a strap on each side, a jack under the far end."""
    way, sense = lies_against(scheme, axes)
    work = bearing.work
    against = work.high[way] if sense > 0 else work.low[way]
    lay = _Against(axes=axes, way=way, sense=sense, face=against, bearing=bearing)
    table = work.low[2] - _JACK
    across = (work.low[1 - way] - _BESIDE, work.high[1 - way] + _BESIDE)
    top = work.high[2] - _LOWER
    found = [
        lay.piece("angle plate", (0.0, _THICK), across, (table, top)),
        lay.piece("angle plate", (_THICK, _THICK + _LEG), across, (table, table + _THICK)),
        *_jack(lay, table),
    ]
    for end, outward in ((work.low[1 - way], -1.0), (work.high[1 - way], 1.0)):
        found += _strap(lay, end, outward)
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Against:
    """Work against an upright face: places count from it, into the plate; across; and up."""

    axes: MillAxes
    way: int
    sense: float
    face: Millimetre
    bearing: Bearing

    @property
    def reach(self) -> Millimetre:
        """How far the work reaches out from the plate."""
        return self.bearing.work.high[self.way] - self.bearing.work.low[self.way]

    def flat(self, depth: Millimetre, across: Millimetre) -> tuple[float, float]:
        """Return a place in plan."""
        along = self.face + self.sense * depth
        return (along, across) if self.way == 0 else (across, along)

    def room(self, depths: Span, across: Span, levels: Span) -> Room:
        """Return a block of space."""
        x1, y1 = self.flat(depths[0], across[0])
        x2, y2 = self.flat(depths[1], across[1])
        return Room(
            low=(min(x1, x2), min(y1, y2), levels[0]), high=(max(x1, x2), max(y1, y2), levels[1])
        )

    def piece(self, name: Piece, depths: Span, across: Span, levels: Span) -> HoldingPiece:
        """Return a block of what holds the work."""
        room = self.room(depths, across, levels)
        return piece_on_mill(name, room.low, room.high, self.axes)

    def metal(self, depths: Span, across: Span) -> Room | None:
        """Return what the work takes up within a column."""
        work = self.bearing.work
        room = self.room(depths, across, (work.low[2], work.high[2]))
        return self.bearing.metal_in(room) if self.bearing.metal_in else room


def _strap(lay: _Against, end: Millimetre, outward: float) -> list[HoldingPiece]:
    """Draw a strap on the ledge at one end, its heel on packing, its bolt through the plate."""
    inside = (end - outward * _COLUMN, end)
    ledge = lay.metal((-lay.reach, 0.0), (min(inside), max(inside)))
    if ledge is None:
        return []
    thick = ledge.high[lay.way] - ledge.low[lay.way]
    middle = (ledge.low[2] + ledge.high[2]) / 2
    levels = (middle - _STRAP_WIDE / 2, middle + _STRAP_WIDE / 2)
    out = (end - outward * 1.5 * _COLUMN, end + outward * _OUT)
    heel = (end + outward * 0.7 * _OUT, end + outward * _OUT)
    at = end + outward * 0.35 * _OUT
    depths = (-thick - _STRAP - 5.0, _THICK + 4.0)
    bolt = Cylinder(
        start=lay.axes.in_part((*lay.flat(depths[0], at), middle)),
        end=lay.axes.in_part((*lay.flat(depths[1], at), middle)),
        diameter=7.0,
    )
    return [
        lay.piece("clamp", (-thick - _STRAP, -thick), (min(out), max(out)), levels),
        lay.piece("clamp", (-thick, 0.0), (min(heel), max(heel)), levels),
        HoldingPiece(name="clamp", region=bolt),
    ]


def _jack(lay: _Against, table: Millimetre) -> list[HoldingPiece]:
    """Stand a jack under the end that overhangs."""
    work = lay.bearing.work
    middle = (work.low[1 - lay.way] + work.high[1 - lay.way]) / 2
    depth = -0.82 * lay.reach
    metal = lay.metal((depth - _COLUMN, depth + _COLUMN), (middle - _COLUMN, middle + _COLUMN))
    if metal is None:
        return []
    at = lay.flat(depth, middle)
    sizes = ((table, table + 7.0, 16.0), (table + 7.0, metal.low[2], 8.0))
    return [
        HoldingPiece(
            name="jack",
            region=disc_on_mill(at=at, bottom=low, top=high, diameter=wide, axes=lay.axes),
        )
        for low, high, wide in sizes
    ]
