"""The drawing while it is built up: solved places, and what each feature adds to the part."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from halfthou.drawing.frame import AXIS_OF, high_end
from halfthou.drawing.geometry import Region
from halfthou.drawing.metal import Body
from halfthou.drawing.model import Distance, Feature, Finding, Side, Surface
from halfthou.drawing.phrases import Reference, parse_reference
from halfthou.drawing.sheet import CASTING_ONLY, End, Key, Sheet, belongs, entry_side
from halfthou.drawing.written import Written, WrittenTable
from halfthou.handbook.general_tolerance import GeneralRule
from halfthou.units import Vec3

_FIGURES: Final = 10
_SAME: Final = 1e-7


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """Every coordinate known: what the features are built from."""

    written: Written
    rule: GeneralRule
    sheet: Sheet
    places: Mapping[Key, float]
    bodies: tuple[Body, ...]

    def at(self, name: str, axis: int, end: End = "middle") -> float:
        """Coordinate of a feature along an axis [mm]."""
        return self.places[name, axis, end]

    def body(self, name: str) -> Body | None:
        """Return the body of that name."""
        return next((body for body in self.bodies if body.name == name), None)

    @property
    def own(self) -> tuple[Body, ...]:
        """The metal of the part's own material: its outermost sides are the part's sides."""
        return tuple(body for body in self.bodies if "" in belongs(self.written, body.name))

    def outermost(self, body: Body, side: Side) -> bool:
        """Whether a side of a body is that side of the part as well."""
        axis, top = AXIS_OF[side], high_end(side)
        if "" not in belongs(self.written, body.name):
            return False
        own = [one.high[axis] if top else one.low[axis] for one in self.own]
        at = (body.high if top else body.low)[axis]
        return abs(at - (max(own) if top else min(own))) < _SAME

    def only_cast(self, name: str) -> bool:
        """Whether a body is metal of the casting alone."""
        return CASTING_ONLY in belongs(self.written, name)

    def around(self, name: str) -> tuple[Body, ...]:
        """Return the metal that a cut goes through: of its own pieces, and no other."""
        mine = belongs(self.written, name)
        return tuple(body for body in self.bodies if belongs(self.written, body.name) & mine)

    def face(self, table: WrittenTable) -> tuple[Reference, Side]:
        """Which face a cut goes into; the body's name is filled in for a side of the part."""
        to = parse_reference(table.text("in"))
        side = to.side or entry_side(self.written, table) or "top"
        name = to.feature or self.sheet.farthest.get((AXIS_OF[side], high_end(side)), "")
        return Reference(feature=name, side=to.side), side


@dataclass(slots=True, kw_only=True)
class Built:
    """What has been built so far."""

    features: list[Feature] = field(default_factory=list)
    surfaces: dict[str, Surface] = field(default_factory=dict)
    aliases: dict[str, str] = field(default_factory=dict)
    distances: list[Distance] = field(default_factory=list)
    reference: list[Distance] = field(default_factory=list)
    removed: list[Region] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    comes_off: list[Feature] = field(default_factory=list)
    """Metal of the casting alone: it has no surface on the part."""
    owners: list[str] = field(default_factory=list)
    """Which feature each region in ``removed`` belongs to."""

    def claim(self, name: str) -> None:
        """Put down all that was removed since the last claim to a feature."""
        self.owners += [name] * (len(self.removed) - len(self.owners))

    def add(self, surface: Surface, *aliases: str) -> None:
        """Enter a surface under its preferred name, and the other names it goes by."""
        self.surfaces[surface.name] = surface
        for alias in aliases:
            if alias != surface.name:
                self.aliases[alias] = surface.name

    def named(self, words: str) -> Surface | None:
        """Return the surface that goes by these words, by whichever of its names."""
        return self.surfaces.get(self.aliases.get(words, words))


def box_around(points: Sequence[Vec3]) -> tuple[Vec3, Vec3]:
    """Corners of the smallest box around points."""
    low = (min(p[0] for p in points), min(p[1] for p in points), min(p[2] for p in points))
    high = (max(p[0] for p in points), max(p[1] for p in points), max(p[2] for p in points))
    return low, high


def stays_raw(written: Written, table: WrittenTable, side: str) -> bool:
    """Whether a side is left as it was bought or cast."""
    if not table.has("machined") and not written.blank.has("casting"):
        return False
    cut = {
        part.strip().removesuffix("clean up").strip() for part in table.text("machined").split(",")
    }
    return side not in cut


def cleans_up(table: WrittenTable, side: str) -> bool:
    """Whether a side is cut only until no skin is left, its place free."""
    return f"{side} clean up" in {part.strip() for part in table.text("machined").split(",")}


def along(point: Vec3, direction: Vec3, by: float) -> Vec3:
    """Point moved along a direction, free of the dust of sines and cosines."""
    x, y, z = (round(a + by * b, _FIGURES) + 0.0 for a, b in zip(point, direction, strict=True))
    return (x, y, z)


def opposite(direction: Vec3) -> Vec3:
    """Return the direction turned round."""
    return (0.0 - direction[0], 0.0 - direction[1], 0.0 - direction[2])
