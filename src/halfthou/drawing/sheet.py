"""The drawing while it is set out: its coordinates, equations, and what was drawn."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias

from halfthou.drawing.equations import Equation, Linear, Unknown
from halfthou.drawing.frame import AXIS_OF, DIRECTIONS, SIDES, high_end, look_at, side_of
from halfthou.drawing.grammar import BOSSES
from halfthou.drawing.model import OUTWARD, Side
from halfthou.drawing.phrases import (
    Copies,
    Place,
    Reference,
    parse_copies,
    parse_place,
    parse_reference,
)
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import Size
from halfthou.units import Vec3

End: TypeAlias = Literal["low", "high", "middle"]
Key: TypeAlias = tuple[str, int, End]
SIZE_KEYS: Final[tuple[tuple[str, int], ...]] = (("wide", 0), ("high", 1), ("thick", 2))
CUTOUTS: Final = frozenset({"pocket", "slot", "step"})
CASTING_ONLY: Final = "casting only"
"""What metal belongs to that comes off before the part is done."""
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
    direction: Vec3 | None = None
    """Where it runs, along no axis of the part: in a turned view, or at an angle."""
    straight: bool = False
    """Whether it is a true distance between two axes, which run along ``across``."""
    across: int = 2


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
    in_brackets: list[Drawn] = field(default_factory=list)
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
        if not name and to.more == "outside":
            # the outside of turned work, as a place to measure from, is its axis
            name = next((one.name for one in self.written.features if one.kind == "round"), "")
        return (name, axis, end)

    def attempt(self, table: WrittenTable, act: Callable[[], None]) -> None:
        """Do something for a table; a fault is kept with the table's place in the file."""
        try:
            act()
        except InputFault as fault:
            where = fault.where or f"{self.written.file}, {table.place}"
            self.faults.append(
                InputFault(fault.what, where=where, why=fault.why, tries=fault.tries)
            )

    def line(self, key: Key) -> Linear | None:
        """Coordinate of a key; the part's own middle lies between its two sides."""
        name, axis, end = key
        if name or end != "middle":
            return self.coordinates.get(key)
        low = self.coordinates.get((self.farthest.get((axis, 0), ""), axis, "low"))
        high = self.coordinates.get((self.farthest.get((axis, 1), ""), axis, "high"))
        return None if low is None or high is None else Linear({}).plus(low, 0.5).plus(high, 0.5)


def places_of(written: Written, table: WrittenTable) -> tuple[Place, ...]:
    """All phrases of ``at`` of a table."""
    return tuple(parse_place(text, units=written.units) for text in table.texts("at"))


def belongs(written: Written, name: str) -> frozenset[str]:
    """Names of the pieces of their own metal that a feature is in; empty text for the rest."""
    table = written.feature(name)
    if table is not None and table.text("comes_off") == "true":
        return frozenset({CASTING_ONLY})
    found = set()
    alone = False
    for piece in written.features:
        if piece.kind != "piece":
            continue
        if name in names_in(piece, "features"):
            found.add(piece.name)
            alone = True
        elif name in names_in(piece, "shares"):
            found.add(piece.name)
    return frozenset(found if alone else {*found, ""})


def names_in(table: WrittenTable, key: str) -> tuple[str, ...]:
    """Names in a text or list of texts, set apart by commas."""
    return tuple(
        name.strip() for text in table.texts(key) for name in text.split(",") if name.strip()
    )


def copies_of(written: Written, table: WrittenTable) -> Copies | None:
    """Return the pattern of a table, if it has one."""
    return parse_copies(table.text("copies"), units=written.units) if table.has("copies") else None


def axis_of_body(written: Written, table: WrittenTable) -> int:
    """Return the direction a round body runs in, or the thickness of an arm.

    Raises
    ------
    InputFault
        If nothing says it.
    """
    if table.has("axis"):
        return DIRECTIONS[" ".join(table.text("axis").split())]
    if table.has("joins"):
        first, _, second = table.text("joins").partition(" and ")
        bosses = [written.feature(name.strip()) for name in (first, second)]
        for boss in bosses:
            if boss is None or boss.kind not in {*BOSSES, "round"}:
                raise InputFault(
                    f"{table.name} joins {table.text('joins')}, and one of them is no boss",
                    why="an arm runs between two round bodies",
                    tries=("name two bosses",),
                )
        axes = {axis_of_body(written, boss) for boss in bosses if boss is not None}
        if len(axes) > 1:
            raise InputFault(
                f"{table.name} joins {table.text('joins')}, which run in different directions",
                why="the edges of an arm touch two bosses on parallel axes",
                tries=("check the axis of each boss",),
            )
        return axes.pop()
    side = parse_reference(table.text("on")).side if table.has("on") else None
    if side is not None:
        return AXIS_OF[side]
    if table.kind == "round":
        return 0
    raise InputFault(
        f"nothing says which way {table.name} runs",
        why="a boss has an axis, or stands on a face",
        tries=('give it axis = "front to back"', 'give it on = "cap top"'),
    )


def entry_side(written: Written, table: WrittenTable) -> Side | None:
    """Return the side from which a feature is looked at: a cut's face, the free end of a boss."""
    if table.has("in"):
        to = parse_reference(table.text("in"))
        return to.side or (nearest_side(outside_direction(written, table)) if to.more else None)
    if table.has("on"):
        return parse_reference(table.text("on")).side
    if table.kind in BOSSES:
        return side_of(axis_of_body(written, table), 1)
    return None


def nearest_side(direction: Vec3) -> Side:
    """Return the side that a direction points to most nearly."""
    return max(
        SIDES, key=lambda side: sum(a * b for a, b in zip(OUTWARD[side], direction, strict=True))
    )


def outside_of(written: Written, table: WrittenTable) -> WrittenTable | None:
    """Return the round body whose outside a cut goes into, if it says so: ``collar outside``."""
    to = parse_reference(table.text("in"))
    if to.more != "outside":
        return None
    body = written.feature(to.feature)
    if body is not None and body.kind in {*BOSSES, "round"}:
        return body
    raise InputFault(
        f"'{to.text}' is no round outside",
        why="only rounds, bosses and rings have one",
        tries=("name a round and outside", "name a side"),
    )


def outside_direction(written: Written, table: WrittenTable) -> Vec3:
    """Direction from the axis of a round body to where a cut enters its outside.

    Raises
    ------
    InputFault
        If no angle is given.
    """
    body = outside_of(written, table)
    angled = [place for place in places_of(written, table) if place.kind == "angle"]
    if body is None or not angled or angled[0].to.side is None:
        raise InputFault(
            f"nothing says where round the outside {table.name} enters",
            why="a hole in a round outside has an angle from a side",
            tries=("add '30° from top' to its at", "name a side it goes into"),
        )
    face = side_of(axis_of_body(written, body), 1)
    return turned_from(face, angled[0].to.side, angled[0].angle or 0.0)


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


def turned_from(face: Side, zero: Side, angle: float) -> Vec3:
    """Direction found by turning from one side, anticlockwise as the face is looked at.

    Raises
    ------
    InputFault
        If that side does not lie along the face.
    """
    if AXIS_OF[zero] == AXIS_OF[face]:
        along = [side for side in SIDES if AXIS_OF[side] != AXIS_OF[face]]
        raise InputFault(
            f"an angle on the {face} cannot begin at the {zero}",
            why=f"on the {face} one can turn from {', '.join(along)}",
            tries=(f"write 'first at {along[-1]}'",),
        )
    look, start = look_at(face), OUTWARD[zero]
    x = sum(a * b for a, b in zip(start, look.right, strict=True))
    y = sum(a * b for a, b in zip(start, look.up, strict=True))
    c, s = math.cos(angle), math.sin(angle)
    u, v = x * c - y * s, x * s + y * c
    r, p = look.right, look.up
    return (u * r[0] + v * p[0], u * r[1] + v * p[1], u * r[2] + v * p[2])


def row_step(copies: Copies) -> float:
    """From one member of a row to the next, along its axis: front to back runs down z."""
    if copies.pitch is None:
        return 0.0
    return (
        -copies.pitch.nominal.value
        if copies.axis == AXIS_OF["front"]
        else copies.pitch.nominal.value
    )
