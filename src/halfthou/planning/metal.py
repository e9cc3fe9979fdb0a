"""The metal itself: the blank as a solid, what each set-up leaves, and the proof at the end.

After the last operation the blank less every removed region must be the part as drawn, neither
more nor less; a plan that fails this is refused whatever the solver says of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.geometry import RegionSet
from halfthou.drawing.model import Part
from halfthou.errors import HalfthouError
from halfthou.planning.model import SetUp
from halfthou.shapes.solids import Solid, cut, fuse, solid_of, volume
from halfthou.units import Millimetre

SAME: Final = 1e-4
"""Share of the part's volume by which the metal may differ: the solids' own error."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """The work before and after one set-up."""

    before: Solid
    after: Solid
    removed: Millimetre


def solid_of_all(regions: RegionSet) -> Solid:
    """Union of regions as one solid."""
    solids = [solid_of(r) for r in regions]
    return solids[0] if len(solids) == 1 else fuse(solids)


def finished(part: Part) -> Solid:
    """Give the part as drawn."""
    metal = solid_of_all(part.metal)
    return cut(metal, [solid_of(r) for r in part.removed]) if part.removed else metal


def stages(blank: RegionSet, set_ups: tuple[SetUp, ...]) -> tuple[Metal, ...]:
    """Give the work before and after every set-up, and the volume [mm³] that came off."""
    now = solid_of_all(blank)
    answer = []
    for set_up in set_ups:
        tools = [solid_of(r) for op in set_up.operations for r in op.region]
        after = cut(now, tools) if tools else now
        answer.append(Metal(before=now, after=after, removed=volume(now) - volume(after)))
        now = after
    return tuple(answer)


def prove(part: Part, blank: RegionSet, set_ups: tuple[SetUp, ...]) -> None:
    """Check that the plan leaves the part as drawn.

    Raises
    ------
    HalfthouError
        If metal is left on, or taken off that should stay.
    """
    left = stages(blank, set_ups)[-1].after
    want = finished(part)
    wanted = volume(want)
    over = volume(cut(left, [want]))
    under = volume(cut(want, [left]))
    if max(over, under) > SAME * wanted:
        raise HalfthouError(
            f"the plan does not leave the {part.name} as drawn",
            why=f"{over:.1f} mm³ too much metal and {under:.1f} mm³ too little, of {wanted:.0f}",
            tries=("report this with the part file: it is a fault of the program",),
        )
