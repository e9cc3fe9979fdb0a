"""Dimensions as equations: each size and each place of a feature."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.drawing.equations import Equation, Linear, known
from halfthou.drawing.frame import ALONG, AXIS_OF, ENDS, SIDES, cross_axes, high_end
from halfthou.drawing.grammar import BODIES, BOSSES
from halfthou.drawing.leanings import in_view, parse_turned
from halfthou.drawing.model import OUTWARD, Side
from halfthou.drawing.phrases import Place, parse_reference
from halfthou.drawing.sheet import (
    CUTOUTS,
    SIZE_KEYS,
    Drawn,
    End,
    Key,
    Sheet,
    axis_of_body,
    copies_of,
    entry_side,
    outside_of,
    places_of,
    row_step,
    turned_from,
)
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import parse_size
from halfthou.units import Vec3

_ENDS: Final[tuple[End, End]] = ("low", "high")
_LEAST: Final = 1e-12
_NOTHING_THERE: Final = {
    "hole": "a hole lies in its face; its depth is given by its size",
    "face": "a slanted face is placed by a line in it: how far out, and where toward its lean",
}


def enter_dimensions(sheet: Sheet, table: WrittenTable) -> None:
    """Enter the equation of every size and every place of a feature."""
    for key, axis in size_keys(sheet.written, table):
        if table.has(key):
            _enter_size(sheet, table, key, axis)
    for place in places_of(sheet.written, table):
        for axis in axes_of(sheet.written, table, place):
            _enter_place(sheet, table, place, axis)


def size_keys(written: Written, table: WrittenTable) -> Iterator[tuple[str, int]]:
    """Which keys of a table say how far it reaches along which axis."""
    if table.kind in {"round", "keyway"}:
        yield "long", 0
    elif table.kind in BOSSES:
        yield "long", axis_of_body(written, table)
    elif table.kind == "arm":
        yield "thick", axis_of_body(written, table)
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
    low, high = (sheet.coordinates.get((name, axis, end)) for end in _ENDS)
    if low is None or high is None:
        return  # it could not be set out, and that is told already
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
    drawn = Drawn(
        feature=name,
        label=label,
        a=(name, axis, "low"),
        b=(name, axis, "high"),
        axis=axis,
        sign=1.0,
        size=size,
    )
    _enter(sheet, equation, drawn)


def _enter(sheet: Sheet, equation: Equation, drawn: Drawn) -> None:
    """Enter a dimension; one in brackets binds nothing, it is only shown and checked."""
    if drawn.size is not None and drawn.size.reference:
        sheet.reference.append(equation)
        sheet.in_brackets.append(drawn)
        return
    sheet.equations.append(equation)
    sheet.drawn.append(drawn)


def axes_of(written: Written, table: WrittenTable, place: Place) -> tuple[int, ...]:
    """Directions in which a phrase locates a feature."""
    if place.kind in {"facing", "angle"}:
        return ()  # an angle says where on the circle a distance off an axis lies
    if place.axis is not None:
        return (place.axis,)
    if place.to.side is not None:
        return (AXIS_OF[place.to.side],)
    side = entry_side(written, table) if table.kind in {*BOSSES, "hole"} else None
    if side is not None:
        return cross_axes(AXIS_OF[side])
    raise InputFault(
        f"'{place.text}' does not say in which direction",
        tries=tuple(f"add '{words}'" for words in ALONG),
    )


def _enter_place(sheet: Sheet, table: WrittenTable, place: Place, axis: int) -> None:
    name = table.name
    if place.view:
        _enter_in_view(sheet, table, place, axis)
        return
    if place.to.side is not None and AXIS_OF[place.to.side] != axis:
        raise InputFault(
            f"'{place.text}' measures {ALONG[axis]} from a side that faces {place.to.side}",
            why="a distance runs square to the side it starts from",
            tries=tuple(f"measure from '{side}'" for side in ENDS[axis]),
        )
    end: End = "middle" if place.own is None else "high" if high_end(place.own) else "low"
    own_key, to_key = (name, axis, end), sheet.key(place.to, axis)
    own, to = sheet.coordinates.get(own_key), sheet.line(to_key)
    if own is None or (table.kind == "hole" and axis == _entry_axis(sheet, table)):
        raise InputFault(
            f"'{place.text}' does not place {name}: it has nothing to place {ALONG[axis]}",
            why=_NOTHING_THERE.get(table.kind, "it has no side or middle there"),
            tries=("name the two directions square to it",),
        )
    if to is None:
        raise InputFault(
            f"'{place.text}': {place.to.text or 'the part'} has no place {ALONG[axis]}",
            why="it has no side or middle in that direction",
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
        if factor:
            sheet.drawn.append(
                Drawn(feature=name, label=label, a=keys[0], b=keys[1], axis=axis, sign=1.0,
                      size=place.size, direction=_off_direction(sheet, table))
            )  # fmt: skip
        return
    straight = place.kind == "centres"
    beside = _beside(sheet, table, place, axis) if straight else None
    equation = Equation(
        feature=name,
        label=label,
        across=Linear({}).plus(gap, place.sign),
        size=value,
        beside=beside,
    )
    entry = _entry_axis(sheet, table)
    drawn = Drawn(
        feature=name,
        label=label,
        a=keys[0],
        b=keys[1],
        axis=axis,
        sign=place.sign,
        size=place.size,
        straight=straight,
        across=2 if entry is None else entry,
    )
    _enter(sheet, equation, drawn)


def _entry_axis(sheet: Sheet, table: WrittenTable) -> int | None:
    if outside_of(sheet.written, table) is not None:
        return None
    side = entry_side(sheet.written, table)
    return AXIS_OF[side] if side else None


def _enter_in_view(sheet: Sheet, table: WrittenTable, place: Place, axis: int) -> None:
    """Enter a place drawn in a turned view: it couples two directions of the part."""
    view = sheet.written.feature(place.view)
    if view is None or view.kind != "view":
        raise InputFault(
            f"'{place.text}': '{place.view}' is no view",
            tries=(f'write [view.{place.view}] and turned = "35° anticlockwise"',),
        )
    of: Side = next((side for side in SIDES if side == view.text("of")), "front")
    along = in_view(axis, of=of, turned=parse_turned(view.text("turned")))
    gap = Linear({})
    for n in range(3):
        if abs(along[n]) < _LEAST:
            continue
        own = sheet.coordinates.get((table.name, n, "middle"))
        to = sheet.line((place.to.feature, n, "middle"))
        if own is None or to is None:
            raise InputFault(
                f"'{place.text}' couples two directions, and one of the two has no axis there",
                why="in a turned view, distances run between axes",
                tries=("measure from a hole or a boss",),
            )
        gap = gap.plus(own, along[n]).plus(to, -along[n])
    label = f"{table.name} {place.text}"
    size = place.size.nominal.value if place.size is not None else 0.0
    across = Linear({}).plus(gap, place.sign)
    equation = Equation(feature=table.name, label=label, across=across, size=size)
    signed = (place.sign * along[0], place.sign * along[1], place.sign * along[2])
    drawn = Drawn(
        feature=table.name,
        label=label,
        a=(place.to.feature, axis, "middle"),
        b=(table.name, axis, "middle"),
        axis=axis,
        sign=place.sign,
        size=place.size,
        direction=signed,
    )
    _enter(sheet, equation, drawn)


def _beside(sheet: Sheet, table: WrittenTable, place: Place, axis: int) -> Linear:
    entry = _entry_axis(sheet, table)
    other = next(one for one in cross_axes(2 if entry is None else entry) if one != axis)
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
    return _off_direction(sheet, table)[axis]


def _off_direction(sheet: Sheet, table: WrittenTable) -> Vec3:
    angled = [p for p in places_of(sheet.written, table) if p.kind == "angle"]
    side = entry_side(sheet.written, table)
    if side is not None and not angled and _first_off_axis(sheet, table):
        return OUTWARD["top"]
    if not angled or angled[0].to.side is None or angled[0].angle is None or side is None:
        raise InputFault(
            f"'{table.texts('at')[0]}' says how far off, and not in which direction",
            why="all places so far off lie on a circle",
            tries=("add an angle, such as 30° from top", "write 30 above and level with"),
        )
    return turned_from(side, angled[0].to.side, angled[0].angle)


def _first_off_axis(sheet: Sheet, table: WrittenTable) -> bool:
    """Whether a feature is the first off the axis of turned work: it defines the zero of angles.

    Such work has no top of its own; where nothing else says, the first one lies toward the top.
    """
    features = sheet.written.features
    if any(one.kind in BODIES and one.kind != "round" for one in features):
        return False
    off = [one for one in features if any(p.kind == "off" for p in places_of(sheet.written, one))]
    return off[0] is table


def _to_middle(sheet: Sheet, table: WrittenTable, axis: int) -> Linear:
    """From the first of a row to its middle: what is drawn centred is the row."""
    copies = copies_of(sheet.written, table)
    if copies is None or copies.pitch is None or copies.axis != axis:
        return known(0.0)
    return known(row_step(copies) * (copies.count - 1) / 2)
