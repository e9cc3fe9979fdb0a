"""The picture of a set-up on the lathe: half view above, half section below."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Scheme
from halfthou.planning.worked import Wanted, WorkedSetUp
from halfthou.present.picture.along_axis import length_ways
from halfthou.present.picture.came_off import left_in_the_chuck
from halfthou.present.picture.crowding import Candidate, ground_of
from halfthou.present.picture.detail import (
    Detail,
    detail_of,
    detail_ring,
    drawn_detail,
    with_detail,
)
from halfthou.present.picture.devices_lathe import (
    Grip,
    fixed_steady,
    lathe_device,
    spots_between,
    tail_centre,
)
from halfthou.present.picture.dimensions import ARROW, Leader, Linear, ways
from halfthou.present.picture.fitting import fitted
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.half_view import HalfView, drawn_half_view, half_view
from halfthou.present.picture.holding_names import note_at
from halfthou.present.picture.label import Label, length_of
from halfthou.present.picture.lathe_axes import LatheAxes, lathe_axes
from halfthou.present.picture.placing import place
from halfthou.present.picture.pointers import pointer_ways
from halfthou.present.picture.profile import radius_at
from halfthou.present.picture.sheet import Box, Mark, Sheet, box_of, svg
from halfthou.present.picture.thread_lines import thread_lines, threads_cut
from halfthou.present.picture.thrown_end import thrown_end, with_end
from halfthou.present.picture.tools_at_work import Lie, tools_at_work
from halfthou.present.picture.wording import PictureWords, final_wants, label_of, ruled
from halfthou.present.picture.zero import note_ways, zero_box, zero_mark
from halfthou.present.words_held import Held, copper_words
from halfthou.shapes.flat import Point2
from halfthou.shapes.solids import Solid
from halfthou.units import Millimetre

CARD_ROOM: Final[Point2] = (118.0, 105.0)
"""Room for the picture on an A4 card beside the notes [mm]."""
_ON_THE_WORK: Final = frozenset(("diameter", "thread"))
_FAR: Final[Millimetre] = 14.0
_PACKED: Final = "packing behind the work"
_PARALLELS: Final = "parallels against the faceplate"
_AGAINST: Final[Millimetre] = 0.5
_STEADY_BEHIND: Final[Millimetre] = 16.0
"""From the end of the work back to the steady. [mm]"""
_JAWS: Final = frozenset(("three-jaw chuck", "four-jaw chuck", "soft jaws"))
_BODIES: Final = frozenset(("holding", "tool", "ghost"))
_ON_TOOLS: Final = frozenset(("feed", "ghost feed", "tool number"))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """One drawing of a set-up at one scale."""

    view: HalfView
    frame: Frame
    axes: LatheAxes


def turned_picture(
    part: Part,
    worked: WorkedSetUp,
    *,
    before: Solid,
    after: Solid,
    words: PictureWords,
    room: Point2 = CARD_ROOM,
) -> str:
    """Draw a lathe set-up as SVG: the work at its end, what came off, what to read."""
    return svg(turned_sheet(part, worked, before=before, after=after, words=words, room=room))


def turned_sheet(
    part: Part,
    worked: WorkedSetUp,
    *,
    before: Solid,
    after: Solid,
    words: PictureWords,
    room: Point2 = CARD_ROOM,
) -> Sheet:
    """Draw a lathe set-up on a sheet no larger than ``room``."""
    axes = lathe_axes(worked, turned=part.turned or not part.features)
    bar = left_in_the_chuck(before, worked.set_up.operations)
    on_plate = worked.set_up.scheme.device.device == "angle plate"
    view = half_view(before=before, after=after, axes=axes, bar=bar, cut_open=on_plate)

    def drawn(scale: float) -> tuple[Mark, ...]:
        bench = _Bench(view=view, frame=Frame(at=(0.0, 0.0), scale=scale), axes=axes)
        return _drawn(part, worked, bench, words)

    size = (view.stock_right - view.left, 2 * view.radius)
    return fitted(drawn, size=size, room=room, title=words.title, description=words.description)


def _drawn(
    part: Part, worked: WorkedSetUp, bench: _Bench, words: PictureWords
) -> tuple[Mark, ...]:
    scheme = worked.set_up.scheme
    frame, view = bench.frame, bench.view
    grip = _grip(part, worked, bench)
    holding = _holding(scheme, bench, grip)
    work = drawn_half_view(view, frame)
    zero_at = None if worked.zero is None else _to_paper(worked.zero.at, bench)
    zero = () if zero_at is None else zero_mark(zero_at)
    lie = Lie(view=view, frame=frame, sense=bench.axes.sense)
    shown = tools_at_work(
        worked,
        lie,
        taken=[box_of((mark,)) for mark in holding if mark.style == "holding"],
    )
    tool = shown.marks
    cut_threads = threads_cut(worked.set_up.operations, sense=bench.axes.sense)
    threads = thread_lines(cut_threads, frame, solid=view.solid)
    detail = detail_of(worked, lie)
    ring, name = _ringed(detail, lie)
    standing = (*holding, *work, *threads, *tool, *ring, *zero)
    wanted = sorted(final_wants(worked.wanted), key=lambda want: abs(want.value))
    larger = [want for want in wanted if detail is not None and detail.has(want, lie)]
    wishes = [_ways(part, want, bench, tool, words) for want in wanted if want not in larger]
    wishes += name
    wishes.append(_out_ways(scheme, bench, words))
    wishes += [note_at(text, spots) for text, spots in spots_between(grip).items()]
    wishes += pointer_ways(
        worked,
        {want.step for want in wanted},
        shown=shown.steps,
        lie=lie,
        units=words.units,
        work=_work_box(bench, tool),
    )
    if zero_at is not None and words.zero:
        wishes.append(note_ways(words.zero, at=zero_at))
    ground = ground_of(
        standing,
        paper=Box(left=-500, top=-500, right=500, bottom=500),
        areas=[box_of((mark,)) for mark in (*holding, *tool) if mark.style in _BODIES],
        keep=[*_kept_clear(tool), *([] if zero_at is None else [zero_box(zero_at)])],
    )
    drawn = (*standing, *place(_in_order(wishes), ground))
    end = thrown_end(part, worked, words)
    if detail is not None:
        drawn = with_detail(drawn, drawn_detail(detail, larger, lie, words))
    return with_end(drawn, end) if end else drawn


def _ringed(detail: Detail | None, lie: Lie) -> tuple[tuple[Mark, ...], list[list[Candidate]]]:
    if detail is None:
        return (), []
    ring, name = detail_ring(detail, lie)
    return (ring,), [name]


def _kept_clear(tool: tuple[Mark, ...]) -> list[Box]:
    """Return the arrows and numbers on tools: no line goes over them."""
    return [box_of((mark,)) for mark in tool if mark.style in _ON_TOOLS]


def _out_ways(scheme: Scheme, bench: _Bench, words: PictureWords) -> list[Candidate]:
    """Dimension how far raw work stands out, where only a rule sets it."""
    view = bench.view
    raw = all(name.startswith("stock") for name in scheme.grips) and not scheme.seats
    if not raw or not scheme.grips or scheme.device.device not in _JAWS:
        return []
    jaws = _gripped(scheme, bench)[1]
    label = Label(main=f"{ruled(view.stock_right - jaws, words.units)} out", passing=True)
    return length_ways(
        (jaws, view.stock_right),
        label,
        reaches=(*view.reaches_before, *view.reaches),
        frame=bench.frame,
        work=_work_box(bench, ()),
    )


def _in_order(wishes: list[list[Candidate]]) -> list[list[Candidate]]:
    return [wish for wish in wishes if wish]


def _to_paper(point: tuple[float, float, float], bench: _Bench) -> Point2:
    return bench.frame.to(bench.axes.flat(point))


def _grip(part: Part, worked: WorkedSetUp, bench: _Bench) -> Grip:
    frame, view, scheme = bench.frame, bench.view, worked.set_up.scheme
    ends = _gripped(scheme, bench)
    held = Held(scheme=scheme, part=part, units="mm", standing=(0.0, 0.0))
    jaws = scheme.device.device in _JAWS
    return Grip(
        left=frame.x(ends[0]),
        right=frame.x(ends[1]),
        radius=frame.scale * _gripped_radius(scheme, bench, ends),
        axis=frame.at[1],
        work=frame.scale * view.radius,
        work_left=frame.x(view.stock_left),
        room_left=frame.x(view.stock_left) - 22.0,
        inside=scheme.inside,
        backed=bool(scheme.seats) and view.stock_left > ends[0] - _AGAINST,
        soft=scheme.device.device == "soft jaws",
        scale=frame.scale,
        thrown=frame.scale * math.hypot(*scheme.throw),
        copper=jaws and bool(copper_words(held)),
        packed=jaws and any(_PACKED in note.lower() for note in worked.hold_notes),
        drop=frame.scale * view.drop if view.open_cut else 0.0,
        work_right=frame.x(view.right),
        soft_screw=scheme.device.device == "centres",
        parallels=any(_PARALLELS in note.lower() for note in worked.hold_notes),
    )


def _holding(scheme: Scheme, bench: _Bench, grip: Grip) -> tuple[Mark, ...]:
    frame, view = bench.frame, bench.view
    ends = _gripped(scheme, bench)
    marks = lathe_device(scheme.device.device, grip)
    if any(link.holder.device == "fixed steady" for link in scheme.links):
        at = view.right - min(_STEADY_BEHIND, 0.3 * (view.right - ends[1]))
        radius = frame.scale * radius_at(view.reaches, at)
        marks = (*marks, *fixed_steady((frame.x(at), frame.at[1]), radius=radius))
    if not scheme.centre:
        return marks
    radius = frame.scale * radius_at(view.reaches, view.right - 1e-3)
    end = (frame.x(view.right), frame.at[1])
    return (*marks, *tail_centre(at=end, depth=min(2.6, 0.35 * radius), radius=radius))


def _gripped(scheme: Scheme, bench: _Bench) -> tuple[float, float]:
    """Where the jaws bear along the lathe; a driver sits on the end by the spindle."""
    sense, view = bench.axes.sense, bench.view
    low, high = sorted((sense * scheme.grip_low, sense * scheme.grip_high))
    if scheme.device.device == "centres":
        return view.left + 1.0, min(view.left + 10.0, max(high, view.left + 4.0))
    return low, high


def _gripped_radius(scheme: Scheme, bench: _Bench, ends: tuple[float, float]) -> float:
    radius = min(scheme.grip_size / 2, bench.view.height)
    if scheme.device.device == "centres" or not radius:
        return radius_at(bench.view.reaches, (ends[0] + ends[1]) / 2)
    return radius


def _ways(
    part: Part, want: Wanted, bench: _Bench, tool: tuple[Mark, ...], words: PictureWords
) -> list[Candidate]:
    label = label_of(want, words.units, part.units)
    work = _work_box(bench, tool)
    if want.kind in _ON_THE_WORK:
        return _diameter_ways(part, want, bench, label, work)
    low, high = sorted((bench.axes.along(want.a), bench.axes.along(want.b)))
    return length_ways(
        (low, high),
        label,
        reaches=bench.view.reaches,
        frame=bench.frame,
        work=work,
        below_first=want.kind == "depth",
    )


def _work_box(bench: _Bench, tool: tuple[Mark, ...]) -> Box:
    """Return what dimensions lie around: the work, and a boring bar or drill in its line."""
    frame, view = bench.frame, bench.view
    right = frame.x(view.stock_right)
    if tool:
        box = box_of(tool)
        if box.left >= right - 12.0 and box.top < frame.at[1] + 1.0:
            right = max(right, box.right - 3.0)
    return Box(
        left=frame.x(view.left),
        right=right,
        top=frame.y(view.radius),
        bottom=frame.y(-view.radius),
    )


def _diameter_ways(
    part: Part, want: Wanted, bench: _Bench, label: Label, work: Box
) -> list[Candidate]:
    frame = bench.frame
    radius = want.value / 2
    low, high = _span_of(part, want, bench)
    right = frame.x(high)
    inside = bool(want.surfaces) and _inside(part, want)
    foot = frame.y(-radius)
    half = min(frame.at[1] - 5.0, foot - length_of(label) - 2 * ARROW - 1.5)
    beside = Linear(
        a=(right, half if inside else frame.y(radius)),
        b=(right, foot),
        upright=True,
        label=label,
        edges=("right",),
        half=inside,
    )
    found = ways(beside, work=work)
    if not inside:
        tips = tuple(
            ((frame.x(low + share * (high - low)), frame.y(side * radius)), (sideways, -side))
            for side in (1.0, -1.0)
            for share in (0.5, 0.3, 0.7, 0.15, 0.85)
            for sideways in (0.5, -0.5, 0.16, -0.16)
        )
        found += ways(Leader(tips=tips, label=label), work=work)
    return found


def _span_of(part: Part, want: Wanted, bench: _Bench) -> tuple[float, float]:
    """Where the measured surface begins and ends along the lathe, as far as there is metal."""
    ends = [want.a, want.b]
    for name in want.surfaces[:1]:
        try:
            surface = part.surface(name)
        except KeyError:
            continue
        ends = [surface.low, surface.high]
    low, high = sorted(bench.axes.along(end) for end in ends)
    return max(low, bench.view.left), min(high, bench.view.right)


def _inside(part: Part, want: Wanted) -> bool:
    for name in want.surfaces[:1]:
        try:
            return part.surface(name).inside
        except KeyError:
            return False
    return False
