"""Parallel keys and their keyways, by the diameter of the shaft."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfthou.errors import OutOfRangeError
from halfthou.handbook.tables import band, rows
from halfthou.quantities import DrawingUnits, parse_length
from halfthou.units import MM_PER_INCH, Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """A parallel key and its keyway [mm]: depths of the shaft's from the crown of the shaft."""

    width: Millimetre
    height: Millimetre
    shaft_depth: tuple[Millimetre, Millimetre]
    hub_depth: tuple[Millimetre, Millimetre]
    table: Literal["keys_metric", "keys_inch"]


def key_for(shaft: Millimetre, *, units: DrawingUnits) -> Key:
    """Key of a shaft by BS 46 (inch, 1/4 to 2 1/2 in) or ISO 773 (metric, 6 to 58 mm).

    >>> key_for(25.0, units="mm").width
    8.0
    """
    key = _inch_key(shaft) if units == "in" else _metric_key(shaft)
    if key is None:
        raise OutOfRangeError(
            f"no parallel key is listed for a shaft of {shaft:g} mm",
            why="the tables run from 6 to 58 mm and from 1/4 to 2 1/2 in",
            tries=("give the keyway's width and depth", "pin it"),
        )
    return key


def _metric_key(shaft: Millimetre) -> Key | None:
    row = band(rows("keys_metric"), shaft)
    if row is None:
        return None
    more = 0.1 if float(row["b"]) <= 6 else 0.2
    shaft_depth, hub_depth = float(row["t1_shaft"]), float(row["t2_hub"])
    return Key(
        width=float(row["b"]),
        height=float(row["h"]),
        shaft_depth=(shaft_depth, shaft_depth + more),
        hub_depth=(hub_depth, hub_depth + more),
        table="keys_metric",
    )


def _inch_key(shaft: Millimetre) -> Key | None:
    for row in rows("keys_inch"):
        over, upto = (
            parse_length(row[end], units="in").value for end in ("shaft_over", "shaft_upto")
        )
        if over < shaft <= upto:
            width = parse_length(row["W"], units="in").value
            depths = [
                float(row[name]) * MM_PER_INCH
                for name in (
                    "shaft_depth_min",
                    "shaft_depth_max",
                    "hub_depth_min",
                    "hub_depth_max",
                )
            ]
            return Key(
                width=width,
                height=width,
                shaft_depth=(depths[0], depths[1]),
                hub_depth=(depths[2], depths[3]),
                table="keys_inch",
            )
    return None
