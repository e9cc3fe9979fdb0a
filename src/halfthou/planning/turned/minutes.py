"""Minutes for one operation, from its length, its size and the metal to come off.

A coarse price for the planner, the same for every way of doing a thing; the card's own minutes
come from the passes worked out later. All figures are usual practice for a small lathe and mill.
"""

from __future__ import annotations

from typing import Final

from halfthou.units import Millimetre

HANDLING: Final = {
    "saw": 3.0,
    "face": 1.5,
    "centre": 1.5,
    "turn": 2.0,
    "turn taper": 6.0,
    "groove": 2.0,
    "chamfer": 1.0,
    "thread": 5.0,
    "drill": 1.5,
    "spot": 1.0,
    "bore": 3.0,
    "ream": 2.0,
    "tap": 4.0,
    "countersink": 1.0,
    "counterbore": 2.0,
    "spot-face": 2.0,
    "part off": 3.0,
}
"""Minutes to begin, measure and end, whatever the size."""
ROUGH_DEPTH: Final = 1.0
"""Depth of a roughing cut a side, mm."""
MINUTES_A_MM: Final = 0.03
"""Minutes for each mm of travel of one pass: about 0.1 mm a turn at 350 rev/min."""


def minutes_for(verb: str, *, length: Millimetre, across: Millimetre, depth: Millimetre) -> float:
    """Price of an operation.

    Parameters
    ----------
    verb :
        The operation.
    length :
        Travel of one pass. [mm]
    across :
        Diameter or width worked on; larger work turns slower. [mm]
    depth :
        Metal to come off a side. [mm]

    Returns
    -------
    :
        Time with handling. [min]
    """
    passes = max(1.0, depth / ROUGH_DEPTH)
    if verb in {"drill", "ream", "tap", "centre", "part off", "saw"}:
        passes = 1.0
    slow = max(0.5, across / 25.0)
    return round(HANDLING.get(verb, 2.0) + passes * length * MINUTES_A_MM * slow, 1)
