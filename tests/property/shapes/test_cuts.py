import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfthou.drawing.geometry import Box, Cylinder, Obround, Region
from halfthou.shapes.solids import common, cut, is_valid, solid_of, volume

BLOCK = Box(low=(0.0, 0.0, 0.0), high=(80.0, 50.0, 30.0))

tenths = st.integers(min_value=-50, max_value=900).map(lambda n: n / 10)
sizes = st.integers(min_value=10, max_value=300).map(lambda n: n / 10)


@st.composite
def holes(draw: st.DrawFn) -> Cylinder:
    """Return a hole into the block along one of the frame's axes."""
    axis = draw(st.integers(min_value=0, max_value=2))
    place = [draw(tenths) for _ in range(3)]
    place[axis] = -1.0
    end = list(place)
    end[axis] += draw(sizes) + 1.0
    start, end_ = (place[0], place[1], place[2]), (end[0], end[1], end[2])
    return Cylinder(start=start, end=end_, diameter=draw(sizes))


@st.composite
def steps(draw: st.DrawFn) -> Box:
    """Return a step milled anywhere."""
    low = (draw(tenths), draw(tenths), draw(tenths))
    return Box(low=low, high=(low[0] + draw(sizes), low[1] + draw(sizes), low[2] + draw(sizes)))


@st.composite
def slots(draw: st.DrawFn) -> Obround:
    """Return a slot sunk from the front."""
    x, y = draw(tenths), draw(tenths)
    return Obround(
        start=(x, y, 31.0),
        end=(x + draw(sizes), y, 31.0),
        width=draw(sizes),
        direction=(0.0, 0.0, -1.0),
        depth=draw(sizes),
    )


@settings(max_examples=60, deadline=None)
@given(st.lists(st.one_of(holes(), steps(), slots()), min_size=1, max_size=4))
def test_any_cuts_leave_a_sound_solid_and_lose_no_metal(tools: list[Region]) -> None:
    block = solid_of(BLOCK)
    solids = [solid_of(tool) for tool in tools]

    left = cut(block, solids)
    one_by_one = block
    taken = 0.0
    for solid in solids:
        taken += volume(common(one_by_one, solid))
        one_by_one = cut(one_by_one, [solid])

    whole = math.prod(BLOCK.high)
    assert is_valid(left)
    assert volume(left) == pytest.approx(volume(one_by_one), abs=1e-5 * whole)
    assert volume(left) + taken == pytest.approx(whole, rel=1e-5)
