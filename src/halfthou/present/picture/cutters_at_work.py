"""Which cutter of a milling set-up to show, and where it stands in both views."""

from __future__ import annotations

import math
import re
from typing import Final

from halfthou.planning.model import Operation, Verb
from halfthou.planning.worked import Step
from halfthou.present.picture.cutters import CutterGlyph, cutter_at
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.mill_axes import Room, room_of
from halfthou.present.picture.mill_view import MillView
from halfthou.present.picture.sheet import Disc, Mark
from halfthou.present.picture.tools import feed_arrow
from halfthou.shapes.flat import Point2
from halfthou.shapes.solids import solid_of
from halfthou.units import Millimetre

SHOWN: Final[dict[Verb, CutterGlyph]] = {
    "mill face": "end mill",
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
_EDGE: Final[Millimetre] = 1e-3
_CLEAR: Final[Millimetre] = 1.5


_SIZE: Final = re.compile(r"(\d+(?:\.\d+)?)(?: mm)?$")
_WIDE: Final[Millimetre] = 30.0


def cutter_size(step: Step | None, operation: Operation) -> Millimetre:
    """Return a cutter's diameter: for a hole what it makes, for a mill what its name says [mm]."""
    if operation.at and not operation.verb.startswith("mill"):
        return operation.cut_size or _PLAIN_CUTTER
    named = _SIZE.search(step.tool) if step is not None else None
    return float(named[1]) if named else _PLAIN_CUTTER


def cutter_in_front(
    step: Step | None, main: Operation | None, view: MillView, frame: Frame
) -> tuple[Mark, ...]:
    """Draw the cutter of the main cut in the cut-open view."""
    if main is None:
        return ()
    size = cutter_size(step, main)
    glyph: CutterGlyph = "face mill" if size > _WIDE else SHOWN[main.verb]
    if main.at and not main.verb.startswith("mill"):
        places = [view.axes.on_mill(at) for at in main.at]
        on_plane = min(places, key=lambda at: abs(at[1 - view.across] - view.cut_at))
        at = (frame.x(on_plane[view.across]), frame.y(view.stock.high[2]) - _CLEAR)
        return cutter_at(glyph, at=at, wide=size * frame.scale, arrow=True)
    if glyph == "face mill" and not (step and step.places):
        return _over_the_top(view, frame, size)
    start, end = _path(step, main, view, size)
    floor = _room_of_cut(main, view).low[2]
    across = view.across
    at = (frame.x((start[across] + end[across]) / 2), frame.y(floor))
    return cutter_at(glyph, at=at, wide=size * frame.scale, arrow=False)


def _over_the_top(view: MillView, frame: Frame, size: Millimetre) -> tuple[Mark, ...]:
    """Draw a wide cutter on the face it leaves, drawn no wider than the work needs."""
    across = view.across
    low, high = view.work.low[across], view.work.high[across]
    wide = min(size, 1.15 * (high - low)) * frame.scale
    at = (frame.x((low + high) / 2), frame.y(view.work.high[2]))
    return cutter_at("face mill", at=at, wide=wide, arrow=False)


def _across_the_top(view: MillView, frame: Frame) -> tuple[Mark, ...]:
    """Show the way a wide cutter goes over the face, from the right."""
    at = (frame.x(view.stock.high[0]) - 1.0, frame.y((view.stock.low[1] + view.stock.high[1]) / 2))
    return (feed_arrow(at=at, way=(-1.0, 0.0), long=11.0),)


def cutter_in_plan(
    step: Step | None, main: Operation | None, view: MillView, frame: Frame
) -> tuple[Mark, ...]:
    """Draw a milling cutter as a circle with the way it is fed; nothing for holes."""
    if main is None or not main.verb.startswith("mill") or not main.region:
        return ()
    size = cutter_size(step, main)
    if size > _WIDE and not (step and step.places):
        return _across_the_top(view, frame)
    start, end = _path(step, main, view, size)
    long = math.dist(start, end) or 1.0
    way = ((end[0] - start[0]) / long, -(end[1] - start[1]) / long)
    centre = frame.to(start)
    radius = size / 2 * frame.scale
    arrow = feed_arrow(at=centre, way=way, long=max(6.0, min(9.0, 2 * radius - 2.0)))
    return (Disc(centre=centre, radius=radius, style="tool"), arrow)


def _path(
    step: Step | None, main: Operation, view: MillView, size: Millimetre
) -> tuple[Point2, Point2]:
    """Return where the cutter starts and where it goes: as the card says, or along the cut."""
    named = {place.label: view.axes.plan(place.at) for place in (step.places if step else ())}
    if "from" in named and "to" in named:
        return named["from"], named["to"]
    room = _room_of_cut(main, view)
    low = [max(a, b) for a, b in zip(room.low, view.stock.low, strict=True)]
    high = [min(a, b) for a, b in zip(room.high, view.stock.high, strict=True)]
    long = 0 if high[0] - low[0] >= high[1] - low[1] else 1
    middle = _beside_the_wall(room, low, high, 1 - long, size)
    over = 0.6 * size if room.high[long] > view.stock.high[long] - _EDGE else -0.5 * size
    ends = (high[long] + over, low[long])
    if long == 0:
        return (ends[0], middle), (ends[1], middle)
    return (middle, ends[1]), (middle, ends[0])


def _beside_the_wall(
    room: Room, low: list[float], high: list[float], across: int, size: Millimetre
) -> Millimetre:
    """Where the cutter's middle runs: touching the wall of a step, along the middle otherwise."""
    open_low, open_high = room.low[across] < low[across], room.high[across] > high[across]
    if open_low and not open_high:
        return high[across] - size / 2
    if open_high and not open_low:
        return low[across] + size / 2
    return (low[across] + high[across]) / 2


def _room_of_cut(main: Operation, view: MillView) -> Room:
    """Return what the main cut takes up; of several pieces, the one farthest to the back right."""
    rooms = [room_of(solid_of(region), view.axes) for region in main.region]
    return max(rooms, key=lambda room: room.high[0] + room.high[1])
