"""The case of a part cut from the solid: its lump, operations, holdings and orders together."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Part
from halfthou.errors import NoPlan
from halfthou.planning.assemble import Case
from halfthou.planning.milled.lump import SIDES, Lump, lump_of, metal_of_lump
from halfthou.planning.milled.operations import operations_milled
from halfthou.planning.milled.orders import drilled_and_reamed, orders_milled
from halfthou.planning.milled.schemes import schemes_milled
from halfthou.planning.milled.squared import squared
from halfthou.planning.treatment import (
    left_to_lap,
    orders_treated,
    schemes_treated,
    treatment,
)
from halfthou.planning.turned.case import bench_vice
from halfthou.planning.work import Work
from halfthou.workshop.model import Workshop

_SAME: Final = 1e-6


def case_milled(part: Part, workshop: Workshop) -> Case:
    """Gather everything known about milling a part from its blank.

    Raises
    ------
    NoPlan
        If the blank is smaller than the part.
    """
    _check_blank(part)
    lump = lump_of(part)
    drawn, part = part, squared(part)
    cut = operations_milled(part, workshop)
    schemes, refused = schemes_milled(part, workshop, cut.operations)
    cut = replace(cut, operations=left_to_lap(part, cut.operations))
    work = cut + Work(operations=treatment(part))
    raw = lump.raw
    return Case(
        part=drawn,
        blank=(raw.high[0] - raw.low[0], raw.high[1] - raw.low[1], raw.high[2] - raw.low[2]),
        metal=metal_of_lump(part, lump),
        stock=None,
        operations=work.operations,
        alternatives=work.alternatives,
        schemes=(*schemes, *schemes_treated(work.operations, bench_vice(workshop))),
        refused=refused,
        orders=(*orders_milled(part, cut.operations), *orders_treated(work.operations)),
        at_once=drilled_and_reamed(cut.operations),
    )


def _check_blank(part: Part) -> None:
    lump: Lump = lump_of(part)
    ways = ("left to right", "bottom to top", "front to back")
    short = _out_of_round(part, lump) + [
        f"{ways[axis]} it is {part.blank.size[axis]:g} and the part {wanted:g}"
        for axis in range(3)
        if part.blank.size[axis] < (wanted := lump.part.high[axis] - lump.part.low[axis]) - 1e-6
    ]
    if short:
        raise NoPlan(
            f"the blank of the {part.name} is too small",
            where=f"[blank] {part.blank.text}",
            why="; ".join(short),
            tries=(f"a blank with metal over every side: {', '.join(SIDES)}",),
        )


def _out_of_round(part: Part, lump: Lump) -> list[str]:
    """Say that the part's corners stand out of a round bar."""
    if part.blank.form != "round bar":
        return []
    flat = [i for i in range(3) if i != lump.long]
    middle = lump.raw.middle
    corner = 2 * math.hypot(
        *(max(lump.part.high[i] - middle[i], middle[i] - lump.part.low[i]) for i in flat)
    )
    if corner <= part.blank.across + _SAME:
        return []
    return [f"it is {part.blank.across:g} round and the part {corner:.1f} across its corners"]
