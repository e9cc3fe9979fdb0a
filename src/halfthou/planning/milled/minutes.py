"""What work on the mill and at the bench takes, near enough to choose between plans.

Usual practice of a small hand-fed mill; the card's own figures come from the cutting rooms.
"""

from __future__ import annotations

from typing import Final

from halfthou.units import Millimetre

EASY_METALS: Final = ("brass", "alumin", "gunmetal")
"""Words in the name of a metal that is cut faster."""
_STEEL_A_MINUTE: Final = 1500.0
"""Metal a small mill takes off steel by hand feed. [mm³/min]."""
_EASY_A_MINUTE: Final = 4000.0
_FINISH_A_MINUTE: Final = 900.0
"""Area gone over in a finishing pass. [mm²/min]."""
_DRILL_A_MINUTE: Final = 25.0
"""Depth drilled with clearing, at 6 mm; less in proportion above. [mm/min]."""
_DRILL_AT: Final = 6.0


def _rate(material: str) -> float:
    easy = any(word in material.lower() for word in EASY_METALS)
    return _EASY_A_MINUTE if easy else _STEEL_A_MINUTE


def milling(*, volume: float, area: float, material: str, passes: int = 1) -> float:
    """Give minutes to mill away a volume [mm³] and go over the area left [mm²] [min]."""
    return 1.0 + volume / _rate(material) + passes * area / _FINISH_A_MINUTE


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
