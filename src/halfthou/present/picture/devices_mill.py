"""What holds the work on the mill, as pieces of space: the same ones serve every view.

Each device is a few blocks and rounds in the part's frame, cut down to what matters about the
work; the views draw them pale, the pictorial shades them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.drawing.geometry import Cylinder, Prism, Region
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
_JAW_WIDE: Final[Millimetre] = 80.0
_JAW_DEEP: Final[Millimetre] = 25.0
_JAW_THICK: Final[Millimetre] = 14.0
_BESIDE: Final[Millimetre] = 12.0
"""How much of the jaws is drawn beside the work before they are broken off."""
_PARALLEL: Final[Millimetre] = 4.0
_AT_WORK: Final[Millimetre] = 8.0
_BREAK: Final[Millimetre] = 4.0
_OTHER_END: Final[Millimetre] = 12.0
_PARALLEL_OUT: Final[Millimetre] = 9.0
_ROUND_BAR: Final[Millimetre] = 10.0
_END_OUT: Final[Millimetre] = 3.0
Span: TypeAlias = tuple[Millimetre, Millimetre]

Piece: TypeAlias = Literal[
    "fixed jaw",
    "moving jaw",
    "round bar",
    "packing",
    "parallel",
    "stop",
    "clamp",
    "table",
    "chuck",
    "V-block",
    "jaw",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldingPiece:
    """One piece of a holding device and what it is called.

    ``broken`` tells whether its left and its right end are broken off on the sheet.
    """

    name: Piece
    region: Region
    broken: tuple[bool, bool] = (False, False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """The work as a holding device meets it, as the mill counts.

    ``foot`` is what of it lies at the seat, ``below`` what hangs under the seat, if anything;
    ``gripped`` from where to where along the table the jaws may bear, if not everywhere.
    """

    work: Room
    foot: Room
    below: Room | None = None
    gripped: Span | None = None
    cuts: tuple[Room, ...] = ()


def mill_device(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Return the pieces that hold the work; a device with no picture of its own holds by clamps.

    Straps keep clear of the cuts where they can.
    """
    drawn = _DRAWN.get(scheme.device.device)
    return _clamps(scheme, axes, bearing) if drawn is None else drawn(scheme, axes, bearing)


def seat_level(scheme: Scheme, work: Room) -> Millimetre:
    """Where the work lies on what is under it, as the mill counts [mm]."""
    if scheme.device.device in {"vice", "bench vice"} and work.low[2] < scheme.grip_low:
        return min(scheme.grip_low, jaw_top(scheme, work) - 1.0)
    if scheme.device.device == "clamps" and not scheme.grips:
        return max(work.low[2], min(scheme.grip_low, work.high[2] - 1.0))
    return work.low[2]


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


def _vice(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Draw a vice at its own size, its jaws broken off where nothing but jaw would follow."""
    device, work, detail = scheme.device, bearing.work, scheme.links[-1].detail
    top, seat = jaw_top(scheme, work), seat_level(scheme, work)
    floor = min(top - (device.jaw_depth or _JAW_DEEP), seat)
    reach = _jaw_reach(scheme, bearing)
    packed = _is_packed(scheme)
    spans = _shown(scheme, reach, work) if packed else [_beside_work(reach, work)]
    near, far = _gripped(scheme, work)
    bar = _ROUND_BAR if "round bar" in detail else 0.0
    thick = min(_JAW_THICK, max(7.0, 0.3 * (far - near) + 4.0))
    jaws: tuple[tuple[Piece, Span], ...] = (
        ("fixed jaw", (far, far + thick)),
        ("moving jaw", (near - bar - thick, near - bar)),
    )
    found = [
        HoldingPiece(
            name=name,
            region=box_on_mill((x[0], y[0], floor), (x[1], y[1], top), axes),
            broken=ends,
        )
        for name, y in jaws
        for x, ends in spans
    ]
    shown = spans[0][0]
    found += _parallels(scheme, axes, bearing, shown, (floor, seat))
    if bar:
        found.append(_round_bar(axes, shown, near - bar / 2, (max(seat, floor) + top) / 2, bar))
    if packed:
        other = spans[-1][0]
        outer = (other[0], other[0] + _OTHER_END)
        if scheme.out == "left":
            outer = (other[1] - _OTHER_END, other[1])
        x = (outer[0] + 2.0, outer[1] - 2.0)
        found.append(_piece("packing", (x[0], near - bar, seat), (x[1], far, top), axes))
    if not bar and (len(scheme.seats) != 1 or "stop" in detail):
        found.append(_stop(axes, work, far, thick, top))
    return tuple(found)


def _is_packed(scheme: Scheme) -> bool:
    return bool(scheme.out) or "packing" in scheme.links[-1].detail


def _jaw_reach(scheme: Scheme, bearing: Bearing) -> Span:
    """From where to where the jaws go along the table."""
    if scheme.jaws is not None:
        return scheme.jaws
    work, wide = bearing.work, scheme.device.jaw_width or _JAW_WIDE
    low, high = work.low[0], work.high[0]
    if bearing.gripped is not None and high - low > wide:
        left, right = bearing.gripped
        if right - left >= wide:
            return (left + right - wide) / 2, (left + right + wide) / 2
        return (right - wide, right) if left - low <= high - right else (left, left + wide)
    if _is_packed(scheme):
        return (high - _END_OUT - wide, high - _END_OUT)
    return (low + high - wide) / 2, (low + high + wide) / 2


def _beside_work(reach: Span, work: Room) -> tuple[Span, tuple[bool, bool]]:
    """Return what of the jaws is drawn, and which of their ends are broken off."""
    left, right = work.low[0] - _BESIDE, work.high[0] + _BESIDE
    return (
        (max(reach[0], left), min(reach[1], right)),
        (reach[0] < left, reach[1] > right),
    )


def _shown(scheme: Scheme, reach: Span, work: Room) -> list[tuple[Span, tuple[bool, bool]]]:
    """Return the jaws at the work and at their other end, drawn up to it: broken off between."""
    if scheme.out == "left":
        at_work = (reach[0], min(reach[1], work.high[0] + _AT_WORK))
        other = (at_work[1] + _BREAK, at_work[1] + _BREAK + _OTHER_END)
        whole = other[1] >= reach[1]
        broken = ((False, True), (True, False))
    else:
        at_work = (max(reach[0], work.low[0] - _AT_WORK), reach[1])
        other = (at_work[0] - _BREAK - _OTHER_END, at_work[0] - _BREAK)
        whole = other[0] <= reach[0]
        broken = ((True, False), (False, True))
    if whole:
        return [(reach, (False, False))]
    return [(at_work, broken[0]), (other, broken[1])]


def _parallels(
    scheme: Scheme, axes: MillAxes, bearing: Bearing, jaws: Span, levels: Span
) -> list[HoldingPiece]:
    """Lay parallels hard to the jaws under the work, clear of what hangs down and of holes."""
    if levels[1] - levels[0] < _THINNEST:
        return []
    near, far = _gripped(scheme, bearing.work)
    wide = scheme.parallels[1] if scheme.parallels else _PARALLEL
    middle = (near + far) / 2
    deep = [bearing.below] if bearing.below is not None else []
    deep += [cut for cut in bearing.cuts if cut.low[2] < levels[1] - _THINNEST]
    inner = [middle, middle]
    for room in deep:
        if room.low[1] <= near or room.high[1] >= far:
            continue
        inner = [min(inner[0], room.low[1] - 0.5), max(inner[1], room.high[1] + 0.5)]
    ends = (
        max(jaws[0] + 1.0, bearing.work.low[0] - 9.0),
        min(jaws[1] - 1.0, bearing.work.high[0] + 9.0),
    )
    if scheme.out == "right":
        ends = (ends[0], min(ends[1], jaws[1] - 1.5))
    first, second = min(wide, inner[0] - near), min(wide, far - inner[1])
    return [
        _piece("parallel", (ends[0], y[0], levels[0]), (ends[1], y[1], levels[1]), axes)
        for y in ((near, near + first), (far - second, far))
        if y[1] - y[0] > _THINNEST
    ]


def _round_bar(
    axes: MillAxes, ends: Span, y: Millimetre, z: Millimetre, diameter: Millimetre
) -> HoldingPiece:
    bar = Cylinder(
        start=axes.in_part((ends[0] + 3.0, y, z)),
        end=axes.in_part((ends[1] - 3.0, y, z)),
        diameter=diameter,
    )
    return HoldingPiece(name="round bar", region=bar)


def _stop(axes: MillAxes, work: Room, far: float, thick: float, top: float) -> HoldingPiece:
    high = min(top - 1.0, work.low[2] + 0.7 * (work.high[2] - work.low[2]))
    return _piece(
        "stop",
        (work.low[0] - 5.0, far - 8.0, work.low[2] + 1.0),
        (work.low[0], far + 0.35 * thick, max(high, work.low[2] + 3.0)),
        axes,
    )


def _clamps(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Work on parallels, a strap on each of two ends clear of what is cut, its heel on packing."""
    work, cuts = bearing.work, bearing.cuts
    lay, straps = _laid_clear(scheme, axes, work, cuts)
    if "one by one" in scheme.links[-1].detail:
        lay, straps = _on_one_end(axes, work)
    along = lay.along
    foot = bearing.foot
    seat = seat_level(scheme, work)
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
    floor = work.low[2] - (_PACKING if bearing.below is None else _THINNEST)
    found = [
        lay.piece("parallel", one, sides, (floor, seat))
        for one in ends
        if one[1] - one[0] > _THINNEST
    ]
    return (*found, *straps)


def _on_one_end(axes: MillAxes, work: Room) -> tuple[_Laid, list[HoldingPiece]]:
    """Lay two straps on the left end: the first half of a face is cut clear of them."""
    lay = _Laid(axes=axes, along=0, work=work, half=7.0, clear=_CLEAR)
    low, high = work.low[1], work.high[1]
    at, sense = lay.ends[0]
    return lay, [
        piece
        for share in (0.25, 0.75)
        for piece in _strap(lay, at, sense, low + share * (high - low))
    ]


def _laid_clear(
    scheme: Scheme, axes: MillAxes, work: Room, cuts: Sequence[Room]
) -> tuple[_Laid, list[HoldingPiece]]:
    """Lay a strap on each of two ends, clear of the cuts if any way of laying them is."""
    named = _named_ends(scheme, axes)
    tried = [
        _Laid(axes=axes, along=along, work=work, half=half, clear=clear)
        for half, clear in ((7.0, _CLEAR), (5.0, _CLEAR / 2), (5.0, 1.0))
        for along in ((0, 1) if named is None else (named,))
    ]
    fit = [one for one in tried if None not in _places(one, cuts)]
    lay = min(fit, key=lambda one: _poor(one, cuts), default=tried[0])
    middle = (work.low[1 - lay.along] + work.high[1 - lay.along]) / 2
    straps = [
        piece
        for (at, sense), spot in zip(lay.ends, _places(lay, cuts), strict=True)
        for piece in _strap(lay, at, sense, middle if spot is None else spot)
    ]
    return lay, straps


def _poor(lay: _Laid, cuts: Sequence[Room]) -> tuple[bool, bool, float]:
    """Tell how poor a way is: hardly clear first, then aside of the middle, then close."""
    middle = (lay.work.low[1 - lay.along] + lay.work.high[1 - lay.along]) / 2
    aside = sum(abs(spot - middle) for spot in _places(lay, cuts) if spot is not None)
    return lay.clear < _CLEAR / 2, aside > _THINNEST, -lay.clear


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

    @property
    def ends(self) -> tuple[Span, Span]:
        """The two ends that are held, each with the way that leads off the work."""
        return (self.work.low[self.along], -1.0), (self.work.high[self.along], 1.0)

    @property
    def half_wide(self) -> Millimetre:
        """Half a strap's width; narrow work has narrow ones."""
        across = 1 - self.along
        return min(self.half, 0.2 * (self.work.high[across] - self.work.low[across]))

    def strap(self, at: Millimetre, sense: float) -> Span:
        """From where to where a strap goes that holds the end at a place."""
        lap = min(9.0, 0.12 * (self.work.high[self.along] - self.work.low[self.along]))
        return _span(at - sense * lap, at + sense * 30.0)

    def piece(self, name: Piece, ends: Span, sides: Span, levels: Span) -> HoldingPiece:
        """Return a block given along, across and up."""
        x, y = (ends, sides) if self.along == 0 else (sides, ends)
        return _piece(name, (x[0], y[0], levels[0]), (x[1], y[1], levels[1]), self.axes)


def _strap(lay: _Laid, at: Millimetre, sense: float, middle: Millimetre) -> list[HoldingPiece]:
    work, ends = lay.work, lay.strap(at, sense)
    heel = _span(at + sense * 21.0, at + sense * 30.0)
    sides = (middle - lay.half_wide, middle + lay.half_wide)
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


def _chuck(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Lay a chuck on the table, jaws up: its body and three jaws; under it a rotary table."""
    work = bearing.work
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
    if any(link.holder.device == "rotary table" for link in scheme.links):
        base = work.low[2] - 16.0
        table = disc_on_mill(at=at, bottom=base - 12.0, top=base, diameter=body + 24.0, axes=axes)
        found.insert(0, HoldingPiece(name="table", region=table))
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


def _v_blocks(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Round work along the table in two V-blocks."""
    del scheme
    work = bearing.work
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


_DRAWN: Final[dict[Device, Callable[[Scheme, MillAxes, Bearing], tuple[HoldingPiece, ...]]]] = {
    "vice": _vice,
    "bench vice": _vice,
    "chuck on the mill table": _chuck,
    "three-jaw chuck": _chuck,
    "rotary table": _chuck,
    "dividing head": _chuck,
    "V-blocks": _v_blocks,
}
