"""Setting out: the coordinates of every feature, and the equation of every written dimension."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias

from halfthou.drawing.equations import Equation, Linear, Unknown, known
from halfthou.drawing.frame import ALONG, AXIS_OF, ENDS, cross_axes, high_end, look_at
from halfthou.drawing.grammar import BODIES
from halfthou.drawing.model import OUTWARD, Side
from halfthou.drawing.phrases import (
    Copies,
    Place,
    Reference,
    parse_copies,
    parse_place,
    parse_reference,
)
from halfthou.drawing.sizes import first_diameter, round_diameters
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import Size, parse_size
from halfthou.units import Vec3

End: TypeAlias = Literal["low", "high", "middle"]
Key: TypeAlias = tuple[str, int, End]
SIZE_KEYS: Final[tuple[tuple[str, int], ...]] = (("wide", 0), ("high", 1), ("thick", 2))
CUTOUTS: Final = frozenset({"pocket", "slot", "step"})
_ENDS: Final[tuple[End, End]] = ("low", "high")


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A dimension as it will be checked: from one coordinate to another, and its size."""

    feature: str
    label: str
    a: Key
    b: Key
    axis: int
    sign: float
    size: Size | None
    """None for something drawn centred or level, which states no figure."""


@dataclass(slots=True, kw_only=True)
class Sheet:
    """The drawing while it is set out: coordinates, equations, what was drawn."""

    written: Written
    farthest: dict[tuple[int, int], str]
    """(axis, end) -> the body that makes that side of the part."""
    coordinates: dict[Key, Linear] = field(default_factory=dict)
    unknowns: list[Unknown] = field(default_factory=list)
    equations: list[Equation] = field(default_factory=list)
    reference: list[Equation] = field(default_factory=list)
    drawn: list[Drawn] = field(default_factory=list)
    faults: list[InputFault] = field(default_factory=list)

    def unknown(self, name: str, axis: int, end: End) -> Linear:
        """Enter a new unknown coordinate."""
        unknown = (name, axis, end)
        self.unknowns.append(unknown)
        line = Linear({unknown: 1.0})
        self.coordinates[name, axis, end] = line
        return line

    def fix(self, name: str, axis: int, end: End, line: Linear) -> None:
        """Enter a coordinate that follows from another."""
        self.coordinates[name, axis, end] = line

    def both_ends(self, name: str, axis: int) -> None:
        """Enter low and high of a feature as unknowns, and its middle between them."""
        for end in _ENDS:
            if (name, axis, end) not in self.coordinates:
                self.unknown(name, axis, end)
        self.fix_middle(name, axis)

    def fix_middle(self, name: str, axis: int) -> None:
        """Middle half-way between low and high."""
        low, high = self.coordinates[name, axis, "low"], self.coordinates[name, axis, "high"]
        self.fix(name, axis, "middle", Linear({}).plus(low, 0.5).plus(high, 0.5))

    def key(self, to: Reference, axis: int) -> Key:
        """Which coordinate a reference means along an axis."""
        end: End = "middle"
        if to.side is not None and AXIS_OF[to.side] == axis:
            end = "high" if high_end(to.side) else "low"
        name = to.feature or (
            self.farthest.get((axis, int(end == "high")), "") if end != "middle" else ""
        )
        return (name, axis, end)

    def line(self, key: Key) -> Linear | None:
        """Coordinate of a key; the part's own middle lies between its two sides."""
        name, axis, end = key
        if name or end != "middle":
            return self.coordinates.get(key)
        low = self.coordinates.get((self.farthest.get((axis, 0), ""), axis, "low"))
        high = self.coordinates.get((self.farthest.get((axis, 1), ""), axis, "high"))
        return None if low is None or high is None else Linear({}).plus(low, 0.5).plus(high, 0.5)


def set_out(written: Written, farthest: dict[tuple[int, int], str]) -> Sheet:
    """Enter every feature of a part file into one system of equations."""
    sheet = Sheet(written=written, farthest=farthest)
    bodies = [table for table in written.features if table.kind in BODIES]
    rounds = [table for table in bodies if table.kind == "round"]
    for number, table in enumerate(rounds):
        _enter_round(sheet, table, rounds[number - 1] if number else None)
    for table in bodies:
        if table.kind != "round":
            _enter_block(sheet, table, first=table is bodies[0])
    rest = [table for table in written.features if table.kind not in BODIES]
    for table in rest:
        _try(sheet, table, _enter_other)
    for table in written.features:
        _try(sheet, table, _dimensions)
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


def places_of(written: Written, table: WrittenTable) -> tuple[Place, ...]:
    """All phrases of ``at`` of a table."""
    return tuple(parse_place(text, units=written.units) for text in table.texts("at"))


def copies_of(written: Written, table: WrittenTable) -> Copies | None:
    """Return the pattern of a table, if it has one."""
    return parse_copies(table.text("copies"), units=written.units) if table.has("copies") else None


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


def face_of(table: WrittenTable) -> tuple[Reference, Side]:
    """Return the face a cut goes into.

    Raises
    ------
    InputFault
        If the words name no side.
    """
    to = parse_reference(table.text("in"))
    if to.side is None:
        raise InputFault(
            f"'{table.text('in')}' is no face to cut into: it names no side",
            why="a cut goes in from the left, right, top, bottom, front or back",
            tries=(f"write '{to.feature} front'",),
        )
    return to, to.side


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
    said = {axis for place in places_of(sheet.written, table) for axis in _axes(table, place)}
    return {axis: known(0.0) for axis in cross_axes(AXIS_OF[side]) if axis not in said and axis}


def _face_line(sheet: Sheet, face: Reference, side: Side) -> Linear:
    key = sheet.key(face, AXIS_OF[side])
    line = sheet.line(key)
    if line is None:
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


def _dimensions(sheet: Sheet, table: WrittenTable) -> None:
    for key, axis in size_keys(table):
        if table.has(key):
            _enter_size(sheet, table, key, axis)
    for place in places_of(sheet.written, table):
        for axis in _axes(table, place):
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


def _axes(table: WrittenTable, place: Place) -> tuple[int, ...]:
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
    if own is None:
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


def turned_from(face: Side, zero: Side, angle: float) -> Vec3:
    """Direction found by turning from one side, anticlockwise as the face is looked at."""
    look, start = look_at(face), OUTWARD[zero]
    x = sum(a * b for a, b in zip(start, look.right, strict=True))
    y = sum(a * b for a, b in zip(start, look.up, strict=True))
    c, s = math.cos(angle), math.sin(angle)
    u, v = x * c - y * s, x * s + y * c
    r, p = look.right, look.up
    return (u * r[0] + v * p[0], u * r[1] + v * p[1], u * r[2] + v * p[2])


def _to_middle(sheet: Sheet, table: WrittenTable, axis: int) -> Linear:
    """From the first of a row to its middle: what is drawn centred is the row."""
    copies = copies_of(sheet.written, table)
    if copies is None or copies.pitch is None or copies.axis != axis:
        return known(0.0)
    return known(row_step(copies) * (copies.count - 1) / 2)


def row_step(copies: Copies) -> float:
    """From one member of a row to the next, along its axis: front to back runs down z."""
    if copies.pitch is None:
        return 0.0
    return (
        -copies.pitch.nominal.value
        if copies.axis == AXIS_OF["front"]
        else copies.pitch.nominal.value
    )
