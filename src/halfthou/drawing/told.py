"""Lengths in findings and faults: in the drawing's own units, to three places."""

from __future__ import annotations

from typing import Final

from halfthou.quantities import DrawingUnits, decimal_length
from halfthou.units import Millimetre

_PLACES: Final = 3


def told(length: Millimetre, units: DrawingUnits) -> str:
    """Write a length that nobody drew: ``1.000 mm``, ``0.039 in``.

    >>> told(12.7, "in")
    '0.500 in'
    """
    return decimal_length(length, unit=units, places=_PLACES).text
