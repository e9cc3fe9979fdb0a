"""The machine vice: jaws at their own size, parallels, round bar, copper, packing and stop."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from halfthou.drawing.geometry import Cylinder
from halfthou.planning.milled.jaws_on_round import OVER_THE_SCREW
from halfthou.planning.model import Scheme
from halfthou.present.picture.mill_axes import MillAxes, Room, box_on_mill, room_of
from halfthou.present.picture.mill_holding import (
    THINNEST,
    Bearing,
    HoldingPiece,
    Piece,
    Span,
    jaw_top,
    piece_on_mill,
    seat_level,
)
from halfthou.shapes.solids import solid_of
from halfthou.units import Millimetre

_JAW_WIDE: Final[Millimetre] = 80.0
_JAW_DEEP: Final[Millimetre] = 25.0
_JAW_THICK: Final[Millimetre] = 14.0
_BESIDE: Final[Millimetre] = 12.0
"""How much of the jaws is drawn beside the work before they are broken off."""
_PARALLEL: Final[Millimetre] = 4.0
_AT_WORK: Final[Millimetre] = 8.0
_BREAK: Final[Millimetre] = 4.0
_OTHER_END: Final[Millimetre] = 12.0
ROUND_BAR: Final[Millimetre] = 10.0
_END_OUT: Final[Millimetre] = 3.0
_SLIP: Final[Millimetre] = 0.45
HUNG: Final = "hung between the jaws"
_COPPER: Final[Millimetre] = 0.5
_COPPER_OUT: Final[Millimetre] = 3.0
"""How far soft copper stands out past the work, and above the jaws. [mm]"""


def vice(scheme: Scheme, axes: MillAxes, bearing: Bearing) -> tuple[HoldingPiece, ...]:
    """Draw a vice at its own size, its jaws broken off where nothing but jaw would follow."""
    device, work, detail = scheme.device, bearing.work, scheme.links[-1].detail
    top, seat = jaw_top(scheme, work), seat_level(scheme, work)
    floor = min(top - (device.jaw_depth or _JAW_DEEP), seat)
    reach = _jaw_reach(scheme, bearing)
    packed = _is_packed(scheme)
    spans = _shown(scheme, reach, work) if packed else [_beside_work(reach, work)]
    near, far = _gripped(scheme, work)
    sheet = _COPPER if bearing.soft else 0.0
    behind = far + (_COPPER if bearing.soft == "both jaws" else 0.0)
    bar = ROUND_BAR if "round bar" in detail else 0.0
    thick = min(_JAW_THICK, max(4.5, 0.22 * (far - near) + 1.5))
    front = near - sheet - bar
    jaws: tuple[tuple[Piece, Span], ...] = (
        ("fixed jaw", (behind, behind + thick)),
        ("moving jaw", (front - thick, front)),
    )
    found = _jaws(axes, jaws, spans, (floor, top))
    shown = spans[0][0]
    if HUNG in detail:
        found += _on_the_jaws(axes, work, [one for _, one in jaws], top, _height_in(detail))
    else:
        slip = _SLIP if "slips of packing" in detail else 0.0
        laid = _one_parallel if _level_round(scheme) else _parallels
        under = laid(scheme, axes, bearing, shown, (floor, seat - slip))
        found += [*under, *_slips(under, axes, work, (seat - slip, seat))]
    if bar:
        found.append(_round_bar(axes, shown, front + bar / 2, (max(seat, floor) + top) / 2, bar))
    for gap in ((front + bar, near), (far, behind)):
        found += _copper(axes, work, shown, gap, (seat, top))
    found += _filler(scheme, axes, bearing, shown, ((front, behind), (seat, top)))
    if packed:
        found.append(_at_the_other_end(scheme, axes, spans[-1][0], (front, behind), (seat, top)))
    if "stop" in detail:
        found.append(_stop(axes, work, far, thick, top))
    return tuple(found)


def _jaws(
    axes: MillAxes,
    jaws: Sequence[tuple[Piece, Span]],
    spans: Sequence[tuple[Span, tuple[bool, bool]]],
    levels: Span,
) -> list[HoldingPiece]:
    low, high = levels
    return [
        HoldingPiece(
            name=name,
            region=box_on_mill((x[0], y[0], low), (x[1], y[1], high), axes),
            broken=ends,
        )
        for name, y in jaws
        for x, ends in spans
    ]


def _at_the_other_end(
    scheme: Scheme, axes: MillAxes, jaws: Span, gap: Span, levels: Span
) -> HoldingPiece:
    """Put packing as thick as the work between the far ends of the jaws."""
    outer = (jaws[0], jaws[0] + _OTHER_END)
    if scheme.out == "left":
        outer = (jaws[1] - _OTHER_END, jaws[1])
    low, high = (outer[0] + 2.0, gap[0], levels[0]), (outer[1] - 2.0, gap[1], levels[1])
    return piece_on_mill("packing", low, high, axes)


def _on_the_jaws(
    axes: MillAxes, work: Room, jaws: Sequence[Span], top: Millimetre, high: Millimetre
) -> list[HoldingPiece]:
    """Lay three slips of packing on the jaw tops, under what overhangs them."""
    x = (work.low[0] + work.high[0]) / 2
    half = 0.3 * (work.high[0] - work.low[0])
    places = ((jaws[0], x), (jaws[1], x - half), (jaws[1], x + half))
    return [
        piece_on_mill("packing", (at - 4.0, y[0], top), (at + 4.0, y[1], top + high), axes)
        for y, at in places
    ]


def _height_in(detail: str) -> Millimetre:
    """Read how high the packing on the jaws is."""
    found = re.search(r"packing (\d+(?:\.\d+)?) high", detail)
    return float(found[1]) if found else _SLIP


def _slips(
    under: Sequence[HoldingPiece], axes: MillAxes, work: Room, levels: Span
) -> list[HoldingPiece]:
    """Lay three slips between parallels and a raw face, two on the far one: it cannot rock.

    The cut-open view shows the far ones, clear of a boss that hangs down in the middle.
    """
    if levels[1] <= levels[0] or len(under) < 2:  # noqa: PLR2004
        return []
    rooms = sorted((room_of(solid_of(one.region), axes) for one in under), key=_near)
    x = (work.low[0] + work.high[0]) / 2
    half = 0.35 * (work.high[0] - work.low[0])
    places = ((rooms[0], x), (rooms[-1], x - half), (rooms[-1], x + half))
    return [
        piece_on_mill(
            "packing",
            (at - 3.0, room.low[1], levels[0]),
            (at + 3.0, room.high[1], levels[1]),
            axes,
        )
        for room, at in places
    ]


def _near(room: Room) -> Millimetre:
    return room.low[1]


def _copper(axes: MillAxes, work: Room, jaws: Span, gap: Span, levels: Span) -> list[HoldingPiece]:
    """Put soft copper between a finished face and a jaw, standing out a little all round."""
    if gap[1] - gap[0] < _COPPER / 2:
        return []
    ends = (
        max(jaws[0] + 0.5, work.low[0] - _COPPER_OUT),
        min(jaws[1] - 0.5, work.high[0] + _COPPER_OUT),
    )
    low, high = (ends[0], gap[0], levels[0]), (ends[1], gap[1], levels[1] + 1.0)
    return [piece_on_mill("soft copper", low, high, axes)]


def _is_packed(scheme: Scheme) -> bool:
    return bool(scheme.out) or "packing of the same" in scheme.links[-1].detail


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
    if levels[1] - levels[0] < THINNEST:
        return []
    near, far = _gripped(scheme, bearing.work)
    wide = scheme.parallels[1] if scheme.parallels else _PARALLEL
    middle = (near + far) / 2
    deep = [bearing.below] if bearing.below is not None else []
    deep += [cut for cut in bearing.cuts if cut.low[2] < levels[1] - THINNEST]
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
        piece_on_mill("parallel", (ends[0], y[0], levels[0]), (ends[1], y[1], levels[1]), axes)
        for y in ((near, near + first), (far - second, far))
        if y[1] - y[0] > THINNEST
    ]


def _level_round(scheme: Scheme) -> bool:
    """Whether a round lies along the jaws, on the surface it is gripped by."""
    return scheme.jaws is not None and bool(scheme.grips) and scheme.grips == scheme.seats


def _borne(bearing: Bearing, jaws: Span) -> Span:
    """From where to where a level round lies between the jaws, along the table."""
    left, right = bearing.gripped or (bearing.work.low[0], bearing.work.high[0])
    return max(jaws[0], left), min(jaws[1], right)


def _one_parallel(
    scheme: Scheme, axes: MillAxes, bearing: Bearing, jaws: Span, levels: Span
) -> list[HoldingPiece]:
    """Lay one parallel under a level round, no nearer to a larger one than the jaws."""
    if levels[1] - levels[0] < THINNEST:
        return []
    near, far = _gripped(scheme, bearing.work)
    half = min(_PARALLEL, (far - near) / 4)
    (left, right), middle = _borne(bearing, jaws), (near + far) / 2
    low, high = (left, middle - half, levels[0]), (right, middle + half, levels[1])
    return [piece_on_mill("parallel", low, high, axes)]


def _filler(
    scheme: Scheme, axes: MillAxes, bearing: Bearing, shown: Span, gap: tuple[Span, Span]
) -> list[HoldingPiece]:
    """Put a piece as thick as a level round past the end of the work, where the words ask it."""
    if scheme.jaws is None or not _level_round(scheme):
        return []
    left, right = _borne(bearing, scheme.jaws)
    middle = sum(scheme.jaws) / 2
    if left + OVER_THE_SCREW <= middle <= right - OVER_THE_SCREW:
        return []
    ends = (bearing.work.high[0] + 1.0, shown[1] - 1.0)
    if (left + right) / 2 > middle:
        ends = (shown[0] + 1.0, bearing.work.low[0] - 1.0)
    (near, far), (low, high) = gap
    return [piece_on_mill("packing", (ends[0], near, low), (ends[1], far, high), axes)]


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
    return piece_on_mill(
        "stop",
        (work.low[0] - 5.0, far - 8.0, work.low[2] + 1.0),
        (work.low[0], far + 0.35 * thick, max(high, work.low[2] + 3.0)),
        axes,
    )


def _gripped(scheme: Scheme, work: Room) -> tuple[Millimetre, Millimetre]:
    """Where the jaws bear, near and far from the operator: a spigot is narrower than the work."""
    near, far = work.low[1], work.high[1]
    if 0 < scheme.grip_size < far - near:
        middle = (near + far) / 2
        return middle - scheme.grip_size / 2, middle + scheme.grip_size / 2
    return near, far
