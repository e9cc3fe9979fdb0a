"""Where faces are aimed at: off the drawn place by what a size is aimed off its nominal.

A tongue 12 −0.3/−0.5 is aimed at 11.6: its second side lies 0.4 from where it is drawn, or each
side 0.2 where it is drawn in the middle of what carries it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Band, Cutout, Distance, Surface
from halfthou.planning.axes import Extents, dot
from halfthou.planning.model import Operation
from halfthou.planning.worked import Measure
from halfthou.planning.working.measures import band_measure, distance_kind
from halfthou.planning.working.task import Task
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
    for feature in task.part.features:
        if isinstance(feature, Cutout):
            for one in cutout_sizes(task, feature):
                surface = task.surface(one.surface)
                if surface is not None and one.band is not None and one.surface not in found:
                    by, way = one.band.nominal - one.aim, surface.direction
                    found[one.surface] = (by * way[0], by * way[1], by * way[2])
    return found


def cutout_sizes(task: Task, cutout: Cutout) -> tuple[Measure, ...]:
    """Measure a cutout's own depth and a step's own width, which no distance of the part tells."""
    found: list[Measure] = []
    told = {d.band for d in task.part.distances}
    for band, kind in ((cutout.deep, "depth"), (cutout.wide, "position")):
        wall = _cut_to(task, cutout, band, floor=kind == "depth") if band is not None else None
        if band is None or band in told or wall is None:
            continue
        one = band_measure(task, surface=wall.name, band=band, kind="depth", inside=True)
        found.append(one if kind == "depth" else replace(one, kind="position"))
    return tuple(found)


def _cut_to(task: Task, cutout: Cutout, band: Band, *, floor: bool) -> Surface | None:
    """Give the floor of a cutout, or the wall of a step that its width is drawn to."""
    box = Extents(low=cutout.low, high=cutout.high)
    for s in task.part.surfaces:
        if s.feature != cutout.name or s.kind != "plane":
            continue
        is_floor = s.name == f"{cutout.name} floor"
        if is_floor == floor and abs(box.length(s.direction) - band.nominal) < _SAME:
            return s if floor or cutout.kind == "step" else None
    return None


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
