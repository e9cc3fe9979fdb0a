"""Centre drills, and the centre that suits a diameter of work."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfthou.errors import InputFault, OutOfRangeError
from halfthou.handbook.names import near_names
from halfthou.handbook.tables import band, rows
from halfthou.quantities import parse_length
from halfthou.units import MM_PER_INCH, Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class CentreDrill:
    """A 60° centre drill: pilot and body [mm]."""

    name: str
    pilot: Millimetre
    body: Millimetre

    @property
    def called(self) -> str:
        """What it is called over the counter: number or pilot, and the body it is known by.

        >>> find_centre_drill("BS3").called, find_centre_drill("A2.5").called
        ('BS No. 3 (body 1/4 in)', 'A2.5 (body 6.3 mm)')
        """
        if not self.name.startswith("BS"):
            return f"{self.name} (body {self.body:g} mm)"
        body = Fraction(self.body / MM_PER_INCH).limit_denominator(64)
        return f"BS No. {self.name.removeprefix('BS')} (body {body} in)"


@cache
def centre_drills() -> tuple[CentreDrill, ...]:
    """Centre drills of ISO 866 form A and of BS 328, bodies as recalled."""
    found = []
    for row in rows("centre_drills"):
        scale = MM_PER_INCH if row["unit"] == "in" else 1.0
        name = row["size"] if row["unit"] == "in" else f"A{row['size']}"
        found.append(
            CentreDrill(
                name=name, pilot=float(row["pilot"]) * scale, body=float(row["body"]) * scale
            )
        )
    return tuple(found)


def find_centre_drill(name: str) -> CentreDrill:
    """Centre drill by name: ``BS2``, ``A2.5``, ``2.5``, or ``BS 1/8`` by its body.

    >>> find_centre_drill("BS 1/8").name
    'BS1'
    """
    text = re.sub(r"\s+", "", name).upper()
    by_name = {drill.name: drill for drill in centre_drills()}
    by_name |= {drill.name.removeprefix("A"): drill for drill in centre_drills()}
    if text in by_name:
        return by_name[text]
    if body := re.fullmatch(r"\s*BS\s+(\d+/\d+)(?:\s*in)?\s*", name):
        size = parse_length(body[1], units="in").value
        for drill in centre_drills():
            if drill.name.startswith("BS") and abs(drill.body - size) < 0.01:
                return drill
    raise InputFault(
        f"no centre drill is called '{name}'",
        why="they go by the BS number, by BS and the body, or by the metric pilot",
        tries=near_names(text, by_name) or ("BS2", "A2.5"),
    )


def centre_for(diameter: Millimetre) -> CentreDrill:
    """Centre drill for work of a diameter between centres, 0 to 180 mm."""
    row = band(rows("centre_sizes"), diameter)
    if row is None:
        raise OutOfRangeError(
            f"no usual centre for work of {diameter:g} mm", why="the table ends at 180 mm"
        )
    return find_centre_drill(f"A{row['pilot']}")
