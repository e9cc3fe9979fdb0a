"""Which cutter of a milling set-up to show, and where it stands in plan and in the cut-open view."""

from __future__ import annotations

import math
from typing import Final

from halfthou.planning.model import Operation, Verb
from halfthou.planning.worked import Zero
from halfthou.present.picture.cutters import CutterGlyph, cutter_at
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.mill_axes import Room, room_of
from halfthou.present.picture.mill_view import MillView
from halfthou.present.picture.sheet import Disc, Mark
from halfthou.present.picture.tools import feed_arrow
from halfthou.shapes.solids import solid_of
from halfthou.units import Millimetre

SHOWN: Final[dict[Verb, CutterGlyph]] = {
    "mill face": "face mill",
    "mill step": "end mill",
    "mill slot": "end mill",
    "mill pocket": "end mill",
    "mill keyway": "end mill",
    "mill chamfer": "centre drill",
    "spot": "centre drill",
    "centre": "centre drill",
    "drill": "drill",
    "bore": "end mill",
    "ream": "reamer",
    "tap": "tap",
    "countersink": "centre drill",
    "counterbore": "end mill",
    "spot-face": "end mill",
}
_PLAIN_CUTTER: Final[Millimetre] = 10.0
_CLEAR: Final[Millimetre] = 1.5


def cutter_in_front(
    main: Operation | None, view: MillView, frame: Frame, zero: Zero | None
) -> tuple[Mark, ...]:
    """Draw the cutter of the main cut above the cut-open work."""
    if main is None:
        return ()
    glyph = SHOWN[main.verb]
    if main.at:
        places = [view.axes.on_mill(at) for at in main.at]
        on_plane = min(places, key=lambda at: abs(at[1 - view.across] - view.cut_at))
        at = (frame.x(on_plane[view.across]), frame.y(view.stock.high[2]) - _CLEAR)
        return cutter_at(glyph, at=at, wide=(main.cut_size or 6.0) * frame.scale, arrow=True)
    x, level, wide = _in_the_cut(main, view, zero)
    return cutter_at(glyph, at=(frame.x(x), frame.y(level)), wide=wide * frame.scale, arrow=False)


def _place_of_cut(main: Operation, view: MillView, zero: Zero | None) -> Room:
    """Return the piece of the main cut to show the cutter in: the one farthest from the zero."""
    rooms = [room_of(solid_of(region), view.axes) for region in main.region]
    if zero is None:
        return rooms[0]
    away = view.axes.plan(zero.at)
    return max(rooms, key=lambda room: math.dist(away, _middle(room)))


def _middle(room: Room) -> tuple[float, float]:
    return ((room.low[0] + room.high[0]) / 2, (room.low[1] + room.high[1]) / 2)


def _in_the_cut(
    main: Operation, view: MillView, zero: Zero | None
) -> tuple[Millimetre, Millimetre, Millimetre]:
    """Where a mill stands in what it takes off in the cut-open view, and how wide it is there."""
    cutter = main.cut_size or _PLAIN_CUTTER
    room = _place_of_cut(main, view, zero)
    low = max(room.low[view.across], view.stock.low[view.across])
    high = min(room.high[view.across], view.stock.high[view.across])
    if high - low >= cutter:
        return (low + high) / 2, room.low[2], cutter
    open_low = room.low[view.across] < view.stock.low[view.across]
    centre = high - cutter / 2 if open_low else low + cutter / 2
    if main.verb in {"mill slot", "mill keyway", "mill pocket"}:
        return (low + high) / 2, room.low[2], high - low
    return centre, room.low[2], cutter


def cutter_in_plan(
    main: Operation | None, view: MillView, frame: Frame, zero: Zero | None
) -> tuple[Mark, ...]:
    """Draw a milling cutter as a circle with the way it is fed; nothing for holes."""
    if main is None or main.at or not main.verb.startswith("mill") or not main.region:
        return ()
    cutter = main.cut_size or _PLAIN_CUTTER
    room = _place_of_cut(main, view, zero)
    low = [max(a, b) for a, b in zip(room.low, view.stock.low, strict=True)]
    high = [min(a, b) for a, b in zip(room.high, view.stock.high, strict=True)]
    long = 0 if high[0] - low[0] >= high[1] - low[1] else 1
    at = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2]
    if main.verb == "mill step":
        other = 1 - long
        open_low = room.low[other] < view.stock.low[other]
        at[other] = high[other] - cutter / 2 if open_low else low[other] + cutter / 2
    at[long] = (
        view.stock.high[long] + 0.6 * cutter
        if room.high[long] > view.stock.high[long]
        else at[long]
    )
    way = (-1.0, 0.0) if long == 0 else (0.0, 1.0)
    centre = frame.to((at[0], at[1]))
    radius = cutter / 2 * frame.scale
    return (
        Disc(centre=centre, radius=radius, style="tool"),
        feed_arrow(at=centre, way=way, long=max(6.0, min(9.0, 2 * radius - 2.0))),
    )
