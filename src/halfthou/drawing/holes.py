"""Holes: how deep each diameter goes in the metal that is there, and what walls it leaves."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, TypeAlias

from halfthou.drawing.built import Built, Solved, along, opposite
from halfthou.drawing.frame import AXIS_OF, SIDES, high_end, look_at, main_axis, point_with
from halfthou.drawing.hole_space import hole_regions, hole_walls
from halfthou.drawing.leanings import leaning, parse_leans
from halfthou.drawing.metal import (
    Body,
    RoundBody,
    along_line,
    crossings,
    round_across,
    stretches,
)
from halfthou.drawing.model import OUTWARD, Band, Finding, Hole, HoleStep, Ring, Side
from halfthou.drawing.phrases import Copies, parse_reference
from halfthou.drawing.rays import into_round
from halfthou.drawing.sheet import (
    copies_of,
    outside_direction,
    outside_of,
    row_step,
    turned_from,
)
from halfthou.drawing.sizes import band_of, parse_taper, step_band, steps_of
from halfthou.drawing.told import told
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import InputFault
from halfthou.handbook.threads import thread
from halfthou.quantities import HoleStep as WrittenStep
from halfthou.quantities import parse_size
from halfthou.units import DEGREE, Millimetre, Vec3

SPOT_FACE: Final = 0.5
"""Depth drawn for a spot face that is to clean up; the bench decides the real one [mm]."""
_USUAL_COUNTERSINK: Final = 90 * DEGREE
_SAME: Final = 1e-7
Line: TypeAlias = tuple[Vec3, Vec3]


def holes_in_order(written: Written) -> tuple[WrittenTable, ...]:
    """Return all holes, those that end in another hole after the others."""

    def waits(table: WrittenTable) -> bool:
        return any(step.to or step.beyond for step in steps_of(written, table))

    return tuple(sorted((t for t in written.features if t.kind == "hole"), key=waits))


def build_hole(solved: Solved, built: Built, table: WrittenTable) -> None:
    """Enter a hole with its copies."""
    _, side = solved.face(table)
    square, into = _directions(solved, table, side)
    copies = copies_of(solved.written, table)
    centre = _entry(solved, table, side)
    ring = _ring(copies, centre, side)
    entries = _entries(centre, copies, ring, side)
    steps = _steps(solved, built, table, entries[0], into)
    leans = math.acos(min(1.0, sum(a * b for a, b in zip(square, into, strict=True))))
    built.features.append(
        Hole(
            name=table.name,
            entries=entries,
            into=into,
            steps=steps,
            face=_face_name(built, table, side),
            on_axis=_on_axis(solved, table, entries, into),
            ring=ring,
            suits=table.text("suits"),
            leans=leans,
            cored=_cored(solved, table),
        )
    )
    for number, entry in enumerate(entries, start=1):
        name = table.name if number == 1 else f"{table.name} {number}"
        hole_walls(built, name, table.name, (entry, into), steps)
    mouth = steps[0].diameter.nominal / 2 * math.tan(leans)
    hole_regions(
        built,
        entries,
        into,
        steps,
        _overruns(solved, table, (entries[0], into), steps),
        mouth=mouth,
    )


def _on_axis(solved: Solved, table: WrittenTable, entries: Sequence[Vec3], into: Vec3) -> bool:
    """Whether a hole lies on the axis of turned work."""
    turned = all(isinstance(body, RoundBody) for body in solved.around(table.name))
    along = abs(into[0]) > 1 - _SAME
    return turned and along and len(entries) == 1 and math.hypot(*entries[0][1:]) < _SAME


def _directions(solved: Solved, table: WrittenTable, side: Side) -> tuple[Vec3, Vec3]:
    """Return the way in square to the face, and the way the hole really goes."""
    if outside_of(solved.written, table) is not None:
        square = opposite(outside_direction(solved.written, table))
    else:
        square = opposite(OUTWARD[side])
    if not table.has("leans"):
        return square, square
    return square, leaning(square, parse_leans(table.text("leans")), facing=side)


def _cored(solved: Solved, table: WrittenTable) -> Band | None:
    if not table.has("cored"):
        return None
    size = parse_size(table.text("cored"), units=solved.written.units)
    return band_of(size, rule=solved.rule, place=f"{table.place} cored", inside=True)


def _overruns(
    solved: Solved, table: WrittenTable, line: Line, steps: Sequence[HoleStep]
) -> tuple[Millimetre, ...]:
    """How much further each cut goes where the metal it leaves curves away from its axis."""
    written = steps_of(solved.written, table)
    entry, into = line
    met = [body for body in solved.around(table.name) if _meets_or_turned(body, entry, into)]
    slanted = max(map(abs, into)) < 1 - _SAME
    curved = slanted or any(round_across(body, into) for body in met)
    return tuple(
        made.diameter.nominal / 2
        if _ends_in_a_wall(solved, step) or (curved and made.breaks_out)
        else 0.0
        for step, made in zip(written, steps, strict=True)
    )


def _meets_or_turned(body: Body, entry: Vec3, into: Vec3) -> bool:
    return isinstance(body, RoundBody) or bool(stretches(body, entry, into))


def _ends_in_a_wall(solved: Solved, step: WrittenStep) -> bool:
    """Whether a step ends in another hole, whose wall curves away; a joint is flat."""
    other = solved.written.feature(step.to) if step.to else None
    return step.to is not None and not (other is not None and other.kind == "joint")


def _entry(solved: Solved, table: WrittenTable, side: Side) -> Vec3:
    axis = AXIS_OF[side]
    others = [solved.at(table.name, other) for other in range(3) if other != axis]
    point = point_with(axis, solved.at(table.name, axis), others[0], others[1])
    if outside_of(solved.written, table) is not None or parse_reference(table.text("in")).feature:
        return point
    # a side of the part may lie in front of the metal that this hole enters
    ends = [end for pair in crossings(solved.around(table.name), point, axis) for end in pair]
    if not ends:
        return point
    return point_with(axis, max(ends) if high_end(side) else min(ends), others[0], others[1])


def _ring(copies: Copies | None, centre: Vec3, side: Side) -> Ring | None:
    if copies is None or copies.circle is None:
        return None
    look = look_at(side)
    upward = next(one for one in SIDES if OUTWARD[one] == look.up)
    first = turned_from(side, copies.first or upward, copies.turned)
    x = sum(a * b for a, b in zip(first, look.right, strict=True))
    y = sum(a * b for a, b in zip(first, look.up, strict=True))
    return Ring(
        count=copies.count,
        diameter=copies.circle.nominal.value,
        centre=centre,
        first=math.atan2(y, x),
    )


def _entries(
    first: Vec3, copies: Copies | None, ring: Ring | None, side: Side
) -> tuple[Vec3, ...]:
    if ring is not None:
        look = look_at(side)
        found = []
        for number in range(ring.count):
            turn = ring.first + 2 * math.pi * number / ring.count
            out = along(ring.centre, look.right, ring.diameter / 2 * math.cos(turn))
            found.append(along(out, look.up, ring.diameter / 2 * math.sin(turn)))
        return tuple(found)
    if copies is None or copies.axis is None:
        return (first,)
    step = [0.0, 0.0, 0.0]
    step[copies.axis] = row_step(copies)
    direction = (step[0], step[1], step[2])
    return tuple(along(first, direction, float(number)) for number in range(copies.count))


def _face_name(built: Built, table: WrittenTable, side: Side) -> str:
    found = built.named(table.text("in")) or built.named(table.text("in").removesuffix(f" {side}"))
    return found.name if found else table.text("in")


def _steps(
    solved: Solved, built: Built, table: WrittenTable, entry: Vec3, into: Vec3
) -> tuple[HoleStep, ...]:
    written = steps_of(solved.written, table)
    place = f"{table.place} size"
    exit_depth = _exit(solved.around(table.name), entry, into)
    if exit_depth is None:
        built.findings.append(_no_metal(table, entry))
        exit_depth = _some_depth(written)
    made: list[HoleStep] = []
    start = 0.0
    for number, step in enumerate(written):
        diameter = step_band(step, rule=solved.rule, place=place)
        after = written[number + 1] if number + 1 < len(written) else None
        narrow = step_band(after, rule=solved.rule, place=place).nominal if after else 0.0
        end = _end(solved, built, step, (entry, into), exit_depth, (diameter.nominal, narrow))
        blind = end < exit_depth - _SAME and step.to is None
        made.append(
            HoleStep(
                kind=step.kind,
                diameter=diameter,
                start=start,
                end=end,
                breaks_out=not blind,
                point=_has_point(step) and blind and after is None,
                angle=step.angle or (_USUAL_COUNTERSINK if step.kind == "countersink" else None),
                thread=thread(step.thread) if step.thread and not step.clear else None,
                clears=thread(step.thread) if step.thread and step.clear else None,
                process=step.process,
                end_diameter=_tapered(table, step, diameter.nominal, end - start),
                text=step.text,
            )
        )
        start = end
    return tuple(made)


def _tapered(
    table: WrittenTable, step: WrittenStep, wide: Millimetre, long: Millimetre
) -> Millimetre | None:
    if step.taper is None:
        return None
    narrow = wide - parse_taper(step.taper).rate * long
    if narrow <= 0:
        raise InputFault(
            f"{table.name} tapers away to nothing before its end",
            tries=("check the taper", "check how deep it goes"),
        )
    return narrow


def _no_metal(table: WrittenTable, entry: Vec3) -> Finding:
    return Finding(
        what=f"{table.name} goes into no metal",
        feature=table.name,
        why="nothing lies below the place where it starts",
        tries=("check its at", "check the face it goes in"),
        grave=True,
        at=entry,
    )


def _has_point(step: WrittenStep) -> bool:
    drilled = step.process != "bored" and step.taper is None
    return step.kind == "plain" and not step.flat and drilled


def _some_depth(steps: Sequence[WrittenStep]) -> Millimetre:
    return max((step.depth.value for step in steps if step.depth), default=1.0)


def _exit(bodies: Sequence[Body], entry: Vec3, into: Vec3) -> Millimetre | None:
    """How far below the entry the last metal on the hole's axis ends."""
    axis = main_axis(into)
    if abs(into[axis]) < 1 - _SAME:
        depths = [end for pair in along_line(bodies, entry, into) for end in pair]
    else:
        stretches = crossings(bodies, entry, axis)
        depths = [(end - entry[axis]) * into[axis] for pair in stretches for end in pair]
    deepest = max(depths, default=0.0)
    return deepest if deepest > _SAME else None


def _end(  # noqa: PLR0917
    solved: Solved,
    built: Built,
    step: WrittenStep,
    line: Line,
    exit_depth: Millimetre,
    diameters: tuple[Millimetre, Millimetre],
) -> Millimetre:
    if step.to is not None:
        return _reaches(solved, built, step.to, line, exit_depth)
    extra = 0.0
    if step.beyond is not None:
        extra = _reaches(solved, built, step.beyond, line, exit_depth)
    if step.depth is not None:
        return extra + step.depth.value
    if step.through:
        return exit_depth
    if step.kind == "countersink":
        wide, narrow = diameters
        return (wide - narrow) / 2 / math.tan((step.angle or _USUAL_COUNTERSINK) / 2)
    return SPOT_FACE if step.clean_up else exit_depth


def _reaches(
    solved: Solved, built: Built, name: str, line: Line, exit_depth: Millimetre
) -> Millimetre:
    """How deep the named hole, joint or round lies on the way in."""
    entry, into = line
    axis = main_axis(into)
    place = solved.places.get((name, axis, "middle"))
    hole = next((f for f in built.features if isinstance(f, Hole) and f.name == name), None)
    if hole is None:
        return abs((place - entry[axis]) / into[axis]) if place is not None else exit_depth
    if max(map(abs, into)) < 1 - _SAME or max(map(abs, hole.into)) < 1 - _SAME:
        return _meets(solved, built, hole, line, exit_depth)
    if hole.into[axis]:
        return exit_depth
    off_axis = next(n for n in range(3) if n != axis and not hole.into[n])
    off = abs(hole.entries[0][off_axis] - entry[off_axis])
    radius = max(step.diameter.nominal for step in hole.steps) / 2
    middle = (hole.entries[0][axis] - entry[axis]) * into[axis]
    if off >= radius:
        built.findings.append(_beside(solved, name, off, radius, entry))
        return exit_depth
    return middle - math.sqrt(radius * radius - off * off)


def _beside(solved: Solved, name: str, off: Millimetre, radius: Millimetre, at: Vec3) -> Finding:
    units = solved.written.units
    return Finding(
        what=f"a hole that ends in {name} passes beside it",
        feature=name,
        why=f"its axis runs {told(off, units)} off, and {name} is {told(radius, units)} in radius",
        tries=("check its at",),
        grave=True,
        at=at,
    )


def _meets(
    solved: Solved, built: Built, hole: Hole, line: Line, exit_depth: Millimetre
) -> Millimetre:
    """How far along a slanting line the wall of another hole is met."""
    entry, into = line
    radius = max(step.diameter.nominal for step in hole.steps) / 2
    met = into_round(entry, into, centre=hole.entries[0], axis=hole.into, radius=radius)
    if met is not None:
        return met
    x = _cross(into, hole.into)
    length = math.hypot(*x) or 1.0
    gap = [a - b for a, b in zip(hole.entries[0], entry, strict=True)]
    off = abs(sum(a * b for a, b in zip(gap, x, strict=True))) / length
    built.findings.append(_beside(solved, hole.name, off, radius, entry))
    return exit_depth


def _cross(a: Vec3, b: Vec3) -> Vec3:
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )
