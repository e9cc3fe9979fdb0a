"""Bosses, rings and arms: their ends, outsides and edges."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from halfthou.drawing.blocks import enter_plane
from halfthou.drawing.bodies import free_end_high
from halfthou.drawing.boss_metal import ArmBody, BossBody
from halfthou.drawing.built import Built, Solved, along, cleans_up, stays_raw
from halfthou.drawing.frame import SIDES, cross_axes, high_end, point_with, side_of
from halfthou.drawing.metal import Body, in_metal
from halfthou.drawing.model import OUTWARD, Arm, Band, Boss, BossSide, Side, Surface
from halfthou.drawing.phrases import parse_reference
from halfthou.drawing.sizes import band_of
from halfthou.drawing.written import Written, WrittenTable
from halfthou.quantities import parse_size
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-7
_OUTSIDE: Final = 1e-3
_SPOKES: Final = 8
_HOOPS: Final = (0.15, 0.5, 0.95)
_WHOLE: Final[tuple[BossSide, BossSide]] = ("outside", "inside")


def build_bosses(solved: Solved, built: Built) -> None:
    """Enter all bosses, rings and arms with the surfaces that show."""
    for body in solved.bodies:
        table = solved.written.feature(body.name)
        if table is None:
            continue
        if isinstance(body, BossBody):
            _boss(solved, built, table, body)
        elif isinstance(body, ArmBody):
            _arm(solved, built, table, body)


def fillet_notes(written: Written) -> tuple[str, ...]:
    """Return a note on each fillet: they are kept on the drawing and left out of the solid."""
    return tuple(
        f"fillet {table.text('fillet')} on {table.name}, not shown"
        for table in written.features
        if table.has("fillet")
    )


def fillet_of(written: Written, table: WrittenTable) -> Millimetre:
    """Radius of the fillets of a body; nothing where none are drawn [mm]."""
    if not table.has("fillet"):
        return 0.0
    return parse_size(table.text("fillet"), units=written.units).nominal.value


def _band(solved: Solved, table: WrittenTable, key: str) -> Band | None:
    if not table.has(key):
        return None
    size = parse_size(table.text(key), units=solved.written.units)
    place = f"{table.place} {key}"
    return band_of(size, rule=solved.rule, place=place, inside=key == "inside")


def _ends(axis: int) -> tuple[Side, Side]:
    return (side_of(axis, 0), side_of(axis, 1))


def _boss(solved: Solved, built: Built, table: WrittenTable, body: BossBody) -> None:
    written = solved.written
    diameter = _band(solved, table, "diameter")
    assert diameter is not None  # noqa: S101  (the grammar demands a diameter)
    sides: tuple[BossSide, ...] = (*_ends(body.axis), *_WHOLE)
    root = body.start_diameter if free_end_high(table) else body.end_diameter
    boss = Boss(
        name=body.name,
        axis=body.axis,
        start=body.start,
        end=body.end,
        centre=body.on_axis(body.start),
        diameter=diameter,
        root_diameter=root,
        rises=free_end_high(table),
        inside=_band(solved, table, "inside"),
        on=parse_reference(table.text("on")).feature,
        machined=frozenset(s for s in sides if not stays_raw(written, table, s)),
        clean_up=frozenset(s for s in sides if cleans_up(table, s)),
        fillet=fillet_of(written, table),
    )
    if solved.only_cast(body.name):
        built.comes_off.append(boss)
        return
    built.features.append(boss)
    _outside(solved, built, table, body)
    for side in _ends(body.axis):
        at = body.end if high_end(side) else body.start
        wide = body.end_diameter if high_end(side) else body.start_diameter
        if not _covered(solved, body, _hoops(body, at, wide), side):
            low, high = _flat(body, at, wide / 2)
            _plane(solved, built, table, side, (low, high))


def _outside(solved: Solved, built: Built, table: WrittenTable, body: BossBody) -> None:
    written, name = solved.written, body.name
    axis = OUTWARD[side_of(body.axis, 1)]
    drafted = abs(body.start_diameter - body.end_diameter) > _SAME
    built.add(
        Surface(
            name=name, feature=name, kind="cone" if drafted else "cylinder", inside=False,
            point=body.on_axis(body.start), direction=axis, low=body.low, high=body.high,
            size=_band(solved, table, "diameter"), raw=stays_raw(written, table, "outside"),
            clean_up=cleans_up(table, "outside"),
        ),
        f"{name} outside",
    )  # fmt: skip
    if body.inside:
        low, _ = _flat(body, body.start, body.inside / 2)
        _, high = _flat(body, body.end, body.inside / 2)
        built.add(
            Surface(
                name=f"{name} inside", feature=name, kind="cylinder", inside=True,
                point=body.on_axis(body.start), direction=axis, low=low, high=high,
                size=_band(solved, table, "inside"), raw=stays_raw(written, table, "inside"),
                clean_up=cleans_up(table, "inside"),
            )
        )  # fmt: skip


def _flat(body: BossBody, at: Millimetre, radius: Millimetre) -> tuple[Vec3, Vec3]:
    first, second = (body.centre[n] for n in cross_axes(body.axis))
    return (
        point_with(body.axis, at, first - radius, second - radius),
        point_with(body.axis, at, first + radius, second + radius),
    )


def _hoops(body: BossBody, at: Millimetre, wide: Millimetre) -> Iterator[Vec3]:
    first, second = (body.centre[n] for n in cross_axes(body.axis))
    for hoop in _HOOPS:
        radius = (body.inside + hoop * (wide - body.inside)) / 2
        for number in range(_SPOKES):
            turn = 2 * math.pi * (number + hoop) / _SPOKES
            yield point_with(
                body.axis,
                at,
                first + radius * math.cos(turn),
                second + radius * math.sin(turn),
            )


def _covered(solved: Solved, body: Body, points: Iterator[Vec3], side: Side) -> bool:
    """Whether a face lies wholly in other metal."""
    others = [other for other in solved.bodies if other is not body]
    return bool(others) and all(
        in_metal(others, along(point, OUTWARD[side], _OUTSIDE)) for point in points
    )


def _plane(
    solved: Solved, built: Built, table: WrittenTable, side: Side, corners: tuple[Vec3, Vec3]
) -> None:
    body = solved.body(table.name)
    outermost = body is not None and solved.outermost(body, side)
    enter_plane(
        built,
        body=table.name,
        side=side,
        name=side if outermost else f"{table.name} {side}",
        corners=corners,
        raw=stays_raw(solved.written, table, side),
        clean_up=cleans_up(table, side),
    )


def _arm(solved: Solved, built: Built, table: WrittenTable, body: ArmBody) -> None:
    written = solved.written
    first, _, second = table.text("joins").partition(" and ")
    ends = _ends(body.axis)
    built.features.append(
        Arm(
            name=body.name,
            axis=body.axis,
            start=body.start,
            end=body.end,
            joins=(first.strip(), second.strip()),
            centres=body.centres,
            diameters=body.diameters,
            covered=body.covered,
            machined=frozenset(s for s in SIDES if not stays_raw(written, table, s)),
            clean_up=frozenset(s for s in SIDES if cleans_up(table, s)),
            fillet=fillet_of(written, table),
        )
    )
    for side in ends:
        at = body.end if high_end(side) else body.start
        if not _covered(solved, body, _along_middle(body, at), side):
            low, high = (_at(corner, body.axis, at) for corner in (body.low, body.high))
            _plane(solved, built, table, side, (low, high))
    _edges(solved, built, table, body)


def _at(corner: Vec3, axis: int, at: Millimetre) -> Vec3:
    values = list(corner)
    values[axis] = at
    return (values[0], values[1], values[2])


def _along_middle(body: ArmBody, at: Millimetre) -> Iterator[Vec3]:
    a, b = body.centres
    for share in (0.1, 0.3, 0.5, 0.7, 0.9):
        x, y, z = (p + share * (q - p) for p, q in zip(a, b, strict=True))
        yield _at((x, y, z), body.axis, at)


def _edges(solved: Solved, built: Built, table: WrittenTable, body: ArmBody) -> None:
    """Enter the two straight edges of an arm."""
    corners = body.outline()
    raw = stays_raw(solved.written, table, "outside")
    for name, (p, q) in (
        (f"{body.name} edge", corners[:2]),
        (f"{body.name} edge 2", corners[2:]),
    ):
        far = _at(q, body.axis, body.end)
        low, high = (tuple(pick(a, b) for a, b in zip(p, far, strict=True)) for pick in (min, max))
        out = [0.0, 0.0, 0.0]
        first, second = cross_axes(body.axis)
        length = math.dist(p, q)
        out[first], out[second] = (q[second] - p[second]) / length, -(q[first] - p[first]) / length
        middle = [(a + b) / 2 for a, b in zip(p, far, strict=True)]
        inward = [c - m for c, m in zip(_middle_of(body), middle, strict=True)]
        if sum(a * b for a, b in zip(out, inward, strict=True)) > 0:
            out = [-n for n in out]
        built.add(
            Surface(
                name=name, feature=body.name, kind="plane", inside=False,
                point=(middle[0], middle[1], middle[2]), direction=(out[0], out[1], out[2]),
                low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]), raw=raw,
            )
        )  # fmt: skip


def _middle_of(body: ArmBody) -> Vec3:
    x, y, z = ((a + b) / 2 for a, b in zip(*body.centres, strict=True))
    return (x, y, z)
