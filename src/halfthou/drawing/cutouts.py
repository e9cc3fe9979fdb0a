"""Steps, slots and pockets: flat-walled cuts, and where they leave the metal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.built import Built, Solved, opposite
from halfthou.drawing.frame import AXIS_OF, ENDS, SIDES, high_end, main_axis
from halfthou.drawing.geometry import Box, Cylinder, Region
from halfthou.drawing.metal import reach
from halfthou.drawing.model import OUTWARD, Band, Cutout, Finding, Side, Surface
from halfthou.drawing.region_space import plus, unit
from halfthou.drawing.sheet import copies_of, row_step
from halfthou.drawing.sizes import band_of
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import parse_size
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-7


def build_cutout(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a step, slot or pocket."""
    face, side = solved.face(table)
    low = _corner(solved, table.name, "low")
    high = _corner(solved, table.name, "high")
    if min(b - a for a, b in zip(low, high, strict=True)) <= _SAME:
        built.findings.append(_no_room(table, low))
        return
    radius = _corner_radius(solved, table, low, high, AXIS_OF[side])
    open_sides = frozenset(
        s for s in SIDES if s == side or _leaves_metal(solved, face.feature, s, low, high)
    )
    floor = next(s for s in ENDS[AXIS_OF[side]] if s != side)
    cutout = Cutout(
        name=table.name,
        kind="step" if table.kind == "step" else "slot" if table.kind == "slot" else "pocket",
        low=low,
        high=high,
        open_sides=open_sides,
        floor=floor,
        corner_radius=radius,
        wide=_band(solved, table, "wide"),
        deep=_band(solved, table, "deep"),
    )
    for one in _copies(solved, table, cutout):
        _build(built, one, AXIS_OF[side])


def _corner_radius(
    solved: Solved, table: WrittenTable, low: Vec3, high: Vec3, axis: int
) -> Millimetre:
    """Give the radius a pocket's corners are drawn with; nought where none is.

    Raises
    ------
    InputFault
        When what is cut has no corners, or they are rounder than half of it is wide.
    """
    if not table.has("corners"):
        return 0.0
    if table.kind != "pocket":
        raise InputFault(
            f"{table.name} has no corners to round",
            why=f"a {table.kind} runs out of the metal on each side that nothing ends",
            tries=(f"write it as [pocket.{table.name}]: closed all round", "take corners out"),
        )
    text = table.text("corners")
    radius = parse_size(text, units=solved.written.units).nominal.value
    room = min(high[other] - low[other] for other in range(3) if other != axis)
    if room < 2 * radius - _SAME:
        raise InputFault(
            f"corners of {text} do not fit {table.name}",
            why=f"it is {room:.3f} mm across",
            tries=("half of that or less",),
        )
    return radius


def _build(built: Built, cutout: Cutout, axis: int) -> None:
    built.features.append(cutout)
    _trim(built, cutout)
    built.removed.extend(_regions(cutout, axis))
    for one in SIDES:
        if one not in cutout.open_sides:
            _wall(built, cutout, one)


def _copies(solved: Solved, table: WrittenTable, first: Cutout) -> Iterator[Cutout]:
    """Yield a cut and its copies in a row: ``ports``, ``ports 2``."""
    copies = copies_of(solved.written, table)
    if copies is None:
        yield first
        return
    if copies.axis is None:
        raise InputFault(
            f"'{copies.text}' would turn {table.name} as it goes round",
            why=f"only holes are repeated on a circle; a {table.kind} in a row",
            tries=("write it like 2 at 40 left to right", "draw each one by itself"),
        )
    for number in range(copies.count):
        by = unit(copies.axis, number * row_step(copies))
        name = first.name if number == 0 else f"{first.name} {number + 1}"
        yield replace(first, name=name, low=plus(first.low, by), high=plus(first.high, by))


def _corner(solved: Solved, name: str, end: str) -> Vec3:
    which = "low" if end == "low" else "high"
    low = [min(solved.at(name, axis, "low"), solved.at(name, axis, "high")) for axis in range(3)]
    high = [max(solved.at(name, axis, "low"), solved.at(name, axis, "high")) for axis in range(3)]
    values = low if which == "low" else high
    return (values[0], values[1], values[2])


def _no_room(table: WrittenTable, at: Vec3) -> Finding:
    return Finding(
        what=f"{table.name} takes nothing away",
        feature=table.name,
        why="two of its opposite sides lie in one place",
        tries=("check its sizes and its at",),
        grave=True,
        at=at,
    )


def _leaves_metal(solved: Solved, name: str, side: Side, low: Vec3, high: Vec3) -> bool:
    body = solved.body(name)
    reach_low, reach_high = (body.low, body.high) if body else reach(solved.own)
    axis = AXIS_OF[side]
    if high_end(side):
        return high[axis] >= reach_high[axis] - _SAME
    return low[axis] <= reach_low[axis] + _SAME


def _band(solved: Solved, table: WrittenTable, key: str) -> Band | None:
    text = table.text(key)
    if not text or text.startswith("as "):
        return None
    size = parse_size(text, units=solved.written.units)
    return band_of(size, rule=solved.rule, place=f"{table.place} {key}", inside=True)


def _regions(cutout: Cutout, axis: int) -> list[Region]:
    low, high, radius = cutout.low, cutout.high, cutout.corner_radius
    first, second = (other for other in range(3) if other != axis)
    room = min(high[first] - low[first], high[second] - low[second])
    if radius <= 0 or room < 2 * radius - _SAME or cutout.kind != "pocket":
        return [Box(low=low, high=high)]
    regions: list[Region] = []
    for along in (first, second):
        if high[along] - low[along] > 2 * radius + _SAME:
            inner_low, inner_high = list(low), list(high)
            inner_low[along] += radius
            inner_high[along] -= radius
            regions.append(
                Box(low=(inner_low[0], inner_low[1], inner_low[2]),
                    high=(inner_high[0], inner_high[1], inner_high[2]))
            )  # fmt: skip
    corners = {
        (a, b)
        for a in (low[first] + radius, high[first] - radius)
        for b in (low[second] + radius, high[second] - radius)
    }
    for a, b in sorted(corners):
        start, end = [0.0] * 3, [0.0] * 3
        start[first] = end[first] = a
        start[second] = end[second] = b
        start[axis], end[axis] = low[axis], high[axis]
        regions.append(
            Cylinder(start=(start[0], start[1], start[2]), end=(end[0], end[1], end[2]),
                     diameter=2 * radius)
        )  # fmt: skip
    return regions


def _trim(built: Built, cutout: Cutout) -> None:
    """Shorten the sides that the cut takes a whole strip from."""
    for name, surface in tuple(built.surfaces.items()):
        if surface.kind != "plane":
            continue
        flat = main_axis(surface.direction)
        if abs(surface.direction[flat]) < 1 - _SAME:
            continue
        at = surface.point[flat]
        if not cutout.low[flat] - _SAME <= at <= cutout.high[flat] + _SAME:
            continue
        first, second = (n for n in range(3) if n != flat)
        for along, over in ((first, second), (second, first)):
            whole = (
                cutout.low[over] <= surface.low[over] + _SAME
                and cutout.high[over] >= surface.high[over] - _SAME
            )
            if whole:
                low, high = _left_over(surface, cutout, along)
                built.surfaces[name] = replace(surface, low=low, high=high, point=_mid(low, high))
                break


def _left_over(surface: Surface, cutout: Cutout, axis: int) -> tuple[Vec3, Vec3]:
    low, high = list(surface.low), list(surface.high)
    if cutout.low[axis] <= low[axis] + _SAME and cutout.high[axis] < high[axis] - _SAME:
        low[axis] = max(low[axis], cutout.high[axis])
    elif cutout.high[axis] >= high[axis] - _SAME and cutout.low[axis] > low[axis] + _SAME:
        high[axis] = min(high[axis], cutout.low[axis])
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _mid(low: Vec3, high: Vec3) -> Vec3:
    return ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)


def _wall(built: Built, cutout: Cutout, side: Side) -> None:
    axis = AXIS_OF[side]
    at: Millimetre = (cutout.high if high_end(side) else cutout.low)[axis]
    low, high = list(cutout.low), list(cutout.high)
    low[axis] = high[axis] = at
    outward = OUTWARD[side]
    floor = side == cutout.floor
    middle = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    built.add(
        Surface(
            name=f"{cutout.name} floor" if floor else f"{cutout.name} {side}",
            feature=cutout.name,
            kind="plane",
            inside=True,
            point=(middle[0], middle[1], middle[2]),
            direction=opposite(outward),
            low=(low[0], low[1], low[2]),
            high=(high[0], high[1], high[2]),
        ),
        f"{cutout.name} {side}",
    )
