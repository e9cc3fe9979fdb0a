"""Faces cut with the mill that no drawn size speaks for: what the work measures when they are."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.planning.worked import Step, WorkedSetUp
from halfthou.present.figures import Display, length
from halfthou.present.picture.crowding import Candidate
from halfthou.present.picture.dimensions import Edge, Linear, ways
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.label import Label
from halfthou.present.picture.mill_axes import Room, room_of
from halfthou.present.picture.mill_view import MillView
from halfthou.present.picture.sheet import Box
from halfthou.shapes.flat import Point2
from halfthou.shapes.solids import solid_of
from halfthou.units import Millimetre

_SAME: Final[Millimetre] = 0.01
_BELOW: Final[tuple[Edge, Edge]] = ("below", "above")
_BESIDE: Final[tuple[Edge, Edge]] = ("left", "right")


def heights_cut(
    worked: WorkedSetUp, view: MillView, frame: Frame, *, work: Box, units: Display
) -> list[list[Candidate]]:
    """Dimension in the cut-open view how high the work stands once its upper face is cut."""
    right = view.work.high[view.across]
    found = []
    for step, room in _faced(worked, view):
        now = _now(step)
        top = room.low[2]
        if not now and top < view.work.high[2] - _SAME:
            continue
        foot = top - now if now else view.work.low[2]
        if foot < view.work.low[2] - _SAME:
            continue
        ends = (frame.to((right, foot)), frame.to((right, top)))
        found.append(
            _ways(
                step, top - foot, ends, upright=True, edges=_BESIDE[::-1], work=work, units=units
            )
        )
    return found


def widths_cut(
    worked: WorkedSetUp, view: MillView, frame: Frame, *, work: Box, units: Display
) -> list[list[Candidate]]:
    """Dimension in plan how wide the work is once an edge of it is cut."""
    found = []
    for step, room in _faced(worked, view):
        now = _now(step)
        for way in (0, 1):
            far = _far_side(room, view, way)
            if not now or far is None:
                continue
            at, sense = far
            ends = [at, at - sense * now]
            near = view.work.low[1 - way]
            places = [frame.to((one, near) if way == 0 else (near, one)) for one in ends]
            edges = _BELOW if way == 0 else _BESIDE
            found.append(
                _ways(
                    step,
                    now,
                    (places[0], places[1]),
                    upright=way == 1,
                    edges=edges,
                    work=work,
                    units=units,
                )
            )
    return found


def _far_side(room: Room, view: MillView, way: int) -> tuple[Millimetre, float] | None:
    """Where a cut leaves an edge of the work, and which way that edge looks, if it does."""
    if room.low[2] > view.work.low[2] + _SAME:
        return None
    if room.low[way] > view.work.high[way] - _SAME:
        return room.low[way], 1.0
    if room.high[way] < view.work.low[way] + _SAME:
        return room.high[way], -1.0
    return None


def _now(step: Step) -> Millimetre:
    """Return the length to be measured when the step is done; 0 where none is."""
    return next((m.aim for m in step.measures if m.kind == "length" and m.when == "now"), 0.0)


def _faced(worked: WorkedSetUp, view: MillView) -> Iterator[tuple[Step, Room]]:
    """Give the steps that face and have no dimension of their own, with the room of their cut."""
    wanted = {want.step for want in worked.wanted}
    for step in worked.steps:
        faced = [one for one in step.operations if one.verb == "mill face"]
        if not faced or step.number in wanted:
            continue
        rooms = [room_of(solid_of(region), view.axes) for region in faced[0].region]
        if rooms:
            yield step, max(rooms, key=lambda room: room.high[2])


def _ways(
    step: Step,
    size: Millimetre,
    ends: tuple[Point2, Point2],
    *,
    upright: bool,
    edges: tuple[Edge, ...],
    work: Box,
    units: Display,
) -> list[Candidate]:
    label = Label(main=length(size, units), step=step.number, passing=True)
    linear = Linear(a=ends[0], b=ends[1], upright=upright, label=label, edges=edges)
    return ways(linear, work=work)
