"""The picture of a set-up on the mill: plan, front cut open, and a shaded view of how it sits."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from typing import Final, Literal, TypeAlias

from halfthou.drawing.model import Keyway, Part
from halfthou.planning.milled.slants import slant_of
from halfthou.planning.model import Operation, Scheme
from halfthou.planning.worked import Wanted, WorkedSetUp, Zero
from halfthou.present.figures import length
from halfthou.present.picture.crowding import Candidate, Ground, ground_of
from halfthou.present.picture.cutters_at_work import (
    SHOWN,
    CutterTurn,
    cutter_turns,
    cutters_in_front,
    cutters_in_plan,
)
from halfthou.present.picture.dimensions import Edge, Leader, Linear, ways
from halfthou.present.picture.drawn_sizes import keyways
from halfthou.present.picture.faces_cut import heights_cut, widths_cut
from halfthou.present.picture.fitting import largest_fit, trimmed
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.holding_names import (
    moved_ways,
    names_in_front,
    names_in_plan,
    overhang_ways,
    parallel_ways,
)
from halfthou.present.picture.hole_marks import between_holes, circle_tips, hole_marks, place_ways
from halfthou.present.picture.key_section import drawn_key, key_areas, key_labels
from halfthou.present.picture.label import Label
from halfthou.present.picture.layouts import Group, beside, crowding, group, layouts, over
from halfthou.present.picture.mill_axes import MillAxes, Room, mill_axes
from halfthou.present.picture.mill_view import MillView, drawn_front, drawn_plan, mill_view
from halfthou.present.picture.placing import place
from halfthou.present.picture.pushed import with_stop
from halfthou.present.picture.saw import with_jaws_ended
from halfthou.present.picture.seated import seated_marks, seated_pictorial
from halfthou.present.picture.section_line import section_line
from halfthou.present.picture.sheet import (
    SMALL_TEXT,
    Box,
    Mark,
    Sheet,
    Words,
    box_of,
    svg,
)
from halfthou.present.picture.turned import CARD_ROOM
from halfthou.present.picture.vice_turned import turned_plans
from halfthou.present.picture.wording import PictureWords, aimed, final_wants, label_of
from halfthou.present.picture.zero import note_ways, zero_box, zero_mark
from halfthou.present.words_held import ALONG, Held, copper_words
from halfthou.shapes.flat import Area, Point2, extent_of
from halfthou.shapes.solids import Solid
from halfthou.units import Millimetre, Vec3

_HOLES: Final = frozenset(("spot", "drill", "bore", "ream", "tap", "countersink", "counterbore"))
_MOST_POSITIONS: Final = 3
"""Holes placed by dimensions; more than these are lettered, and the card lists them."""
_SHADED_WIDTHS: Final = (56.0, 48.0, 40.0, 33.0)
_WIDE_ROOM: Final[Point2] = (178.0, 98.0)
"""Room across the card, for work that would come out too small beside the words [mm]."""
_LEGIBLE: Final[Millimetre] = 30.0
"""Size of the work on paper below which its picture goes across the card."""
_REDUCED: Final = 0.84
"""How far a picture is reduced at most: its smallest figures stay just under 2 mm high."""
_WORTH: Final = 1.05
_UPWARD: Final = 2
_BODIES: Final = frozenset(("holding", "tool", "ghost"))
_ON_TOOLS: Final = frozenset(("feed", "ghost feed", "tool number"))
_TOUCHED: Final[Millimetre] = 1.0
_TAIL: Final[Millimetre] = 9.5
"""From a cutting line to the foot of the letter at its arrow. [mm]"""
_SAME: Final = 1e-6
_SAME_PLACE: Final[Millimetre] = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """One drawing of a milling set-up at one scale."""

    part: Part
    worked: WorkedSetUp
    view: MillView
    frame: Frame
    words: PictureWords
    turns: tuple[CutterTurn, ...]

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
    view = mill_view(
        before=before,
        after=after,
        scheme=worked.set_up.scheme,
        axes=axes,
        main=main,
        cuts=(*worked.before, *worked.off),
        gripped=_gripped_along(part, worked.set_up.scheme, axes),
        soft=_soft(part, worked.set_up.scheme),
    )
    turns = cutter_turns(worked, main)
    view = with_jaws_ended(view, worked)
    view = with_stop(view, worked.set_up.scheme, turns)
    shaded = seated_pictorial(before=before, after=after, view=view)
    seated = [group(seated_marks(shaded, wide=wide)) for wide in _SHADED_WIDTHS]
    keys = _keys(part, worked, after)

    @cache
    def views(scale: float) -> tuple[Group, Group, Group | None]:
        frame = Frame(at=(0.0, 0.0), scale=scale)
        bench = _Bench(part=part, worked=worked, view=view, frame=frame, words=words, turns=turns)
        across: Group | None = None
        for step, key, areas in keys:
            own = group(drawn_key(areas, key, max(scale, 1.0), key_labels(key, step=step)))
            across = beside(across, own) if across else own
        for own_plan in turned_plans(part, worked, view, scale):
            own = group(own_plan)
            across = beside(across, own) if across else own
        return group(_plan(bench)), group(_front(bench)), across

    def drawn(scale: float, room: Point2) -> tuple[Mark, ...]:
        plan, front, across = views(scale)
        choices = [layout for one in seated for layout in layouts(plan, front, over(one, across))]
        fits = [layout for layout in choices if crowding(layout, room) <= 1]
        best = fits[0] if fits else min(choices, key=lambda one: crowding(one, room))
        return best.marks

    marks, printed = _legible(drawn, view, room)
    made = trimmed(marks, title=words.title, description=words.description)
    return replace(made, printed=printed)


_Drawn: TypeAlias = Callable[[float, Point2], tuple[Mark, ...]]


def _on(drawn: _Drawn, room: Point2) -> Callable[[float], tuple[Mark, ...]]:
    return lambda scale: drawn(scale, room)


def _legible(drawn: _Drawn, view: MillView, room: Point2) -> tuple[tuple[Mark, ...], float]:
    """Draw as large as goes into the room; return the marks, and how much of full size they are.

    Work that comes out small among its dimensions is drawn larger and printed a little reduced, or
    across the card.
    """
    size = _size_with_holding(view)
    scale, marks = largest_fit(_on(drawn, room), size=size, room=room, shifting=True)
    wide = max(high - low for low, high in zip(view.work.low[:2], view.work.high[:2], strict=True))
    if room != CARD_ROOM or scale * wide >= _LEGIBLE:
        return marks, 1.0
    best, reduced = scale, 1.0
    for paper in (CARD_ROOM, _WIDE_ROOM):
        larger = (paper[0] / _REDUCED, paper[1] / _REDUCED)
        scale, its = largest_fit(_on(drawn, paper), size=size, room=larger, shifting=True)
        box = box_of(its)
        printed = min(1.0, (paper[0] - 3.0) / box.width, (paper[1] - 3.0) / box.height)
        if printed >= _REDUCED and scale * printed > _WORTH * best:
            best, marks, reduced = scale * printed, its, printed
    return marks, reduced


def _keys(
    part: Part, worked: WorkedSetUp, after: Solid
) -> list[tuple[int, Keyway, tuple[Area, ...]]]:
    """Return the keyways cut in this set-up, each cut across."""
    cut_here = {one.feature: step.number for step in worked.steps for one in step.operations}
    return [
        (cut_here[key.name], key, key_areas(after, key))
        for key in keyways(part)
        if key.name in cut_here
    ]


def _size_with_holding(view: MillView) -> Point2:
    """Return about what plan and cut-open view take up, one over the other, in mm of metal."""
    plan = extent_of(one.outline for one in view.plan_held)
    front = extent_of(one.outline for one in view.front_held)
    size = [high - low for low, high in zip(view.stock.low, view.stock.high, strict=True)]
    width = max(size[view.across], min(plan.width, size[0] + 20.0))
    return (width, max(plan.height, size[1]) / 2 + max(front.height, size[2]) / 2)


def _main(operations: tuple[Operation, ...]) -> Operation | None:
    shown = [one for one in operations if one.verb in SHOWN]
    return max(shown, key=lambda one: one.minutes, default=None)


def _plan(bench: _Bench) -> tuple[Mark, ...]:
    view, frame = bench.view, bench.frame
    holes = hole_marks(bench.worked.set_up.operations, axes=bench.axes, frame=frame)
    work = drawn_plan(view, frame)
    zero = bench.worked.zero
    zero_at = None
    if zero is not None and _picked_up(zero, "xy"):
        zero_at = frame.to(bench.axes.plan(zero.at))
    square = [turn for turn in bench.turns if slant_of(bench.part, turn.operation) is None]
    cutters = cutters_in_plan(square, view, frame)
    standing = (*work, *holes, *cutters, *(() if zero_at is None else zero_mark(zero_at)))
    wishes = [ways for want in _wants(bench) for ways in _plan_ways(want, bench)]
    if zero_at is not None:
        wishes.append(note_ways(bench.words.zero, at=zero_at))
    wishes += _hole_words(bench)
    wishes += place_ways(bench.worked.steps, axes=bench.axes, frame=frame)
    wishes += widths_cut(
        bench.worked, view, frame, work=_held_box(bench, plan=True), units=bench.words.units
    )
    wishes += _holding_ways(bench)
    drawn = (*standing, *place(wishes, _ground(standing, zero_at)))
    return (*drawn, *section_line(view, frame, beyond=_at_the_cut(drawn, bench)))


def _at_the_cut(drawn: tuple[Mark, ...], bench: _Bench) -> Box:
    """Return the box of what of the plan stands in the way of the cutting line's ends."""
    view, frame = bench.view, bench.frame
    if view.corner is not None:
        return box_of(drawn)
    boxes = [box_of((mark,)) for mark in drawn]
    if view.way == "front":
        y = frame.y(view.cut_at)
        kept = [box for box in boxes if box.top < y + _TAIL and box.bottom > y - 1.0]
        return Box(
            left=min(box.left for box in kept),
            right=max(box.right for box in kept),
            top=y,
            bottom=y,
        )
    x = frame.x(view.cut_at)
    kept = [box for box in boxes if box.left < x + _TAIL and box.right > x - 1.0]
    return Box(
        left=x, right=x, top=min(box.top for box in kept), bottom=max(box.bottom for box in kept)
    )


def _front(bench: _Bench) -> tuple[Mark, ...]:
    view, frame = bench.view, bench.frame
    work = drawn_front(view, frame)
    zero = bench.worked.zero
    zero_at = None
    if zero is not None and _picked_up(zero, "z"):
        zero_at = frame.to(_on_metal(_in_front(zero.at, bench), zero, bench))
    mark = () if zero_at is None else zero_mark(zero_at)
    standing = (*work, *cutters_in_front(bench.turns, view, frame), *mark)
    box = box_of(standing)
    name = Words(
        at=(box.middle[0], box.bottom + 5.0), text="A–A", size=SMALL_TEXT, anchor="middle"
    )
    standing = (*standing, name)
    wishes = [ways for want in _wants(bench) for ways in _front_ways(want, bench)]
    wishes += heights_cut(
        bench.worked, view, frame, work=_held_box(bench, plan=False), units=bench.words.units
    )
    wishes += parallel_ways(view, frame, units=bench.words.units)
    wishes += names_in_front(view, frame)
    return (*standing, *place(wishes, _ground(standing, zero_at)))


def _holding_ways(bench: _Bench) -> list[list[Candidate]]:
    """Name what holds the work in plan, how far an end stands out, and where clamps move."""
    view, frame, units = bench.view, bench.frame, bench.words.units
    work = _held_box(bench, plan=True)
    out = overhang_ways(view, bench.worked.set_up.scheme, frame, work=work, units=units)
    first = next((step.number for step in bench.worked.steps), 0)
    return [
        *([out] if out else []),
        *moved_ways(view, frame, step=first, work=work),
        *names_in_plan(view, frame, units=units),
    ]


def _soft(part: Part, scheme: Scheme) -> Literal["", "moving jaw", "both jaws"]:
    """Tell where soft copper lies, as the words say it."""
    held = Held(scheme=scheme, part=part, units="mm", standing=(0.0, 0.0))
    if scheme.device.device != "vice" or not copper_words(held):
        return ""
    upright = part.turned and abs(scheme.faces[0]) > ALONG
    return "both jaws" if upright else "moving jaw"


def _picked_up(zero: Zero, directions: str) -> bool:
    """Whether any of some directions is picked up at this zero; all are where none is told."""
    return not zero.pick_up or any(one[0] in directions for one in zero.pick_up)


def _gripped_along(part: Part, scheme: Scheme, axes: MillAxes) -> tuple[float, float] | None:
    """From where to where a turned part's gripped surface goes along the table."""
    named = [one for one in part.surfaces if one.name in scheme.grips]
    if not part.turned or not named:
        return None
    ends = [axes.on_mill(corner)[0] for one in named for corner in (one.low, one.high)]
    return min(ends), max(ends)


def _hole_words(bench: _Bench) -> list[list[Candidate]]:
    """Name the drill of each hole that no dimension speaks for, with the number of its step."""
    axes, frame = bench.axes, bench.frame
    said = {want.step for want in bench.worked.wanted if want.kind in {"diameter", "thread"}}
    last: dict[tuple[Vec3, ...], tuple[int, Operation]] = {}
    for step in bench.worked.steps:
        for one in step.operations:
            if one.verb == "drill" and one.at:
                last[one.at] = (step.number, one)
    found = []
    for places, (number, one) in last.items():
        if number in said:
            continue
        many = f"{len(places)} × " if len(places) > 1 else ""
        text = f"{many}Ø{length(one.cut_size, bench.words.units)} drill"
        tips = tuple(
            tip
            for at in places
            for tip in circle_tips(frame.to(axes.plan(at)), one.cut_size / 2 * frame.scale)
        )
        leader = Leader(tips=tips, label=Label(main=text, step=number, passing=True))
        found.append(ways(leader, work=_held_box(bench, plan=True)))
    return found


def _in_front(point: Vec3, bench: _Bench) -> Point2:
    place = bench.axes.on_mill(point)
    return (place[bench.view.across], place[2])


def _on_metal(at: Point2, zero: Zero, bench: _Bench) -> Point2:
    """Put the mark of a height alone on the face that is touched, where there is metal."""
    if _picked_up(zero, "xy"):
        return at
    front = bench.view.front
    points = [point for area in (*front.off, *front.cut) for point in area.outer]
    level = [point for point in points if abs(point[1] - at[1]) < _TOUCHED]
    if not level or any(abs(point[0] - at[0]) < _TOUCHED for point in level):
        return at
    return min(level, key=lambda point: abs(point[0] - at[0]))


def _ground(standing: tuple[Mark, ...], zero_at: Point2 | None) -> Ground:
    areas = [box_of((mark,)) for mark in standing if mark.style in _BODIES]
    keep = [box_of((mark,)) for mark in standing if mark.style in _ON_TOOLS]
    if zero_at is not None:
        keep.append(zero_box(zero_at))
    paper = Box(left=-500, top=-500, right=500, bottom=500)
    return ground_of(standing, paper=paper, areas=areas, keep=keep)


def _wants(bench: _Bench) -> tuple[Wanted, ...]:
    wanted = tuple(sorted(final_wants(bench.worked.wanted), key=lambda want: abs(want.value)))
    places = [want for want in wanted if want.kind == "position"]
    if len(places) > _MOST_POSITIONS:
        return tuple(want for want in wanted if want.kind != "position")
    return wanted


def _axis(want: Wanted, axes: MillAxes) -> int | None:
    """Along which way of the mill a dimension runs: the one its value lies along; None if none."""
    a, b = axes.on_mill(want.a), axes.on_mill(want.b)
    gaps = [abs(i - j) for i, j in zip(a, b, strict=True)]
    nearest = min(range(3), key=lambda number: abs(gaps[number] - want.value))
    return nearest if gaps[nearest] > _SAME else None


def _plan_ways(want: Wanted, bench: _Bench) -> list[list[Candidate]]:
    if want.kind in {"diameter", "thread", "radius"}:
        return [_round_ways(want, bench)]
    axis = _axis(want, bench.axes)
    if axis is None or (axis == _UPWARD and want.kind != "position"):
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
    label = label_of(want, bench.words.units, bench.part.units)
    label = aimed(label, want, abs(a[along] - b[along]), bench.worked.steps, bench.words.units)
    edges: tuple[Edge, ...] = ("below", "above") if along == 0 else ("left", "right")
    return Linear(
        a=frame.to((a[0], a[1])),
        b=frame.to((b[0], b[1])),
        upright=along == 1,
        label=label,
        edges=edges,
    )


def _round_ways(want: Wanted, bench: _Bench) -> list[Candidate]:
    axes, frame = bench.axes, bench.frame
    one, two = axes.plan(want.a), axes.plan(want.b)
    centre = ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2)
    made = [
        op
        for op in bench.worked.set_up.operations
        if op.verb in _HOLES and op.at and set(op.makes) & set(want.surfaces)
    ]
    places = [axes.plan(at) for op in made[-1:] for at in op.at]
    radius = want.value / 2 * frame.scale
    work = _held_box(bench, plan=True)
    if places and not any(math.dist(at, centre) < _SAME_PLACE for at in places):
        label = replace(
            label_of(want, bench.words.units, bench.part.units),
            main=f"{_size(want, bench)} circle",
        )
        holes = [frame.to(at) for at in places]
        tips = between_holes(frame.to(centre), radius, holes)
        return ways(Leader(tips=tips, label=label), work=work)
    label = label_of(want, bench.words.units, bench.part.units)
    if len(places) > 1:
        label = replace(label, main=f"{len(places)} × {label.main}")
    tips = tuple(tip for at in places or [centre] for tip in circle_tips(frame.to(at), radius))
    return ways(Leader(tips=tips, label=label), work=work)


def _size(want: Wanted, bench: _Bench) -> str:
    return label_of(want, bench.words.units, bench.part.units).main


def _front_ways(want: Wanted, bench: _Bench) -> list[list[Candidate]]:
    if (
        want.kind in {"diameter", "thread", "radius", "position"}
        or _axis(want, bench.axes) != _UPWARD
    ):
        return []
    if want.band and any(want.band.text == key.leaves.text for key in keyways(bench.part)):
        return []  # it stands where the key is cut across
    frame, view = bench.frame, bench.view
    a, b = bench.axes.on_mill(want.a), bench.axes.on_mill(want.b)
    right = view.work.high[view.across]
    linear = Linear(
        a=frame.to((right, a[2])),
        b=frame.to((right, b[2])),
        upright=True,
        label=label_of(want, bench.words.units, bench.part.units),
        edges=("right", "left"),
    )
    return [ways(linear, work=_held_box(bench, plan=False))]


def _held_box(bench: _Bench, *, plan: bool) -> Box:
    """Return the rectangle round the work and its jaws, which dimensions lie outside of."""
    frame, view = bench.frame, bench.view
    held = view.plan_held if plan else view.front_held
    points = [point for one in held if one.name != "stop" for point in one.outline]
    room: Room = view.stock
    level = 1 if plan else 2
    across = 0 if plan else view.across
    xs = [room.low[across], room.high[across]]
    ys = [room.low[level], room.high[level], *(point[1] for point in points if plan)]
    return Box(
        left=frame.x(min(xs)),
        right=frame.x(max(xs)),
        top=frame.y(max(ys)),
        bottom=frame.y(min(ys)),
    )
