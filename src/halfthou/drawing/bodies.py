"""Metal as plain bodies, from the solved coordinates: rounds, blocks, bosses, rings and arms."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from halfthou.drawing.boss_metal import ArmBody, BossBody
from halfthou.drawing.equations import Solution
from halfthou.drawing.frame import cross_axes, high_end
from halfthou.drawing.grammar import BODIES, BOSSES
from halfthou.drawing.metal import BlockBody, Body, RoundBody
from halfthou.drawing.phrases import parse_reference
from halfthou.drawing.sheet import End, Sheet, axis_of_body
from halfthou.drawing.sizes import round_diameters
from halfthou.drawing.told import told
from halfthou.drawing.unlocated import loose_features
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import parse_angle, parse_size
from halfthou.units import Millimetre, Vec3

_SAME: Final = 1e-7
_ENDS: Final[tuple[End, End]] = ("low", "high")


def bodies_of(written: Written, sheet: Sheet, solution: Solution) -> tuple[Body, ...]:
    """Build every body; one of no thickness becomes a fault of the sheet."""
    made: dict[str, Body] = {}
    loose = loose_features(solution)
    metal = [table for table in written.features if table.kind in BODIES]
    # what stands on another body, and what joins two, comes after them
    for table in sorted(metal, key=lambda one: (one.kind == "arm", one.has("on"))):
        ends = _ends(sheet, solution, table)
        if not ends:
            continue  # it could not be set out, and that is told already
        thin = _thin(written, table, ends, loose=table.name in loose)
        if thin is not None:
            sheet.faults.append(thin)
            continue
        sheet.attempt(table, lambda t=table, e=ends: _made(written, made, t, e))  # type: ignore[misc]
    return tuple(made[table.name] for table in metal if table.name in made)


def _ends(
    sheet: Sheet, solution: Solution, table: WrittenTable
) -> dict[tuple[int, End], Millimetre]:
    both: tuple[End, ...] = (*_ENDS, "middle")
    return {
        (axis, end): line.at(solution.values)
        for axis in range(3)
        for end in both
        if (line := sheet.coordinates.get((table.name, axis, end)))
    }


def _made(
    written: Written,
    made: dict[str, Body],
    table: WrittenTable,
    ends: Mapping[tuple[int, End], Millimetre],
) -> None:
    if table.kind == "arm":
        made[table.name] = _arm(written, made, table, ends)
    elif table.kind in BOSSES:
        made[table.name] = _boss(written, made, table, ends)
    elif table.kind == "round":
        left, right = round_diameters(written, table)
        made[table.name] = RoundBody(
            name=table.name, left=ends[0, "low"], right=ends[0, "high"], left_diameter=left,
            right_diameter=right,
        )  # fmt: skip
    else:
        low = (ends[0, "low"], ends[1, "low"], ends[2, "low"])
        high = (ends[0, "high"], ends[1, "high"], ends[2, "high"])
        made[table.name] = BlockBody(name=table.name, low=low, high=high)


def _boss(
    written: Written,
    made: Mapping[str, Body],
    table: WrittenTable,
    ends: Mapping[tuple[int, End], Millimetre],
) -> BossBody:
    axis = axis_of_body(written, table)
    centre = [0.0, 0.0, 0.0]
    for other in cross_axes(axis):
        centre[other] = ends[other, "middle"]
    diameter = parse_size(table.text("diameter"), units=written.units).nominal.value
    start, end = ends[axis, "low"], ends[axis, "high"]
    upward = free_end_high(table)
    root = diameter
    if table.has("draft"):
        root += 2 * (end - start) * math.tan(parse_angle(table.text("draft")).value)
    if table.has("on") and (rooted := _rooted(made, table, axis)) is not None:
        start, end = (rooted, end) if upward else (start, rooted)
    inside = 0.0
    if table.has("inside"):
        inside = parse_size(table.text("inside"), units=written.units).nominal.value
        if inside >= diameter:
            raise InputFault(
                f"{table.name} is {told(inside, written.units)} inside and "
                f"{told(diameter, written.units)} outside",
                why="a ring has metal between its bore and its outside",
                tries=("check its inside and its diameter",),
            )
    return BossBody(
        name=table.name, axis=axis, start=start, end=end,
        centre=(centre[0], centre[1], centre[2]),
        start_diameter=root if upward else diameter, end_diameter=diameter if upward else root,
        inside=inside,
    )  # fmt: skip


def free_end_high(table: WrittenTable) -> bool:
    """Whether the free end of a boss is the right, top or front one."""
    side = parse_reference(table.text("on")).side if table.has("on") else None
    return side is None or bool(high_end(side))


def _rooted(made: Mapping[str, Body], table: WrittenTable, axis: int) -> Millimetre | None:
    """Where a boss on a round outside has its root: on the axis of that body."""
    base = made.get(parse_reference(table.text("on")).feature)
    if isinstance(base, RoundBody) and axis:
        return 0.0
    if isinstance(base, BossBody) and base.axis != axis:
        side = parse_reference(table.text("on")).side
        sign = 1.0 if side is None or high_end(side) else -1.0
        wall = (base.largest + base.inside) / 4 if base.inside else 0.0
        return base.centre[axis] + sign * wall
    return None


def _arm(
    written: Written,
    made: Mapping[str, Body],
    table: WrittenTable,
    ends: Mapping[tuple[int, End], Millimetre],
) -> ArmBody:
    axis = axis_of_body(written, table)
    names = [name.strip() for name in table.text("joins").split(" and ")]
    start, end = ends[axis, "low"], ends[axis, "high"]
    circles = [_circle(made, table, name, axis, (start, end)) for name in names]
    (a, wide_a, whole_a), (b, wide_b, whole_b) = circles
    if math.dist(a, b) <= abs(wide_a - wide_b) / 2 + _SAME:
        raise InputFault(
            f"{table.name} joins {names[0]} and {names[1]}, and one lies within the other",
            why=f"their axes are {told(math.dist(a, b), written.units)} apart",
            tries=("check where the two bosses are",),
        )
    return ArmBody(name=table.name, axis=axis, start=start, end=end, centres=(a, b),
                   diameters=(wide_a, wide_b), covered=(whole_a, whole_b))  # fmt: skip


def _circle(
    made: Mapping[str, Body],
    table: WrittenTable,
    name: str,
    axis: int,
    ends: tuple[Millimetre, Millimetre],
) -> tuple[Vec3, Millimetre, bool]:
    """Centre, diameter, and whether the boss fills the circle over the arm's thickness."""
    body = made.get(name)
    if isinstance(body, RoundBody):
        whole = body.left <= ends[0] + _SAME and ends[1] <= body.right + _SAME
        return (0.0, 0.0, 0.0), min(body.left_diameter, body.right_diameter), whole
    if not isinstance(body, BossBody):
        raise InputFault(
            f"{table.name} joins {name}, which could not be built",
            why="something is wrong with that boss",
            tries=("mend it first",),
        )
    centre = [*body.centre]
    centre[axis] = 0.0
    whole = body.start <= ends[0] + _SAME and ends[1] <= body.end + _SAME
    wide = min(body.start_diameter, body.end_diameter)
    return (centre[0], centre[1], centre[2]), wide, whole and not body.inside


def _thin(
    written: Written,
    table: WrittenTable,
    ends: Mapping[tuple[int, End], Millimetre],
    *,
    loose: bool,
) -> InputFault | None:
    gaps = {
        axis: ends[axis, "high"] - ends[axis, "low"] for axis in range(3) if (axis, "high") in ends
    }
    axis = min(gaps, key=lambda number: gaps[number])
    if gaps[axis] > _SAME:
        return None
    words = _size_word(table, axis)
    if loose and not table.has(words):
        return InputFault(
            f"nothing says how {words} {table.name} is",
            where=f"{written.file}, {table.place}",
            why="neither a size nor two placed sides give it",
            tries=(f'add {words} = "10"', "place both of its sides with at"),
        )
    return InputFault(
        f"{table.name} comes out {told(gaps[axis], written.units)} {words}",
        where=f"{written.file}, {table.place}",
        why="its sides as placed lie the wrong way round, or on each other",
        tries=("check the sides named in its at", "check what it is measured from"),
    )


def _size_word(table: WrittenTable, axis: int) -> str:
    if table.kind in BOSSES:
        return "long"
    if table.kind == "arm":
        return "thick"
    return ("long" if table.kind == "round" else "wide", "high", "thick")[axis]


def moved(body: Body, by: Vec3) -> Body:
    """Return a body moved; the axis of turned work stays where it is."""

    def to(point: Vec3) -> Vec3:
        return (point[0] + by[0], point[1] + by[1], point[2] + by[2])

    match body:
        case RoundBody():
            return replace(body, left=body.left + by[0], right=body.right + by[0])
        case BlockBody():
            return replace(body, low=to(body.low), high=to(body.high))
        case BossBody():
            along = by[body.axis]
            return replace(
                body, start=body.start + along, end=body.end + along, centre=to(body.centre)
            )
        case ArmBody():
            along = by[body.axis]
            first, second = (to(centre) for centre in body.centres)
            return replace(
                body, start=body.start + along, end=body.end + along, centres=(first, second)
            )
