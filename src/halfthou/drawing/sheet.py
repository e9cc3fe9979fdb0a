"""The drawing while it is set out: its coordinates, equations, and what was drawn."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias

from halfthou.drawing.equations import Equation, Linear, Unknown
from halfthou.drawing.frame import AXIS_OF, SIDES, high_end, look_at
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


def places_of(written: Written, table: WrittenTable) -> tuple[Place, ...]:
    """All phrases of ``at`` of a table."""
    return tuple(parse_place(text, units=written.units) for text in table.texts("at"))


def copies_of(written: Written, table: WrittenTable) -> Copies | None:
    """Return the pattern of a table, if it has one."""
    return parse_copies(table.text("copies"), units=written.units) if table.has("copies") else None


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
