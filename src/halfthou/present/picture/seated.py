"""The small shaded view of work on the mill as it sits in what holds it."""

from __future__ import annotations

from typing import Final

from halfthou.present.picture.frame import Frame
from halfthou.present.picture.mill_view import MillView
from halfthou.present.picture.sheet import Mark, Path, Shade
from halfthou.shapes.pictorial import Colour, Shown, pictorial
from halfthou.shapes.solids import Solid, cut, is_empty, solid_of
from halfthou.units import Millimetre, Vec3

_METAL: Final[Colour] = (0.86, 0.87, 0.89)
_HOLDING: Final[Colour] = (0.62, 0.69, 0.79)
_REMOVED: Final[Colour] = (0.98, 0.62, 0.22)
_EYE: Final[Vec3] = (0.62, -1.0, 0.85)
"""From the work to the eye: in front, to the right and above, as the operator stands."""
_PIXELS: Final = 520


def seated_picture(
    *, before: Solid, after: Solid, view: MillView, wide: Millimetre
) -> tuple[Mark, ...]:
    """Shade the work, what comes off it and what holds it, ``wide`` mm across on paper."""
    axes = view.axes
    off = cut(before, [after])
    shown = [Shown(solid=after, colour=_METAL)]
    shown += [Shown(solid=solid_of(one.region), colour=_HOLDING) for one in view.holding]
    if not is_empty(off):
        shown.append(Shown(solid=off, colour=_REMOVED, removed=True))
    made = pictorial(
        shown,
        direction=axes.in_part(_EYE),
        up=axes.z,
        width=_PIXELS,
        height=round(0.84 * _PIXELS),
    )
    frame = Frame(at=(0.0, 0.0), scale=wide / made.frame.width)
    marks: list[Mark] = [Shade(png=made.png, box=frame.box(made.frame))]
    if made.removed_outline:
        marks.append(Path(lines=frame.lines(made.removed_outline), style="removed line"))
    marks.append(Path(lines=frame.lines(made.outline), style="fine edge"))
    return tuple(marks)
