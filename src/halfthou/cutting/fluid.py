"""Cutting fluid: iron and brass dry, steel oil, aluminium paraffin, taps their compound."""

from __future__ import annotations

from typing import Literal

from halfthou.cutting.metals import Metal


def fluid_for(
    metal: Metal, verb: str
) -> Literal["dry", "cutting oil", "paraffin", "tapping compound"]:
    """Give what to put on the cut (usual practice)."""
    if verb in {"saw", "deburr", "mark out"}:
        return "dry"
    if metal.group in {"grey iron", "spheroidal iron", "plastic"}:
        return "dry"
    if metal.yellow and metal.group != "copper":
        return "dry"
    if verb == "tap":
        return "tapping compound"
    if metal.group in {"aluminium", "copper"}:
        return "paraffin"
    return "cutting oil"
