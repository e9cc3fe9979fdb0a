"""Setting out metal: the coordinates of rounds, blocks, bosses, rings and arms."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.equations import known
from halfthou.drawing.frame import AXIS_OF, cross_axes, high_end
from halfthou.drawing.grammar import BODIES, BOSSES
from halfthou.drawing.phrases import parse_reference
from halfthou.drawing.sheet import Sheet, axis_of_body, places_of
from halfthou.drawing.sizes import round_diameters
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import parse_size

_PART: Final[tuple[int, int, int]] = (0, 1, 2)


def enter_bodies(sheet: Sheet) -> None:
    """Enter all metal; the first body holds the part still, rounds before all others."""
    bodies = [table for table in sheet.written.features if table.kind in BODIES]
    rounds = [table for table in bodies if table.kind == "round"]
    for number, table in enumerate(rounds):
        _enter_round(sheet, table, rounds[number - 1] if number else None)
    others = [table for table in bodies if table.kind not in {"round", "arm"}]
    standing = [table for table in others if not table.has("on")]
    first = None if rounds else next(iter((*standing, *others)), None)
    # what stands on a face comes after the body whose face it is
    for table in (*standing, *(one for one in others if one.has("on"))):
        sheet.attempt(table, lambda t=table: _enter(sheet, t, first=t is first))  # type: ignore[misc]
    for table in bodies:
        if table.kind == "arm":
            sheet.attempt(table, lambda t=table: _enter_arm(sheet, t))  # type: ignore[misc]


def _enter(sheet: Sheet, table: WrittenTable, *, first: bool) -> None:
    if table.kind in BOSSES:
        _enter_boss(sheet, table, first=first)
    else:
        _enter_block(sheet, table, first=first)


def _enter_round(sheet: Sheet, table: WrittenTable, before: WrittenTable | None) -> None:
    name = table.name
    if before is None:
        sheet.fix(name, 0, "low", known(0.0))
    elif not any(place.own == "left" for place in places_of(sheet.written, table)):
        sheet.fix(name, 0, "low", sheet.coordinates[before.name, 0, "high"])
    sheet.both_ends(name, 0)
    radius = max(round_diameters(sheet.written, table)) / 2
    for axis in (1, 2):
        sheet.fix(name, axis, "low", known(-radius))
        sheet.fix(name, axis, "high", known(radius))
        sheet.fix(name, axis, "middle", known(0.0))


def _enter_block(sheet: Sheet, table: WrittenTable, *, first: bool) -> None:
    for axis in _PART:
        if first:
            sheet.fix(table.name, axis, "low", known(0.0))
        sheet.both_ends(table.name, axis)


def _enter_boss(sheet: Sheet, table: WrittenTable, *, first: bool) -> None:
    axis = axis_of_body(sheet.written, table)
    name = table.name
    if table.has("on"):
        _stand(sheet, table, axis)
    elif first:
        sheet.fix(name, axis, "low", known(0.0))
    sheet.both_ends(name, axis)
    radius = parse_size(table.text("diameter"), units=sheet.written.units).nominal.value / 2
    for other in cross_axes(axis):
        if first:
            sheet.fix(name, other, "middle", known(0.0))
        middle = sheet.coordinates.get((name, other, "middle"))
        middle = middle or sheet.unknown(name, other, "middle")
        sheet.fix(name, other, "low", middle.plus(known(-radius)))
        sheet.fix(name, other, "high", middle.plus(known(radius)))


def _stand(sheet: Sheet, table: WrittenTable, axis: int) -> None:
    """Put the near end of a boss on the face it stands on."""
    to = parse_reference(table.text("on"))
    line = sheet.line(sheet.key(to, axis))
    if to.side is None or AXIS_OF[to.side] != axis or line is None:
        raise InputFault(
            f"there is no face '{to.text}' for {table.name} to stand on",
            why="a boss stands on a side of the part or of a body, square to its own axis",
            tries=("name a body and its side, such as cap top",),
        )
    sheet.fix(table.name, axis, "low" if high_end(to.side) else "high", line)


def _enter_arm(sheet: Sheet, table: WrittenTable) -> None:
    sheet.both_ends(table.name, axis_of_body(sheet.written, table))
