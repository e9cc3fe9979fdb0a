"""Shaded pictures of work, with what holds it and the metal that comes off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, TypeAlias

import numpy as np

from halfthou.errors import HalfthouError
from halfthou.shapes.flat import Extent2, Point2, Polyline2
from halfthou.shapes.mesh import Floats, Whole, mesh_of
from halfthou.shapes.png import png_bytes
from halfthou.shapes.raster import Layer, paint
from halfthou.shapes.solids import Solid, is_empty, pieces, together
from halfthou.shapes.views import paper_axes, project
from halfthou.units import Vec3

Colour: TypeAlias = tuple[float, float, float]
"""Red, green and blue, each from 0 to 1."""

PICTORIAL_DIRECTION: Final[Vec3] = (0.75, 0.62, 1.0)
PICTORIAL_UP: Final[Vec3] = (0.0, 1.0, 0.0)

_FINER: Final = 2
"""Pixels painted for each one shown, along each side; averaged to smooth the edges."""
_MARGIN: Final = 0.03
_LIGHT: Final = np.array([-0.42, 0.62, 0.66])
_DUSK: Final = 0.42
_COVER: Final = 0.55
"""How much the removed metal hides of what lies behind it."""
_LONGEST_STEP: Final = 2.0
"""Pixels between two looks along an edge at whether something stands before it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A solid in a picture. Removed metal lets what is behind it shine through."""

    solid: Solid
    colour: Colour
    removed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictorial:
    """A shaded picture, without lines, and the lines to be drawn over it.

    Lines and frame are in millimetres of the view; the picture fills ``frame`` exactly, top
    row at its top. Its ground is clear.
    """

    png: bytes
    width: int
    height: int
    frame: Extent2
    outline: tuple[Polyline2, ...]
    removed_outline: tuple[Polyline2, ...]
    removed_hidden: tuple[Polyline2, ...]
    """Edges of the removed metal behind other metal: drawn dashed, or left out."""


def pictorial(
    shown: Sequence[Shown],
    *,
    direction: Vec3 = PICTORIAL_DIRECTION,
    up: Vec3 = PICTORIAL_UP,
    width: int = 600,
    height: int = 500,
) -> Pictorial:
    """Picture solids from far away.

    Parameters
    ----------
    direction :
        From the work toward the eye, of any length.
    up :
        What points up on the paper.
    width, height :
        Of the finished picture, in pixels.
    """
    some = [one for one in shown if not is_empty(one.solid)]
    if not some:
        raise HalfthouError(
            "nothing to picture",
            why="no solid was given that has any metal left",
            tries=("picture the work before the cut",),
        )
    screen = _screen(some, direction, up, width, height)
    layers = [screen.layer(one.solid) for one in some]
    pairs = list(zip(some, layers, strict=True))
    solid_depth = _nearest([layer for one, layer in pairs if not one.removed], layers[0])
    lumps = [lump for one in some if one.removed for lump in pieces(one.solid)]
    seen, behind = _removed_lines(lumps, solid_depth, screen)
    opaque = together([one.solid for one in some if not one.removed])
    return Pictorial(
        png=png_bytes(_averaged(_coloured(pairs, solid_depth))),
        width=width,
        height=height,
        frame=screen.frame,
        outline=project(opaque, direction=direction, up=up).visible,
        removed_outline=seen,
        removed_hidden=behind,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Screen:
    """Where the eye is, and what of the paper it paints on how many pixels."""

    direction: Vec3
    up: Vec3
    frame: Extent2
    width: int
    height: int

    @property
    def pixels_per_mm(self) -> float:
        return self.width / self.frame.width

    def layer(self, solid: Solid) -> Layer:
        mesh = mesh_of(solid)
        axes = np.array(paper_axes(self.direction, self.up))
        corners = mesh.points @ axes.T
        corners[:, :2] = (corners[:, :2] - np.array(self.frame.low)) * self.pixels_per_mm
        lamp = _LIGHT / np.linalg.norm(_LIGHT)
        light = _DUSK + (1 - _DUSK) * np.clip(mesh.normals @ axes.T @ lamp, 0.0, 1.0)
        return paint(
            corners=corners,
            light=light,
            triangles=mesh.triangles,
            width=self.width,
            height=self.height,
        )

    def pixels(self, line: Floats) -> tuple[Whole, Whole]:
        """Return row and column of each point of a line."""
        place = ((line - np.array(self.frame.low)) * self.pixels_per_mm).astype(np.int64)
        return np.clip(place[:, 1], 0, self.height - 1), np.clip(place[:, 0], 0, self.width - 1)


def _screen(shown: Sequence[Shown], direction: Vec3, up: Vec3, width: int, height: int) -> _Screen:
    """Return a screen of the picture's shape around all solids, with a margin."""
    right_up = np.array(paper_axes(direction, up)[:2])
    flat = np.concatenate([mesh_of(one.solid).points @ right_up.T for one in shown])
    low, high = flat.min(axis=0), flat.max(axis=0)
    middle, size = (low + high) / 2, (high - low) * (1 + 2 * _MARGIN)
    tall = max(float(size[1]), float(size[0]) * height / width)
    half = np.array([tall * width / height, tall]) / 2
    return _Screen(
        direction=direction,
        up=up,
        frame=Extent2(low=_point(middle - half), high=_point(middle + half)),
        width=width * _FINER,
        height=height * _FINER,
    )


def _point(place: Floats) -> Point2:
    return (float(place[0]), float(place[1]))


def _nearest(layers: Sequence[Layer], like: Layer) -> Floats:
    nothing = np.full_like(like.depth, -np.inf)
    nearest: Floats = np.maximum.reduce([nothing, *(layer.depth for layer in layers)])
    return nearest


def _coloured(pairs: Sequence[tuple[Shown, Layer]], solid_depth: Floats) -> Floats:
    """Return colour times cover, and cover, shape (height, width, 4)."""
    pixels = np.zeros((*solid_depth.shape, 4))
    for one, layer in sorted(pairs, key=lambda pair: pair[0].removed):
        there = np.isfinite(layer.depth) & (layer.depth >= solid_depth)
        cover = _COVER if one.removed else 1.0
        paint_ = np.append(np.array(one.colour) * cover, cover)
        light = np.ones((int(there.sum()), 4))
        light[:, :3] = layer.light[there][:, None]
        pixels[there] = pixels[there] * (1 - cover) + paint_ * light
    return pixels


def _averaged(pixels: Floats) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    """Return finished pixels, top row first, from premultiplied ones, bottom row first."""
    height, width, _ = pixels.shape
    mean = pixels.reshape(height // _FINER, _FINER, width // _FINER, _FINER, 4).mean(axis=(1, 3))
    cover = mean[:, :, 3:]
    mean[:, :, :3] /= np.where(cover > 0, cover, 1.0)
    whole: np.ndarray[tuple[int, ...], np.dtype[np.uint8]] = np.rint(
        np.clip(mean, 0.0, 1.0) * 255
    ).astype(np.uint8)
    return whole[::-1]


def _removed_lines(
    lumps: Sequence[Solid], solid_depth: Floats, screen: _Screen
) -> tuple[tuple[Polyline2, ...], tuple[Polyline2, ...]]:
    """Part the edges of removed metal into those in sight and those behind other metal."""
    seen: list[Polyline2] = []
    behind: list[Polyline2] = []
    step = _LONGEST_STEP / screen.pixels_per_mm
    for lump in lumps:
        before = _widened(screen.layer(lump).depth) < solid_depth - step
        for line in project(lump, direction=screen.direction, up=screen.up).visible:
            fine = _stepped(np.array(line), step)
            _part(fine, before[screen.pixels(fine)], seen, behind)
    return tuple(seen), tuple(behind)


def _widened(depth: Floats) -> Floats:
    """Return the nearest depth among each pixel and its neighbours: edges lie half outside."""
    padded = np.pad(depth, 1, constant_values=-np.inf)
    rows, columns = depth.shape
    widened: Floats = np.maximum.reduce(
        [padded[i : i + rows, j : j + columns] for i in range(3) for j in range(3)]
    )
    return widened


def _stepped(line: Floats, step: float) -> Floats:
    """Return a line with further points, so that none lie more than a step apart."""
    length = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    even = np.linspace(0.0, length[-1], max(2, int(length[-1] / step) + 1))
    places = np.union1d(length, even)
    return np.column_stack([np.interp(places, length, line[:, axis]) for axis in (0, 1)])


def _part(
    line: Floats,
    hidden: np.ndarray[tuple[int, ...], np.dtype[np.bool_]],
    seen: list[Polyline2],
    behind: list[Polyline2],
) -> None:
    changes = np.flatnonzero(hidden[1:] != hidden[:-1]) + 1
    bounds = [0, *changes.tolist(), len(line) - 1]
    for start, end in pairwise(bounds):
        if end > start:
            piece = tuple(_point(place) for place in line[start : end + 1])
            (behind if hidden[start] else seen).append(piece)
