"""What holds the work on the mill, as pieces of space: the same ones serve every view.

Each device is a few blocks and rounds in the part's frame, cut down to what matters about the
work; the views draw them pale, the pictorial shades them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.drawing.geometry import Prism, Region
from halfthou.drawing.model import OUTWARD
from halfthou.planning.model import Scheme
from halfthou.present.picture.mill_axes import MillAxes, Room, box_on_mill, disc_on_mill
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Device

_ALONG: Final = 0.9
_PACKING: Final[Millimetre] = 8.0
_CLEAR: Final[Millimetre] = 6.0
"""Between a strap and a cut: a drill chuck has to come down beside it."""
_THINNEST: Final[Millimetre] = 0.5
Span: TypeAlias = tuple[Millimetre, Millimetre]

Piece: TypeAlias = Literal[
    "fixed jaw", "moving jaw", "parallel", "stop", "clamp", "table", "chuck", "V-block", "jaw"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldingPiece:
    """One piece of a holding device and what it is called; ``front`` pieces hide the work."""

    name: Piece
    region: Region


def mill_device(
    scheme: Scheme, axes: MillAxes, work: Room, cuts: Sequence[Room] = ()
) -> tuple[HoldingPiece, ...]:
    """Return the pieces that hold the work; a device with no picture of its own holds by clamps.

    Straps keep clear of the ``cuts`` where they can.
    """
    drawn = _DRAWN.get(scheme.device.device)
    return _clamps(scheme, axes, work, cuts) if drawn is None else drawn(scheme, axes, work)


def _piece(name: Piece, low: Vec3, high: Vec3, axes: MillAxes) -> HoldingPiece:
    return HoldingPiece(name=name, region=box_on_mill(low, high, axes))


def jaw_top(scheme: Scheme, work: Room) -> Millimetre:
    """How high the jaws reach, as the mill counts [mm]."""
    low, high = work.low[2], work.high[2]
    if low < scheme.grip_high < high:
        return scheme.grip_high
    return low + 0.6 * (high - low)


def _gripped(scheme: Scheme, work: Room) -> tuple[Millimetre, Millimetre]:
    """Where the jaws bear, near and far from the operator: a spigot is narrower than the work."""
    near, far = work.low[1], work.high[1]
    if 0 < scheme.grip_size < far - near:
        middle = (near + far) / 2
        return middle - scheme.grip_size / 2, middle + scheme.grip_size / 2
    return near, far


def _vice(scheme: Scheme, axes: MillAxes, work: Room) -> tuple[HoldingPiece, ...]:
    device = scheme.device
    top = jaw_top(scheme, work)
    deep = max(device.jaw_depth or 25.0, top - work.low[2] + 4.0)
    floor = top - min(deep, (top - work.low[2]) + 14.0)
    middle = (work.low[0] + work.high[0]) / 2
    wide = min(device.jaw_width or 80.0, (work.high[0] - work.low[0]) + 24.0)
    left, right = middle - wide / 2, middle + wide / 2
    thick = min(12.0, max(6.0, 0.28 * (work.high[1] - work.low[1]) + 4.0))
    near, far = _gripped(scheme, work)
    seat = (
        min(max(scheme.grip_low, work.low[2]), top - 1.0)
        if far - near < work.high[1] - work.low[1]
        else work.low[2]
    )
    bar = min(5.0, 0.22 * (far - near))
    found = [
        _piece("fixed jaw", (left, far, floor), (right, far + thick, top), axes),
        _piece("moving jaw", (left, near - thick, floor), (right, near, top), axes),
    ]
    if seat - floor > _THINNEST:
        reach = (left + 3.0, right - 3.0)
        found += [
            _piece("parallel", (reach[0], far - bar, floor), (reach[1], far, seat), axes),
            _piece("parallel", (reach[0], near, floor), (reach[1], near + bar, seat), axes),
        ]
    if len(scheme.seats) != 1 or "stop" in scheme.links[-1].detail:
        found.append(_stop(axes, work, far, thick, top))
    return tuple(found)


def _stop(axes: MillAxes, work: Room, far: float, thick: float, top: float) -> HoldingPiece:
    high = min(top - 1.0, work.low[2] + 0.7 * (work.high[2] - work.low[2]))
    return _piece(
        "stop",
        (work.low[0] - 5.0, far - 8.0, work.low[2] + 1.0),
        (work.low[0], far + 0.35 * thick, max(high, work.low[2] + 3.0)),
        axes,
    )


def _clamps(
    scheme: Scheme, axes: MillAxes, work: Room, cuts: Sequence[Room] = ()
) -> tuple[HoldingPiece, ...]:
    """Work on parallels, a strap on each of two ends clear of what is cut, its heel on packing."""
    along = 1 if _along_y(scheme, axes) else 0
    lay = _Laid(axes=axes, along=along, work=work)
    low, high = work.low[along], work.high[along]
    edge = 0.22 * (high - low)
    sides = (work.low[1 - along] + 6.0, work.high[1 - along] - 6.0)
    floor = work.low[2] - _PACKING
    found = [
        lay.piece("parallel", ends, sides, (floor, work.low[2]))
        for ends in ((low + 2.0, low + edge), (high - edge, high - 2.0))
    ]
    for at, sense in ((low, -1.0), (high, 1.0)):
        found += _strap(lay, at, sense, cuts)
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """Work with a strap on each end of one way of the table: ``along`` is 0 for x, 1 for y."""

    axes: MillAxes
    along: int
    work: Room

    def piece(self, name: Piece, ends: Span, sides: Span, levels: Span) -> HoldingPiece:
        """Return a block given along, across and up."""
        x, y = (ends, sides) if self.along == 0 else (sides, ends)
        return _piece(name, (x[0], y[0], levels[0]), (x[1], y[1], levels[1]), self.axes)


def _strap(lay: _Laid, at: Millimetre, sense: float, cuts: Sequence[Room]) -> list[HoldingPiece]:
    work, across = lay.work, 1 - lay.along
    wide = work.high[across] - work.low[across]
    half = min(7.0, 0.2 * wide)
    lap = min(9.0, 0.12 * (work.high[lay.along] - work.low[lay.along]))
    ends = _span(at - sense * lap, at + sense * 30.0)
    heel = _span(at + sense * 21.0, at + sense * 30.0)
    middle = _clear_of(cuts, lay, ends, half, wide)
    sides = (middle - half, middle + half)
    top, floor = work.high[2], work.low[2] - _PACKING
    stud = (at + sense * 8.0, middle) if lay.along == 0 else (middle, at + sense * 8.0)
    bolt = disc_on_mill(at=stud, bottom=floor, top=top + 13.0, diameter=7.0, axes=lay.axes)
    return [
        lay.piece("clamp", ends, sides, (top, top + 6.0)),
        lay.piece("clamp", heel, sides, (floor, top)),
        HoldingPiece(name="clamp", region=bolt),
    ]


def _span(one: float, two: float) -> Span:
    return (one, two) if one < two else (two, one)


def _clear_of(
    cuts: Sequence[Room], lay: _Laid, ends: Span, half: float, wide: float
) -> Millimetre:
    """Return where along its end a strap lies clear of the cuts; the middle if nowhere is."""
    along, across = lay.along, 1 - lay.along
    middle = (lay.work.low[across] + lay.work.high[across]) / 2
    for share in (0.0, 0.15, -0.15, 0.25, -0.25, 0.35, -0.35):
        at = middle + share * wide
        if not any(
            room.low[along] - _CLEAR < ends[1]
            and ends[0] < room.high[along] + _CLEAR
            and room.low[across] < at + half + _CLEAR
            and at - half - _CLEAR < room.high[across]
            for room in cuts
        ):
            return at
    return middle


def _along_y(scheme: Scheme, axes: MillAxes) -> bool:
    """Whether the straps lie on the ends toward and away from the operator, as its words say."""
    detail = f" {scheme.links[-1].detail} "
    for side, outward in OUTWARD.items():
        if f" {side} " in detail and "clamps" in detail:
            return abs(axes.on_mill(outward)[1]) > _ALONG
    return False


def _chuck(scheme: Scheme, axes: MillAxes, work: Room) -> tuple[HoldingPiece, ...]:
    """Lay a chuck on the table, jaws up: its body and three jaws."""
    size = scheme.grip_size or min(work.high[0] - work.low[0], work.high[1] - work.low[1])
    at = ((work.low[0] + work.high[0]) / 2, (work.low[1] + work.high[1]) / 2)
    top = jaw_top(scheme, work)
    body = max(size + 36.0, work.high[0] - work.low[0] + 10.0)
    found = [
        HoldingPiece(
            name="chuck",
            region=disc_on_mill(
                at=at, bottom=work.low[2] - 16.0, top=work.low[2] - 2.0, diameter=body, axes=axes
            ),
        )
    ]
    found += [
        HoldingPiece(name="jaw", region=_jaw(at, turn, size / 2, (work.low[2] - 2.0, top), axes))
        for turn in (math.pi / 2, math.pi * 7 / 6, math.pi * 11 / 6)
    ]
    return tuple(found)


def _jaw(
    at: tuple[float, float], turn: float, start: float, levels: Span, axes: MillAxes
) -> Region:
    bottom, top = levels
    out, side = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    corners = tuple(
        axes.in_part((at[0] + r * out[0] + s * side[0], at[1] + r * out[1] + s * side[1], bottom))
        for r, s in (
            (start, -2.0),
            (start + 4, -5.0),
            (start + 17, -5.0),
            (start + 17, 5.0),
            (start + 4, 5.0),
            (start, 2.0),
        )
    )
    rise = top - bottom
    return Prism(outline=corners, along=(rise * axes.z[0], rise * axes.z[1], rise * axes.z[2]))


def _v_blocks(scheme: Scheme, axes: MillAxes, work: Room) -> tuple[HoldingPiece, ...]:
    """Round work along the table in two V-blocks."""
    del scheme
    middle = (work.low[1] + work.high[1]) / 2
    radius = (work.high[1] - work.low[1]) / 2
    axis = work.low[2] + radius
    drop = radius * math.sqrt(2)
    half = radius + 8.0
    floor = axis - drop - 8.0
    rim = axis - drop + half - 1.5
    found = []
    long = work.high[0] - work.low[0]
    for share in (0.15, 0.7):
        x = work.low[0] + share * long
        thick = 0.15 * long
        section = (
            (middle - half, floor),
            (middle + half, floor),
            (middle + half, rim),
            (middle + half - 1.5, rim),
            (middle, axis - drop),
            (middle - half + 1.5, rim),
            (middle - half, rim),
        )
        corners = tuple(axes.in_part((x, y, z)) for y, z in section)
        along = (thick * axes.x[0], thick * axes.x[1], thick * axes.x[2])
        found.append(HoldingPiece(name="V-block", region=Prism(outline=corners, along=along)))
    return tuple(found)


_DRAWN: Final[dict[Device, Callable[[Scheme, MillAxes, Room], tuple[HoldingPiece, ...]]]] = {
    "vice": _vice,
    "bench vice": _vice,
    "chuck on the mill table": _chuck,
    "three-jaw chuck": _chuck,
    "rotary table": _chuck,
    "dividing head": _chuck,
    "V-blocks": _v_blocks,
}
