"""The lump a milled part is cut from: where metal stands over the finished faces."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise, product
from typing import Final

from halfthou.drawing.geometry import Box, Cylinder, RegionSet, hexagon_bar
from halfthou.drawing.model import OUTWARD, Block, Cutout, Part, Side
from halfthou.planning.axes import Extents, axis_of, other_side
from halfthou.units import Millimetre, Vec3

SIDES: Final[tuple[Side, ...]] = ("left", "right", "bottom", "top", "back", "front")
SKIM: Final = 1.0
"""Metal left on a sawn end to mill it clean, mm (usual practice)."""
_LONG: Final = 6.0
"""A bar longer than the part by more than this is sawn to length. [mm]"""
_NOTHING: Final = 0.05
"""A blank within this of the part's size is used as bought. [mm]"""
_SAME: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Lump:
    """Part and blank in one frame.

    ``stock`` is the metal over each side, in order of `SIDES`; ``long`` the axis of the bar.
    """

    part: Extents
    raw: Extents
    stock: tuple[Millimetre, ...]
    cast: bool
    long: int
    sawn: Millimetre

    def over(self, side: Side) -> Millimetre:
        """Metal standing over a side of the part [mm]."""
        return self.stock[SIDES.index(side)]


def blocks(part: Part) -> tuple[Block, ...]:
    """Give the bodies of a milled part."""
    return tuple(f for f in part.features if isinstance(f, Block))


def part_extents(part: Part) -> Extents:
    """Give the box round the finished part."""
    whole = [Extents(low=b.low, high=b.high) for b in blocks(part)]
    box = whole[0]
    for one in whole[1:]:
        box = box.joined(one)
    return box


def lump_of(part: Part) -> Lump:
    """Lay the blank round the part: equal metal on opposite sides, or all on the one machined."""
    box = part_extents(part)
    cast = part.blank.form == "casting"
    stock: dict[Side, float] = {}
    sawn = 0.0
    long = part.blank.size.index(max(part.blank.size))
    for axis in range(3):
        low, high = SIDES[2 * axis], SIDES[2 * axis + 1]
        extra = part.blank.size[axis] - (box.high[axis] - box.low[axis])
        if part.blank.form.endswith("bar") and axis == long and extra > _LONG:
            extra = 2 * SKIM
            sawn = box.high[axis] - box.low[axis] + extra
        stock[low], stock[high] = _shared(part, box, low, high, extra=extra, cast=cast)
    raw = Extents(
        low=(
            box.low[0] - stock["left"], box.low[1] - stock["bottom"], box.low[2] - stock["back"],
        ),
        high=(
            box.high[0] + stock["right"], box.high[1] + stock["top"], box.high[2] + stock["front"],
        ),
    )  # fmt: skip
    return Lump(
        part=box, raw=raw, stock=tuple(stock[s] for s in SIDES), cast=cast, long=long, sawn=sawn
    )


def _shared(
    part: Part, box: Extents, low: Side, high: Side, *, extra: float, cast: bool
) -> tuple[float, float]:
    """Share the metal over an axis between its two sides."""
    if extra <= _NOTHING:
        return 0.0, 0.0
    clean = (_is_machined(part, box, low), _is_machined(part, box, high))
    if cast:
        return (extra / 2 if clean[0] else 0.0), (extra / 2 if clean[1] else 0.0)
    if clean[0] != clean[1]:
        return (extra, 0.0) if clean[0] else (0.0, extra)
    return extra / 2, extra / 2


def _is_machined(part: Part, box: Extents, side: Side) -> bool:
    return any(side in b.machined and _reaches(b, box, side) for b in blocks(part))


def _reaches(block: Block, box: Extents, side: Side) -> bool:
    own = Extents(low=block.low, high=block.high)
    return abs(own.most(OUTWARD[side]) - box.most(OUTWARD[side])) < _SAME


def metal_of_lump(part: Part, lump: Lump) -> RegionSet:
    """Give the lump as sawn, before the first cut; a casting's is its drawn shape."""
    if lump.cast:
        return part.metal
    if part.blank.form not in ("round bar", "hexagon bar"):
        return (Box(low=lump.raw.low, high=lump.raw.high),)
    start, end = list(lump.raw.middle), list(lump.raw.middle)
    start[lump.long], end[lump.long] = lump.raw.low[lump.long], lump.raw.high[lump.long]
    first, last = _vec(tuple(start)), _vec(tuple(end))
    if part.blank.form == "round bar":
        return (Cylinder(start=first, end=last, diameter=part.blank.across),)
    return (hexagon_bar(across_flats=part.blank.across, start=first, end=last),)


def hollows(part: Part, lump: Lump) -> tuple[Cutout, ...]:
    """Give what must come off between the blocks of a stepped part, as steps and slots.

    The room inside the part's box that no block fills is cut into boxes along the blocks'
    faces; each box is as long as the room goes on.
    """
    if lump.cast or len(blocks(part)) == 1:
        return ()
    box = lump.part
    cuts = [_grid(part, box, axis) for axis in range(3)]
    spans = [list(pairwise(c)) for c in cuts]
    empty = {
        cell
        for cell in product(*(range(len(s)) for s in spans))
        if not any(_inside(b, _middle(spans, cell)) for b in blocks(part))
    }
    found: list[Cutout] = []
    while empty:
        start = min(empty)
        last = _grown(empty, start)
        cells = set(product(*(range(a, b + 1) for a, b in zip(start, last, strict=True))))
        empty -= cells
        low = tuple(spans[i][start[i]][0] for i in range(3))
        high = tuple(spans[i][last[i]][1] for i in range(3))
        found.append(_as_cutout(_vec(low), _vec(high), box))
    names = [one.name for one in found]
    return tuple(
        replace(one, name=f"{one.name} {number}") if names.count(one.name) > 1 else one
        for number, one in enumerate(found, start=1)
    )


Cell = tuple[int, ...]


def _grid(part: Part, box: Extents, axis: int) -> list[float]:
    marks = {box.low[axis], box.high[axis]}
    for block in blocks(part):
        marks |= {block.low[axis], block.high[axis]}
    return sorted(marks)


def _middle(spans: list[list[tuple[float, float]]], cell: Cell) -> Vec3:
    return _vec(tuple(sum(spans[i][cell[i]]) / 2 for i in range(3)))


def _vec(values: tuple[float, ...]) -> Vec3:
    return (values[0], values[1], values[2])


def _inside(block: Block, point: Vec3) -> bool:
    return all(block.low[i] < point[i] < block.high[i] for i in range(3))


def _grown(empty: set[Cell], start: Cell) -> Cell:
    """Grow a box of empty cells as far as it goes, axis by axis."""
    last = list(start)
    for axis in range(3):
        while True:
            ranges = [range(start[i], last[i] + 1) for i in range(3)]
            ranges[axis] = range(last[axis] + 1, last[axis] + 2)
            if not set(product(*ranges)) <= empty:
                break
            last[axis] += 1
    return tuple(last)


def _as_cutout(low: Vec3, high: Vec3, box: Extents) -> Cutout:
    own = Extents(low=low, high=high)
    opened: frozenset[Side] = frozenset(
        s for s in SIDES if abs(own.most(OUTWARD[s]) - box.most(OUTWARD[s])) < _SAME
    )
    closed = [s for s in SIDES if s not in opened]
    floors = [s for s in closed if other_side(s) in opened]
    facing = [s for s in closed if other_side(s) in closed]
    kind = "step" if not facing else "slot"
    out = sorted(s for s in opened if other_side(s) in closed and s not in ("top", "bottom"))
    wide = sorted(
        floors, key=lambda s: own.high[axis_of(OUTWARD[s])] - own.low[axis_of(OUTWARD[s])]
    )
    return Cutout(
        name=f"{out[0]} shoulder" if out else "shoulder",
        kind="step" if kind == "step" else "slot",
        low=low,
        high=high,
        open_sides=opened,
        floor=wide[0] if wide else closed[0],
        corner_radius=0.0,
        wide=None,
        deep=None,
    )
