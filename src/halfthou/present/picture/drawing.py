"""A part's own drawing, drawn from its file: as many views as it needs, every size as written."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from halfthou.drawing.model import Finding, Part
from halfthou.present.picture.drawn_sizes import unit_words
from halfthou.present.picture.fitting import fitted
from halfthou.present.picture.orthographic import milled_views
from halfthou.present.picture.projection_mark import Angle, projection_mark
from halfthou.present.picture.seated import METAL
from halfthou.present.picture.sheet import Mark, Sheet, Words, box_of, scale_words, svg
from halfthou.present.picture.turned_drawing import turned_views
from halfthou.shapes.flat import Point2
from halfthou.shapes.pictorial import Shown, pictorial
from halfthou.shapes.solids import Solid, bounding_box

DRAWING_ROOM: Final[Point2] = (190.0, 150.0)
_LARGEST: Final = 3.0
"""A small part is not blown up beyond this scale."""


def part_drawing(
    part: Part, solid: Solid, *, angle: Angle = "first", room: Point2 = DRAWING_ROOM
) -> str:
    """Draw a part as SVG, in first or third angle, its findings ringed in red and numbered."""
    return svg(part_sheet(part, solid, angle=angle, room=room))


def part_sheet(
    part: Part, solid: Solid, *, angle: Angle = "first", room: Point2 = DRAWING_ROOM
) -> Sheet:
    """Draw a part on a sheet no larger than ``room``."""
    views = turned_views(part, solid, angle) if part.turned else milled_views(part, solid, angle)
    shaded = (
        None
        if part.turned
        else pictorial([Shown(solid=solid, colour=METAL)], width=420, height=360)
    )

    def drawn(scale: float) -> tuple[Mark, ...]:
        return _with_foot(views(scale, shaded), part, scale, angle)

    return fitted(
        drawn,
        size=_size(part, solid),
        room=room,
        largest=_LARGEST,
        title=f"{part.name}: drawing",
        description=_described(part, part.findings),
    )


def _size(part: Part, solid: Solid) -> Point2:
    x, y, z = bounding_box(solid).size
    return (x, y) if part.turned else (x + z, y + z)


def _described(part: Part, findings: Iterable[Finding]) -> str:
    lines = [f"{part.name}, {part.material}, {unit_words(part)}, otherwise {part.otherwise}."]
    lines += [f"{number}: {one.what}." for number, one in enumerate(findings, start=1)]
    return " ".join(lines)


def _with_foot(
    marks: tuple[Mark, ...], part: Part, scale: float, angle: Angle
) -> tuple[Mark, ...]:
    box = box_of(marks)
    text = f"{unit_words(part)} · otherwise {part.otherwise} · scale {scale_words(scale)}"
    foot = box.bottom + 9.0
    words = Words(at=(box.left, foot), text=text)
    along = box_of((words,)).right + 5.0
    return (*marks, words, *projection_mark(at=(along, foot - 1.2), angle=angle))
