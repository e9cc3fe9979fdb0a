"""A slitting saw in the picture: where its middle stands at the depth of its slot."""

from __future__ import annotations

import pytest

from halfthou.present.picture.mill_axes import Room
from halfthou.present.picture.saw import Saw, saw_at


@pytest.mark.derived(by="a slot 4 deep into a face at 14: its floor at 10, half of 63 out of that")
def test_a_saw_stands_its_radius_out_of_the_floor_of_its_slot() -> None:
    slot = Room(low=(10.0, -2.0, 31.2), high=(16.0, 10.0, 32.8))
    stock = Room(low=(0.0, 0.0, 0.0), high=(14.0, 8.0, 55.0))
    middle = saw_at(Saw(diameter=63.0, thick=1.6), slot, stock)

    assert middle == pytest.approx((41.5, 4.0))
