"""The vice as it stands turned on the table for each slant, seen from above."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Final

from halfthou.drawing.model import OUTWARD, AngledFace, Part
from halfthou.planning.milled.slants import slant_of
from halfthou.planning.worked import Step, WorkedSetUp
from halfthou.present.picture.cutters_at_work import AGAINST_THE_TABLE, cutter_size
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.label import ring_marks
from halfthou.present.picture.mill_axes import MillAxes
from halfthou.present.picture.mill_view import MillView
from halfthou.present.picture.sheet import SMALL_TEXT, Disc, Mark, Path, Words, box_of
from halfthou.present.picture.tools import feed_arrow
from halfthou.shapes.flat import Point2, Polyline2
from halfthou.units import DEGREE, Radian

_ON_IT: Final = 0.01
_JAWS: Final = frozenset(("fixed jaw", "moving jaw", "soft copper"))
_SHARE: Final = 0.8
"""How much smaller than the work as gripped, so that it lies beside it."""


def turned_plans(
    part: Part, worked: WorkedSetUp, view: MillView, scale: float
) -> Iterator[tuple[Mark, ...]]:
    """Draw one plan a slant: jaws and work turned until the slant lies along a slide."""
    for step in worked.steps:
        face = slant_of(part, step.operations[-1])
        if face is not None and step.operations[-1].verb == "mill face":
            yield _plan(face, step, view, _SHARE * scale)


def turned_by(face: AngledFace, axes: MillAxes) -> Radian:
    """Give how far the vice is turned, against the clock above nought, seen from above."""
    square, leaning = axes.plan(OUTWARD[face.facing]), axes.plan(face.normal)
    turned = math.atan2(square[1], square[0]) - math.atan2(leaning[1], leaning[0])
    return (turned + math.pi) % math.tau - math.pi


def _plan(face: AngledFace, step: Step, view: MillView, scale: float) -> tuple[Mark, ...]:
    turned, about = turned_by(face, view.axes), view.axes.plan(face.point)
    frame = Frame(at=(0.0, 0.0), scale=scale)

    def laid(line: Iterable[Point2]) -> Polyline2:
        return frame.line(_rotated(point, about, turned) for point in line)

    marks: list[Mark] = [
        Path(
            lines=(laid(one.outline),),
            style="soft copper" if one.name == "soft copper" else "holding",
            closed=True,
        )
        for one in view.plan_held
        if one.name in _JAWS
    ]
    work = tuple(laid(line) for line in view.plan_filled)
    marks += [Path(lines=work, style="silhouette", closed=True)]
    marks += [
        Path(lines=(laid(one.outer),), style="removed", closed=True) for one in view.plan_off
    ]
    marks += [Path(lines=work, style="outline", closed=True)]
    marks += _cutter(face, step, view, (about, turned), frame)
    box = box_of(marks)
    level = (box.left - 1.0, box.bottom + 2.0), (box.right + 1.0, box.bottom + 2.0)
    way = "against the clock" if turned > 0 else "with the clock"
    said = f"vice turned {abs(turned) / DEGREE:g}° {way}"
    foot = box.bottom + 7.0
    return (
        *marks,
        Path(lines=(level,), style="centre"),
        *ring_marks(
            step.number, centre=(box.left + 2.0, foot - 1.0), style="tool number",
            words="tool words",
        ),
        Words(at=(box.left + 6.0, foot), text=said, size=SMALL_TEXT),
    )  # fmt: skip


def _cutter(
    face: AngledFace, step: Step, view: MillView, turn: tuple[Point2, Radian], frame: Frame
) -> list[Mark]:
    """Draw the cutter touching the slant at its middle, and which way it goes along it."""
    about, turned = turn
    leaning, square = view.axes.plan(face.normal), view.axes.plan(OUTWARD[face.facing])
    on = [
        point
        for line in view.plan_filled
        for point in line
        if abs((point[0] - about[0]) * leaning[0] + (point[1] - about[1]) * leaning[1]) < _ON_IT
    ]
    if not on:
        return []
    ends = min(on), max(on)
    middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    x, y = _rotated(middle, about, turned)
    radius = cutter_size(step, step.operations[-1]) / 2
    at = frame.to((x + square[0] * radius, y + square[1] * radius))
    found: list[Mark] = [Disc(centre=at, radius=radius * frame.scale, style="tool")]
    goes = AGAINST_THE_TABLE.get(step.feed.table_goes if step.feed is not None else "")
    if goes is not None:
        found.append(feed_arrow(at=at, way=(goes[0], -goes[1])))
    return found


def _rotated(point: Point2, about: Point2, turned: Radian) -> Point2:
    x, y = point[0] - about[0], point[1] - about[1]
    cos, sin = math.cos(turned), math.sin(turned)
    return (about[0] + x * cos - y * sin, about[1] + x * sin + y * cos)
