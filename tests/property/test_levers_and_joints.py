"""Random levers and random split blocks: places, volumes and lumps agree with plain geometry."""

import math
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfthou.drawing.boss_metal import ArmBody, BossBody
from halfthou.drawing.lump import as_cast, before_the_cut, joints_of
from halfthou.drawing.metal import BlockBody, Body, along_line, crossings, in_metal
from halfthou.drawing.solve import solve
from halfthou.errors import Faults
from halfthou.shapes.finished import finished, solid_of_lumps
from halfthou.shapes.solids import is_valid, volume
from halfthou.store.part_file import read_part_text
from halfthou.units import Vec3

HEAD = """
[part]
name = "trial"
material = "cast iron"
units = "mm"
otherwise = "ISO 2768-m"
[blank]
plate = "200 x 200 x 200"
"""
sizes = st.integers(10, 40)
angles = st.integers(1, 359)
places = st.floats(-30, 30)


@settings(max_examples=15, deadline=None)
@given(hub=sizes, eye=sizes, apart=st.integers(45, 90), turn=angles, thick=st.integers(3, 12))
def test_a_lever_at_any_angle_has_the_metal_of_a_belt_round_two_circles(
    hub: int, eye: int, apart: int, turn: int, thick: int
) -> None:
    part = solve(
        read_part_text(
            f'{HEAD}[boss.hub]\naxis = "front to back"\ndiameter = "{hub}"\nlong = "12"\n'
            f'[view.A]\nturned = "{turn}° anticlockwise"\n'
            f'[boss.eye]\naxis = "front to back"\ndiameter = "{eye}"\nlong = "12"\n'
            f'at = ["{apart} above hub in view A", "level with hub left to right in view A", '
            '"back: level with hub back"]\n'
            f'[arm.web]\njoins = "hub and eye"\nthick = "{thick}"\n'
            'at = "back: level with hub back"\n',
            name="lever.toml",
        )
    )
    r, s = hub / 2, eye / 2
    lean = math.acos((r - s) / apart)
    belt = math.sqrt(apart**2 - (r - s) ** 2) * (r + s)
    belt += r**2 * (math.pi - lean) + s**2 * lean
    by_hand = math.pi * (r**2 + s**2) * (12 - thick) + belt * thick
    solid = finished(part)
    a, b = part.surface("hub").point, part.surface("eye").point

    assert part.findings == ()
    assert is_valid(solid)
    assert volume(solid) == pytest.approx(by_hand, rel=1e-6)
    assert math.atan2(b[1] - a[1], b[0] - a[0]) == pytest.approx(
        math.atan2(math.cos(math.radians(turn)), -math.sin(math.radians(turn))), abs=1e-9
    )


@settings(max_examples=15, deadline=None)
@given(at=st.integers(8, 32), kerf=st.integers(1, 4), bore=st.integers(4, 14))
def test_a_lump_before_the_cut_is_longer_by_the_saw_and_holds_no_hollow(
    at: int, kerf: int, bore: int
) -> None:
    part = solve(
        read_part_text(
            f'{HEAD}[block.body]\nwide = "60"\nhigh = "40"\nthick = "20"\n'
            f'[hole.bore]\nin = "front"\nsize = "{bore} bored through"\n'
            f'at = ["centred left to right", "{at} above bottom"]\n'
            '[hole.bolt]\nin = "top"\nsize = "4 through"\n'
            'at = ["8 right of left", "centred front to back"]\n'
            f'[joint.split]\nat = "{at} above bottom"\ncut = "saw {kerf}"\n'
            'halves = ["cap", "base"]\nbolts = "bolt"\nlocated_by = "register"\n',
            name="split.toml",
        )
    )
    strip = (60 - bore) * 20 - math.pi * 4
    whole = solid_of_lumps(before_the_cut(part, joints_of(part)[0]))

    assert is_valid(whole)
    assert volume(whole) == pytest.approx(volume(finished(part)) + kerf * strip)


BODIES: tuple[Body, ...] = (
    BlockBody(name="block", low=(-12.0, -8.0, -5.0), high=(12.0, 8.0, 5.0)),
    BossBody(name="ring", axis=1, start=-6.0, end=9.0, centre=(5.0, 0.0, 2.0),
             start_diameter=22.0, end_diameter=22.0, inside=9.0),
    BossBody(name="cone", axis=0, start=-15.0, end=4.0, centre=(0.0, -3.0, 1.0),
             start_diameter=20.0, end_diameter=8.0),
    ArmBody(name="arm", axis=2, start=-4.0, end=3.0,
            centres=((-14.0, 2.0, 0.0), (10.0, -6.0, 0.0)), diameters=(14.0, 9.0),
            covered=(False, False)),
)  # fmt: skip


@given(
    body=st.sampled_from(BODIES),
    point=st.tuples(places, places, places),
    share=st.floats(0.001, 0.999),
    way=st.tuples(st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1)).filter(
        lambda way: math.hypot(*way) > 0.1
    ),
)
def test_what_a_line_crosses_is_metal_and_what_it_does_not_is_none(
    body: Body, point: Vec3, share: float, way: Vec3
) -> None:
    stretches = along_line((body,), point, way)
    for start, end in stretches:
        if end - start < 1e-3:
            continue
        inside = start + share * (end - start)
        x, y, z = (a + inside * b for a, b in zip(point, way, strict=True))
        assert in_metal((body,), (x, y, z)) or min(share, 1 - share) * (end - start) < 1e-3
    for start, end in zip([-99.0, *(s[1] for s in stretches)], [*(s[0] for s in stretches), 99.0],
                          strict=True):  # fmt: skip
        outside = start + share * (end - start)
        x, y, z = (a + outside * b for a, b in zip(point, way, strict=True))
        near = min(share, 1 - share) * (end - start) < 1e-3
        assert near or not in_metal((body,), (x, y, z))


@given(body=st.sampled_from(BODIES), point=st.tuples(places, places, places))
def test_a_line_along_an_axis_is_crossed_as_one_in_any_direction(body: Body, point: Vec3) -> None:
    ways: tuple[Vec3, Vec3, Vec3] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    for axis, way in enumerate(ways):
        plain = [(a - point[axis], b - point[axis]) for a, b in crossings((body,), point, axis)]
        found = along_line((body,), point, way)
        for one in found:
            assert any(one == pytest.approx(other, abs=0.1) for other in plain)


DRAWINGS = tuple(
    path.read_text("utf-8")
    for path in sorted((Path(__file__).parents[1] / "data" / "drawings").glob("*.toml"))
)
WORDS = ("left", "top", "back", "hub", "foot", "cap", "bore", "2", "100", "above", "centred")


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_a_drawing_with_a_line_lost_or_a_word_mistaken_is_a_part_or_its_faults(
    data: st.DataObject,
) -> None:
    lines = data.draw(st.sampled_from(DRAWINGS)).splitlines()
    number = data.draw(st.integers(0, len(lines) - 1))
    words = lines[number].split('"')
    if len(words) > 1 and data.draw(st.booleans()):
        inner = words[1].split(" ")
        inner[data.draw(st.integers(0, len(inner) - 1))] = data.draw(st.sampled_from(WORDS))
        words[1] = " ".join(inner)
        lines[number] = '"'.join(words)
    else:
        del lines[number]
    with suppress(Faults):
        part = solve(read_part_text("\n".join(lines), name="drawing.toml"))
        assert all(piece.name for piece in part.pieces)
        as_cast(part)
        for joint in joints_of(part):
            before_the_cut(part, joint)
