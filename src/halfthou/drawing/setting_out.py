"""Setting out: the coordinates of every feature, and the equation of every written dimension."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final

from halfthou.drawing.dimensions import axes_of, enter_dimensions
from halfthou.drawing.equations import Linear, known
from halfthou.drawing.frame import AXIS_OF, cross_axes, high_end
from halfthou.drawing.grammar import BODIES, BOSSES
from halfthou.drawing.leanings import parse_leans
from halfthou.drawing.model import Side
from halfthou.drawing.phrases import Place, Reference
from halfthou.drawing.setting_out_bodies import enter_bodies
from halfthou.drawing.sheet import (
    CUTOUTS,
    SIZE_KEYS,
    End,
    Sheet,
    axis_of_body,
    face_of,
    outside_direction,
    outside_of,
    places_of,
)
from halfthou.drawing.sizes import first_diameter, largest_diameter
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import InputFault

_ENDS: Final[tuple[End, End]] = ("low", "high")
ROUND_BODIES: Final = BOSSES | {"round"}


def set_out(written: Written, farthest: dict[tuple[int, int], str]) -> Sheet:
    """Enter every feature of a part file into one system of equations."""
    sheet = Sheet(written=written, farthest=farthest)
    enter_bodies(sheet)
    for act in (_enter_other, enter_dimensions):
        for table in written.features:
            if act is enter_dimensions or table.kind not in BODIES:
                sheet.attempt(table, partial(act, sheet, table))
    return sheet


def _enter_other(sheet: Sheet, table: WrittenTable) -> None:
    if table.kind == "hole":
        _enter_hole(sheet, table)
    elif table.kind in CUTOUTS:
        _enter_cutout(sheet, table)
    elif table.kind in {"keyway", "groove"}:
        sheet.both_ends(table.name, 0)
    elif table.kind == "face":
        _enter_face(sheet, table)
    elif table.kind == "joint":
        axis = next((AXIS_OF[p.to.side] for p in places_of(sheet.written, table) if p.to.side), 1)
        sheet.unknown(table.name, axis, "middle")


def _enter_face(sheet: Sheet, table: WrittenTable) -> None:
    """Enter a line in a slanted face: it is placed outward, and toward where it leans."""
    _, side = face_of(table)
    sheet.unknown(table.name, AXIS_OF[side], "middle")
    toward = parse_leans(table.text("leans")).toward
    if AXIS_OF[toward] != AXIS_OF[side]:
        sheet.unknown(table.name, AXIS_OF[toward], "middle")


def _enter_outside(sheet: Sheet, table: WrittenTable, body: WrittenTable) -> None:
    """Enter a hole that goes into a round outside at an angle, straight to the axis."""
    axis = axis_of_body(sheet.written, body)
    sheet.unknown(table.name, axis, "middle")
    out = outside_direction(sheet.written, table)
    radius = largest_diameter(sheet.written, body) / 2
    for other in cross_axes(axis):
        middle = sheet.coordinates[body.name, other, "middle"]
        sheet.fix(table.name, other, "middle", middle.plus(known(radius * out[other])))


def _enter_hole(sheet: Sheet, table: WrittenTable) -> None:
    if (body := outside_of(sheet.written, table)) is not None:
        _enter_outside(sheet, table, body)
        return
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
    """Directions in which a hole in a round body lies on its axis, as nothing else is said."""
    name = face.feature or sheet.farthest.get((AXIS_OF[side], high_end(side)), "")
    body = sheet.written.feature(name)
    if (
        body is None
        or body.kind not in ROUND_BODIES
        or (body.kind != "round" and not face.feature)
    ):
        return {}
    along = axis_of_body(sheet.written, body)
    said = {
        axis
        for place in places_of(sheet.written, table)
        for axis in axes_of(sheet.written, table, place)
    }
    return {
        axis: sheet.coordinates[name, axis, "middle"]
        for axis in cross_axes(AXIS_OF[side])
        if axis not in said and axis != along
    }


def _face_line(sheet: Sheet, face: Reference, side: Side) -> Linear:
    key = sheet.key(face, AXIS_OF[side])
    line = sheet.line(key)
    body = sheet.written.feature(face.feature)
    if line is None or (body is not None and body.kind not in BODIES):
        raise InputFault(
            f"there is no face '{face.text}' to cut into",
            why="only metal such as a round, block or boss has faces of its own",
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
