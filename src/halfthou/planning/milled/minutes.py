"""What work on the mill and at the bench takes, near enough to choose between plans.

Usual practice of a small hand-fed mill; the card's own figures come from the cutting rooms.
"""

from __future__ import annotations

from typing import Final

from halfthou.cutting.metals import metal_of
from halfthou.cutting.milling import (
    SIDE_SHARE,
    cutter_width,
    down_to_a_floor,
    facing_depth,
    milling,
    to_a_face,
    traverses,
)
from halfthou.cutting.times import minutes_cutting
from halfthou.planning.machines import mill_over
from halfthou.units import Millimetre
from halfthou.workshop.model import Mill, Tool, Workshop

_DRILL_A_MINUTE: Final = 25.0
"""Depth drilled with clearing, at 6 mm; less in proportion above. [mm/min]."""
_DRILL_AT: Final = 6.0


_NO_MILL: Final = 5.0
"""What a milling cut is reckoned at where there is neither mill nor cutter. [min]"""


def _in_hand(
    workshop: Workshop, tools: tuple[str, ...], reach: tuple[Millimetre, Millimetre]
) -> tuple[Mill, Tool] | None:
    """Give the cutter first thought of, and the first mill that reaches over the cut."""
    found = [t for name in tools[:1] for t in workshop.tools if t.name == name]
    mill = mill_over(workshop, max(reach), min(reach))
    return (mill, found[0]) if mill is not None and found else None


def facing(
    *,
    workshop: Workshop,
    material: str,
    tools: tuple[str, ...],
    size: tuple[Millimetre, Millimetre],
    off: Millimetre,
) -> float:
    """Give minutes to mill a face of that size down by ``off``, as the card reckons it [min]."""
    have = _in_hand(workshop, tools, size)
    if have is None:
        return _NO_MILL
    mill, tool = have
    metal, width = metal_of(material), cutter_width(tool)
    set_to = milling(metal=metal, verb="mill face", tool=tool, workshop=workshop, mill=mill)
    cuts = to_a_face(metal_off=off, deepest=facing_depth(tool, metal), division=mill.z.division)
    return minutes_cutting(
        passes=sum(cut.count for cut in cuts) * traverses(min(size), width),
        length=max(size) + width,
        feed=set_to.per_turn,
        speed=set_to.speed,
        measured=1,
    )


def edging(
    *,
    workshop: Workshop,
    material: str,
    tools: tuple[str, ...],
    length: Millimetre,
    deep: Millimetre,
    off: Millimetre,
) -> float:
    """Give minutes to mill an edge with the side of the cutter, as the card reckons it [min]."""
    have = _in_hand(workshop, tools, (length, 0.0))
    if have is None:
        return _NO_MILL
    mill, tool = have
    metal, width = metal_of(material), cutter_width(tool)
    set_to = milling(
        metal=metal, verb="mill face", tool=tool, workshop=workshop, mill=mill, deep=deep
    )
    deepest = min(SIDE_SHARE * width, metal.rough)
    cuts = to_a_face(metal_off=off, deepest=deepest, division=mill.x.division)
    return minutes_cutting(
        passes=sum(cut.count for cut in cuts),
        length=length + width,
        feed=set_to.per_turn,
        speed=set_to.speed,
        measured=1,
    )


def hollowing(
    *,
    workshop: Workshop,
    material: str,
    tools: tuple[str, ...],
    verb: str,
    size: tuple[Millimetre, Millimetre],
    deep: Millimetre,
) -> float:
    """Give minutes to mill a step, slot, pocket or keyway, as the card reckons it [min]."""
    have = _in_hand(workshop, tools, size)
    if have is None or deep <= 0:
        return _NO_MILL
    mill, tool = have
    metal, width = metal_of(material), cutter_width(tool)
    set_to = milling(metal=metal, verb=verb, tool=tool, workshop=workshop, mill=mill)
    cuts = down_to_a_floor(
        deep=deep, width=width, metal=metal, division=mill.z.division, verb=verb
    )
    return minutes_cutting(
        passes=sum(cut.count for cut in cuts) * traverses(min(size), width),
        length=max(size),
        feed=set_to.per_turn,
        speed=set_to.speed,
        measured=1,
    )


def chamfering(*, length: Millimetre) -> float:
    """Give minutes to mill the edge of a length off, touched first [min]."""
    return 1.0 + length / 60.0


def drilling(*, depth: Millimetre, diameter: Millimetre, count: int) -> float:
    """Give minutes to drill so many holes, bringing each under the drill [min]."""
    slower = max(1.0, diameter / _DRILL_AT)
    return count * (0.4 + depth / _DRILL_A_MINUTE * slower)


def sizing(*, depth: Millimetre, count: int) -> float:
    """Give minutes to ream, counterbore or countersink so many holes [min]."""
    return count * (0.5 + depth / _DRILL_A_MINUTE)


def boring(*, depth: Millimetre, count: int) -> float:
    """Give minutes to bore so many holes to size, with the measuring [min]."""
    return count * (8.0 + 3 * depth / _DRILL_A_MINUTE)


def tapping(*, depth: Millimetre, count: int) -> float:
    """Give minutes to tap so many holes by hand, the tap started square [min]."""
    return count * (1.5 + depth / 10.0)


def filing(*, length: Millimetre) -> float:
    """Give minutes to file an edge [min]."""
    return 0.5 + length / 40.0
