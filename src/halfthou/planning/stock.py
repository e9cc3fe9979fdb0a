"""The lump as sawn: where the metal lies round the finished part before the first cut.

A turned part may be sawn to its length with a skim for each face, or left longer at one end: the
chucking piece, by which it is held until it is parted off. Each is a blank the planner tries.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from halfthou.drawing.geometry import Cylinder, RegionSet, hexagon_bar, square_bar
from halfthou.drawing.model import Hole, Part, Round
from halfthou.units import Millimetre
from halfthou.workshop.model import HoldingDevice, Workshop

FACING: Final = 1.0
"""Metal left on each sawn end for facing it clean, mm (usual practice)."""
PARTED: Final = 0.5
"""Metal left on a parted face for facing it true, mm (usual practice)."""
PARTING_ROOM: Final = 2.0
"""Clear space between parting tool and jaws, mm (usual practice)."""
LEAST_GRIP: Final = 10.0
"""Least length in the jaws, mm (usual practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A blank in the part's own frame. ``chucking`` is the end left long to hold by, if any.

    ``low`` and ``high`` are its ends along x; ``parted_at`` where the parting tool's near side
    runs; ``across`` its diameter (across the corners for hexagon and square bar).
    """

    low: Millimetre
    high: Millimetre
    across: Millimetre
    metal: RegionSet
    chucking: Literal["left", "right"] | None = None
    parting_width: Millimetre = 0.0
    saw: Millimetre = 0.0


def ends(part: Part) -> tuple[Millimetre, Millimetre]:
    """Left and right end of a turned part along x. [mm]"""
    rounds = [f for f in part.features if isinstance(f, Round)]
    return min(r.left for r in rounds), max(r.right for r in rounds)


def _bar(part: Part, low: float, high: float) -> RegionSet:
    start, end = (low, 0.0, 0.0), (high, 0.0, 0.0)
    across = part.blank.across
    match part.blank.form:
        case "hexagon bar":
            return (hexagon_bar(across_flats=across, start=start, end=end),)
        case "square bar":
            return (square_bar(across_flats=across, start=start, end=end),)
        case _:
            return (Cylinder(start=start, end=end, diameter=across),)


def _over_corners(part: Part) -> float:
    factor = {"hexagon bar": 2 / 3**0.5, "square bar": 2**0.5}
    return part.blank.across * factor.get(part.blank.form, 1.0)


def grip_wanted(diameter: Millimetre, jaws: Millimetre) -> Millimetre:
    """Length to hold by: one diameter, never under ``LEAST_GRIP``, no more than the jaws. [mm]"""
    return max(LEAST_GRIP, min(diameter, jaws))


def turned_stocks(part: Part, workshop: Workshop) -> tuple[Stock, ...]:
    """Every blank worth trying for a turned part: sawn to length, or with a chucking piece."""
    x0, x1 = ends(part)
    given = part.blank.size[0]
    across = _over_corners(part)
    tried = []
    there = given - (x1 - x0) if given > 0 else 1e9
    if there > 0:
        side = min(FACING, there / 2)
        tried.append(_stock(part, low=x0 - side, high=x1 + side, across=across))
    for end in ("left", "right"):
        held = _chucking_piece(workshop, part, "left" if end == "left" else "right")
        if held is None:
            continue
        jaws, width = held
        length = grip_wanted(across, jaws.jaw_depth) + PARTING_ROOM + width + PARTED
        if length + FACING > there:
            continue
        low, high = (x0 - length, x1 + FACING) if end == "left" else (x0 - FACING, x1 + length)
        tried.append(
            _stock(part, low=low, high=high, across=across, chucking=end, parting_width=width)
        )
    return tuple(tried)


def _chucking_piece(
    workshop: Workshop, part: Part, end: Literal["left", "right"]
) -> tuple[HoldingDevice, float] | None:
    jaws = next((d for d in workshop.holding if d.device == "three-jaw chuck"), None)
    parting = next((t for t in workshop.tools if t.kind == "parting tool"), None)
    if jaws is None or parting is None or parting.reach < _to_part_through(part, end):
        return None
    return jaws, parting.width


def _to_part_through(part: Part, end: Literal["left", "right"]) -> Millimetre:
    """Metal a side for the parting tool: the end as turned, less a hole right through it."""
    rounds = sorted((f for f in part.features if isinstance(f, Round)), key=lambda r: r.left)
    last = rounds[0] if end == "left" else rounds[-1]
    bores = [
        step.diameter.nominal
        for f in part.features
        if isinstance(f, Hole) and f.on_axis
        for step in f.steps
        if step.breaks_out
    ]
    return (last.diameter.nominal - max(bores, default=0.0)) / 2


def _stock(
    part: Part,
    *,
    low: float,
    high: float,
    across: float,
    chucking: Literal["left", "right"] | None = None,
    parting_width: float = 0.0,
) -> Stock:
    return Stock(
        low=low,
        high=high,
        across=across,
        metal=_bar(part, low, high),
        chucking=chucking,
        parting_width=parting_width,
        saw=high - low,
    )
