"""The small shaded view of work on the mill as it sits in what holds it."""

from __future__ import annotations

from itertools import product
from typing import Final

from halfthou.present.picture.came_off import came_off
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.mill_axes import Room, room_of
from halfthou.present.picture.mill_holding import Piece
from halfthou.present.picture.mill_view import MillView
from halfthou.present.picture.sheet import Mark, Path, Shade
from halfthou.shapes.pictorial import Colour, Pictorial, Shown, pictorial
from halfthou.shapes.solids import Solid, is_empty, solid_of
from halfthou.shapes.views import dot, paper_axes
from halfthou.units import Millimetre, Vec3

METAL: Final[Colour] = (0.87, 0.88, 0.9)
HOLDING: Final[Colour] = (0.74, 0.8, 0.88)
REMOVED: Final[Colour] = (0.98, 0.62, 0.22)
_COLOURS: Final[dict[Piece, Colour]] = {
    "parallel": (0.60, 0.68, 0.78),
    "soft copper": (0.80, 0.56, 0.38),
}
_EYE: Final[Vec3] = (0.62, -1.0, 1.0)
"""From the work to the eye: in front, to the right and above, as the operator stands."""
_PIXELS: Final = 400


def seated_pictorial(*, before: Solid, after: Solid, view: MillView) -> Pictorial:
    """Shade the work, what comes off it and what holds it."""
    axes = view.axes
    off = came_off(before, after)
    standing = [one for one in view.holding if one.name != "clamp moved"]
    holding = [solid_of(one.region) for one in standing]
    shown = [Shown(solid=after, colour=METAL)]
    shown += [
        Shown(solid=solid, colour=_COLOURS.get(one.name, HOLDING))
        for one, solid in zip(standing, holding, strict=True)
    ]
    if not is_empty(off):
        shown.append(Shown(solid=off, colour=REMOVED, removed=True))
    rooms = [view.stock, *(room_of(one, axes) for one in holding)]
    return pictorial(
        shown,
        direction=axes.in_part(_EYE),
        up=axes.z,
        width=_PIXELS,
        height=round(_PIXELS * max(0.5, min(1.1, _shape(rooms)))),
    )


def _shape(rooms: list[Room]) -> float:
    """How high the view of some blocks is against its width."""
    right, up, _ = paper_axes(_EYE, (0.0, 0.0, 1.0))
    corners: list[Vec3] = [
        (x, y, z) for room in rooms for x, y, z in product(*zip(room.low, room.high, strict=True))
    ]
    xs = [dot(corner, right) for corner in corners]
    ys = [dot(corner, up) for corner in corners]
    return (max(ys) - min(ys)) / (max(xs) - min(xs))


def seated_marks(made: Pictorial, *, wide: Millimetre) -> tuple[Mark, ...]:
    """Lay a shaded view on the sheet, ``wide`` mm across."""
    frame = Frame(at=(0.0, 0.0), scale=wide / made.frame.width)
    marks: list[Mark] = [Shade(png=made.png, box=frame.box(made.frame))]
    if made.removed_outline:
        marks.append(Path(lines=frame.lines(made.removed_outline), style="removed line"))
    marks.append(Path(lines=frame.lines(made.outline), style="fine edge"))
    return tuple(marks)
