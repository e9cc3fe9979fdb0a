"""Setting out: the coordinates of every feature, and the equation of every written dimension."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from halfthou.drawing.dimensions import axes_of, enter_dimensions
from halfthou.drawing.equations import Linear, known
from halfthou.drawing.frame import AXIS_OF, cross_axes, high_end
from halfthou.drawing.grammar import BODIES
from halfthou.drawing.model import Side
from halfthou.drawing.phrases import (
    Place,
    Reference,
)
from halfthou.drawing.sheet import (
    CUTOUTS,
    SIZE_KEYS,
    End,
    Sheet,
    face_of,
    places_of,
)
from halfthou.drawing.sizes import first_diameter, round_diameters
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import InputFault

_ENDS: Final[tuple[End, End]] = ("low", "high")


def set_out(written: Written, farthest: dict[tuple[int, int], str]) -> Sheet:
    """Enter every feature of a part file into one system of equations."""
    sheet = Sheet(written=written, farthest=farthest)
    bodies = [table for table in written.features if table.kind in BODIES]
    rounds = [table for table in bodies if table.kind == "round"]
    for number, table in enumerate(rounds):
        _enter_round(sheet, table, rounds[number - 1] if number else None)
    for table in bodies:
        if table.kind != "round":
            _enter_block(sheet, table, first=table is bodies[0] and not rounds)
    rest = [table for table in written.features if table.kind not in BODIES]
    for table in rest:
        _try(sheet, table, _enter_other)
    for table in written.features:
        _try(sheet, table, enter_dimensions)
    return sheet


def _try(sheet: Sheet, table: WrittenTable, act: Callable[[Sheet, WrittenTable], None]) -> None:
    try:
        act(sheet, table)
    except InputFault as fault:
        sheet.faults.append(
            fault
            if fault.where
            else InputFault(
                fault.what,
                where=f"{sheet.written.file}, {table.place}",
                why=fault.why,
                tries=fault.tries,
            )
        )


def _own_sides(written: Written, table: WrittenTable) -> set[Side]:
    return {place.own for place in places_of(written, table) if place.own}


def _enter_round(sheet: Sheet, table: WrittenTable, before: WrittenTable | None) -> None:
    name = table.name
    if before is None:
        sheet.fix(name, 0, "low", known(0.0))
    elif "left" not in _own_sides(sheet.written, table):
        sheet.fix(name, 0, "low", sheet.coordinates[before.name, 0, "high"])
    sheet.both_ends(name, 0)
    radius = max(round_diameters(sheet.written, table)) / 2
    for axis in (1, 2):
        sheet.fix(name, axis, "low", known(-radius))
        sheet.fix(name, axis, "high", known(radius))
        sheet.fix(name, axis, "middle", known(0.0))


def _enter_block(sheet: Sheet, table: WrittenTable, *, first: bool) -> None:
    for axis in range(3):
        if first:
            sheet.fix(table.name, axis, "low", known(0.0))
        sheet.both_ends(table.name, axis)


def _enter_other(sheet: Sheet, table: WrittenTable) -> None:
    if table.kind == "hole":
        _enter_hole(sheet, table)
    elif table.kind in CUTOUTS:
        _enter_cutout(sheet, table)
    elif table.kind in {"keyway", "groove"}:
        sheet.both_ends(table.name, 0)
    elif table.kind == "joint":
        axis = next((AXIS_OF[p.to.side] for p in places_of(sheet.written, table) if p.to.side), 1)
        sheet.unknown(table.name, axis, "middle")


def _enter_hole(sheet: Sheet, table: WrittenTable) -> None:
    face, side = face_of(table)
    entry = AXIS_OF[side]
    line = _face_line(sheet, face, side)
    for end in ("low", "high", "middle"):
        sheet.fix(table.name, entry, end, line)
    radius = first_diameter(sheet.written, table) / 2
    on_axis = _holes_on_axis(sheet, table, face, side)
    for axis in cross_axes(entry):
        if axis in on_axis:
            middle = on_axis[axis]
            sheet.fix(table.name, axis, "middle", middle)
        else:
            middle = sheet.unknown(table.name, axis, "middle")
        sheet.fix(table.name, axis, "low", middle.plus(known(-radius)))
        sheet.fix(table.name, axis, "high", middle.plus(known(radius)))


def _holes_on_axis(
    sheet: Sheet, table: WrittenTable, face: Reference, side: Side
) -> dict[int, Linear]:
    """Directions in which a hole in turned work lies on its axis because nothing else is said."""
    body = sheet.written.feature(
        face.feature or sheet.farthest.get((AXIS_OF[side], high_end(side)), "")
    )
    if body is None or body.kind != "round":
        return {}
    said = {axis for place in places_of(sheet.written, table) for axis in axes_of(table, place)}
    return {axis: known(0.0) for axis in cross_axes(AXIS_OF[side]) if axis not in said and axis}


def _face_line(sheet: Sheet, face: Reference, side: Side) -> Linear:
    key = sheet.key(face, AXIS_OF[side])
    line = sheet.line(key)
    body = sheet.written.feature(face.feature)
    if line is None or (body is not None and body.kind not in BODIES):
        raise InputFault(
            f"there is no face '{face.text}' to cut into",
            why="only metal entered as a round, block or plate has faces of its own",
            tries=("name a side of the part", "name a body and its side"),
        )
    return line


def _enter_cutout(sheet: Sheet, table: WrittenTable) -> None:
    face, side = face_of(table)
    entry, name = AXIS_OF[side], table.name
    sheet.fix(name, entry, "high" if high_end(side) else "low", _face_line(sheet, face, side))
    sheet.both_ends(name, entry)
    places = places_of(sheet.written, table)
    for axis in cross_axes(entry):
        for end in runs_out(table, axis, places):
            body = face.feature or sheet.farthest.get((axis, int(end == "high")), "")
            line = sheet.coordinates.get((body, axis, end))
            if line is not None:
                sheet.fix(name, axis, end, line)
        sheet.both_ends(name, axis)


def runs_out(table: WrittenTable, axis: int, places: Sequence[Place]) -> tuple[End, ...]:
    """Return the ends of a slot or step that nothing locates: there it leaves the metal."""
    if table.kind == "pocket":
        return ()
    mine = [place for place in places if place.axis == axis]
    sized = any(key_axis == axis and table.has(key) for key, key_axis in SIZE_KEYS)
    owned = {
        end for end in _ENDS for p in mine if p.own and (high_end(p.own) == 1) == (end == "high")
    }
    if len(owned) == len(_ENDS) or sized or any(place.own is None for place in mine):
        return ()
    return tuple(end for end in _ENDS if end not in owned)
