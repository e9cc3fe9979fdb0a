"""What to measure after an operation, with what, and what to aim at."""

from __future__ import annotations

import math
from collections.abc import Iterator

from halfthou.cutting.gauging import Judged, MeasureKind, aim_for, choose_gauge
from halfthou.drawing.model import Band, Distance, Surface
from halfthou.planning.axes import dot
from halfthou.planning.model import Operation
from halfthou.planning.treatment import size_now
from halfthou.planning.worked import Measure
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre

_TRIALS = frozenset(("plug gauge", "ring gauge", "gap gauge", "thread gauge"))
_ALONG = 0.99
_SAME = 1e-6


def size_kind(surface: Surface) -> MeasureKind:
    """How the size of a surface is measured."""
    match surface.kind:
        case "thread":
            return "thread"
        case "plane":
            return "width"
        case _:
            return "bore" if surface.inside else "diameter"


def distance_kind(a: Surface, b: Surface) -> MeasureKind | None:
    """How a distance between two planes is measured; None where it is not read directly."""
    if a.kind != "plane" or b.kind != "plane":
        return None
    facing = dot(a.direction, b.direction)
    if abs(facing) < _ALONG:
        return None
    if facing > 0:
        return "depth"
    apart = dot(
        (b.point[0] - a.point[0], b.point[1] - a.point[1], b.point[2] - a.point[2]), b.direction
    )
    return "length" if apart > 0 else "width"


def distances_now(task: Task, operation: Operation) -> Iterator[tuple[Distance, MeasureKind]]:
    """Drawn distances that can be measured once this operation is done, and not before."""
    before = task.there_before(operation)
    now = before | set(operation.makes)
    for distance in task.part.distances:
        pair = {distance.a, distance.b}
        if not pair <= now or pair <= before:
            continue
        a, b = task.surface(distance.a), task.surface(distance.b)
        kind = distance_kind(a, b) if a is not None and b is not None else None
        if kind is not None:
            yield distance, kind


def band_measure(
    task: Task, *, surface: str, band: Band, kind: MeasureKind, inside: bool
) -> Measure:
    """Measure a drawn size: the handiest gauge that decides it, and the aim inside its guard."""
    judged = choose_gauge(kind=kind, low=band.low, high=band.high, workshop=task.workshop)
    aim = aim_for(low=band.low, high=band.high, nominal=band.nominal, inside=inside, judged=judged)
    return Measure(
        surface=surface,
        gauge=judged.gauge.name if judged else "",
        aim=aim,
        low=band.low,
        high=band.high,
        doubt=judged.doubt if judged else 0.0,
        kind=kind,
        decides=judged.decides if judged else False,
        band=band,
        to_make=judged.to_make if judged else False,
        good=_sure(judged, band, aim) if judged and judged.decides else None,
        tick=judged.gauge.kind in _TRIALS if judged else False,
    )


def _sure(judged: Judged, band: Band, aim: Millimetre) -> tuple[Millimetre, Millimetre] | None:
    """Limits drawn in by the doubt that is told: what the card may call sure.

    To marks the gauge shows where the aim lies between two such; None where the doubt leaves
    nothing round the aim.
    """
    low, high = band.low + judged.doubt, band.high - judged.doubt
    mark = judged.gauge.reads_to
    if mark > 0:
        shown = math.ceil(low / mark - 1e-6) * mark, math.floor(high / mark + 1e-6) * mark
        if shown[0] <= aim <= shown[1]:
            return round(shown[0], 6), round(shown[1], 6)
    if judged.gauge.kind == "rule":
        return None  # no mark of it lies between: it cannot be surer than it reads
    return (round(low, 6), round(high, 6)) if low <= aim <= high else None


def passing_measure(
    task: Task, *, surface: str, size: Millimetre, kind: MeasureKind, within: Millimetre = 0.2
) -> Measure | None:
    """Measure a size of no lasting account: a roughed diameter, a parted length."""
    judged = choose_gauge(kind=kind, low=size - within, high=size + within, workshop=task.workshop)
    if judged is None:
        return None
    return Measure(
        surface=surface,
        gauge=judged.gauge.name,
        aim=size,
        low=size,
        high=size,
        doubt=judged.doubt,
        kind=kind,
        decides=False,
    )


def thread_measure(task: Task, operation: Operation) -> Measure | None:
    """Try a thread with its mate."""
    gauge = task.gauge("thread gauge")
    if operation.thread is None or gauge is None:
        return None
    major = operation.thread.major
    surface = operation.makes[0] if operation.makes else operation.feature
    return Measure(
        surface=surface,
        gauge=gauge.name,
        aim=major,
        low=major,
        high=major,
        doubt=0.0,
        kind="thread",
        band=operation.size,
        tick=True,
    )


def measures_for(task: Task, operation: Operation) -> tuple[Measure, ...]:
    """Every drawn size that an operation leaves, its own diameter or width first."""
    found: list[Measure] = []
    for name in operation.makes:
        surface = task.surface(name)
        if surface is None or surface.size is None or surface.kind in {"thread", "cone"}:
            continue
        band = size_now(task.part, surface, operation.verb) or surface.size
        found.append(
            band_measure(
                task,
                surface=name,
                band=band,
                kind=size_kind(surface),
                inside=surface.inside,
            )
        )
    for distance, kind in distances_now(task, operation):
        made = distance.b if distance.b in operation.makes else distance.a
        found.append(
            band_measure(
                task,
                surface=made,
                band=distance.band,
                kind=kind,
                inside=kind in {"width", "depth"},
            )
        )
    return _once(found)


def _once(measures: list[Measure]) -> tuple[Measure, ...]:
    """Leave out a second measuring of one and the same size."""
    kept: list[Measure] = []
    for one in measures:
        same = (m for m in kept if m.kind == one.kind and abs(m.aim - one.aim) < _SAME)
        if not any(m.band == one.band or m.surface == one.surface for m in same):
            kept.append(one)
    return tuple(kept)
