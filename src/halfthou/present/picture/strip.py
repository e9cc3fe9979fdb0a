"""The way through as small pictures: the work after each set-up, the present one framed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from halfthou.planning.model import Scheme
from halfthou.present.picture.came_off import came_off
from halfthou.present.picture.devices_lathe import broken
from halfthou.present.picture.frame import Frame, centred_frame
from halfthou.present.picture.mill_axes import MillAxes, mill_axes, room_of
from halfthou.present.picture.sheet import SMALL_TEXT, Box, Mark, Path, Sheet, Words, svg
from halfthou.shapes.flat import Area, Extent2, Polyline2, extent_of
from halfthou.shapes.section import section
from halfthou.shapes.solids import Solid, bounding_box, is_empty, pieces
from halfthou.shapes.views import dot, project
from halfthou.units import Millimetre, Vec3

_CELL: Final[Millimetre] = 17.0
_GAP: Final[Millimetre] = 2.0
_INSET: Final[Millimetre] = 2.2
_FOOT: Final[Millimetre] = 4.2
_SMALL: Final[Millimetre] = 24.0
"""Longer side of a picture that stands by itself."""
_EDGE: Final[Millimetre] = 0.4
_STUMP: Final = 0.16
"""How much of the bar is shown beside a sawn blank, of its length."""
_WHOLE: Final = 0.95
_LEVELS: Final = (-0.47, -0.25, 0.0, 0.25, 0.47)
"""Where work is cut to find what is filled, from its middle, of its depth."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """The work before and after one set-up, how it was held, and whether it was sawn off a bar."""

    scheme: Scheme
    before: Solid
    after: Solid
    sawn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    lines: tuple[Polyline2, ...]
    metal: tuple[tuple[Area, ...], ...]
    """Faces to be filled, level by level: of turned work the one it is cut open at."""
    off: tuple[Area, ...]
    extent: Extent2
    sawn: bool = False


def strip_picture(stages: Sequence[Stage], *, current: int, title: str, description: str) -> str:
    """Draw the way through as SVG; ``current`` counts from 1, 0 frames none."""
    return svg(strip_sheet(stages, current=current, title=title, description=description))


def strip_sheet(stages: Sequence[Stage], *, current: int, title: str, description: str) -> Sheet:
    """Draw the way through on a sheet as wide as it needs, all work to one scale."""
    looks = [_look(stage) for stage in stages]
    widest = max((max(look.extent.width, look.extent.height) for look in looks), default=1.0)
    scale = (_CELL - 2 * _INSET) / widest
    marks: list[Mark] = []
    for number, look in enumerate(looks, start=1):
        left = 0.5 + (number - 1) * (_CELL + _GAP)
        cell = Box(left=left, top=0.5, right=left + _CELL, bottom=0.5 + _CELL)
        marks += _cell(look, cell, scale, number=number, current=number == current)
    width = max(1.0, len(looks) * (_CELL + _GAP) - _GAP + 1.0)
    height = _CELL + _FOOT + 1.0
    return Sheet(
        width=width, height=height, title=title, description=description, marks=tuple(marks)
    )


def small_pictures(stages: Sequence[Stage], *, titles: Sequence[str]) -> tuple[str, ...]:
    """Draw each stage by itself, all to one scale and size, with no frame: for cards and lists."""
    looks = [_look(stage) for stage in stages]
    wide = max((look.extent.width for look in looks), default=1.0)
    high = max((look.extent.height for look in looks), default=1.0)
    scale = (_SMALL - 2 * _EDGE) / max(wide, high)
    room = Box(left=0.0, top=0.0, right=scale * wide + 2 * _EDGE, bottom=scale * high + 2 * _EDGE)
    drawn = []
    for look, title in zip(looks, titles, strict=True):
        frame = centred_frame(look.extent, room=room, scale=scale)
        drawn.append(
            svg(
                Sheet(
                    width=room.width,
                    height=room.height,
                    title=title,
                    description=title,
                    marks=tuple(_work(look, frame)),
                )
            )
        )
    return tuple(drawn)


def _work(look: _Look, frame: Frame) -> list[Mark]:
    marks: list[Mark] = []
    if look.sawn:
        marks += _stump(look, frame)
    for level in look.metal:
        metal = tuple(loop for area in level for loop in (area.outer, *area.holes))
        if metal:
            marks.append(Path(lines=frame.lines(metal), style="small metal", closed=True))
    if look.off:
        loops = tuple(loop for area in look.off for loop in (area.outer, *area.holes))
        marks.append(Path(lines=frame.lines(loops), style="small removed", closed=True))
    marks.append(Path(lines=frame.lines(look.lines), style="small outline"))
    return marks


def _stump(look: _Look, frame: Frame) -> list[Mark]:
    """Draw the bar that the blank is sawn from, broken off, and the blade between."""
    lines = extent_of(look.lines)
    box = frame.box(lines)
    room = frame.box(look.extent)
    blade = Box(
        left=box.left - 1.1, right=box.left - 0.3, top=box.top - 0.8, bottom=box.bottom + 0.4
    )
    wave = broken((room.left, box.bottom), (room.left, box.top))
    bar = ((blade.left, box.bottom), *wave, (blade.left, box.top))
    return [
        Path(lines=(bar,), style="holding", closed=True),
        Path(
            lines=(
                (
                    (blade.left, blade.top),
                    (blade.right, blade.top),
                    (blade.right, blade.bottom),
                    (blade.left, blade.bottom),
                ),
            ),
            style="tool",
            closed=True,
        ),
    ]


def _look(stage: Stage) -> _Look:
    """Look along the machine's habit: turned work from the front cut open, milled from above.

    What is skimmed off a whole top is seen from the front, or it would hide the work.
    """
    off = came_off(stage.before, stage.after)
    if stage.scheme.machine == "mill":
        axes = mill_axes(stage.scheme)
        ways = [(axes.z, axes.y), (_minus(axes.y), axes.z)]
        if _is_a_skin(off, stage.before, axes):
            ways.reverse()
        direction, up = ways[0]
    else:
        sense = -1.0 if stage.scheme.faces[0] < 0 else 1.0
        direction, up = (0.0, 0.0, sense), (0.0, 1.0, 0.0)
    lines = project(stage.after, direction=direction, up=up).visible
    gone = _off(off, direction, up)
    extent = extent_of((*lines, *(area.outer for area in gone)))
    if stage.sawn:
        room = _STUMP * extent.width
        extent = Extent2(low=(extent.low[0] - room, extent.low[1]), high=extent.high)
    return _Look(
        lines=lines,
        metal=_filled(stage, direction, up),
        off=gone,
        extent=extent,
        sawn=stage.sawn,
    )


def _filled(stage: Stage, direction: Vec3, up: Vec3) -> tuple[tuple[Area, ...], ...]:
    """Return what of the picture is metal: turned work is cut open, other work is not."""
    box = bounding_box(stage.after)
    scheme = stage.scheme
    round_work = scheme.machine == "lathe" and scheme.device.device != "angle plate"
    shares = (0.0,) if round_work else _LEVELS
    return tuple(
        section(
            one,
            origin=_along(box.middle, direction, share * abs(dot(box.size, direction))),
            normal=direction,
            up=up,
        )
        for share in shares
        # two castings not yet cut to meet may overlap: cut open together they give nothing
        for one in pieces(stage.after)
    )


def _along(point: Vec3, way: Vec3, far: Millimetre) -> Vec3:
    return (point[0] + far * way[0], point[1] + far * way[1], point[2] + far * way[2])


def _is_a_skin(off: Solid, before: Solid, axes: MillAxes) -> bool:
    """Whether the cut takes a whole top off."""
    if is_empty(off):
        return False
    whole = room_of(before, axes)
    return any(
        all(
            gone.high[way] - gone.low[way] > _WHOLE * (whole.high[way] - whole.low[way])
            for way in (0, 1)
        )
        for gone in (room_of(lump, axes) for lump in pieces(off))
    )


def _minus(vector: Vec3) -> Vec3:
    return (-vector[0], -vector[1], -vector[2])


def _off(off: Solid, direction: Vec3, up: Vec3) -> tuple[Area, ...]:
    if is_empty(off):
        return ()
    return section(off, origin=_inside(off, direction), normal=direction, up=up)


def _inside(off: Solid, direction: Vec3) -> Vec3:
    """Return a point to cut the metal off open at: the axis of turned work, near the top else."""
    box = bounding_box(off)
    if abs(direction[2]) == 1 and box.low[1] < 0 < box.high[1] and box.low[2] < 0 < box.high[2]:
        return (0.0, 0.0, 0.0)
    x, y, z = (m + 0.4 * s * d for m, s, d in zip(box.middle, box.size, direction, strict=True))
    return (x, y, z)


def _cell(look: _Look, cell: Box, scale: float, *, number: int, current: bool) -> list[Mark]:
    frame: Frame = centred_frame(look.extent, room=cell, scale=scale)
    corners = (
        (cell.left, cell.top),
        (cell.right, cell.top),
        (cell.right, cell.bottom),
        (cell.left, cell.bottom),
    )
    marks = _work(look, frame)
    marks.append(Path(lines=(corners,), style="frame now" if current else "frame", closed=True))
    marks.append(
        Words(
            at=(cell.middle[0], cell.bottom + 3.6),
            text=str(number),
            style="words" if current else "quiet words",
            size=SMALL_TEXT,
            anchor="middle",
            weight="medium" if current else "regular",
        )
    )
    return marks
