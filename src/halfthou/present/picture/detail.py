"""A narrow groove of turned work drawn again four times larger: its sizes would coincide."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from halfthou.planning.worked import Wanted, WorkedSetUp
from halfthou.present.figures import length
from halfthou.present.picture.crowding import Candidate, box_hits, ground_of, segments_of
from halfthou.present.picture.devices_lathe import broken
from halfthou.present.picture.dimensions import Linear, ways
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.half_view import HalfView
from halfthou.present.picture.label import Label
from halfthou.present.picture.placing import place
from halfthou.present.picture.profile import Reach
from halfthou.present.picture.sheet import (
    SMALL_TEXT,
    Box,
    Disc,
    Mark,
    Path,
    Words,
    box_of,
    box_of_words,
    shifted,
)
from halfthou.present.picture.tools_at_work import Lie
from halfthou.present.picture.wording import PictureWords, label_of
from halfthou.present.picture.zero import note_ways
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

_TIMES: Final = 4.0
_NARROW: Final[Millimetre] = 5.0
"""On paper: a groove wider than this is clear enough where it is."""
_PAPER: Final = Box(left=-500, top=-500, right=500, bottom=500)
_NAME: Final = "B"
_STEP: Final[Millimetre] = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """A groove to be drawn again: where it is along the lathe, and what its step is."""

    left: Millimetre
    right: Millimetre
    step: int
    bottom: Millimetre
    """Its radius."""

    @property
    def start(self) -> Millimetre:
        """Where what is drawn begins."""
        return self.left - 1.1 * (self.right - self.left)

    @property
    def end(self) -> Millimetre:
        """Where what is drawn ends."""
        return self.right + 1.1 * (self.right - self.left)

    def has(self, want: Wanted, lie: Lie) -> bool:
        """Whether a length ends here and comes from elsewhere: its end is seen larger."""
        if want.kind not in {"length", "depth"} or not want.temporary:
            return False
        ends = sorted(lie.sense * end[0] for end in (want.a, want.b))
        return self.start < ends[0] < self.end < ends[1]


def detail_of(worked: WorkedSetUp, lie: Lie) -> Detail | None:
    """Find an outside groove too narrow for its sizes at this scale."""
    for step in worked.steps:
        for one in step.operations:
            if one.verb != "groove" or one.inside:
                continue
            ends = sorted((lie.sense * one.starts, lie.sense * one.ends))
            if 0 < (ends[1] - ends[0]) * lie.frame.scale < _NARROW:
                return Detail(
                    left=ends[0], right=ends[1], step=step.number, bottom=one.cut_size / 2
                )
    return None


def detail_ring(detail: Detail, lie: Lie) -> tuple[Disc, list[Candidate]]:
    """Return the ring round the groove, above the axis, and the ways to letter it."""
    frame = lie.frame
    radius = (detail.end - detail.start) / 2 * frame.scale
    centre = frame.to(((detail.left + detail.right) / 2, detail.bottom))
    ring = Disc(centre=centre, radius=radius, style="thread")
    name = note_ways(_NAME, at=centre, style="words", line="dimension", clear=radius)
    return ring, [way for way in name if way.lines[0][1][1] < centre[1] - radius]


def drawn_detail(
    detail: Detail, wanted: Iterable[Wanted], lie: Lie, words: PictureWords
) -> tuple[Mark, ...]:
    """Draw the groove larger, about (0, 0), with its width and the sizes that end at it."""
    scale = _TIMES * lie.frame.scale
    frame = Frame(at=(-scale * detail.left, scale * detail.bottom), scale=scale)
    top = _outline(lie.view, detail)
    foot = frame.y(detail.bottom) + 4.5
    line = frame.line(top)
    side = (line[-1], (line[-1][0], foot)), ((line[0][0], foot), line[0])
    figure = (*line, *broken(*side[0]), *broken(*side[1]))
    standing: list[Mark] = [
        Path(lines=(figure,), style="silhouette", closed=True),
        Path(lines=(broken(*side[0]), broken(*side[1])), style="fine edge"),
        Path(lines=(line,), style="outline"),
    ]
    box = box_of(standing)
    level = frame.y(detail.bottom)
    wide = Linear(
        a=(frame.x(detail.left), level),
        b=(frame.x(detail.right), level),
        upright=False,
        label=Label(main=length(detail.right - detail.left, words.units), step=detail.step),
        edges=("above",),
    )
    wishes = [ways(wide, work=box)]
    for want in wanted:
        near = frame.x(min(lie.sense * want.a[0], lie.sense * want.b[0]))
        run = Linear(
            a=(near, level),
            b=(box.right + 8.0, level),
            upright=False,
            label=label_of(want, words.units),
            edges=("below",),
            half=True,
        )
        wishes.append(ways(run, work=box))
    placed = place(wishes, ground_of(standing, paper=_PAPER))
    own = box_of((*standing, *placed))
    name = Words(
        at=(own.left, own.bottom + 4.6), text=f"{_NAME}, {_TIMES:g} times larger", size=SMALL_TEXT
    )
    return (*standing, *placed, name)


def _outline(view: HalfView, detail: Detail) -> tuple[Point2, ...]:
    points: list[Point2] = []
    for reach in view.reaches:
        left, right = max(reach.left, detail.start), min(reach.right, detail.end)
        if left < right:
            points += [(left, _radius(reach, left)), (right, _radius(reach, right))]
    return tuple(points)


def _radius(reach: Reach, x: Millimetre) -> Millimetre:
    share = (x - reach.left) / (reach.right - reach.left)
    return reach.left_radius + share * (reach.right_radius - reach.left_radius)


def with_detail(marks: Sequence[Mark], own: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """Lay the detail where the sheet is empty, or beside everything."""
    box, room = box_of(own), box_of(marks)
    lines = segments_of(marks)
    taken = [box_of_words(mark) for mark in marks if isinstance(mark, Words)]
    taken += [box_of((mark,)) for mark in marks if mark.style in {"holding", "tool", "ghost"}]
    for down in range(int((room.height - box.height) / _STEP) + 1):
        for back in range(int((room.width - box.width) / _STEP) + 1):
            right, bottom = room.right - back * _STEP, room.bottom - down * _STEP
            spot = Box(left=right - box.width, right=right, top=bottom - box.height, bottom=bottom)
            wide = spot.grown(2.0)
            if not box_hits(wide, lines) and not any(wide.meets(one) for one in taken):
                return (*marks, *shifted(own, (spot.left - box.left, spot.top - box.top)))
    beside = (room.right + 5.0 - box.left, room.middle[1] - box.middle[1])
    return (*marks, *shifted(own, beside))
