"""Where faces are aimed at: off the drawn place by what a size is aimed off its nominal.

A tongue 12 −0.3/−0.5 is aimed at 11.6: its second side lies 0.4 from where it is drawn, or each
side 0.2 where it is drawn in the middle of what carries it.
"""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Distance
from halfthou.planning.axes import dot
from halfthou.planning.model import Operation
from halfthou.planning.working_measures import band_measure, distance_kind
from halfthou.planning.working_task import Task
from halfthou.units import Millimetre, Vec3

_ALONG: Final = 0.99
_SAME: Final = 1e-6
_CENTRED: Final = "centred"


def offsets(task: Task) -> dict[str, Vec3]:
    """Give how far each placed surface is aimed off its drawn place, where it is at all."""
    found: dict[str, Vec3] = {}
    for _ in task.part.distances:
        for distance in task.part.distances:
            start = found.get(distance.a, (0.0, 0.0, 0.0))
            by, way = _moved_by(task, distance), distance.direction
            found[distance.b] = (
                start[0] + by * way[0], start[1] + by * way[1], start[2] + by * way[2]
            )  # fmt: skip
    return found


def aimed(task: Task, op: Operation | None, way: Vec3, at: Millimetre) -> Millimetre:
    """Give the reading along ``way`` that is aimed at for faces drawn at ``at``.

    Among faces at the same place those count first that the operation makes.
    """
    here = [
        s.name
        for s in task.part.surfaces
        if s.kind == "plane"
        and abs(dot(s.direction, way)) > _ALONG
        and abs(dot(s.point, way) - at) < _SAME
    ]
    makes = op.makes if op is not None else ()
    moved = offsets(task)
    for name in sorted(here, key=lambda n: n not in makes):
        if name in moved:
            return at + dot(moved[name], way)
    return at


def aimed_point(task: Task, name: str, point: Vec3) -> Vec3:
    """Give where a hole or other feature is aimed at."""
    by = offsets(task).get(name, (0.0, 0.0, 0.0))
    return point[0] + by[0], point[1] + by[1], point[2] + by[2]


def _moved_by(task: Task, distance: Distance) -> Millimetre:
    if not distance.band.text.startswith(_CENTRED):
        return _off_nominal(task, distance)
    host, own = _centred_pair(task, distance)
    carried = _off_nominal(task, host) if host is not None else 0.0
    return (carried - (_off_nominal(task, own) if own is not None else 0.0)) / 2


def _centred_pair(task: Task, distance: Distance) -> tuple[Distance | None, Distance | None]:
    """Give the width something is centred on, and its own, where it has one."""
    along = [
        d for d in task.part.distances
        if d is not distance and abs(dot(d.direction, distance.direction)) > _ALONG
    ]  # fmt: skip
    hosts = [d for d in along if d.a == distance.a]
    owns: list[Distance | None] = [*(d for d in along if d.a == distance.b), None]
    for own in owns:
        wide = own.band.nominal if own is not None else 0.0
        for host in hosts:
            if abs((host.band.nominal - wide) / 2 - distance.band.nominal) < _SAME:
                return host, own
    return None, None


def _off_nominal(task: Task, distance: Distance) -> Millimetre:
    band = distance.band
    if band.low < band.nominal < band.high:
        return 0.0
    a, b = task.surface(distance.a), task.surface(distance.b)
    kind = distance_kind(a, b) if a is not None and b is not None else None
    if kind is None:
        return band.middle - band.nominal
    inside = kind in {"width", "depth"}
    one = band_measure(task, surface=distance.b, band=band, kind=kind, inside=inside)
    return one.aim - band.nominal
