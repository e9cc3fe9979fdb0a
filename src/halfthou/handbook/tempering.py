"""Colours of tempering, and the heat each shows at on bright steel."""

from __future__ import annotations

from functools import cache
from typing import Final

from halfthou.handbook.tables import rows
from halfthou.units import Celsius

_FREEZES: Final = 32.0
_DEGREES: Final = 1.8


@cache
def _heats() -> dict[str, Celsius]:
    found: dict[str, float] = {}
    for row in rows("tempering_colours"):
        heat = (float(row["fahrenheit"]) - _FREEZES) / _DEGREES
        for name in (row["colour"], *row["others"].split(";")):
            if name.strip():
                found[name.strip().casefold()] = heat
    return found


def tempering_heat(colour: str) -> Celsius | None:
    """Give the heat a tempering colour shows at; None for a colour that is not in the table [°C].

    >>> tempering_heat("dark straw")
    243.33
    >>> tempering_heat("green") is None
    True
    """
    return _heats().get(" ".join(colour.casefold().split()))
