"""Dimensions as equations: each size and each place of a feature."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.drawing.equations import Equation, Linear, known
from halfthou.drawing.frame import ALONG, AXIS_OF, ENDS, cross_axes, high_end
from halfthou.drawing.grammar import BODIES
from halfthou.drawing.phrases import (
    Place,
    parse_reference,
)
from halfthou.drawing.sheet import (
    CUTOUTS,
    SIZE_KEYS,
    Drawn,
    End,
    Key,
    Sheet,
    copies_of,
    places_of,
    row_step,
    turned_from,
)
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import parse_size

_ENDS: Final[tuple[End, End]] = ("low", "high")


def enter_dimensions(sheet: Sheet, table: WrittenTable) -> None:
    """Enter the equation of every size and every place of a feature."""
    for key, axis in size_keys(table):
        if table.has(key):
            _enter_size(sheet, table, key, axis)
    for place in places_of(sheet.written, table):
        for axis in axes_of(table, place):
            _enter_place(sheet, table, place, axis)


def size_keys(table: WrittenTable) -> Iterator[tuple[str, int]]:
    """Which keys of a table say how far it reaches along which axis."""
    if table.kind in {"round", "keyway"}:
        yield "long", 0
    elif table.kind == "groove":
        yield "wide", 0
    elif table.kind in CUTOUTS or table.kind in BODIES:
        yield from SIZE_KEYS
        if table.has("deep"):
            side = parse_reference(table.text("in")).side
            if side:
                yield "deep", AXIS_OF[side]


def _enter_size(sheet: Sheet, table: WrittenTable, key: str, axis: int) -> None:
    text, name = table.text(key), table.name
    low, high = sheet.coordinates[name, axis, "low"], sheet.coordinates[name, axis, "high"]
    length = high.plus(low, -1.0)
    label = f"{name} {key} {text}"
    if text.startswith("as "):
        other = text.removeprefix("as ").strip()
        ends = [sheet.coordinates.get((other, axis, end)) for end in _ENDS]
        if ends[0] is None or ends[1] is None:
            raise InputFault(f"'{other}' has no size {ALONG[axis]} for {name} to take over")
        if not any(place.axis == axis for place in places_of(sheet.written, table)):
            level = low.plus(ends[0], -1.0)
            sheet.equations.append(Equation(feature=name, label=label, across=level, size=0.0))
        length = length.plus(ends[1], -1.0).plus(ends[0])
        sheet.equations.append(Equation(feature=name, label=label, across=length, size=0.0))
        return
    size = parse_size(text, units=sheet.written.units)
    equation = Equation(feature=name, label=label, across=length, size=size.nominal.value)
    if size.reference:
        sheet.reference.append(equation)
        return
    sheet.equations.append(equation)
    sheet.drawn.append(
        Drawn(feature=name, label=label, a=(name, axis, "low"), b=(name, axis, "high"), axis=axis,
              sign=1.0, size=size)
    )  # fmt: skip


def axes_of(table: WrittenTable, place: Place) -> tuple[int, ...]:
    """Directions in which a phrase locates a feature."""
    if place.kind in {"facing", "angle"}:
        return ()  # an angle says where on the circle a distance off an axis lies
    if place.axis is not None:
        return (place.axis,)
    if place.to.side is not None:
        return (AXIS_OF[place.to.side],)
    if table.kind == "hole" and (side := parse_reference(table.text("in")).side):
        return cross_axes(AXIS_OF[side])
    raise InputFault(
        f"'{place.text}' does not say in which direction",
        tries=tuple(f"add '{words}'" for words in ALONG),
    )


def _enter_place(sheet: Sheet, table: WrittenTable, place: Place, axis: int) -> None:
    name = table.name
    if place.to.side is not None and AXIS_OF[place.to.side] != axis:
        raise InputFault(
            f"'{place.text}' measures {ALONG[axis]} from a side that faces {place.to.side}",
            why="a distance runs square to the side it starts from",
            tries=tuple(f"measure from '{side}'" for side in ENDS[axis]),
        )
    end: End = "middle" if place.own is None else "high" if high_end(place.own) else "low"
    own_key, to_key = (name, axis, end), sheet.key(place.to, axis)
    own, to = sheet.coordinates.get(own_key), sheet.line(to_key)
    if own is None or (table.kind == "hole" and axis == _entry_axis(table)):
        raise InputFault(
            f"'{place.text}' does not place {name}: it has nothing to place {ALONG[axis]}",
            why="a hole lies in its face; its depth is given by its size",
            tries=("name the two directions square to it",),
        )
    if to is None:
        raise InputFault(
            f"'{place.text}': {place.to.text or 'the part'} has no place {ALONG[axis]}",
            tries=("measure from a side",),
        )
    if place.kind == "centred":
        own = own.plus(_to_middle(sheet, table, axis))
    gap = own.plus(to, -1.0)
    label = f"{name} {place.text}"
    if place.kind in {"level", "centred"}:
        sheet.equations.append(Equation(feature=name, label=label, across=gap, size=0.0))
        sheet.drawn.append(
            Drawn(feature=name, label=label, a=to_key, b=own_key, axis=axis, sign=1.0, size=None)
        )
    elif place.size is not None:
        _enter_measured(sheet, table, place, axis, gap, (to_key, own_key))


def _enter_measured(  # noqa: PLR0917
    sheet: Sheet, table: WrittenTable, place: Place, axis: int, gap: Linear, keys: tuple[Key, Key]
) -> None:
    assert place.size is not None  # noqa: S101  (callers ask only for places with a size)
    name, value = table.name, place.size.nominal.value
    label = f"{name} {place.text}"
    if place.kind == "off":
        factor = _off_factor(sheet, table, axis)
        sheet.equations.append(
            Equation(feature=name, label=label, across=gap, size=factor * value)
        )
        return
    beside: Linear | None = None
    if place.kind == "centres":
        beside = _beside(sheet, table, place, axis)
    equation = Equation(
        feature=name,
        label=label,
        across=Linear({}).plus(gap, place.sign),
        size=value,
        beside=beside,
    )
    if place.size.reference:
        sheet.reference.append(equation)
        return
    sheet.equations.append(equation)
    sheet.drawn.append(
        Drawn(feature=name, label=label, a=keys[0], b=keys[1], axis=axis, sign=place.sign,
              size=place.size)
    )  # fmt: skip


def _entry_axis(table: WrittenTable) -> int | None:
    side = parse_reference(table.text("in")).side
    return AXIS_OF[side] if side else None


def _beside(sheet: Sheet, table: WrittenTable, place: Place, axis: int) -> Linear:
    side = parse_reference(table.text("in")).side
    entry = AXIS_OF[side] if side else 2
    other = next(one for one in cross_axes(entry) if one != axis)
    own = sheet.coordinates.get((table.name, other, "middle"))
    to = sheet.line((place.to.feature, other, "middle"))
    if own is None or to is None:
        raise InputFault(
            f"'{place.text}' is a true distance between axes, and one of the two has no axis",
            tries=("give the place left to right and bottom to top",),
        )
    return own.plus(to, -1.0)


def _off_factor(sheet: Sheet, table: WrittenTable, axis: int) -> float:
    """Share of a distance off an axis that falls along one direction, by the angle beside it."""
    angled = [p for p in places_of(sheet.written, table) if p.kind == "angle"]
    side = parse_reference(table.text("in")).side
    if not angled or angled[0].to.side is None or angled[0].angle is None or side is None:
        raise InputFault(
            f"'{table.texts('at')[0]}' says how far off, and not in which direction",
            why="all places so far off lie on a circle",
            tries=("add an angle, such as 30° from top", "write 30 above and level with"),
        )
    return turned_from(side, angled[0].to.side, angled[0].angle)[axis]


def _to_middle(sheet: Sheet, table: WrittenTable, axis: int) -> Linear:
    """From the first of a row to its middle: what is drawn centred is the row."""
    copies = copies_of(sheet.written, table)
    if copies is None or copies.pitch is None or copies.axis != axis:
        return known(0.0)
    return known(row_step(copies) * (copies.count - 1) / 2)
