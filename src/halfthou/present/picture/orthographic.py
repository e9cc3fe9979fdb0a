"""The drawing of a milled part: front, top and side in first or third angle, and a shaded view."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Hole, Part, Surface
from halfthou.present.picture.crowding import Candidate, ground_of
from halfthou.present.picture.dimensions import Edge, Leader, Linear, ways
from halfthou.present.picture.drawn_sizes import (
    DrawnDistance,
    DrawnNote,
    DrawnRound,
    cutout_sizes,
    drawn_distances,
    drawn_notes,
    drawn_rounds,
    hole_places,
    place_of,
)
from halfthou.present.picture.finding_marks import finding_rings
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.hole_marks import circle_tips
from halfthou.present.picture.placing import place
from halfthou.present.picture.projection_mark import Angle
from halfthou.present.picture.seated import seated_marks
from halfthou.present.picture.sheet import Box, Mark, Path, box_of, shifted
from halfthou.shapes.flat import Point2, View
from halfthou.shapes.pictorial import Pictorial
from halfthou.shapes.solids import Solid
from halfthou.shapes.views import SIDES, Side, paper_axes, project
from halfthou.units import Millimetre, Vec3

_PAPER: Final = Box(left=-900, top=-900, right=900, bottom=900)
_BETWEEN: Final[Millimetre] = 6.0
_ALONG: Final = 0.99
_END_ON: Final[Millimetre] = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class _Face:
    """One view: which side it is seen from, and its lines."""

    side: Side
    view: View
    right: Vec3
    up: Vec3
    toward: Vec3

    def flat(self, point: Vec3) -> Point2:
        return (_dot(point, self.right), _dot(point, self.up))

    def ends(self, note: DrawnNote) -> bool:
        """Whether a straight edge with a note is seen end on."""
        long = math.hypot(*note.along)
        return long > 0 and abs(_dot(note.along, self.toward)) > _ALONG * long

    def shows(self, surface: Surface) -> bool:
        """Whether a round surface is seen as a circle."""
        return surface.kind != "plane" and abs(_dot(surface.direction, self.toward)) > _ALONG


def milled_views(
    part: Part, solid: Solid, angle: Angle
) -> Callable[[float, Pictorial | None], tuple[Mark, ...]]:
    """Return what draws the part's three views at a scale."""
    beside: Side = "right" if angle == "third" else "left"
    sides: tuple[Side, ...] = ("front", "top", beside)
    faces = [_face(solid, side) for side in sides]
    wanted = _shared_out(part, faces)

    def drawn(scale: float, shaded: Pictorial | None) -> tuple[Mark, ...]:
        frame = Frame(at=(0.0, 0.0), scale=scale)
        views = [_drawn(part, face, wanted[face.side], frame) for face in faces]
        return _arranged(views[0], views[1], views[2], shaded, angle)

    return drawn


def _face(solid: Solid, side: Side) -> _Face:
    direction, up = SIDES[side]
    right, upward, toward = paper_axes(direction, up)
    view = project(solid, direction=direction, up=up)
    return _Face(side=side, view=view, right=right, up=upward, toward=toward)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    distances: tuple[DrawnDistance, ...]
    rounds: tuple[DrawnRound, ...]


def _shared_out(part: Part, faces: list[_Face]) -> dict[Side, _Wanted]:
    """Give each size to the view that shows it best."""
    distances: dict[Side, list[DrawnDistance]] = {face.side: [] for face in faces}
    rounds: dict[Side, list[DrawnRound]] = {face.side: [] for face in faces}
    for distance in (*drawn_distances(part), *hole_places(part), *cutout_sizes(part)):
        distances[_best_for_distance(distance, faces).side].append(distance)
    for one in drawn_rounds(part):
        shown = [face for face in faces if face.shows(one.first)]
        rounds[(shown or faces)[0].side].append(one)
    return {
        side: _Wanted(distances=tuple(distances[side]), rounds=tuple(rounds[side]))
        for side in distances
    }


def _best_for_distance(distance: DrawnDistance, faces: list[_Face]) -> _Face:
    fit = [face for face in faces if abs(face.toward[distance.axis]) < 1 - _ALONG]
    for surface in (distance.b, distance.a):
        circles = [face for face in fit if face.shows(surface)]
        if circles:
            return circles[0]
    return fit[-1] if distance.axis == 2 else fit[0]  # noqa: PLR2004


def _drawn(part: Part, face: _Face, wanted: _Wanted, frame: Frame) -> tuple[Mark, ...]:
    rings, numbers = (), []  # type: tuple[Mark, ...], list[list[Candidate]]
    if face.side == "front":
        rings, numbers = finding_rings(part.findings, lambda at: frame.to(face.flat(at)))
    marks: list[Mark] = []
    if face.view.hidden:
        marks.append(Path(lines=frame.lines(face.view.hidden), style="hidden"))
    marks.append(Path(lines=frame.lines(face.view.visible), style="outline"))
    marks += _centre_lines(part, face, frame)
    marks += _threads(part, face, frame)
    standing = (*marks, *rings)
    box = box_of(marks[:2] if face.view.hidden else marks[:1])
    distances = sorted(wanted.distances, key=_gap)
    wishes = [_distance_ways(one, face, frame, box) for one in distances]
    wishes += [_round_ways(one, face, frame, box) for one in wanted.rounds]
    wishes += [_note_ways(one, face, frame, box) for one in drawn_notes(part) if face.ends(one)]
    return (*standing, *place([*numbers, *wishes], ground_of(standing, paper=_PAPER)))


def _gap(one: DrawnDistance) -> float:
    return abs(place_of(one.a, one.axis) - place_of(one.b, one.axis))


def _centre_lines(part: Part, face: _Face, frame: Frame) -> list[Mark]:
    lines: list[tuple[Point2, Point2]] = []
    for surface in part.surfaces:
        if surface.kind == "plane" or not face.shows(surface):
            continue
        x, y = frame.to(face.flat(surface.point))
        reach = _radius(surface, face) * frame.scale + 1.8
        lines += [((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach))]
    return [Path(lines=tuple(lines), style="centre")] if lines else []


def _threads(part: Part, face: _Face, frame: Frame) -> list[Mark]:
    """Draw a nut's thread by ISO 6410: three quarters of a thin ring end on, dashed from aside."""
    marks: list[Mark] = []
    for hole in part.features:
        if not isinstance(hole, Hole):
            continue
        for step in hole.steps:
            if step.thread is None:
                continue
            for entry in hole.entries:
                first, last = (_going(entry, hole.into, depth) for depth in (step.start, step.end))
                marks += _thread((first, last), step.thread.major, face, frame)
    return marks


def _going(start: Vec3, way: Vec3, far: float) -> Vec3:
    return (start[0] + far * way[0], start[1] + far * way[1], start[2] + far * way[2])


def _thread(ends: tuple[Vec3, Vec3], major: float, face: _Face, frame: Frame) -> list[Mark]:
    first, last = (face.flat(end) for end in ends)
    if math.dist(first, last) < _END_ON:
        x, y = frame.to(first)
        turns = [math.radians(100 + 270 * n / 36) for n in range(37)]
        r = major / 2 * frame.scale
        ring = tuple((x + r * math.cos(t), y - r * math.sin(t)) for t in turns)
        return [Path(lines=(ring,), style="thread")]
    u, v = (last[0] - first[0], last[1] - first[1])
    long = math.hypot(u, v) or 1.0
    aside = (-v / long * major / 2, u / long * major / 2)
    lines = tuple(
        tuple(frame.to((p[0] + side * aside[0], p[1] + side * aside[1])) for p in (first, last))
        for side in (1.0, -1.0)
    )
    return [Path(lines=lines, style="hidden")]


def _radius(surface: Surface, face: _Face) -> Millimetre:
    low, high = face.flat(surface.low), face.flat(surface.high)
    return abs(high[0] - low[0]) / 2


def _distance_ways(one: DrawnDistance, face: _Face, frame: Frame, box: Box) -> list[Candidate]:
    upright = abs(face.up[one.axis]) > _ALONG
    edges: tuple[Edge, Edge] = ("left", "right") if upright else ("below", "above")
    found: list[Candidate] = []
    for edge in edges:
        a, b = (_anchor(surface, one.axis, face, frame, edge) for surface in (one.a, one.b))
        linear = Linear(a=a, b=b, upright=upright, label=one.label, edges=(edge,))
        found += ways(linear, work=box)
    return found


def _anchor(surface: Surface, axis: int, face: _Face, frame: Frame, edge: Edge) -> Point2:
    """Where a witness line starts: the end of the surface toward the dimension."""
    corners = [frame.to(face.flat(corner)) for corner in (surface.low, surface.high)]
    at = frame.to(face.flat(surface.point))
    if face.shows(surface):
        return at
    del axis
    match edge:
        case "above":
            return (at[0], min(point[1] for point in corners))
        case "below":
            return (at[0], max(point[1] for point in corners))
        case "left":
            return (min(point[0] for point in corners), at[1])
        case _:
            return (max(point[0] for point in corners), at[1])


def _round_ways(one: DrawnRound, face: _Face, frame: Frame, box: Box) -> list[Candidate]:
    tips: list[tuple[Point2, Point2]] = []
    for surface in one.surfaces:
        at = frame.to(face.flat(surface.point))
        tips += circle_tips(at, _radius(surface, face) * frame.scale)
    return ways(Leader(tips=tuple(tips), label=one.label), work=box)


def _note_ways(note: DrawnNote, face: _Face, frame: Frame, box: Box) -> list[Candidate]:
    tips = [tip for place in note.places for tip in circle_tips(frame.to(face.flat(place)), 0.0)]
    return ways(Leader(tips=tuple(tips), label=note.label), work=box)


def _arranged(
    front: tuple[Mark, ...],
    top: tuple[Mark, ...],
    side: tuple[Mark, ...],
    shaded: Pictorial | None,
    angle: Angle,
) -> tuple[Mark, ...]:
    """Put the views where the projection wants them, in line with the front."""
    home = box_of(front)
    if angle == "third":
        above = shifted(top, (0.0, home.top - _BETWEEN - box_of(top).bottom))
    else:
        above = shifted(top, (0.0, home.bottom + _BETWEEN - box_of(top).top))
    right = max(home.right, box_of(above).right)
    beside = shifted(side, (right + _BETWEEN - box_of(side).left, 0.0))
    marks = (*front, *above, *beside)
    if shaded is None:
        return marks
    corner, column = box_of(above), box_of(beside)
    picture = seated_marks(shaded, wide=max(34.0, min(60.0, column.width, 1.1 * corner.height)))
    own = box_of(picture)
    level = min(corner.middle[1], column.top - 2.0 - own.height / 2)
    if angle == "first":
        level = max(corner.middle[1], column.bottom + 2.0 + own.height / 2)
    return (
        *marks,
        *shifted(picture, (column.middle[0] - own.middle[0], level - own.middle[1])),
    )


def _dot(a: Vec3, b: Vec3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
