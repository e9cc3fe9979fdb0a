import math

import pytest

from halfthou.drawing.geometry import Box, Cone, Cylinder, Obround
from halfthou.shapes.faces import faces_of
from halfthou.shapes.solids import Solid, cut, solid_of


@pytest.fixture
def bush() -> Solid:
    """Return a plain bush, 20 outside, 12 bore, 50 long."""
    bar = solid_of(Cylinder(start=(0.0, 0.0, 0.0), end=(50.0, 0.0, 0.0), diameter=20.0))
    bore = solid_of(Cylinder(start=(-1.0, 0.0, 0.0), end=(51.0, 0.0, 0.0), diameter=12.0))
    return cut(bar, [bore])


@pytest.mark.derived(by="geometry")
def test_a_bush_has_a_journal_a_bore_and_two_ends(bush: Solid) -> None:
    faces = faces_of(bush)
    round_ones = {face.hollow: face for face in faces if face.kind == "cylinder"}
    ends = [face for face in faces if face.kind == "plane"]

    assert len(faces) == 4
    assert round_ones[False].radius == pytest.approx(10)
    assert round_ones[False].area == pytest.approx(math.pi * 20 * 50)
    assert round_ones[True].radius == pytest.approx(6)
    assert round_ones[True].sweep == pytest.approx(2 * math.pi)
    assert sorted(face.direction or () for face in ends) == [
        pytest.approx((-1.0, 0.0, 0.0)),
        pytest.approx((1.0, 0.0, 0.0)),
    ]
    assert [face.area for face in ends] == pytest.approx([math.pi * 64] * 2)


def test_every_plane_of_a_block_looks_out_of_the_metal() -> None:
    faces = faces_of(solid_of(Box(low=(-1.0, -2.0, -3.0), high=(1.0, 2.0, 3.0))))

    for face in faces:
        assert face.direction is not None
        outward = sum(n * c for n, c in zip(face.direction, face.centre, strict=True))
        assert outward > 0


@pytest.mark.derived(by="geometry")
def test_a_slot_has_two_half_round_hollow_ends() -> None:
    block = solid_of(Box(low=(0.0, 0.0, 0.0), high=(60.0, 30.0, 20.0)))
    slot = solid_of(
        Obround(
            start=(20.0, 15.0, 20.0),
            end=(40.0, 15.0, 20.0),
            width=8.0,
            direction=(0.0, 0.0, -1.0),
            depth=5.0,
        )
    )

    ends = [face for face in faces_of(cut(block, [slot])) if face.kind == "cylinder"]

    assert [face.radius for face in ends] == pytest.approx([4.0, 4.0])
    assert all(face.hollow for face in ends)
    assert [face.sweep for face in ends] == pytest.approx([math.pi] * 2)


@pytest.mark.derived(by="trigonometry")
def test_a_countersink_is_a_hollow_cone_of_its_angle() -> None:
    block = solid_of(Box(low=(-10.0, -10.0, -10.0), high=(10.0, 10.0, 0.0)))
    sink = solid_of(
        Cone(start=(0.0, 0.0, 0.0), end=(0.0, 0.0, -4.0), start_diameter=8.0, end_diameter=0.0)
    )

    (cone,) = (face for face in faces_of(cut(block, [sink])) if face.kind == "cone")

    assert cone.hollow
    assert sorted(cone.ends or ()) == [
        pytest.approx((0.0, 0.0, -4.0), abs=1e-9),
        pytest.approx((0.0, 0.0, 0.0), abs=1e-9),
    ]
    assert cone.half_angle == pytest.approx(math.radians(45))
