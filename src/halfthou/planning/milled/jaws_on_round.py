"""Where vice jaws lie along a level round: on it and on smaller ones, clear of larger ones."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part, Surface
from halfthou.units import Millimetre

BESIDE_LARGER: Final[Millimetre] = 2.0
"""Room left between the end of the jaws and a larger round (usual practice)."""
OVER_THE_SCREW: Final[Millimetre] = 5.0
"""Least the work reaches past the middle of the jaws, where the screw pushes: they then close
square with nothing at their other end (usual practice)."""
FILLER: Final[Millimetre] = 14.0
"""Least room between the jaws, past the end of the work, for a piece that closes them square."""
_SAME: Final[Millimetre] = 0.01

Reach = tuple[Millimetre, Millimetre]


def larger_beside(part: Part, held: Surface) -> tuple[Surface | None, Surface | None]:
    """Give the nearest larger round on the left and on the right of one, if there is any."""
    size = _across(held)
    larger = [
        one for one in part.surfaces
        if not one.inside and one.kind != "plane" and _across(one) > size + _SAME
    ]  # fmt: skip
    left = [one for one in larger if one.high[0] <= held.low[0] + _SAME]
    right = [one for one in larger if one.low[0] >= held.high[0] - _SAME]
    return (
        max(left, key=lambda one: one.high[0], default=None),
        min(right, key=lambda one: one.low[0], default=None),
    )


def jaws_on(part: Part, held: Surface, wide: Millimetre) -> Reach | None:
    """Give from where to where jaws lie along a round; None where they do not go between.

    Their middle is as near the middle of the round as larger ones beside it allow.
    """
    left, right = larger_beside(part, held)
    least = left.high[0] + BESIDE_LARGER if left is not None else None
    most = right.low[0] - BESIDE_LARGER - wide if right is not None else None
    if least is not None and most is not None and most < least - _SAME:
        return None
    low = (held.low[0] + held.high[0] - wide) / 2
    low = low if most is None else min(low, most)
    low = low if least is None else max(low, least)
    return low, low + wide


def borne(held: Surface, jaws: Reach) -> Reach:
    """Give from where to where jaws bear on a round."""
    return max(held.low[0], jaws[0]), min(held.high[0], jaws[1])


def closes_square(held: Surface, jaws: Reach) -> bool:
    """Tell whether jaws close square on a round by itself: it reaches past their middle."""
    low, high = borne(held, jaws)
    middle = (jaws[0] + jaws[1]) / 2
    return low + OVER_THE_SCREW <= middle + _SAME and middle <= high - OVER_THE_SCREW + _SAME


def room_for_a_filler(part: Part, held: Surface, jaws: Reach) -> bool:
    """Tell whether a piece of the same diameter goes between the jaws past the end of the work."""
    low, high = borne(held, jaws)
    if (low + high) / 2 < (jaws[0] + jaws[1]) / 2:
        return jaws[1] - max(one.high[0] for one in part.surfaces) >= FILLER
    return min(one.low[0] for one in part.surfaces) - jaws[0] >= FILLER


def _across(surface: Surface) -> Millimetre:
    return surface.size.nominal if surface.size is not None else 0.0
