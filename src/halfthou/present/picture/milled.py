"""The picture of a set-up on the mill: plan, front cut open, and a shaded view of how it sits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Operation, Verb
from halfthou.planning.worked import Wanted, WorkedSetUp
from halfthou.present.picture.cutters import CutterGlyph, cutter_at
from halfthou.present.picture.dimensions import Edge, Leader, Linear, ways
from halfthou.present.picture.fitting import fitted
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.hole_marks import circle_tips, hole_marks, place_ways
from halfthou.present.picture.label import Label
from halfthou.present.picture.mill_axes import MillAxes, Room, mill_axes
from halfthou.present.picture.mill_view import MillView, drawn_front, drawn_plan, mill_view
from halfthou.present.picture.placing import Candidate, ground_of, place
from halfthou.present.picture.seated import seated_picture
from halfthou.present.picture.sheet import Box, Mark, Path, Sheet, box_of, shifted, svg
from halfthou.present.picture.turned import CARD_ROOM
from halfthou.present.picture.wording import PictureWords, final_wants, label_of
from halfthou.present.picture.zero import note_ways, zero_mark
from halfthou.shapes.flat import Point2
from halfthou.shapes.solids import Solid
from halfthou.units import Millimetre, Vec3

_GLYPHS: Final[dict[Verb, CutterGlyph]] = {
    "mill face": "face mill",
    "mill step": "end mill",
    "mill slot": "end mill",
    "mill pocket": "end mill",
    "mill keyway": "end mill",
    "mill chamfer": "centre drill",
    "spot": "centre drill",
    "centre": "centre drill",
    "drill": "drill",
    "bore": "end mill",
    "ream": "reamer",
    "tap": "tap",
    "countersink": "centre drill",
    "counterbore": "end mill",
    "spot-face": "end mill",
}
_DOWNWARD: Final = frozenset(("drill", "centre drill", "reamer", "tap"))
_HOLES: Final = frozenset(("spot", "drill", "bore", "ream", "tap", "countersink", "counterbore"))
_MOST_POSITIONS: Final = 3
"""Holes placed by dimensions; more than these are lettered, and the card lists them."""
_BETWEEN: Final[Millimetre] = 5.0
_PLAIN_CUTTER: Final[Millimetre] = 10.0
_SAME: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """One drawing of a milling set-up at one scale."""

    part: Part
    worked: WorkedSetUp
    view: MillView
    frame: Frame
    words: PictureWords
    main: Operation | None

    @property
    def axes(self) -> MillAxes:
        return self.view.axes


def milled_picture(
    part: Part,
    worked: WorkedSetUp,
    *,
    before: Solid,
    after: Solid,
    words: PictureWords,
    room: Point2 = CARD_ROOM,
) -> str:
    """Draw a milling set-up as SVG: plan, front cut open, how it sits, and what to read."""
    return svg(milled_sheet(part, worked, before=before, after=after, words=words, room=room))


def milled_sheet(
    part: Part,
    worked: WorkedSetUp,
    *,
    before: Solid,
    after: Solid,
    words: PictureWords,
    room: Point2 = CARD_ROOM,
) -> Sheet:
    """Draw a milling set-up on a sheet no larger than ``room``."""
    axes = mill_axes(worked.set_up.scheme)
    main = _main(worked.set_up.operations)
    view = mill_view(before=before, after=after, scheme=worked.set_up.scheme, axes=axes, main=main)
    seated = seated_picture(before=before, after=after, view=view, wide=min(52.0, room[0] * 0.36))

    def drawn(scale: float) -> tuple[Mark, ...]:
        frame = Frame(at=(0.0, 0.0), scale=scale)
        bench = _Bench(part=part, worked=worked, view=view, frame=frame, words=words, main=main)
        return _beside(_two_views(bench), seated)

    size = (
        view.stock.high[0] - view.stock.low[0],
        view.stock.high[1] - view.stock.low[1] + view.stock.high[2] - view.stock.low[2],
    )
    return fitted(drawn, size=size, room=room, title=words.title, description=words.description)


def _main(operations: tuple[Operation, ...]) -> Operation | None:
    shown = [one for one in operations if one.verb in _GLYPHS]
    return max(shown, key=lambda one: one.minutes, default=None)


def _two_views(bench: _Bench) -> tuple[Mark, ...]:
    plan, front = _plan(bench), _front(bench)
    drop = box_of(plan).bottom + _BETWEEN - box_of(front).top
    return (*plan, *shifted(front, (0.0, drop)))


def _beside(views: tuple[Mark, ...], seated: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Put the shaded view to the right, its foot level with that of the views."""
    box, own = box_of(views), box_of(seated)
    by = (box.right + 4.0 - own.left, (box.top + box.bottom) / 2 - (own.top + own.bottom) / 2)
    return (*views, *shifted(seated, by))


def _plan(bench: _Bench) -> tuple[Mark, ...]:
    view, frame = bench.view, bench.frame
    holes = hole_marks(bench.worked.set_up.operations, axes=bench.axes, frame=frame)
    work = drawn_plan(view, frame)
    zero = bench.worked.zero
    zero_at = None if zero is None else frame.to(bench.axes.plan(zero.at))
    line = _section_line(view, frame)
    standing = (*work, *line, *holes, *(() if zero_at is None else zero_mark(zero_at)))
    wishes = [ways for want in _wants(bench) for ways in _plan_ways(want, bench)]
    if zero_at is not None:
        wishes.append(note_ways(bench.words.zero, at=zero_at))
    wishes += place_ways(bench.worked.steps, axes=bench.axes, frame=frame)
    return (*standing, *place(wishes, _ground(standing)))


def _front(bench: _Bench) -> tuple[Mark, ...]:
    view, frame = bench.view, bench.frame
    work = drawn_front(view, frame)
    zero = bench.worked.zero
    mark = () if zero is None else zero_mark(frame.to(bench.axes.front(zero.at)))
    standing = (*work, *_cutter(bench), *mark)
    wishes = [ways for want in _wants(bench) for ways in _front_ways(want, bench)]
    return (*standing, *place(wishes, _ground(standing)))


def _ground(standing: tuple[Mark, ...]) -> ground_of:  # type: ignore[valid-type]
    areas = [box_of((mark,)) for mark in standing if mark.style in {"holding", "tool"}]
    return ground_of(standing, paper=Box(left=-500, top=-500, right=500, bottom=500), areas=areas)


def _section_line(view: MillView, frame: Frame) -> tuple[Mark, ...]:
    """Two short strokes beside the plan where the front view is cut."""
    y = frame.y(view.cut_at)
    left, right = frame.x(view.work.low[0]), frame.x(view.work.high[0])
    line = ((left - 7.0, y), (right + 7.0, y))
    return (Path(lines=(line,), style="centre"),)


def _wants(bench: _Bench) -> tuple[Wanted, ...]:
    wanted = final_wants(bench.worked.wanted)
    places = [want for want in wanted if want.kind == "position"]
    if len(places) > _MOST_POSITIONS:
        return tuple(want for want in wanted if want.kind != "position")
    return wanted


def _axis(want: Wanted, axes: MillAxes) -> int | None:
    """Along which way of the mill a dimension runs; None if along none."""
    a, b = axes.on_mill(want.a), axes.on_mill(want.b)
    gaps = [abs(i - j) for i, j in zip(a, b, strict=True)]
    far = max(range(3), key=lambda number: gaps[number])
    return far if gaps[far] > _SAME else None


def _plan_ways(want: Wanted, bench: _Bench) -> list[list[Candidate]]:
    if want.kind in {"diameter", "thread", "radius"}:
        return [_round_ways(want, bench)]
    axis = _axis(want, bench.axes)
    if axis is None or (axis == 2 and want.kind != "position"):
        return []
    a, b = bench.axes.on_mill(want.a), bench.axes.on_mill(want.b)
    found = []
    for along in (0, 1):
        if abs(a[along] - b[along]) < _SAME or (want.kind != "position" and along != axis):
            continue
        found.append(ways(_linear(want, bench, along), work=_held_box(bench, plan=True)))
    return found


def _linear(want: Wanted, bench: _Bench, along: int) -> Linear:
    frame, axes = bench.frame, bench.axes
    a, b = axes.on_mill(want.a), axes.on_mill(want.b)
    label = label_of(want)
    if want.kind == "position":
        label = Label(main=_coordinate(abs(a[along] - b[along])), step=want.step)
    edges: tuple[Edge, ...] = ("below", "above") if along == 0 else ("left", "right")
    return Linear(
        a=frame.to((a[0], a[1])),
        b=frame.to((b[0], b[1])),
        upright=along == 1,
        label=label,
        edges=edges,
    )


def _coordinate(value: Millimetre) -> str:
    from halfthou.present.figures import length  # noqa: PLC0415

    return length(value)


def _round_ways(want: Wanted, bench: _Bench) -> list[Candidate]:
    axes, frame = bench.axes, bench.frame
    one, two = axes.plan(want.a), axes.plan(want.b)
    centre = ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2)
    made = [
        op
        for op in bench.worked.set_up.operations
        if op.verb in _HOLES and op.at and set(op.makes) & set(want.surfaces)
    ]
    places = [axes.plan(at) for op in made[-1:] for at in op.at] or [centre]
    label = label_of(want)
    if len(places) > 1:
        label = Label(
            main=f"{len(places)} × {label.main}",
            upper=label.upper,
            lower=label.lower,
            step=label.step,
            passing=label.passing,
        )
    radius = want.value / 2 * frame.scale
    tips = tuple(tip for at in places for tip in circle_tips(frame.to(at), radius))
    return ways(Leader(tips=tips, label=label), work=_held_box(bench, plan=True))


def _front_ways(want: Wanted, bench: _Bench) -> list[list[Candidate]]:
    if want.kind in {"diameter", "thread", "radius", "position"} or _axis(want, bench.axes) != 2:
        return []
    frame, view = bench.frame, bench.view
    a, b = bench.axes.on_mill(want.a), bench.axes.on_mill(want.b)
    right = view.work.high[0]
    linear = Linear(
        a=frame.to((right, a[2])),
        b=frame.to((right, b[2])),
        upright=True,
        label=label_of(want),
        edges=("right", "left"),
    )
    return [ways(linear, work=_held_box(bench, plan=False))]


def _held_box(bench: _Bench, *, plan: bool) -> Box:
    """The rectangle round the work and its jaws, which dimensions lie outside of."""
    frame, view = bench.frame, bench.view
    held = view.plan_held if plan else view.front_held
    points = [point for one in held if one.name != "stop" for point in one.outline]
    room: Room = view.stock
    level = 1 if plan else 2
    xs = [room.low[0], room.high[0], *([] if not plan else [])]
    ys = [room.low[level], room.high[level], *(point[1] for point in points if plan)]
    return Box(
        left=frame.x(min(xs)),
        right=frame.x(max(xs)),
        top=frame.y(max(ys)),
        bottom=frame.y(min(ys)),
    )


def _cutter(bench: _Bench) -> tuple[Mark, ...]:
    main, view, frame = bench.main, bench.view, bench.frame
    if main is None:
        return ()
    glyph = _GLYPHS[main.verb]
    wide = (main.cut_size or _PLAIN_CUTTER) * frame.scale
    down = glyph in _DOWNWARD
    if main.at:
        x = min((bench.axes.plan(at) for at in main.at), key=lambda at: abs(at[1] - view.cut_at))[
            0
        ]
        level = view.stock.high[2]
        return cutter_at(glyph, at=(frame.x(x), frame.y(level) - 1.5), wide=wide, down=True)
    x, level = _milled_place(view)
    return cutter_at(glyph, at=(frame.x(x), frame.y(level)), wide=min(wide, 16.0), down=down)


def _milled_place(view: MillView) -> tuple[Millimetre, Millimetre]:
    """Where the cutter stands in the metal it takes off: near the left of the largest area."""
    if not view.front_off:
        return ((view.work.low[0] + view.work.high[0]) / 2, view.work.high[2])
    area = max(view.front_off, key=lambda one: one.size).extent
    return (area.low[0] + 0.3 * area.width, area.low[1])
