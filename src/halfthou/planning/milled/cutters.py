"""Which cutters of this workshop mill a keyway, a slot, a step or a pocket."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Band, Cutout, Keyway
from halfthou.planning.axes import Extents, axis_of
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Tool, Workshop

SAWS: Final = ("slitting saw", "side and face cutter")
"""Cutters that turn level under an upright spindle and work with their rim."""
_SAME: Final = 0.03
"""A cutter within this of a slot's width cuts it in one go. [mm]"""
_SMALLER: Final = 0.6
"""Least width of a cutter, as a share of the slot it is walked along, worth using."""
NARROW_FACE: Final = 2.0
"""A face up to this many widths of an end mill across is milled with it (usual practice)."""
_OFFERED: Final = 3
"""How many cutters are offered for one cut, the stiffest first."""


def mill_tools(workshop: Workshop, *kinds: str) -> tuple[Tool, ...]:
    """Give the mill's cutters of these kinds, the widest first."""
    found = [t for t in workshop.tools if t.machine == "mill" and t.kind in kinds]
    return tuple(sorted(found, key=lambda t: (-t.width, t.name)))


def for_keyway(keyway: Keyway, depth: Millimetre, workshop: Workshop) -> tuple[str, ...]:
    """Name the slot drills for a keyway: of its width, else narrower and walked sideways.

    A slot drill is ground a few hundredths under its nominal size, just to leave a tight keyway.
    """
    wide = keyway.width.nominal
    fits = [t for t in mill_tools(workshop, "slot drill") if t.reach >= depth]
    exact = [t for t in fits if abs(t.width - wide) <= _SAME]
    narrower = [t for t in fits if _SMALLER * wide <= t.width < wide]
    return tuple(t.name for t in (exact or narrower)[:_OFFERED])


def for_cutout(cutout: Cutout, up: Vec3, workshop: Workshop) -> tuple[str, ...]:
    """Name the cutters that mill a cutout from the direction ``up``."""
    space = Extents(low=cutout.low, high=cutout.high)
    depth = space.length(up)
    flat = [i for i in range(3) if i != axis_of(up)]
    narrow = min(space.high[i] - space.low[i] for i in flat)
    if cutout.kind == "slot":
        fits = _slot_cutters(narrow, depth, cutout, workshop)
    elif cutout.kind == "pocket":
        most = min(narrow, 2 * cutout.corner_radius) if cutout.corner_radius > 0 else narrow
        fits = [t for t in mill_tools(workshop, "slot drill") if t.width <= most + _SAME]
    else:
        fits = list(mill_tools(workshop, "end mill", "side and face cutter", "slot drill"))
    return tuple(t.name for t in fits if t.reach >= depth)[:_OFFERED]


def _slot_cutters(
    wide: Millimetre, depth: Millimetre, cutout: Cutout, workshop: Workshop
) -> list[Tool]:
    drawn = slot_width(cutout, wide)
    most = drawn.high if drawn is not None else wide
    fits = [t for t in mill_tools(workshop, "slot drill", "end mill") if t.width <= most + _SAME]
    saws = [
        t
        for t in mill_tools(workshop, *SAWS)
        if t.width <= most + _SAME and len(cutout.open_sides) >= 3  # noqa: PLR2004
    ]
    worth = [t for t in fits if t.width >= _SMALLER * wide and t.reach >= depth]
    return worth or [t for t in fits if t.reach >= depth] or saws


def slot_width(cutout: Cutout, across: Millimetre) -> Band | None:
    """Give the limits of a slot's width, if they are those the drawing calls wide."""
    band = cutout.wide
    return band if band is not None and abs(band.nominal - across) < _SAME else None


def only_sawn(cutout: Cutout, up: Vec3, workshop: Workshop) -> bool:
    """Tell whether nothing but a saw or side cutter goes into a slot: it then lies level."""
    named = for_cutout(cutout, up, workshop)
    saws = {t.name for t in mill_tools(workshop, *SAWS)}
    return bool(named) and set(named) <= saws


def for_face(workshop: Workshop, narrow: Millimetre) -> tuple[str, ...]:
    """Name the cutters that face a surface from above.

    A face up to two widths of the end mill across is milled with that: it takes a deeper cut
    than a fly cutter, and ten times its feed. Wider ones by the cutter that spans them.
    """
    ends = mill_tools(workshop, "end mill")
    near = [t for t in ends if narrow <= NARROW_FACE * t.width]
    if near:
        return tuple(t.name for t in near)[:_OFFERED]
    all_of = mill_tools(workshop, "face mill", "end mill")
    spanning = sorted(
        (t for t in all_of if t.width > narrow), key=lambda t: (t.width, -t.teeth, t.name)
    )
    names = [t.name for t in (*spanning[:1], *all_of)]
    return tuple(dict.fromkeys(names))[:_OFFERED]


def for_side(workshop: Workshop, depth: Millimetre) -> tuple[str, ...]:
    """Name the end mills whose flutes reach down a face of this depth."""
    fits = [t for t in mill_tools(workshop, "end mill") if t.reach >= depth]
    return tuple(t.name for t in fits[:_OFFERED])
