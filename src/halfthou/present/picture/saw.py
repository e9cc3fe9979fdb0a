"""A slitting saw at its slot: a disc from above, its rim, arbor and nut from the side."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Final

from halfthou.planning.worked import Step, WorkedSetUp
from halfthou.planning.working.slitting import COLLAR, NUT
from halfthou.present.picture.devices_lathe import broken
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.label import RING, ring_marks
from halfthou.present.picture.mill_axes import Room
from halfthou.present.picture.mill_view import Held, MillView
from halfthou.present.picture.sheet import Disc, Mark, Path
from halfthou.present.picture.tools import feed_arrow
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

_NAMED: Final = re.compile(r"slitting saw (\d+(?:\.\d+)?) x (\d+(?:\.\d+)?)")
_ABOVE: Final[Millimetre] = 10.0
"""How far an arbor is drawn above the metal before it is broken off, on paper. [mm]"""
_NOT_FARTHER: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """A slitting saw's two sizes."""

    diameter: Millimetre
    thick: Millimetre


def saw_of(step: Step | None) -> Saw | None:
    """Read a saw's sizes from what a step calls it; None for any other cutter.

    >>> saw_of(None) is None
    True
    """
    named = _NAMED.search(step.tool) if step is not None else None
    return Saw(diameter=float(named[1]), thick=float(named[2])) if named else None


def saw_at(saw: Saw, room: Room, stock: Room) -> Point2 | None:
    """Give where a saw's middle stands in plan at the full depth of its slot."""
    radius = saw.diameter / 2
    for way in (0, 1):
        middle = [(max(room.low[i], stock.low[i]) + min(room.high[i], stock.high[i])) / 2
                  for i in (0, 1)]  # fmt: skip
        opens_high = room.high[way] > stock.high[way] + _NOT_FARTHER
        opens_low = room.low[way] < stock.low[way] - _NOT_FARTHER
        if opens_high != opens_low:
            middle[way] = room.low[way] + radius if opens_high else room.high[way] - radius
            return middle[0], middle[1]
    return None


def with_jaws_ended(view: MillView, worked: WorkedSetUp) -> MillView:
    """End the jaws where the words say that the saw's nut hangs beside them."""
    notes = " ".join(worked.hold_notes)
    end = next((one for one in ("right", "left") if f"at the {one}-hand end" in notes), "")
    if not end:
        return view

    def ended(held: tuple[Held, ...]) -> tuple[Held, ...]:
        return tuple(
            replace(
                one, broken=(one.broken[0] and end == "right", one.broken[1] and end == "left")
            )
            for one in held
        )

    return replace(view, plan_held=ended(view.plan_held), front_held=ended(view.front_held))


def saw_in_plan(
    saw: Saw, room: Room, view: MillView, frame: Frame, *, way: Point2 | None, number: int
) -> tuple[Mark, ...]:
    """Draw the saw's rim and collars from above, and which way it is fed."""
    middle = saw_at(saw, room, view.stock)
    if middle is None:
        return ()
    x, y = at = frame.to(middle)
    marks: list[Mark] = [
        Disc(centre=at, radius=saw.diameter / 2 * frame.scale, style="tool line"),
        Disc(centre=at, radius=COLLAR * frame.scale, style="tool"),
    ]
    if number:
        marks += ring_marks(number, centre=at, style="tool number", words="tool words")
    if way is not None:
        off = COLLAR * frame.scale + RING + 4.0
        marks.append(feed_arrow(at=(x + way[0] * off, y - way[1] * off), way=(way[0], -way[1])))
    return tuple(marks)


def saw_in_front(saw: Saw, room: Room, view: MillView, frame: Frame) -> tuple[Mark, ...]:
    """Draw the saw edge on at its height, the nut below it and the arbor above."""
    middle = saw_at(saw, room, view.stock)
    if middle is None:
        return ()
    at = middle[view.across]
    low, high = frame.y(room.low[2]), frame.y(room.low[2] + saw.thick)
    left, right = frame.x(at - saw.diameter / 2), frame.x(at + saw.diameter / 2)
    collar = (frame.x(at - COLLAR), frame.x(at + COLLAR))
    foot = frame.y(room.low[2] - NUT)
    top = min(frame.y(view.stock.high[2]), high) - _ABOVE
    arbor = ((collar[1], high), (collar[0], high), *broken((collar[0], top), (collar[1], top)))
    nut = ((collar[0], low), (collar[1], low), (collar[1], foot), (collar[0], foot))
    rim = ((left, low), (right, low), (right, high), (left, high))
    return tuple(Path(lines=(one,), style="tool", closed=True) for one in (arbor, nut, rim))
