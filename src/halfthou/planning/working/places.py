"""Places over the table, and how far down: by readout, dial or scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final, Literal, TypeAlias

from halfthou.planning.axes import Extents, dot
from halfthou.planning.worked import Move, Pass, Place
from halfthou.planning.working.dials import move
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Dial, Mill

TableWay: TypeAlias = Literal["", "left", "right", "toward", "away"]
_SAME: Final = 1e-6


def place(task: Task, mill: Mill, zero: Vec3, point: Vec3, label: str) -> Place:
    """Tell where the cutter goes from the zero, by readout or by the dials."""
    x, y = task.on_table(point, zero)
    return Place(label=label, at=point, x=x, y=y, moves=table_moves(mill, x, y))


def table_moves(mill: Mill, x: Millimetre, y: Millimetre) -> tuple[Move, ...]:
    """Tell both table slides from the zero, as ways of the cutter over the work.

    Every place is come to going right and away, the way the zero was set.
    """
    across = move("table", x, mill.x, sense="right" if x >= 0 else "left", readout=mill.readout)
    back = move(
        "cross-table", y, mill.y, sense="away" if y >= 0 else "toward", readout=mill.readout
    )
    return replace(across, last="right"), replace(back, last="away")


def line_move(mill: Mill, task: Task, way: Vec3, at: Millimetre) -> Move:
    """Tell the one slide that sets a straight line, the other being run along it.

    It is come to going right or away like every place, from whichever side the work lies: the
    zero was set so, and the other way the dial is wrong by the backlash.
    """
    along = way == task.along
    dial = mill.x if along else mill.y
    told = at if mill.readout else whole_divisions(at, dial)
    return table_moves(mill, told, 0.0)[0] if along else table_moves(mill, 0.0, told)[1]


def as_touched(move: Move) -> Move:
    """Give a move come to the way it goes: its zero was touched going so, inward."""
    match move.sense:
        case "left" | "right" | "away" | "toward":
            return replace(move, last=move.sense)
        case _:
            return move


def set_at(
    passes: Sequence[Pass], moves: Sequence[Move], *, division: Millimetre
) -> tuple[Pass, ...]:
    """Give every cut where its slide stands, and what the dial goes on for one of a pass."""
    if len(moves) != sum(one.count for one in passes):
        return tuple(passes)
    told, done = [], 0
    for one in passes:
        on = round(2 * one.depth / division) / 2 if division > 0 else 0.0
        stands = tuple(moves[done : done + one.count])
        told.append(replace(one, settings=stands, divisions=on))
        done += one.count
    return tuple(told)


def whole_divisions(travel: Millimetre, dial: Dial) -> Millimetre:
    """Give the nearest travel that needs no reading between the lines of a dial."""
    return round(travel / dial.division) * dial.division


def against_the_cutter(task: Task, outward: Vec3) -> TableWay:
    """Give the way the table goes so that the cut goes against the cutter's turning.

    ``outward`` looks from the work to the cutter; the spindle turns clockwise seen from above,
    and with the work on its left (outward to the right) the table comes toward the person.
    """
    right, away = dot(outward, task.along), dot(outward, task.away)
    if abs(right) > abs(away):
        return "toward" if right > 0 else "away"
    return "right" if away > 0 else "left"


def down(mill: Mill, depth: Millimetre, *, quill: bool) -> Move:
    """Tell how far down: the quill by its scale; the knee, which comes up, by its dial."""
    if quill:
        return move("quill", depth, None, sense="down")
    up = move("knee", depth, mill.z, sense="up", readout=mill.readout, rounding="short")
    return replace(up, last="up")


def settled(mill: Mill, depth: Millimetre, low: Millimetre, high: Millimetre) -> Millimetre:
    """Give a whole division of the height's dial near a depth, where one lies within limits."""
    if mill.readout:
        return depth
    near = whole_divisions(depth, mill.z)
    return near if low + _SAME <= near <= high - _SAME else depth


def longest(task: Task, space: Extents | None) -> Millimetre:
    """Give the longer way over a space on the table; a middling one where it is not known."""
    if space is None:
        return 50.0
    return max(space.length(task.along), space.length(task.away))


def point_at(task: Task, zero: Vec3, x: Millimetre, y: Millimetre) -> Vec3:
    """Give the point of the part under the spindle at a place on the table."""
    a, b = task.along, task.away
    return (
        zero[0] + x * a[0] + y * b[0],
        zero[1] + x * a[1] + y * b[1],
        zero[2] + x * a[2] + y * b[2],
    )
