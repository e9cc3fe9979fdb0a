"""What comes off is what the cuts take, no more."""

from __future__ import annotations

import pytest

from halfthou.drawing.geometry import Box, Cylinder
from halfthou.present.picture.came_off import came_off
from halfthou.shapes.solids import cut, solid_of, together, volume

HOLE = solid_of(Cylinder(start=(10.0, 10.0, 5.0), end=(10.0, 10.0, 30.0), diameter=4.0))


@pytest.mark.derived(by="a hole 4 across through 10 of cap and 5 of base: pi / 4 x 16 x 15")
def test_a_hole_through_a_cap_into_its_base_takes_no_more_than_itself() -> None:
    base = solid_of(Box(low=(0.0, 0.0, 0.0), high=(20.0, 20.0, 10.0)))
    cap = solid_of(Box(low=(0.0, 0.0, 10.0), high=(20.0, 20.0, 20.0)))
    after = together([cut(base, [HOLE]), cut(cap, [HOLE])])

    assert volume(came_off(together([base, cap]), after)) == pytest.approx(188.4956, rel=1e-6)
