"""Places over the table, and how far down: by readout, dial or scale."""

from __future__ import annotations

from typing import Final

from halfthou.cutting.passes import Cuts, roughing
from halfthou.planning.axes import Extents
from halfthou.planning.dials import move
from halfthou.planning.worked import Move, Place
from halfthou.planning.working_task import Task
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Mill

LAST: Final[Millimetre] = 0.10
"""Last cut over a milled face (usual practice)."""


def place(task: Task, mill: Mill, zero: Vec3, point: Vec3, label: str) -> Place:
    """Tell where the cutter goes from the zero, by readout or by the dials."""
    x, y = task.on_table(point, zero)
    return Place(label=label, at=point, x=x, y=y, moves=table_moves(mill, x, y))


def table_moves(mill: Mill, x: Millimetre, y: Millimetre) -> tuple[Move, ...]:
    """Tell both table slides from the zero, as ways of the cutter over the work."""
    return (
        move("table", x, mill.x, sense="right" if x >= 0 else "left", readout=mill.readout),
        move("cross-table", y, mill.y, sense="away" if y >= 0 else "toward", readout=mill.readout),
    )


def line_move(mill: Mill, task: Task, way: Vec3, at: Millimetre) -> Move:
    """Tell the one slide that sets a straight line, the other being run along it."""
    along = way == task.along
    both = table_moves(mill, at, 0.0) if along else table_moves(mill, 0.0, at)
    return both[0] if along else both[1]


def down(mill: Mill, depth: Millimetre, *, quill: bool) -> Move:
    """Tell how far down: the quill by its scale, the table or head by its dial."""
    if quill:
        return move("quill", depth, None, sense="down")
    return move("knee", depth, mill.z, sense="down", readout=mill.readout, rounding="short")


def longest(task: Task, space: Extents | None) -> Millimetre:
    """Give the longer way over a space on the table; a middling one where it is not known."""
    if space is None:
        return 50.0
    return max(space.length(task.along), space.length(task.away))


def face_cuts(metal_off: Millimetre, deepest: Millimetre, step: Millimetre) -> tuple[Cuts, ...]:
    """Cuts over a milled face: down to a last light one, then that."""
    rough = roughing(metal_off=metal_off, deepest=deepest, leave=LAST, step=step)
    left = rough[-1].left if rough else metal_off
    return (*rough, Cuts(count=1, depth=left, left=0.0, purpose="finish"))


def point_at(task: Task, zero: Vec3, x: Millimetre, y: Millimetre) -> Vec3:
    """Give the point of the part under the spindle at a place on the table."""
    a, b = task.along, task.away
    return (
        zero[0] + x * a[0] + y * b[0],
        zero[1] + x * a[1] + y * b[1],
        zero[2] + x * a[2] + y * b[2],
    )
