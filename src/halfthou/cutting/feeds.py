"""How far the tool goes in one turn of the spindle."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from halfthou.cutting.metals import Metal
from halfthou.units import Millimetre

ROUGHING: Final[Millimetre] = 0.10
"""Feed of a roughing cut on a light lathe, a turn (usual practice)."""
FINISHING: Final[Millimetre] = 0.05
"""Feed of a finishing cut, a turn (usual practice)."""
PLUNGING: Final[Millimetre] = 0.04
"""Feed of a parting or grooving tool, a turn: 0.03 to 0.08 for high-speed steel."""
REAMING: Final[Millimetre] = 0.20
"""Feed of a reamer, a turn (usual practice)."""
_DRILL_SHARE: Final = 0.015
_DRILL_LEAST: Final[Millimetre] = 0.02
_DRILL_MOST: Final[Millimetre] = 0.20
_TOOTH_SHARE: Final = 1 / 250
_TOOTH_MOST: Final[Millimetre] = 0.06
FLY_CUTTING: Final[Millimetre] = 0.10
"""Feed of a fly cutter, a turn (usual practice)."""


def nearest_feed(feeds: Sequence[Millimetre], wanted: Millimetre) -> Millimetre:
    """Give the machine's feed at or below the wanted one; its finest where none is."""
    below = [feed for feed in feeds if feed <= wanted + 1e-9]
    return max(below) if below else min(feeds)


def drill_feed(diameter: Millimetre, metal: Metal) -> Millimetre:
    """Feed of a drill by hand: 0.015 of its diameter in steel, half as much again in soft metals.

    Notes
    -----
    Usual practice for small machines, 1 to 13 mm; printed tables for stiff ones give up to twice.

    Examples
    --------
    >>> from halfthou.cutting.metals import metal_of
    >>> drill_feed(6.0, metal_of("mild steel"))
    0.09
    """
    soft = 1.5 if metal.yellow or metal.group in {"aluminium", "plastic"} else 1.0
    return max(_DRILL_LEAST, min(_DRILL_MOST, soft * _DRILL_SHARE * diameter))


def tooth_feed(diameter: Millimetre) -> Millimetre:
    """Feed of an end mill for one tooth: a 250th of its diameter, 0.06 at most.

    Notes
    -----
    Usual practice, high-speed steel on a light mill, 2 to 16 mm.

    Examples
    --------
    >>> tooth_feed(10.0)
    0.04
    """
    return min(_TOOTH_MOST, _TOOTH_SHARE * diameter)
