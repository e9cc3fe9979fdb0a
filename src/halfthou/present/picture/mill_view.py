"""Work on the mill as the kernel gives it: plan, front cut open, and what holds it in both."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import partial
from typing import Final, Literal, TypeAlias

from halfthou.drawing.geometry import Region
from halfthou.planning.model import Operation, Scheme
from halfthou.present.picture.came_off import came_off
from halfthou.present.picture.cut_open import CutOpen, half_lines, half_loop, turned_corner
from halfthou.present.picture.devices_lathe import broken
from halfthou.present.picture.devices_mill import mill_device
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.hatching import hatched
from halfthou.present.picture.ink import Style
from halfthou.present.picture.mill_angle_plate import lies_against
from halfthou.present.picture.mill_axes import MillAxes, Room, box_on_mill, room_of
from halfthou.present.picture.mill_holding import Bearing, HoldingPiece, Piece, seat_level
from halfthou.present.picture.mill_vice import HUNG
from halfthou.present.picture.sheet import Mark, Path
from halfthou.shapes.flat import Area, Point2, Polyline2, extent_of
from halfthou.shapes.section import behind_plane, section
from halfthou.shapes.solids import Solid, common, is_empty, pieces, solid_of
from halfthou.shapes.views import project
from halfthou.units import Millimetre, Vec3

Way: TypeAlias = Literal["front", "end"]
"""Which way the cut-open view looks: from the operator, or from the right end of the table."""

_OVER_THE_WORK: Final[frozenset[Piece]] = frozenset(("clamp", "clamp moved", "stop"))
_CUT_AWAY: Final[dict[Way, frozenset[Piece]]] = {
    "front": frozenset(("moving jaw", "round bar", "soft copper", "clamp moved")),
    "end": frozenset(("clamp moved",)),
}
_STYLES: Final[dict[Piece, Style]] = {
    "soft copper": "soft copper",
    "clamp moved": "holding moved",
}
_LEVELS: Final = (0.03, 0.25, 0.5, 0.75, 0.97)
_ON_THE_PLANE: Final[Millimetre] = 0.02
_NUDGE: Final[Millimetre] = 1e-3
_SQUARE: Final = 0.5
_JUST_OFF: Final[Millimetre] = 0.05
_SKIN: Final = 0.8
"""Share of the plan above which what comes off is a skin over it all: not tinted in plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One holding piece in one view: its outline and the lines in it."""

    name: Piece
    outline: Polyline2
    lines: tuple[Polyline2, ...]
    broken: tuple[bool, bool] = (False, False)


@dataclass(frozen=True, slots=True, kw_only=True)
class MillView:
    """All that the sheet shows of a milling set-up, in millimetres of the work."""

    axes: MillAxes
    work: Room
    stock: Room
    plan_lines: tuple[Polyline2, ...]
    plan_filled: tuple[Polyline2, ...]
    plan_off: tuple[Area, ...]
    plan_held: tuple[Held, ...]
    front: CutOpen
    front_held: tuple[Held, ...]
    holding: tuple[HoldingPiece, ...]
    way: Way
    cut_at: Millimetre
    corner: Point2 | None = None
    """Where in plan the cutting line turns, coming in from the operator and going out right."""

    @property
    def across(self) -> int:
        """Which of the mill's ways runs to the right in the cut-open view."""
        return 0 if self.way == "front" else 1


def mill_view(
    *,
    before: Solid,
    after: Solid,
    scheme: Scheme,
    axes: MillAxes,
    main: Operation | None,
    cuts: Iterable[Region] = (),
    gripped: tuple[Millimetre, Millimetre] | None = None,
    soft: Literal["", "moving jaw", "both jaws"] = "",
) -> MillView:
    """Look at work on the mill from above, and from the front cut where the main cut is."""
    work, stock = room_of(after, axes), room_of(before, axes)
    rooms = [room_of(solid_of(region), axes) for region in cuts]
    bearing = replace(
        _bearing(before, scheme, axes, stock),
        gripped=gripped,
        cuts=tuple(room for room in rooms if _is_small(room, work)),
        soft=soft,
    )
    holding = mill_device(scheme, axes, bearing)
    off = came_off(before, after)
    way, level = _where_cut_open(scheme, main, axes, work)
    corner = _corner(bearing, holding, axes, way=way, level=level)
    view = MillView(
        axes=axes,
        work=work,
        stock=stock,
        plan_lines=project(after, direction=axes.z, up=axes.y).visible,
        plan_filled=_silhouette(after, axes, work),
        plan_off=_off_in_plan(off, axes, work),
        plan_held=_held(holding, axes.z, axes.y, axes.x),
        front=_opened(after, off, axes, (way, level), corner),
        front_held=(),
        holding=holding,
        way=way,
        cut_at=level,
        corner=corner,
    )
    return replace(view, front_held=_held_in_front(holding, view))


def _where_cut_open(
    scheme: Scheme, main: Operation | None, axes: MillAxes, work: Room
) -> tuple[Way, Millimetre]:
    """Choose where to cut the work open: for the main cut, or where its holding shows best."""
    if HUNG in scheme.links[-1].detail:
        return "end", (work.low[0] + work.high[0]) / 2 + _NUDGE
    if scheme.device.device == "angle plate":
        return _through_the_plate(scheme, axes, work)
    return section_place(main, axes, work)


def _opened(
    after: Solid, off: Solid, axes: MillAxes, place: tuple[Way, Millimetre], corner: Point2 | None
) -> CutOpen:
    """Cut the work open along a straight line, or along one that turns a corner."""
    front = _cut_open(after, off, axes, place)
    if corner is None:
        return front
    end = _cut_open(after, off, axes, ("end", corner[0]))
    return turned_corner(end, front, left_at=corner[1], right_at=corner[0])


def _cut_open(after: Solid, off: Solid, axes: MillAxes, place: tuple[Way, Millimetre]) -> CutOpen:
    """Cut the work open at a level, looking from the operator or from the right end."""
    way, level = place
    work = room_of(after, axes)
    across = 1 if way == "front" else 0
    toward = _toward(axes, way)

    def at(depth: Millimetre) -> Vec3:
        return axes.in_part((0.0, depth, 0.0) if across else (depth, 0.0, 0.0))

    back = work.high[1] if across else work.low[0]
    opened = behind_plane(after, origin=at(level), normal=toward)
    return CutOpen(
        lines=project(opened, direction=toward, up=axes.z).visible,
        filled=tuple(
            area.outer
            for share in _LEVELS
            for area in section(
                after, origin=at(level + share * (back - level)), normal=toward, up=axes.z
            )
        ),
        cut=section(after, origin=at(level), normal=toward, up=axes.z),
        off=() if is_empty(off) else section(off, origin=at(level), normal=toward, up=axes.z),
    )


def _toward(axes: MillAxes, way: Way) -> Vec3:
    """Return the way from the work to the eye."""
    return _minus(axes.y) if way == "front" else axes.x


def _corner(
    bearing: Bearing, holding: Iterable[HoldingPiece], axes: MillAxes, *, way: Way, level: float
) -> Point2 | None:
    """Where the cutting line turns to go through a strap and what the work rests on, if it does.

    Work that hangs through between its parallels would hide them behind what hangs.
    """
    work = bearing.work
    middle = ((work.low[0] + work.high[0]) / 2, (work.low[1] + work.high[1]) / 2)
    if bearing.below is None or way != "front" or abs(level - middle[1]) > _ON_THE_PLANE:
        return None
    straps = [room_of(solid_of(one.region), axes) for one in holding if one.name == "clamp"]
    near = [room for room in straps if room.low[1] < work.low[1]]
    if not near or not all(room.low[0] < middle[0] < room.high[0] for room in near):
        return None
    return (middle[0] + _NUDGE, middle[1])


def _held_in_front(holding: Iterable[HoldingPiece], view: MillView) -> tuple[Held, ...]:
    """Return what holds the work as the cut-open view shows it: nothing before the cut."""
    axes, way = view.axes, view.way
    left = [one for one in holding if one.name not in _CUT_AWAY[way]]
    if view.corner is None:
        shown = [one for one in left if not _before_the_cut(one, view)]
        return _held(shown, _toward(axes, way), axes.z, axes.x)
    x, y = view.corner
    found: list[Held] = []
    halves: tuple[tuple[Way, float, float, float], ...] = (
        ("end", y, -1.0, x - y),
        ("front", x, 1.0, 0.0),
    )
    for look, at, sense, moved in halves:
        for one in _held(left, _toward(axes, look), axes.z, axes.x):
            outline = half_loop(one.outline, at, sense, moved)
            if outline:
                lines = half_lines(one.lines, at, sense, moved)
                found.append(replace(one, outline=outline, lines=lines))
    return tuple(found)


def _before_the_cut(one: HoldingPiece, view: MillView) -> bool:
    """Whether a piece is cut away with what stands before the cutting plane."""
    room = room_of(solid_of(one.region), view.axes)
    if view.way == "front":
        return room.high[1] < view.cut_at
    return room.low[0] > view.cut_at


def with_piece(view: MillView, piece: HoldingPiece) -> MillView:
    """Return the view with one more piece that holds the work."""
    axes = view.axes
    holding = (*view.holding, piece)
    return replace(
        view,
        holding=holding,
        plan_held=(*view.plan_held, *_held((piece,), axes.z, axes.y, axes.x)),
        front_held=_held_in_front(holding, view),
    )


def _bearing(before: Solid, scheme: Scheme, axes: MillAxes, stock: Room) -> Bearing:
    """Find what of the work lies at the seat, and what hangs below it."""
    seat = seat_level(scheme, stock)
    foot = _room_at(before, axes, seat + _JUST_OFF) or stock
    below = _room_at(before, axes, seat - _JUST_OFF) if seat > stock.low[2] + _JUST_OFF else None
    return Bearing(
        work=stock,
        foot=foot,
        below=below,
        top_at=partial(_top_at, before, axes),
        metal_in=partial(_metal_in, before, axes),
    )


def _top_at(solid: Solid, axes: MillAxes, room: Room) -> Millimetre:
    """Return how high the work stands within a column, as the mill counts; the top if nowhere."""
    metal = _metal_in(solid, axes, room)
    return room.high[2] if metal is None else metal.high[2]


def _metal_in(solid: Solid, axes: MillAxes, room: Room) -> Room | None:
    """Return what a solid takes up within a block of space, as the mill counts."""
    column = common(solid, solid_of(box_on_mill(room.low, room.high, axes)))
    return None if is_empty(column) else room_of(column, axes)


def _room_at(solid: Solid, axes: MillAxes, level: Millimetre) -> Room | None:
    areas = _level_section(solid, axes, level)
    if not areas:
        return None
    extent = extent_of([area.outer for area in areas])
    return Room(low=(*extent.low, level), high=(*extent.high, level))


def _is_small(room: Room, work: Room) -> bool:
    """Whether a cut leaves most of the top alone: a skin over it all cannot be kept clear of."""
    return all(
        room.high[way] - room.low[way] < _SKIN * (work.high[way] - work.low[way]) for way in (0, 1)
    )


def section_place(main: Operation | None, axes: MillAxes, work: Room) -> tuple[Way, Millimetre]:
    """Choose where to cut the work open: across a channel, or through the most holes."""
    middle = [(low + high) / 2 for low, high in zip(work.low, work.high, strict=True)]
    if main is None:
        return "front", middle[1]
    if not main.at:
        return ("end", middle[0]) if _runs_along_table(main, axes, work) else ("front", middle[1])
    places = [axes.plan(at) for at in main.at]
    ways: tuple[tuple[Way, int], ...] = (("front", 1), ("end", 0))
    for way, along in ways:
        if any(abs(place[along] - middle[along]) < _ON_THE_PLANE for place in places):
            return way, middle[along] + _NUDGE
    level = min((place[1] for place in places), key=lambda y: abs(y - middle[1]))
    return "front", level + _NUDGE


def _through_the_plate(scheme: Scheme, axes: MillAxes, work: Room) -> tuple[Way, Millimetre]:
    """Cut the work open square to the plate it lies against, so that plate and jack show."""
    against, _ = lies_against(scheme, axes)
    middle = (work.low[1 - against] + work.high[1 - against]) / 2
    return ("end" if against else "front"), middle + _NUDGE


def _runs_along_table(main: Operation, axes: MillAxes, work: Room) -> bool:
    """Whether a cut goes through the work along the table, so that its end shows its shape."""
    rooms = [room_of(solid_of(region), axes) for region in main.region]
    ends = [room.low[0] <= work.low[0] and room.high[0] >= work.high[0] for room in rooms]
    sides = [room.low[1] <= work.low[1] and room.high[1] >= work.high[1] for room in rooms]
    return any(ends) and not all(sides)


def _silhouette(solid: Solid, axes: MillAxes, work: Room) -> tuple[Polyline2, ...]:
    return tuple(
        area.outer
        for share in _LEVELS
        for area in _level_section(solid, axes, work.low[2] + share * (work.high[2] - work.low[2]))
    )


def _level_section(solid: Solid, axes: MillAxes, level: Millimetre) -> tuple[Area, ...]:
    origin = axes.in_part((0.0, 0.0, level))
    return section(solid, origin=origin, normal=axes.z, up=axes.y)


def _off_in_plan(off: Solid, axes: MillAxes, work: Room) -> tuple[Area, ...]:
    if is_empty(off):
        return ()
    whole = (work.high[0] - work.low[0]) * (work.high[1] - work.low[1])
    found: list[Area] = []
    for lump in pieces(off):
        room = room_of(lump, axes)
        level = room.low[2] + 0.9 * (room.high[2] - room.low[2])
        found += [a for a in _level_section(lump, axes, level) if a.size < _SKIN * whole]
    return tuple(found)


def _held(holding: Iterable[HoldingPiece], direction: Vec3, up: Vec3, x: Vec3) -> tuple[Held, ...]:
    found: list[Held] = []
    for one in holding:
        lines = project(solid_of(one.region), direction=direction, up=up).visible
        outline = _hull([point for line in lines for point in line])
        broken = (
            one.broken
            if abs(direction[0] * x[0] + direction[1] * x[1] + direction[2] * x[2]) < _SQUARE
            else (False, False)
        )
        found.append(Held(name=one.name, outline=outline, lines=lines, broken=broken))
    return tuple(found)


def _hull(points: list[Point2]) -> Polyline2:
    """Return the outline stretched round some points."""
    ordered = sorted(set(points))

    def chain(row: Iterable[Point2]) -> list[Point2]:
        kept: list[Point2] = []
        for point in row:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], point) <= 0:
                kept.pop()
            kept.append(point)
        return kept[:-1]

    return (*chain(ordered), *chain(reversed(ordered)))


def _turn(a: Point2, b: Point2, c: Point2) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _minus(vector: Vec3) -> Vec3:
    return (-vector[0], -vector[1], -vector[2])


def drawn_plan(view: MillView, frame: Frame) -> tuple[Mark, ...]:
    """Draw the work from above in what holds it."""
    under, over = _split(view.plan_held, lambda one: one.name in _OVER_THE_WORK)
    marks: list[Mark] = [*_drawn_held(under, frame)]
    marks += [
        Path(lines=(frame.line(line),), style="silhouette", closed=True)
        for line in view.plan_filled
    ]
    marks += hatched(view.plan_off, frame, "removed", half=False)
    marks.append(Path(lines=frame.lines(view.plan_lines), style="outline"))
    return (*marks, *_drawn_held(over, frame))


def drawn_front(view: MillView, frame: Frame) -> tuple[Mark, ...]:
    """Draw the work from the front, cut open, the moving jaw taken away."""
    front = view.front
    marks: list[Mark] = [*_drawn_held(view.front_held, frame)]
    if front.filled:
        marks.append(Path(lines=frame.lines(front.filled), style="silhouette", closed=True))
    marks += hatched(front.off, frame, "removed", half=False)
    if front.lines:
        marks.append(Path(lines=frame.lines(front.lines), style="edge"))
    marks += hatched(front.cut, frame, "section", half=False)
    return tuple(marks)


def _split(held: Iterable[Held], rule: Callable[[Held], bool]) -> tuple[list[Held], list[Held]]:
    held = tuple(held)
    return [one for one in held if not rule(one)], [one for one in held if rule(one)]


def _drawn_held(held: Iterable[Held], frame: Frame) -> list[Mark]:
    marks: list[Mark] = []
    for one in held:
        if any(one.broken):
            marks.append(Path(lines=(_broken_off(one, frame),), style="holding", closed=True))
            continue
        outline, style = (frame.line(one.outline),), _STYLES.get(one.name, "holding")
        marks.append(Path(lines=outline, style=style, closed=True))
        if style == "holding":
            marks.append(Path(lines=frame.lines(one.lines), style="holding line"))
    return marks


def _broken_off(one: Held, frame: Frame) -> Polyline2:
    """Return a block whose ends run on beyond the sheet."""
    box = frame.box(extent_of([one.outline]))
    corners = (
        (box.left, box.top),
        (box.right, box.top),
        (box.right, box.bottom),
        (box.left, box.bottom),
    )
    right = broken(corners[1], corners[2]) if one.broken[1] else corners[1:3]
    left = broken(corners[3], corners[0]) if one.broken[0] else (corners[3], corners[0])
    return (*right, *left)
