"""Drills: one ladder of metric, number, letter and fraction sizes, and what goes before them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final, Literal, TypeAlias

from halfthou.errors import InputFault, OutOfRangeError
from halfthou.handbook.tables import band, rows
from halfthou.quantities import DrillName
from halfthou.units import MM_PER_INCH, Millimetre

DrillKind: TypeAlias = Literal["metric", "fraction", "number", "letter"]

POINT_SHARE: Final = 0.3
TAP_LEAD_PITCHES: Final = 3

_SAME: Final = 0.0015


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """A twist drill by the name on its shank, and its diameter [mm]."""

    name: str
    diameter: Millimetre
    kind: DrillKind


@cache
def ladder() -> tuple[Drill, ...]:
    """Every drill of the four systems, smallest first.

    >>> next(drill.name for drill in ladder() if drill.diameter > 3.65)
    'No. 27'
    """
    found = [*_metric(), *_gauge(), *_fractions()]
    return tuple(sorted(found, key=lambda drill: (drill.diameter, drill.name)))


def drills_of(*kinds: DrillKind, least: Millimetre = 0.0, most: Millimetre = 1e9) -> list[Drill]:
    """Drills of some kinds within a range of diameters [mm]: a box of drills."""
    return [drill for drill in ladder() if drill.kind in kinds and least <= drill.diameter <= most]


def _metric() -> list[Drill]:
    return [
        Drill(name=f"{float(row['mm']):g} mm", diameter=float(row["mm"]), kind="metric")
        for row in rows("drills_metric")
    ]


def _gauge() -> list[Drill]:
    found = []
    for row in rows("drills_number_letter"):
        name, diameter = row["name"], round(float(row["inch"]) * MM_PER_INCH, 6)
        if name.isdigit():
            found.append(Drill(name=f"No. {name}", diameter=diameter, kind="number"))
        else:
            found.append(Drill(name=f"letter {name}", diameter=diameter, kind="letter"))
    return found


def _fractions() -> list[Drill]:
    return [
        Drill(
            name=f"{Fraction(n, 64)} in", diameter=float(Fraction(254 * n, 640)), kind="fraction"
        )
        for n in range(1, 65)
    ]


def find_drill(name: DrillName) -> Drill:
    """Drill that a name means; a name no series has is a fault with its neighbours."""
    if name.kind == "number":
        return next(drill for drill in ladder() if drill.name == f"No. {name.number}")
    if name.kind == "letter":
        return next(drill for drill in ladder() if drill.name == f"letter {name.letter}")
    if name.length is None:
        raise InputFault(f"drill '{name.text}' has no size")
    diameter, kind = name.length.value, name.length.form == "fraction"
    near = sorted(ladder(), key=lambda drill: (abs(drill.diameter - diameter), drill.name))
    same = [drill for drill in near if abs(drill.diameter - diameter) < _SAME]
    if not same:
        raise InputFault(
            f"no drill is {name.text}",
            why="it lies between the sizes of the metric, number, letter and inch series",
            tries=(f"take {near[0].name}", f"take {near[1].name}"),
        )
    return next((drill for drill in same if (drill.kind == "fraction") == kind), same[0])


def nearest_drill(
    diameter: Millimetre,
    drills: Sequence[Drill],
    *,
    least: Millimetre = 0.0,
    most: Millimetre = 1e9,
) -> Drill | None:
    """Drill in hand nearest to ``diameter`` within ``least`` and ``most`` [mm]; none if none."""
    fitting = [drill for drill in drills if least - 1e-9 <= drill.diameter <= most + 1e-9]
    return min(
        fitting, key=lambda drill: (abs(drill.diameter - diameter), drill.diameter), default=None
    )


def reaming_allowance(diameter: Millimetre) -> Millimetre:
    """Metal to leave on the diameter for the reamer, usual practice, to 50 mm [mm].

    Examples
    --------
    >>> reaming_allowance(8.0)
    0.2
    """
    return float(_reaming_row(diameter)["allowance"])


def reaming_drill(diameter: Millimetre, drills: Sequence[Drill]) -> Drill | None:
    """Drill in hand to go before a reamer; none leaves a fair amount [mm]."""
    row = _reaming_row(diameter)
    return nearest_drill(
        diameter - float(row["allowance"]),
        drills,
        least=diameter - float(row["most"]),
        most=diameter - float(row["least"]),
    )


def _reaming_row(diameter: Millimetre) -> dict[str, str]:
    row = band(rows("reaming_allowance"), diameter)
    if row is None:
        raise OutOfRangeError(
            f"no reaming allowance for {diameter:g} mm",
            why="reamers over 50 mm are not reckoned with",
            tries=("bore it",),
        )
    return dict(row)


def point_allowance(diameter: Millimetre) -> Millimetre:
    """Depth of a drill's point, usual practice: 0.3 of its diameter [mm].

    Notes
    -----
    A point of 118° is 0.3004 of the diameter.
    """
    return POINT_SHARE * diameter


def tap_lead(pitch: Millimetre) -> Millimetre:
    """Depth a second tap leaves short of full thread, usual practice: 3 pitches [mm]."""
    return TAP_LEAD_PITCHES * pitch


def flute_length(diameter: Millimetre) -> Millimetre | None:
    """Flute of a jobber drill, the point included, recalled from ISO 235; to 20 mm [mm]."""
    row = band(rows("drill_lengths"), diameter, over="over_mm", upto="upto_mm")
    return float(row["flute_mm"]) if row else None


def drilling_depth(diameter: Millimetre) -> Millimetre | None:
    """Depth a jobber drill reaches with its chips still coming out: flute less 1.5 D [mm]."""
    flute = flute_length(diameter)
    return None if flute is None else flute - 1.5 * diameter
