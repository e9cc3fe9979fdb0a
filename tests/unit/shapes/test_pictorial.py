import struct
import zlib

import numpy as np
import pytest

from halfthou.drawing.geometry import Box, Cylinder, Tube
from halfthou.errors import HalfthouError
from halfthou.shapes.mesh import mesh_of
from halfthou.shapes.pictorial import Shown, pictorial
from halfthou.shapes.png import Pixels, png_bytes
from halfthou.shapes.raster import paint
from halfthou.shapes.solids import cut, solid_of

GREY = (0.7, 0.7, 0.7)
RED = (1.0, 0.0, 0.0)
FROM_FRONT = (0.0, 0.0, 1.0)


def _read(png: bytes) -> Pixels:
    """Read back a picture, by the standard's rules and none of our code."""
    place, body, width, height = 8, b"", 0, 0
    while place < len(png):
        (length,) = struct.unpack(">I", png[place : place + 4])
        kind, data = png[place + 4 : place + 8], png[place + 8 : place + 8 + length]
        assert zlib.crc32(kind + data) == struct.unpack(">I", png[place + 8 + length :][:4])[0]
        if kind == b"IHDR":
            width, height = struct.unpack(">II", data[:8])
        if kind == b"IDAT":
            body += data
        place += 12 + length
    rows = np.frombuffer(zlib.decompress(body), dtype=np.uint8).reshape(height, 1 + 4 * width)
    assert not rows[:, 0].any()
    return rows[:, 1:].reshape(height, width, 4)


def test_pixels_written_to_a_picture_are_read_back_the_same() -> None:
    pixels = np.arange(5 * 3 * 4, dtype=np.uint8).reshape(5, 3, 4)

    png = png_bytes(pixels)

    assert png.startswith(b"\x89PNG\r\n\x1a\n")
    assert (_read(png) == pixels).all()
    assert png == png_bytes(pixels)


@pytest.mark.derived(by="area of a triangle")
def test_a_painted_triangle_covers_its_area_once() -> None:
    corners = np.array([[0.0, 0.0, 0.0], [100.0, 0.0, 0.0], [0.0, 50.0, 10.0]])
    layer = paint(
        corners=corners,
        light=np.array([0.0, 0.0, 1.0]),
        triangles=np.array([[0, 1, 2], [0, 2, 1]]),
        width=120,
        height=60,
    )

    there = np.isfinite(layer.depth)
    assert there.sum() == pytest.approx(2500, rel=0.02)
    assert layer.depth[there].max() == pytest.approx(10, abs=0.2)
    assert layer.light[there].mean() == pytest.approx(1 / 3, abs=0.01)


def test_the_mesh_of_a_bar_has_normals_square_to_its_axis() -> None:
    mesh = mesh_of(solid_of(Cylinder(start=(0.0, 0.0, 0.0), end=(9.0, 0.0, 0.0), diameter=8.0)))
    side = np.abs(mesh.normals[:, 0]) < 1e-9

    assert side.any()
    assert mesh.normals[side] * 4 == pytest.approx(mesh.points[side] * [0, 1, 1], abs=1e-6)
    assert mesh.triangles.max() < len(mesh.points)


@pytest.mark.derived(by="proportion")
def test_a_block_fills_the_part_of_the_picture_it_should() -> None:
    block = solid_of(Box(low=(0.0, 0.0, 0.0), high=(40.0, 20.0, 10.0)))

    shot = pictorial(
        [Shown(solid=block, colour=GREY)], direction=FROM_FRONT, width=200, height=100
    )
    pixels = _read(shot.png)

    assert pixels.shape == (100, 200, 4)
    covered = (pixels[:, :, 3] > 127).sum() / (200 * 100)
    assert covered == pytest.approx(800 / (shot.frame.width * shot.frame.height), rel=0.03)
    assert pixels[0, 0, 3] == 0
    assert len(shot.outline) == 4


def test_the_nearer_solid_stands_before_the_farther() -> None:
    near = solid_of(Box(low=(0.0, 0.0, 10.0), high=(10.0, 10.0, 20.0)))
    far = solid_of(Box(low=(0.0, 0.0, 0.0), high=(10.0, 10.0, 5.0)))

    shot = pictorial(
        [Shown(solid=near, colour=RED), Shown(solid=far, colour=GREY)],
        direction=FROM_FRONT,
        width=60,
        height=60,
    )
    middle = _read(shot.png)[30, 30]

    assert middle[0] > 100
    assert middle[1] == 0
    assert middle[3] == 255


def test_metal_removed_outside_is_outlined_and_inside_is_dashed() -> None:
    bar = solid_of(Cylinder(start=(0.0, 0.0, 0.0), end=(60.0, 0.0, 0.0), diameter=30.0))
    skin = Tube(start=(30.0, 0.0, 0.0), end=(60.0, 0.0, 0.0), inside=20.0, outside=30.0)
    hole = Cylinder(start=(45.0, 0.0, 0.0), end=(60.0, 0.0, 0.0), diameter=8.0)
    removed = solid_of((skin, hole))
    work = cut(bar, [removed])

    shot = pictorial(
        [Shown(solid=work, colour=GREY), Shown(solid=removed, colour=RED, removed=True)],
        width=150,
        height=120,
    )
    outside_only = pictorial(
        [Shown(solid=work, colour=GREY), Shown(solid=solid_of(skin), colour=RED, removed=True)],
        width=150,
        height=120,
    )

    assert shot.outline
    assert shot.removed_outline
    assert shot.removed_hidden
    assert not outside_only.removed_hidden


def test_lines_lie_within_the_frame_of_the_picture() -> None:
    block = solid_of(Box(low=(5.0, 5.0, 5.0), high=(40.0, 20.0, 10.0)))

    shot = pictorial([Shown(solid=block, colour=GREY)], width=100, height=100)

    for line in shot.outline:
        for x, y in line:
            assert shot.frame.low[0] < x < shot.frame.high[0]
            assert shot.frame.low[1] < y < shot.frame.high[1]


def test_a_picture_of_nothing_is_refused() -> None:
    block = solid_of(Box(low=(0.0, 0.0, 0.0), high=(1.0, 1.0, 1.0)))

    with pytest.raises(HalfthouError, match="nothing to picture"):
        pictorial([Shown(solid=cut(block, [block]), colour=GREY)])
