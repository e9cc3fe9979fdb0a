"""Which cutters of a milling set-up to show, and where they stand in both views."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from halfthou.cutting.milling import lanes
from halfthou.planning.model import Operation, Verb
from halfthou.planning.worked import Step, WorkedSetUp
from halfthou.present.picture.cutters import CutterGlyph, cutter_at
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.label import RING, ring_marks
from halfthou.present.picture.mill_axes import Room, room_of
from halfthou.present.picture.mill_view import MillView
from halfthou.present.picture.saw import saw_in_front, saw_in_plan, saw_of
from halfthou.present.picture.sheet import Box, Disc, Mark, box_of
from halfthou.present.picture.tools import as_ghost, feed_arrow
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
AGAINST_THE_TABLE: Final[dict[str, Point2]] = {
    "left": (1.0, 0.0),
    "right": (-1.0, 0.0),
    "toward": (0.0, 1.0),
    "away": (0.0, -1.0),
}
"""Which way the cutter goes over the work where the table goes that way."""
_MOST_NUMBERS: Final = 3
_APART: Final[Millimetre] = 0.8
_BELOW: Final[Millimetre] = 1.5
_ROOMY: Final[Millimetre] = 2.6
"""Radius on paper from which a circle has room for a number."""
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


@dataclass(frozen=True, slots=True, kw_only=True)
class CutterTurn:
    """One cutter at one place, and the steps in which it cuts there."""

    step: Step | None
    operation: Operation
    size: Millimetre
    numbers: tuple[int, ...]

    @property
    def glyph(self) -> CutterGlyph:
        """How it is drawn."""
        wide = self.size > _WIDE and self.operation.verb.startswith("mill")
        return "face mill" if wide else SHOWN[self.operation.verb]

    @property
    def mills(self) -> bool:
        """Whether it is fed over the work, not down into it."""
        return self.operation.verb.startswith("mill") and bool(self.operation.region)


def cutter_turns(worked: WorkedSetUp, main: Operation | None) -> tuple[CutterTurn, ...]:
    """Gather the cutters of a set-up: the main cut's first, those for one hole together."""
    numbered = [(step, one) for step in worked.steps for one in step.operations]
    given: list[tuple[Step | None, Operation]] = list(numbered) or [
        (None, one) for one in worked.set_up.operations
    ]
    groups: dict[tuple[object, ...], list[tuple[Step | None, Operation]]] = {}
    for step, one in given:
        if one.verb in SHOWN:
            key = one.at if one.at and not one.verb.startswith("mill") else (one.key,)
            groups.setdefault(key, []).append((step, one))
    found = [_turn_of(group, main) for group in groups.values()]
    return tuple(sorted(found, key=lambda turn: turn.operation is not main))


def _turn_of(group: list[tuple[Step | None, Operation]], main: Operation | None) -> CutterTurn:
    step, chosen = next(
        (pair for pair in group if pair[1] is main),
        max(group, key=lambda pair: pair[1].minutes),
    )
    numbers = sorted({one.number for one, _ in group if one is not None})
    return CutterTurn(
        step=step,
        operation=chosen,
        size=cutter_size(step, chosen),
        numbers=tuple(numbers[-_MOST_NUMBERS:]),
    )


def cutters_in_front(
    turns: Sequence[CutterTurn], view: MillView, frame: Frame
) -> tuple[Mark, ...]:
    """Draw the main cutter in the cut-open view, and others as outlines where there is room."""
    marks: list[Mark] = []
    boxes: list[Box] = []
    for rank, turn in enumerate(turns):
        drawn = _in_front(turn, view, frame)
        box = box_of(drawn).grown(_APART)
        if rank and any(box.meets(other) for other in boxes):
            continue
        boxes.append(box)
        marks += as_ghost(drawn) if rank else drawn
    return tuple(marks)


def _in_front(turn: CutterTurn, view: MillView, frame: Frame) -> tuple[Mark, ...]:
    across, one = view.across, turn.operation
    saw = saw_of(turn.step)
    if saw is not None:
        return saw_in_front(saw, _room_of_cut(one, view), view, frame)
    metal = frame.y(view.stock.high[2])
    if not turn.mills:
        places = [view.axes.on_mill(at) for at in one.at] or [view.stock.high]
        on_plane = min(
            places, key=lambda at: (round(abs(at[1 - across] - view.cut_at), 2), -at[across])
        )
        at = (frame.x(on_plane[across]), metal - _CLEAR)
        wide = turn.size * frame.scale
        return cutter_at(turn.glyph, at=at, wide=wide, metal=metal, numbers=turn.numbers)
    start, _ = way_over(turn, view)
    floor = view.work.high[2]
    if turn.glyph != "face mill":
        floor = max(_room_of_cut(one, view).low[2], view.stock.low[2] - _BELOW)
    return cutter_at(
        turn.glyph,
        at=(frame.x(start[across]), frame.y(floor)),
        wide=turn.size * frame.scale,
        arrow=False,
        metal=metal,
        numbers=turn.numbers,
    )


def cutters_in_plan(turns: Sequence[CutterTurn], view: MillView, frame: Frame) -> tuple[Mark, ...]:
    """Draw milling cutters as circles of their own size with the way they are fed."""
    marks: list[Mark] = []
    boxes: list[Box] = []
    for rank, turn in enumerate(turns):
        if not turn.mills:
            continue
        saw = saw_of(turn.step)
        drawn = (
            (*_other_lanes(turn, view, frame), *_in_plan(turn, view, frame))
            if saw is None
            else saw_in_plan(
                saw,
                _room_of_cut(turn.operation, view),
                view,
                frame,
                way=_goes(turn),
                number=turn.numbers[0] if turn.numbers else 0,
            )
        )
        box = box_of(drawn)
        if rank and any(box.meets(other) for other in boxes):
            continue
        boxes.append(box)
        marks += as_ghost(drawn) if rank else drawn
    return tuple(marks)


def _in_plan(turn: CutterTurn, view: MillView, frame: Frame) -> tuple[Mark, ...]:
    start, end = way_over(turn, view)
    long = math.dist(start, end) or 1.0
    way = ((end[0] - start[0]) / long, -(end[1] - start[1]) / long)
    x, y = frame.to(start)
    radius = turn.size / 2 * frame.scale
    wide = turn.glyph == "face mill"
    circle = Disc(centre=(x, y), radius=radius, style="tool line" if wide else "tool")
    small = radius <= _ROOMY
    aside = radius + 2.6 if small else 0.0
    ahead = radius + 4.8
    back = radius - RING if small else 0.0
    if wide:
        ahead = -0.55 * radius
        back = ahead - 4.8 - RING
    sideways = (way[1] * aside, -way[0] * aside)
    arrow = feed_arrow(
        at=(x + way[0] * ahead + sideways[0], y + way[1] * ahead + sideways[1]), way=way
    )
    spot = (x + way[0] * back + sideways[0], y + way[1] * back + sideways[1])
    rings = [
        mark
        for number in turn.numbers[:1]
        for mark in ring_marks(number, centre=spot, style="tool number", words="tool words")
    ]
    return (circle,) if turn.operation.verb == "mill pocket" else (circle, arrow, *rings)


def _other_lanes(turn: CutterTurn, view: MillView, frame: Frame) -> tuple[Mark, ...]:
    """Draw the cutter in the further lanes of a face wider than it is."""
    run = _lanes(turn, view)
    if len(run) == 1:
        return ()
    start, end = way_over(turn, view)
    across = 1 if abs(end[0] - start[0]) >= abs(end[1] - start[1]) else 0
    found = []
    for offset in run[:-1]:
        at = [*start]
        at[across] += offset - run[-1]
        found.append(
            Disc(
                centre=frame.to((at[0], at[1])),
                radius=turn.size / 2 * frame.scale,
                style="tool line",
            )
        )
    return tuple(found)


def _lanes(turn: CutterTurn, view: MillView) -> tuple[Millimetre, ...]:
    """Where the cutter runs over a top it goes right over, from the top's middle."""
    if turn.operation.verb != "mill face":
        return (0.0,)
    stock = view.stock
    if not _right_over(_room_of_cut(turn.operation, view), stock):
        return (0.0,)
    return lanes(min(stock.high[i] - stock.low[i] for i in (0, 1)), turn.size)


def _right_over(room: Room, stock: Room) -> bool:
    """Whether a cut covers the whole of the work seen from above."""
    return all(room.low[i] <= stock.low[i] and room.high[i] >= stock.high[i] for i in (0, 1))


def way_over(turn: CutterTurn, view: MillView) -> tuple[Point2, Point2]:
    """Return where the cutter is shown and where it goes; a wide one half over the work's edge."""
    start, end = _path(turn.step, turn.operation, view, turn.size)
    goes = turn.step.feed.table_goes if turn.step and turn.step.feed else ""
    ahead = AGAINST_THE_TABLE.get(goes)
    if ahead and (end[0] - start[0]) * ahead[0] + (end[1] - start[1]) * ahead[1] < 0:
        start, end = end, start
    if turn.glyph != "face mill":
        return start, end
    low, high = view.stock.low, view.stock.high
    if abs(end[0] - start[0]) >= abs(end[1] - start[1]):
        edge = high[0] if end[0] < start[0] else low[0]
        return (edge, start[1]), (edge + (end[0] - start[0]), start[1])
    edge = high[1] if end[1] < start[1] else low[1]
    return (start[0], edge), (start[0], edge + (end[1] - start[1]))


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
    if main.verb == "mill face" and _right_over(room, view.stock):
        middle += lanes(high[1 - long] - low[1 - long], size)[-1]
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


def _goes(turn: CutterTurn) -> Point2 | None:
    feed = turn.step.feed if turn.step is not None else None
    return AGAINST_THE_TABLE.get(feed.table_goes) if feed is not None else None


def _room_of_cut(main: Operation, view: MillView) -> Room:
    """Return what the main cut takes up; of several pieces, the one farthest to the back right."""
    rooms = [room_of(solid_of(region), view.axes) for region in main.region]
    return max(rooms, key=lambda room: room.high[0] + room.high[1])
