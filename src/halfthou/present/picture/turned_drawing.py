"""The drawing of a turned part: half view, half section, an end view where holes need one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.model import Part, Surface
from halfthou.present.picture.along_axis import length_ways
from halfthou.present.picture.crowding import Candidate, ground_of
from halfthou.present.picture.dimensions import ARROW, Leader, Linear, ways
from halfthou.present.picture.drawn_sizes import (
    DrawnDistance,
    DrawnNote,
    DrawnRound,
    drawn_distances,
    drawn_notes,
    drawn_rounds,
    keyways,
    overall,
    place_of,
)
from halfthou.present.picture.finding_marks import finding_rings
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.half_view import HalfView, drawn_half_view, half_view
from halfthou.present.picture.hole_marks import circle_tips
from halfthou.present.picture.key_section import drawn_key, key_areas, key_labels
from halfthou.present.picture.label import length_of
from halfthou.present.picture.placing import place
from halfthou.present.picture.profile import radius_at
from halfthou.present.picture.projection_mark import Angle
from halfthou.present.picture.sheet import Box, Disc, Mark, Path, box_of, shifted
from halfthou.present.picture.thread_lines import thread_lines, threads_of
from halfthou.shapes.flat import Point2
from halfthou.shapes.pictorial import Pictorial
from halfthou.shapes.solids import Solid
from halfthou.shapes.views import Side, seen_from

_PAPER: Final = Box(left=-500, top=-500, right=500, bottom=500)
_ON_AXIS: Final = 1e-6
_ASIDE: Final = 2.0
_ALONG: Final = 0.9
_SIDES: Final = (1.0, -1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    part: Part
    view: HalfView
    frame: Frame

    @property
    def box(self) -> Box:
        return Box(
            left=self.frame.x(self.view.left),
            right=self.frame.x(self.view.right),
            top=self.frame.y(self.view.radius),
            bottom=self.frame.y(-self.view.radius),
        )


def turned_views(
    part: Part, solid: Solid, angle: Angle
) -> Callable[[float, Pictorial | None], tuple[Mark, ...]]:
    """Return what draws the part's views at a scale."""
    view = half_view(before=None, after=solid)
    off_axis = [
        one
        for one in drawn_rounds(part)
        if not _on_axis(one.first) and not _goes_across(one.first)
    ]
    beside: Side = "right" if angle == "third" else "left"
    end = seen_from(solid, beside) if off_axis else None
    sense = -1.0 if beside == "right" else 1.0
    aside = drawn_distances(part)
    keys = [(key, key_areas(solid, key)) for key in keyways(part)]

    def drawn(scale: float, shaded: Pictorial | None) -> tuple[Mark, ...]:
        del shaded
        frame = Frame(at=(0.0, 0.0), scale=scale)
        side = _side(_Drawn(part=part, view=view, frame=frame))
        for key, areas in keys:
            across = drawn_key(areas, key, scale, key_labels(key))
            at = frame.x((key.left + key.right) / 2)
            across = shifted(across, (at, 0.0))
            drop = _lowest_over(side, box_of(across)) + 4.0 - box_of(across).top
            side = (*side, *shifted(across, (0.0, drop)))
        if end is None:
            return side
        lines: tuple[Mark, ...] = (Path(lines=frame.lines(end.visible), style="edge"),)
        facing = _end(lines, off_axis, frame, sense, [one for one in aside if one.axis])
        gap = box_of(side).right + 8.0 - box_of(facing).left
        return (*side, *shifted(facing, (gap, 0.0)))

    return drawn


def _lowest_over(marks: tuple[Mark, ...], column: Box) -> float:
    """Return how far down marks reach in the column that a box takes up."""
    boxes = [
        box_of((replace(mark, lines=(line,)),))
        for mark in marks
        if isinstance(mark, Path)
        for line in mark.lines
    ]
    boxes += [box_of((mark,)) for mark in marks if not isinstance(mark, Path)]
    return max(
        box.bottom
        for box in boxes
        if box.left < column.right + _ASIDE and box.right > column.left - _ASIDE
    )


def _on_axis(surface: Surface) -> bool:
    return abs(surface.point[1]) < _ON_AXIS and abs(surface.point[2]) < _ON_AXIS


def _goes_across(surface: Surface) -> bool:
    """Whether a hole goes in from the side, square to the axis."""
    return surface.inside and abs(surface.direction[0]) < _ALONG


def _side(drawn: _Drawn) -> tuple[Mark, ...]:
    rings, numbers = finding_rings(drawn.part.findings, lambda at: drawn.frame.to((at[0], at[1])))
    threads = thread_lines(threads_of(drawn.part), drawn.frame, solid=drawn.view.solid)
    standing = (*drawn_half_view(drawn.view, drawn.frame), *threads, *rings)
    lengths = [one for one in drawn_distances(drawn.part) if one.axis == 0]
    lengths += overall(drawn.part, lengths)
    lengths.sort(key=lambda one: abs(place_of(one.a, 0) - place_of(one.b, 0)))
    wishes = [_length_ways(one, drawn) for one in lengths]
    wishes += [_note_ways(one, drawn) for one in drawn_notes(drawn.part)]
    across = [one for one in drawn_rounds(drawn.part) if _goes_across(one.first)]
    wishes += [_across_ways(one, drawn) for one in across]
    rounds = [
        one
        for one in drawn_rounds(drawn.part)
        if _on_axis(one.first) and not _goes_across(one.first)
    ]
    rounds.sort(key=lambda one: one.first.size.nominal if one.first.size else 0.0)
    wishes += [_round_ways(one, drawn) for one in rounds]
    ground = ground_of(standing, paper=_PAPER)
    return (*standing, *place([*numbers, *wishes], ground))


def _length_ways(one: DrawnDistance, drawn: _Drawn) -> list[Candidate]:
    return length_ways(
        (place_of(one.a, 0), place_of(one.b, 0)),
        one.label,
        reaches=drawn.view.reaches,
        frame=drawn.frame,
        work=drawn.box,
        below_first=one.a.inside and one.b.inside,
    )


def _note_ways(note: DrawnNote, drawn: _Drawn) -> list[Candidate]:
    tips: list[tuple[Point2, Point2]] = []
    for x, y, _ in note.places:
        side = 1.0 if y > 0 else -1.0
        aside = 1.0 if x > (drawn.view.left + drawn.view.right) / 2 else -1.0
        tips += [(drawn.frame.to((x, y)), (way * aside, -side)) for way in (0.7, 0.3, -0.3, 1.5)]
    return ways(Leader(tips=tuple(tips), label=note.label), work=drawn.box)


def _round_ways(one: DrawnRound, drawn: _Drawn) -> list[Candidate]:
    frame, surface = drawn.frame, one.first
    low, high = surface.low[0], surface.high[0]
    radius = (surface.high[1] - surface.low[1]) / 2
    if surface.inside:
        return _inside_ways(one, drawn, radius)
    tips: list[tuple[Point2, Point2]] = []
    for side in _SIDES:
        for share in (0.5, 0.3, 0.7, 0.15, 0.85):
            x = low + share * (high - low)
            touch = frame.to((x, side * min(radius, radius_at(drawn.view.reaches, x))))
            tips += [(touch, (aside, -side)) for aside in (0.5, -0.5, 0.16, -0.16)]
    found = ways(Leader(tips=tuple(tips), label=one.label), work=drawn.box)
    for edge, x in (("right", high), ("left", low)):
        linear = Linear(
            a=frame.to((x, radius)),
            b=frame.to((x, -radius)),
            upright=True,
            label=one.label,
            edges=("right",) if edge == "right" else ("left",),
        )
        found += ways(linear, work=drawn.box)
    return found


def _across_ways(one: DrawnRound, drawn: _Drawn) -> list[Candidate]:
    """Name a hole that goes in from the side where its mouth is seen, above the axis."""
    frame = drawn.frame
    size = one.first.size.nominal / 2 if one.first.size else 1.0
    tips: list[tuple[Point2, Point2]] = []
    for surface in one.surfaces:
        x, y, _ = surface.point
        if abs(surface.direction[1]) > _ALONG:
            rim = radius_at(drawn.view.reaches, x)
            tips += [(frame.to((x, rim)), (way, -1.0)) for way in (0.5, -0.5, 0.2, -0.2)]
            continue
        centre = frame.to((x, y))
        tips += [tip for tip in circle_tips(centre, size * frame.scale) if tip[1][1] < 0]
    return ways(Leader(tips=tuple(tips), label=one.label), work=drawn.box)


def _inside_ways(one: DrawnRound, drawn: _Drawn, radius: float) -> list[Candidate]:
    """Beside the end it opens to, as a half dimension; from below the axis, where it is cut."""
    frame, surface = drawn.frame, one.first
    foot = frame.y(-radius)
    top = min(frame.at[1] - 5.0, foot - length_of(one.label) - 2 * ARROW - 1.5)
    found: list[Candidate] = []
    for rank, x in enumerate((surface.high[0], surface.low[0])):
        linear = Linear(
            a=(frame.x(x), top),
            b=(frame.x(x), foot),
            upright=True,
            label=one.label,
            edges=("left",) if rank else ("right",),
            half=True,
        )
        found += ways(linear, work=drawn.box, dearer=rank)
    return found


def _end(
    lines: tuple[Mark, ...],
    rounds: list[DrawnRound],
    frame: Frame,
    sense: float,
    aside: list[DrawnDistance],
) -> tuple[Mark, ...]:
    """Draw the view of an end with its holes off the axis, the circles they lie on."""
    box = box_of(lines)
    x, y = frame.at
    cross = (
        ((box.left - 3.0, y), (box.right + 3.0, y)),
        ((x, box.top - 3.0), (x, box.bottom + 3.0)),
    )
    standing: list[Mark] = [*lines, Path(lines=cross, style="centre")]
    wishes: list[list[Candidate]] = []
    for one in rounds:
        centres = [(sense * surface.point[2], surface.point[1]) for surface in one.surfaces]
        radius = (centres[0][0] ** 2 + centres[0][1] ** 2) ** 0.5
        standing.append(Disc(centre=frame.at, radius=radius * frame.scale, style="centre"))
        size = one.first.size.nominal / 2 * frame.scale if one.first.size else 1.0
        tips = tuple(tip for at in centres for tip in circle_tips(frame.to(at), size))
        wishes.append(ways(Leader(tips=tips, label=one.label), work=box))
    wishes += [_aside_ways(one, frame, sense, box) for one in aside]
    return (*standing, *place(wishes, ground_of(standing, paper=_PAPER)))


def _aside_ways(one: DrawnDistance, frame: Frame, sense: float, box: Box) -> list[Candidate]:
    """Dimension how far a hole lies off the axis, up or to the side, in the view of an end."""
    a, b = (frame.to((sense * each.point[2], each.point[1])) for each in (one.a, one.b))
    upright = one.axis == 1
    linear = Linear(
        a=a,
        b=b,
        upright=upright,
        label=one.label,
        edges=("right", "left") if upright else ("below", "above"),
    )
    return ways(linear, work=box)
