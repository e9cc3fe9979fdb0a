"""Dimensions the picture of a set-up must show: only those it needs, each tied to its step."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Hole, Keyway, Surface
from halfthou.planning.axes import cross, dot, moved
from halfthou.planning.worked import Measure, Step, Wanted, Zero
from halfthou.planning.working.task import Task
from halfthou.units import Millimetre, Vec3

_KINDS: Final = {
    "diameter": "diameter",
    "bore": "diameter",
    "width": "width",
    "length": "length",
    "depth": "depth",
    "position": "position",
    "thread": "thread",
}
_SAME: Final = 1e-6
_PLACED: Final = 4
"""No more hole places than this are dimensioned; the rest stand in the table of places."""


def wanted_for(task: Task, steps: tuple[Step, ...], zero: Zero | None) -> tuple[Wanted, ...]:
    """Give every dimension of a set-up, the grip's first, each once."""
    found: list[Wanted] = [*_grip(task)]
    for step in steps:
        for measure in (m for m in step.measures if not m.where):
            one = _measured(task, step, measure)
            found += [one] if one is not None else []
        if task.scheme.machine == "lathe":
            found += _along(task, step)
        elif task.scheme.machine == "mill" and zero is not None:
            found += _places(task, step, zero)
    return _each_once(found)


def _each_once(found: list[Wanted]) -> tuple[Wanted, ...]:
    kept: list[Wanted] = []
    for one in found:
        same = (
            k.kind == one.kind
            and abs(k.value - one.value) < _SAME
            and (k.surfaces == one.surfaces or (k.a == one.a and k.b == one.b))
            for k in kept
        )
        if not any(same):
            kept.append(one)
    return tuple(kept)


def _grip(task: Task) -> tuple[Wanted, ...]:
    scheme = task.scheme
    length = scheme.grip_high - scheme.grip_low
    if scheme.machine != "lathe" or length <= 0 or not task.part.turned:
        return ()
    if scheme.device.device == "centres":
        return ()
    radius = scheme.grip_size / 2
    return (
        Wanted(
            step=0,
            kind="grip",
            surfaces=scheme.grips,
            a=(scheme.grip_low, radius, 0.0),
            b=(scheme.grip_high, radius, 0.0),
            band=None,
            value=length,
            temporary=True,
        ),
    )


def _measured(task: Task, step: Step, measure: Measure) -> Wanted | None:
    surface = task.surface(measure.surface)
    kind = _KINDS.get(measure.kind)
    if surface is None or kind is None:
        return None
    if measure.kind in {"length", "depth", "width", "position"} and surface.kind == "plane":
        return _between(task, step, measure)
    band = measure.band or (surface.size if measure.kind == "thread" else None)
    a, b = _over(surface, measure.aim)
    return Wanted(
        step=step.number,
        kind="thread" if measure.kind == "thread" else "diameter",
        surfaces=(surface.name,),
        a=a,
        b=b,
        band=band,
        value=measure.aim if band is None else band.nominal,
        temporary=band is None,
    )


def _between(task: Task, step: Step, measure: Measure) -> Wanted | None:
    if (key := _left_under_keyway(task, step, measure)) is not None:
        return key
    for distance in task.part.distances:
        if distance.band is not measure.band and distance.band != measure.band:
            continue
        if measure.surface not in {distance.a, distance.b}:
            continue
        a, b = task.surface(distance.a), task.surface(distance.b)
        if a is None or b is None:
            continue
        shared = distance.band.text.startswith("centred")
        start = _edge_of(a)
        end = _edge_of(b)
        if measure.kind == "position":
            gone = dot(end, distance.direction) - dot(start, distance.direction)
            end = moved(start, distance.direction, gone)
        return Wanted(
            step=step.number,
            kind=measure.kind if measure.kind in {"depth", "position"} else "length",
            surfaces=(a.name, b.name),
            a=start,
            b=end,
            band=None if shared else measure.band,
            value=measure.aim if shared else distance.band.nominal,
            temporary=shared,
        )
    return None


def _left_under_keyway(task: Task, step: Step, measure: Measure) -> Wanted | None:
    """Give what a keyway leaves, from its floor to the far side of its round."""
    key = next(
        (f for f in task.part.features
         if isinstance(f, Keyway) and measure.surface == f"{f.name} floor"
         and measure.band == f.leaves),
        None,
    )  # fmt: skip
    if key is None:
        return None
    floor = moved(((key.left + key.right) / 2, 0.0, 0.0), key.out, key.floor)
    return Wanted(
        step=step.number,
        kind="length",
        surfaces=(measure.surface, key.on),
        a=floor,
        b=moved(floor, key.out, -key.leaves.nominal),
        band=measure.band,
        value=key.leaves.nominal,
    )


def _edge_of(surface: Surface) -> Vec3:
    """Give a point at the top edge of a plane, where a witness line starts."""
    return (
        (surface.low[0] + surface.high[0]) / 2,
        surface.high[1],
        (surface.low[2] + surface.high[2]) / 2,
    )


def _over(surface: Surface, across: Millimetre) -> tuple[Vec3, Vec3]:
    """Give both ends of a diameter at the middle of a round's length."""
    middle = (
        (surface.low[0] + surface.high[0]) / 2,
        (surface.low[1] + surface.high[1]) / 2,
        (surface.low[2] + surface.high[2]) / 2,
    )
    up = (0.0, 1.0, 0.0) if abs(surface.direction[1]) < 0.9 else (1.0, 0.0, 0.0)  # noqa: PLR2004
    side = cross(surface.direction, up)
    way = cross(side, surface.direction)
    half = across / 2
    return (
        (middle[0] + half * way[0], middle[1] + half * way[1], middle[2] + half * way[2]),
        (middle[0] - half * way[0], middle[1] - half * way[1], middle[2] - half * way[2]),
    )


def _along(task: Task, step: Step) -> list[Wanted]:
    """How far from the zero face a lathe tool goes, where no drawn length says it already."""
    found = []
    stops = [move.to for move in step.moves if move.slide == "saddle" and move.to > 0]
    for far in (step.length or max(stops),) if stops else ():
        op = step.operations[0]
        if op.through:
            continue
        x = task.face_x - task.sense * far
        if _already(step, far) or not _on_the_part(task, x):
            continue
        radius = op.cut_size / 2
        found.append(
            Wanted(
                step=step.number,
                kind="length",
                surfaces=(),
                a=(task.face_x, radius, 0.0),
                b=(x, radius, 0.0),
                band=None,
                value=far,
                temporary=True,
            )
        )
    return found


def _already(step: Step, travel: Millimetre) -> bool:
    return any(
        m.kind in {"length", "depth"} and abs(m.aim - travel) < 0.1  # noqa: PLR2004
        for m in step.measures
    )


def _on_the_part(task: Task, x: Millimetre) -> bool:
    reach = [(s.low[0], s.high[0]) for s in task.part.surfaces]
    return (
        bool(reach) and min(r[0] for r in reach) - _SAME <= x <= max(r[1] for r in reach) + _SAME
    )


def _places(task: Task, step: Step, zero: Zero) -> list[Wanted]:
    """Where holes stand from the zero: their circle, or their two distances."""
    op = step.operations[0]
    if op.verb.startswith("mill"):
        return []
    hole = next(
        (f for f in task.part.features if isinstance(f, Hole) and f.name == op.feature), None
    )
    if hole is not None and hole.ring is not None:
        centre, first = hole.ring.centre, hole.entries[0]
        x, y = task.on_table(centre, zero.at)
        to_centre = [
            _distance(step, centre, way, value)
            for way, value in ((task.along, x), (task.away, y))
            if abs(value) > _SAME
        ]
        other = tuple(2 * c - f for c, f in zip(centre, first, strict=True))
        return [
            *to_centre,
            Wanted(
                step=step.number,
                kind="diameter",
                surfaces=(hole.name,),
                a=first,
                b=(other[0], other[1], other[2]),
                band=None,
                value=hole.ring.diameter,
            ),
        ]
    found = []
    for place in step.places[:_PLACED]:
        for way, value in ((task.along, place.x), (task.away, place.y)):
            if abs(value) > _SAME:
                found.append(_distance(step, place.at, way, value))
    return found


def _distance(step: Step, at: Vec3, way: Vec3, value: Millimetre) -> Wanted:
    start = (at[0] - value * way[0], at[1] - value * way[1], at[2] - value * way[2])
    return Wanted(
        step=step.number,
        kind="position",
        surfaces=(),
        a=start,
        b=at,
        band=None,
        value=abs(value),
        temporary=True,
    )
