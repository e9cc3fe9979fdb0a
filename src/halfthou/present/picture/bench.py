"""Pictures of bench work: where the saw goes in the bar, and what is marked out on a face."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from halfthou.present.picture.crowding import Candidate, ground_of
from halfthou.present.picture.devices_lathe import broken
from halfthou.present.picture.dimensions import Leader, Linear, ways
from halfthou.present.picture.fitting import fitted
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.hole_marks import circle_tips
from halfthou.present.picture.label import Label
from halfthou.present.picture.placing import place
from halfthou.present.picture.sheet import Box, Disc, Mark, Path, Sheet, svg
from halfthou.present.picture.tools import feed_arrow
from halfthou.present.picture.zero import note_ways, zero_mark
from halfthou.shapes.flat import Point2, Polyline2
from halfthou.shapes.solids import Solid
from halfthou.shapes.views import Side, seen_from
from halfthou.units import Millimetre

_PAPER: Final = Box(left=-900, top=-900, right=900, bottom=900)
_BLADE: Final[Millimetre] = 1.4
_STUMP: Final[Millimetre] = 14.0
_ROOM: Final[Point2] = (118.0, 60.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawing:
    """A length to saw off a bar: ``length`` [mm] and ``across`` [mm], with their words."""

    length: Millimetre
    across: Millimetre
    length_label: Label
    across_label: Label
    round_bar: bool = True


def sawing_picture(sawing: Sawing, *, title: str, description: str, room: Point2 = _ROOM) -> str:
    """Draw the bar as SVG, the saw at its length."""
    return svg(sawing_sheet(sawing, title=title, description=description, room=room))


def sawing_sheet(sawing: Sawing, *, title: str, description: str, room: Point2 = _ROOM) -> Sheet:
    """Draw the bar on a sheet: the piece wanted on the right, the rest of the bar broken off."""

    def drawn(scale: float) -> tuple[Mark, ...]:
        return _sawn(sawing, scale)

    size = (sawing.length, sawing.across)
    return fitted(drawn, size=size, room=room, title=title, description=description)


def _sawn(sawing: Sawing, scale: float) -> tuple[Mark, ...]:
    half, long = sawing.across / 2 * scale, sawing.length * scale
    start = -_BLADE - _STUMP
    rest: Polyline2 = (
        (-_BLADE, -half),
        *broken((start, -half), (start, half)),
        (-_BLADE, half),
    )
    piece = ((0.0, -half), (long, -half), (long, half), (0.0, half))
    blade = (
        (-_BLADE, -half - 9.0),
        (0.0, -half - 9.0),
        (0.0, half - 0.3 * half),
        (-_BLADE, half - 0.3 * half),
    )
    axis = ((start - 3.0, 0.0), (long + 4.0, 0.0))
    standing: list[Mark] = [
        Path(lines=(rest,), style="holding", closed=True),
        Path(lines=(piece,), style="section", closed=True),
        Path(lines=(piece,), style="outline", closed=True),
        Path(lines=(blade,), style="tool", closed=True),
        feed_arrow(at=(-_BLADE - 3.6, -half - 4.6), way=(0.0, 1.0), long=7.0),
    ]
    if sawing.round_bar:
        standing.append(Path(lines=(axis,), style="centre"))
    work = Box(left=0.0, right=long, top=-half, bottom=half)
    length = Linear(
        a=(0.0, half), b=(long, half), upright=False, label=sawing.length_label, edges=("below",)
    )
    across = Linear(
        a=(long, -half), b=(long, half), upright=True, label=sawing.across_label, edges=("right",)
    )
    wishes = [ways(length, work=work), ways(across, work=work)]
    return (*standing, *place(wishes, ground_of(standing, paper=_PAPER)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line to scribe on a face, in the view's own mm, upright or level, and its distance."""

    upright: bool
    at: Millimetre
    zero: Millimetre
    label: Label


@dataclass(frozen=True, slots=True, kw_only=True)
class Pop:
    """A centre-pop, with the circle to scribe round it if its diameter is not 0."""

    at: Point2
    diameter: Millimetre
    label: Label | None = None


def marking_sheet(
    work: Solid,
    *,
    side: Side,
    lines: Sequence[Line],
    pops: Sequence[Pop],
    zero: Point2 | None,
    words: tuple[str, str, str],
    room: Point2 = (118.0, 100.0),
) -> Sheet:
    """Draw a face as it is marked out; ``words``: the title, the description, the zero's name."""
    view = seen_from(work, side)
    title, description, zero_words = words

    def drawn(scale: float) -> tuple[Mark, ...]:
        frame = Frame(at=(0.0, 0.0), scale=scale)
        box = frame.box(view.extent)
        standing: list[Mark] = [Path(lines=frame.lines(view.visible), style="outline")]
        standing += [_scribed(one, frame, box) for one in lines]
        standing += [mark for pop in pops for mark in _popped(pop, frame)]
        if zero is not None:
            standing += zero_mark(frame.to(zero))
        wishes: list[list[Candidate]] = [_height(one, frame, box) for one in lines]
        wishes += [_pop_ways(pop, frame, box) for pop in pops if pop.label is not None]
        if zero is not None:
            wishes.append(note_ways(zero_words, at=frame.to(zero)))
        return (*standing, *place(wishes, ground_of(standing, paper=_PAPER)))

    size = (view.extent.width, view.extent.height)
    return fitted(drawn, size=size, room=room, title=title, description=description)


def _scribed(line: Line, frame: Frame, box: Box) -> Mark:
    if line.upright:
        x = frame.x(line.at)
        ends = ((x, box.top + 0.6), (x, box.bottom - 0.6))
    else:
        y = frame.y(line.at)
        ends = ((box.left + 0.6, y), (box.right - 0.6, y))
    return Path(lines=(ends,), style="scribed")


def _popped(pop: Pop, frame: Frame) -> tuple[Mark, ...]:
    at = frame.to(pop.at)
    dot = Disc(centre=at, radius=0.55, style="pop")
    if not pop.diameter:
        return (dot,)
    return (Disc(centre=at, radius=pop.diameter / 2 * frame.scale, style="scribed"), dot)


def _height(line: Line, frame: Frame, box: Box) -> list[Candidate]:
    if line.upright:
        a, b = (frame.x(line.zero), box.bottom), (frame.x(line.at), box.bottom)
        linear = Linear(a=a, b=b, upright=False, label=line.label, edges=("below", "above"))
    else:
        a, b = (box.left, frame.y(line.zero)), (box.left, frame.y(line.at))
        linear = Linear(a=a, b=b, upright=True, label=line.label, edges=("left", "right"))
    return ways(linear, work=box)


def _pop_ways(pop: Pop, frame: Frame, box: Box) -> list[Candidate]:
    label = pop.label or Label(main="")
    tips = circle_tips(frame.to(pop.at), max(0.8, pop.diameter / 2 * frame.scale))
    return ways(Leader(tips=tips, label=label), work=box)
