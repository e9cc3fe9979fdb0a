"""Turned work in half view and half section, as the kernel gives it, in the lathe's own sense.

x runs from the chuck toward the tailstock, whichever way round the part sits.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from halfthou.present.picture.came_off import came_off
from halfthou.present.picture.frame import Frame, above_axis, below_axis
from halfthou.present.picture.hatching import hatched
from halfthou.present.picture.lathe_axes import LatheAxes
from halfthou.present.picture.profile import Reach, most, outline, outside_of
from halfthou.present.picture.sheet import Mark, Path
from halfthou.shapes.flat import Area, Point2, Polyline2
from halfthou.shapes.section import Half, behind_plane, section
from halfthou.shapes.solids import Solid, cut, is_empty
from halfthou.shapes.views import project
from halfthou.units import Millimetre

_ON_AXIS: Final[Millimetre] = 1e-6
_SPECK: Final = 1e-6
_HARDLY_HOLLOW: Final = 0.97
"""Share of the half section that is metal above which centres and oil holes are all there is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfView:
    """The lines and areas of turned work: outside above the axis, cut open below it."""

    outside: tuple[Polyline2, ...]
    outside_below: tuple[Polyline2, ...]
    beyond: tuple[Polyline2, ...]
    cut_below: tuple[Area, ...]
    off_above: tuple[Area, ...]
    off_below: tuple[Area, ...]
    reaches: tuple[Reach, ...]
    reaches_before: tuple[Reach, ...]
    bar: tuple[Reach, ...] = ()
    bar_cut: tuple[Area, ...] = ()
    """What stays in the chuck when the work is parted off: its outline, its lower half cut."""
    open_cut: tuple[Area, ...] = ()
    open_off: tuple[Area, ...] = ()
    """The cut faces of work that is no round at all, above and below the axis."""

    @property
    def solid(self) -> bool:
        """Whether the work has no bore worth cutting open: then it is shown whole (ISO 128)."""
        if self.open_cut:
            return False
        whole = sum(
            (reach.right - reach.left) * (reach.left_radius + reach.right_radius) / 2
            for reach in self.reaches
        )
        return sum(area.size for area in self.cut_below) > _HARDLY_HOLLOW * whole

    @property
    def height(self) -> Millimetre:
        """How far the work reaches up from the axis as one sees it: a block is not round."""
        lines = (*self.outside, *(area.outer for area in self.off_above))
        return max((y for line in lines for _, y in line), default=0.0)

    @property
    def left(self) -> Millimetre:
        """The work's end in the chuck."""
        return self.reaches[0].left

    @property
    def right(self) -> Millimetre:
        """The work's end toward the tailstock."""
        return self.reaches[-1].right

    @property
    def stock_left(self) -> Millimetre:
        """The end in the chuck before this set-up's cuts: what is parted off stays there."""
        return min(self.left, self.reaches_before[0].left if self.reaches_before else self.left)

    @property
    def stock_right(self) -> Millimetre:
        """The same before this set-up's cuts."""
        return max(
            self.right, self.reaches_before[-1].right if self.reaches_before else self.right
        )

    @property
    def radius(self) -> Millimetre:
        """The farthest any metal reaches from the axis, before or after."""
        if self.open_cut:
            return max(self.drop, self.height)
        return max(most(self.reaches), most(self.reaches_before))

    @property
    def drop(self) -> Millimetre:
        """How far the work reaches down from the axis."""
        faces = (*self.cut_below, *self.off_below)
        return max((-y for area in faces for _, y in area.outer), default=0.0)


ON_THE_PART: Final = LatheAxes(x=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0))


def half_view(
    *,
    before: Solid | None,
    after: Solid,
    axes: LatheAxes = ON_THE_PART,
    bar: Solid | None = None,
    cut_open: bool = False,
) -> HalfView:
    """Look at turned work as it stands in the lathe; ``bar`` is what stays there, parted off.

    Work ``cut_open`` is no round: its two halves differ, so it is shown in full section.
    """
    look = _Look(axes)
    aside = LatheAxes(x=axes.x, up=axes.toward, origin=axes.origin)
    whole = look.section(after, "both")
    upper, lower = _halves(whole)
    across = _Look(aside).section(after, "upper")
    off = came_off(before, after) if before is not None else None
    if off is not None and bar is not None:
        off = cut(off, [bar])
    came = look.section(off, "both")
    off_above, off_below = _halves(came)
    bar_above, bar_below = _halves(look.section(bar, "both"))
    outside = look.lines(after)
    behind = look.lines(behind_plane(after, origin=axes.origin, normal=axes.toward))
    return HalfView(
        outside=above_axis(outside),
        outside_below=below_axis(outside),
        beyond=behind if cut_open else below_axis(behind),
        cut_below=lower,
        off_above=off_above,
        off_below=off_below,
        reaches=outside_of(upper if cut_open else (*upper, *across)),
        reaches_before=outside_of(look.section(before, "upper")),
        bar=outside_of(bar_above),
        bar_cut=bar_below,
        open_cut=whole if cut_open else (),
        open_off=came if cut_open else (),
    )


def _halves(areas: tuple[Area, ...]) -> tuple[tuple[Area, ...], tuple[Area, ...]]:
    """Part cut faces along the axis, y = 0: what lies above it, and what below."""
    return _one_half(areas, 1.0), _one_half(areas, -1.0)


def _one_half(areas: tuple[Area, ...], sense: float) -> tuple[Area, ...]:
    found: list[Area] = []
    for area in areas:
        outer = _clipped(area.outer, sense)
        if not outer:
            continue
        holes = tuple(hole for hole in (_clipped(one, sense) for one in area.holes) if hole)
        size = _size(outer) - sum(_size(hole) for hole in holes)
        found.append(Area(outer=outer, holes=holes, size=size))
    return tuple(sorted(found, key=lambda area: area.size, reverse=True))


def _clipped(loop: Polyline2, sense: float) -> Polyline2:
    """Return what of a closed line lies on one side of y = 0; nothing if it has no size there."""
    kept: list[Point2] = []
    for a, b in pairwise((*loop, loop[0])):
        above = (sense * a[1] >= -_ON_AXIS, sense * b[1] >= -_ON_AXIS)
        if above[0]:
            kept.append(a if sense * a[1] > 0 else (a[0], 0.0))
        if above[0] != above[1]:
            share = a[1] / (a[1] - b[1])
            kept.append((a[0] + share * (b[0] - a[0]), 0.0))
    line = tuple(point for n, point in enumerate(kept) if point != kept[n - 1])
    return line if len(line) > 2 and _size(line) > _SPECK else ()  # noqa: PLR2004


def _size(loop: Polyline2) -> float:
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*loop, loop[0])))) / 2


class _Look:
    """Views and sections of work on a lathe, moved so that its axis is y = 0."""

    def __init__(self, axes: LatheAxes) -> None:
        self._axes = axes

    def lines(self, solid: Solid) -> tuple[Polyline2, ...]:
        """Return the lines in sight from the operator's side."""
        view = project(solid, direction=self._axes.toward, up=self._axes.up)
        return tuple(self._moved(line) for line in view.visible)

    def section(self, solid: Solid | None, half: Half) -> tuple[Area, ...]:
        """Cut a solid open along the axis."""
        if solid is None or is_empty(solid):
            return ()
        axes = self._axes
        cut_open = section(solid, origin=axes.origin, normal=axes.toward, up=axes.up, half=half)
        return tuple(
            replace(
                area,
                outer=self._moved(area.outer),
                holes=tuple(self._moved(hole) for hole in area.holes),
            )
            for area in cut_open
        )

    def _moved(self, line: Polyline2) -> Polyline2:
        height = self._axes.height
        return tuple((x, y - height) for x, y in line) if height else line


def drawn_half_view(view: HalfView, frame: Frame) -> tuple[Mark, ...]:
    """Draw the work on the sheet: what comes off in orange, what stays in black."""
    marks = _cut_right_open(view, frame) if view.open_cut else _in_halves(view, frame)
    past = 4.0
    ends = (
        (frame.x(view.left) - past, frame.at[1]),
        (frame.x(view.stock_right) + past, frame.at[1]),
    )
    return (*marks, Path(lines=(ends,), style="centre"))


def _in_halves(view: HalfView, frame: Frame) -> list[Mark]:
    above = frame.lines(outline(view.reaches))
    marks: list[Mark] = [*_bar(view, frame), *hatched(view.off_above, frame, "removed")]
    marks += _outside(view.outside, above, frame)
    return [
        *marks,
        *(_whole_below(view, frame, above) if view.solid else _open_below(view, frame)),
    ]


def _cut_right_open(view: HalfView, frame: Frame) -> list[Mark]:
    marks: list[Mark] = [*hatched(view.open_off, frame, "removed", half=False)]
    if view.beyond:
        marks.append(Path(lines=frame.lines(view.beyond), style="edge"))
    return [*marks, *hatched(view.open_cut, frame, "section", half=False)]


def _bar(view: HalfView, frame: Frame) -> list[Mark]:
    """Draw the bar that the work is parted off from."""
    if not view.bar:
        return []
    above = frame.lines(outline(view.bar))
    if not view.solid:
        return [*_outside((), above, frame), *hatched(view.bar_cut, frame, "section")]
    axis = frame.at[1]
    below = [tuple((x, 2 * axis - y) for x, y in figure) for figure in above]
    return [*_outside((), above, frame), *_outside((), below, frame)]


def _open_below(view: HalfView, frame: Frame) -> list[Mark]:
    marks: list[Mark] = [*hatched(view.off_below, frame, "removed")]
    if view.beyond:
        marks.append(Path(lines=frame.lines(view.beyond), style="edge"))
    return [*marks, *hatched(view.cut_below, frame, "section")]


def _whole_below(view: HalfView, frame: Frame, above: tuple[Polyline2, ...]) -> list[Mark]:
    axis = frame.at[1]
    below = [tuple((x, 2 * axis - y) for x, y in figure) for figure in above]
    marks: list[Mark] = [*hatched(view.off_below, frame, "removed")]
    return [*marks, *_outside(view.outside_below, below, frame)]


def _outside(
    lines: tuple[Polyline2, ...], figures: Sequence[Polyline2], frame: Frame
) -> list[Mark]:
    """Draw one side of the work: its outline heavy, edges on it thin, so that they do not clog."""
    marks: list[Mark] = [
        Path(lines=(figure,), style="silhouette", closed=True) for figure in figures
    ]
    if lines:
        marks.append(Path(lines=frame.lines(lines), style="edge"))
    return [*marks, Path(lines=tuple(figures), style="outline")]
