"""What comes off is what the cuts take, no more."""

from __future__ import annotations

import math

import pytest

from halfthou.drawing.geometry import Box, Cylinder
from halfthou.planning.model import Operation, Verb
from halfthou.present.picture.came_off import came_off, left_in_the_chuck
from halfthou.shapes.solids import bounding_box, cut, solid_of, together, volume

HOLE = solid_of(Cylinder(start=(10.0, 10.0, 5.0), end=(10.0, 10.0, 30.0), diameter=4.0))


@pytest.mark.derived(by="a hole 4 across through 10 of cap and 5 of base: pi / 4 x 16 x 15")
def test_a_hole_through_a_cap_into_its_base_takes_no_more_than_itself() -> None:
    base = solid_of(Box(low=(0.0, 0.0, 0.0), high=(20.0, 20.0, 10.0)))
    cap = solid_of(Box(low=(0.0, 0.0, 10.0), high=(20.0, 20.0, 20.0)))
    after = together([cut(base, [HOLE]), cut(cap, [HOLE])])

    assert volume(came_off(together([base, cap]), after)) == pytest.approx(188.4956, rel=1e-6)


def _op(verb: Verb, region: Cylinder, *, ends: float = 0.0) -> Operation:
    return Operation(
        key=verb,
        verb=verb,
        stage="only",
        feature="bush",
        machine="lathe",
        makes=(),
        region=(region,),
        approach=((1.0, 0.0, 0.0),),
        tools=(),
        minutes=1.0,
        ends=ends,
    )


def _rod(start: float, end: float, diameter: float) -> Cylinder:
    return Cylinder(start=(start, 0.0, 0.0), end=(end, 0.0, 0.0), diameter=diameter)


@pytest.mark.derived(by="bar from -30 to 20, parted off from 0 by a tool 3 wide: -30 to -3 stays")
def test_the_bar_up_to_the_groove_stays_in_the_chuck_with_the_hole_drilled_in_it() -> None:
    bar = solid_of(_rod(-30.0, 20.0, 22.0))
    drilled = _op("drill", _rod(-6.0, 20.0, 6.0))
    parted = _op("part off", _rod(0.0, -40.0, 40.0), ends=-3.0)
    left = left_in_the_chuck(bar, (drilled, parted))

    assert left is not None
    assert bounding_box(left).low[0] == pytest.approx(-30.0)
    assert bounding_box(left).high[0] == pytest.approx(-3.0)
    assert volume(left) == pytest.approx(math.pi * (27.0 * 11.0**2 - 3.0 * 3.0**2), rel=1e-6)


def test_nothing_is_left_in_the_chuck_where_nothing_is_parted_off() -> None:
    bar = solid_of(_rod(-30.0, 20.0, 22.0))

    assert left_in_the_chuck(bar, (_op("drill", _rod(-6.0, 20.0, 6.0)),)) is None
