"""Milling by hand feed: depth of cut, feed, traverses; for prices and cards alike."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.cutting.feeds import FLY_CUTTING, tooth_feed
from halfthou.cutting.hand_feed import seconds_a_turn
from halfthou.cutting.metals import Metal
from halfthou.cutting.passes import ALIKE, LEAST_HSS, LEAVE, Cuts, milling_depth, roughing
from halfthou.cutting.speeds import speed_for
from halfthou.units import Millimetre, RevPerMinute, Second
from halfthou.workshop.model import Mill, Tool, Workshop

STEP_OVER: Final = 0.7
"""Share of a facing cutter's width used for each traverse (usual practice)."""
FACE_CUT: Final[Millimetre] = 0.5
"""Deepest cut of a fly cutter on a light mill, in steel (usual practice)."""
SIDE_SHARE: Final = 0.1
"""Deepest side cut of an end mill at its full depth, in diameters (usual practice)."""
LAST: Final[Millimetre] = 0.10
"""Last cut over a milled face (usual practice)."""
CALMLY: Final[Second] = 1.5
"""A table handle is not turned faster than this under cut (usual practice)."""
DEEP_SIDE_FEED: Final = 0.5
"""Share of the tooth feed where the flutes cut deeper than half the cutter (usual practice)."""
ANY_CUTTER: Final[Millimetre] = 10.0
"""Width reckoned with where the workshop does not know a cutter. [mm]"""
_FLY_TEETH: Final = 1
_CUTS_LIKE: Final = {"mill step": "mill face"}
"""A step is cut with the side and end of the mill, no more than a face is: at its speed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Milling:
    """What is set: spindle, feed a turn of it, and seconds for a turn of the table's handle."""

    speed: RevPerMinute
    per_turn: Millimetre
    seconds: Second


def cutter_width(tool: Tool | None) -> Millimetre:
    """Give a cutter's diameter."""
    return tool.width if tool is not None and tool.width > 0 else ANY_CUTTER


def is_facing_cutter(tool: Tool | None) -> bool:
    """Tell a fly cutter or face mill from an end mill."""
    return tool is not None and tool.kind == "face mill"


def milling(
    *,
    metal: Metal,
    verb: str,
    tool: Tool | None,
    workshop: Workshop,
    mill: Mill,
    deep: Millimetre = 0.0,
) -> Milling:
    """Give speed and feed of a milling cut; ``deep`` is how far the flutes cut at their side."""
    width = cutter_width(tool)
    speed = speed_for(
        metal=metal,
        verb=_CUTS_LIKE.get(verb, verb),
        diameter=width,
        workshop=workshop,
        speeds=mill.speeds,
    )
    if is_facing_cutter(tool) and tool is not None and tool.teeth == _FLY_TEETH:
        per_turn = FLY_CUTTING
    else:
        share = DEEP_SIDE_FEED if deep > width / 2 else 1.0
        per_turn = share * tooth_feed(width) * (tool.teeth if tool is not None else 2)
    seconds = seconds_a_turn(lead=mill.x.lead, feed=per_turn, speed=speed)
    if seconds < CALMLY:
        per_turn, seconds = per_turn * seconds / CALMLY, CALMLY
    return Milling(speed=speed, per_turn=per_turn, seconds=seconds)


def facing_depth(tool: Tool | None, metal: Metal) -> Millimetre:
    """Deepest facing cut: an end mill takes more than a fly cutter."""
    if tool is None or is_facing_cutter(tool):
        return FACE_CUT * metal.rough
    return milling_depth(cutter=tool.width, deepest=metal.rough)


def traverses(across: Millimetre, width: Millimetre) -> int:
    """How often a cutter goes over a face so wide."""
    return max(1, math.ceil(across / (STEP_OVER * width) - 1e-9)) if across > width else 1


def lanes(across: Millimetre, width: Millimetre) -> tuple[Millimetre, ...]:
    """Where the cutter's middle runs over a face so wide, from the face's own middle.

    Examples
    --------
    >>> lanes(20, 16), lanes(20, 40)
    ((-5.0, 5.0), (0.0,))
    """
    count = traverses(across, width)
    return tuple(across * ((number + 0.5) / count - 0.5) for number in range(count))


def to_a_face(
    *, metal_off: Millimetre, deepest: Millimetre, division: Millimetre
) -> tuple[Cuts, ...]:
    """Cuts to a milled face: down to a last light one, then that; whole divisions.

    Examples
    --------
    >>> [(c.count, round(c.depth, 2)) for c in to_a_face(metal_off=3, deepest=1, division=0.02)]
    [(3, 0.96), (1, 0.12)]
    """
    rough = roughing(metal_off=metal_off, deepest=deepest, leave=LAST, step=2 * division)
    left = rough[-1].left if rough else metal_off
    return (*rough, Cuts(count=1, depth=left, left=0.0, purpose="finish"))


def down_to_a_floor(
    *, deep: Millimetre, width: Millimetre, metal: Metal, division: Millimetre, verb: str
) -> tuple[Cuts, ...]:
    """Cuts down to a floor: all alike in whole divisions, then one for the floor."""
    deepest = milling_depth(cutter=width, deepest=metal.rough)
    leave = LEAVE if verb in {"mill pocket", "mill step"} else ALIKE
    rough = roughing(
        metal_off=deep, deepest=deepest, leave=min(leave, deep / 2), step=2 * division
    )
    left = rough[-1].left if rough else deep
    if left < LEAST_HSS and rough:
        return rough
    return (*rough, Cuts(count=1, depth=left, left=0.0, purpose="finish"))


def each_setting(cuts: tuple[Cuts, ...]) -> tuple[Millimetre, ...]:
    """How far in the cutter is at every single cut, from where it first touched.

    Examples
    --------
    >>> cuts = to_a_face(metal_off=1, deepest=0.5, division=0.02)
    >>> [round(total, 2) for total in each_setting(cuts)]
    [0.44, 0.88, 1.0]
    """
    total, found = 0.0, []
    for cut in cuts:
        for _ in range(cut.count):
            total += cut.depth
            found.append(total)
    return tuple(found)
