"""Where a cutter runs over a face wider than itself."""

from __future__ import annotations

from itertools import pairwise

import pytest

from halfthou.cutting.milling import lanes


@pytest.mark.derived(by="each lane takes its share of the face, half a cutter over either edge")
@pytest.mark.parametrize(("across", "width"), [(20.0, 16.0), (89.0, 50.0), (40.0, 16.0)])
def test_the_lanes_leave_no_strip_of_a_face(across: float, width: float) -> None:
    run = lanes(across, width)

    assert run[0] - width / 2 < -across / 2
    assert run[-1] + width / 2 > across / 2
    assert all(b - a < width for a, b in pairwise(run))
