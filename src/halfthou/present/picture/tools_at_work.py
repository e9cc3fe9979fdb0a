"""Which tools of a lathe set-up to show, and where they stand.

The tool of the main cut is drawn filled, tools that cut elsewhere as outlines, each with the
numbers of its steps.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from halfthou.planning.model import Operation, Verb
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.half_view import HalfView
from halfthou.present.picture.sheet import Box, Mark, box_of
from halfthou.present.picture.tools import Glyph, ToolPlace, as_ghost, lathe_tool
from halfthou.units import Millimetre

_GLYPHS: Final[dict[Verb, Glyph]] = {
    "face": "facing tool",
    "turn": "knife tool",
    "turn taper": "knife tool",
    "groove": "parting tool",
    "part off": "parting tool",
    "chamfer": "chamfer tool",
    "thread": "screwcutting tool",
    "bore": "boring tool",
    "centre": "centre drill",
    "spot": "centre drill",
    "drill": "drill",
    "ream": "reamer",
    "tap": "tap",
    "countersink": "drill",
    "counterbore": "drill",
}
_WEIGHT: Final[dict[Glyph, float]] = {"chamfer tool": 0.2, "centre drill": 0.3, "facing tool": 0.6}
_ON_AXIS: Final = frozenset(("centre drill", "drill", "reamer", "tap"))
_BORING: Final = frozenset(("boring tool", "inside screwcutting tool"))
_NOT_BESIDE: Final[frozenset[Glyph]] = frozenset(("facing tool", "chamfer tool"))
"""Tools that are only drawn for the main cut: they would stand where others do."""
_ALONG_THE_CUT: Final = (0.25, 0.45, 0.65, 0.1, 0.85)
_MOST_NUMBERS: Final = 3
_CLEAR: Final[Millimetre] = 4.2
"""From the work to a tool at rest before it: the zero mark stands between."""
_APART: Final[Millimetre] = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """How the work lies on the sheet; ``sense`` is −1 where the lathe's x runs against it."""

    view: HalfView
    frame: Frame
    sense: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolsShown:
    """The tools drawn, and the steps they stand for."""

    marks: tuple[Mark, ...]
    steps: frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Turn:
    """One tool at one place, and the steps in which it cuts there."""

    operation: Operation
    glyph: Glyph
    steps: tuple[int, ...]

    @property
    def weight(self) -> float:
        return self.operation.minutes * _WEIGHT.get(self.glyph, 1.0)


def tools_at_work(worked: WorkedSetUp, lie: Lie, *, taken: Sequence[Box] = ()) -> ToolsShown:
    """Draw the tool of the main cut, and others that cut elsewhere where there is room.

    ``taken`` is paper where no tool may stand.
    """
    turns = sorted(_turns(worked), key=lambda turn: -turn.weight)
    marks: list[Mark] = []
    steps: set[int] = set()
    boxes = list(taken)
    for rank, turn in _fixed_ones_first(turns):
        if rank and (turn.glyph in _NOT_BESIDE or _comes_by_tailstock(turn, worked)):
            continue
        drawn = _with_room(turn, boxes, lie, must=rank == 0)
        if drawn is None:
            continue
        marks += as_ghost(drawn) if rank else drawn
        boxes.append(box_of(drawn).grown(_APART))
        steps |= set(turn.steps)
    return ToolsShown(marks=tuple(marks), steps=frozenset(steps))


def _fixed_ones_first(turns: Sequence[_Turn]) -> list[tuple[int, _Turn]]:
    """Rank tools by weight, those that can only stand at one place before those that may shift."""
    ranked = list(enumerate(turns))
    return sorted(ranked, key=lambda one: one[1].glyph != "parting tool")


def _comes_by_tailstock(turn: _Turn, worked: WorkedSetUp) -> bool:
    """Whether a tool works from the right on the axis, where a centre stands in this set-up."""
    return worked.set_up.scheme.centre and turn.glyph in _ON_AXIS | _BORING


def _turns(worked: WorkedSetUp) -> list[_Turn]:
    """Gather the steps in which one tool works at one place."""
    numbered = [(step.number, one) for step in worked.steps for one in step.operations]
    numbered = numbered or [(0, one) for one in worked.set_up.operations]
    groups: dict[tuple[str, str], list[tuple[int, Operation]]] = {}
    for number, one in numbered:
        if one.verb not in _GLYPHS:
            continue
        glyph = _glyph(one)
        key = ("on axis", "") if glyph in _ON_AXIS else (glyph, one.feature)
        groups.setdefault(key, []).append((number, one))
    found: list[_Turn] = []
    for group in groups.values():
        main = max((one for _, one in group), key=lambda one: one.minutes * _weight_of(one))
        steps = sorted({number for number, _ in group if number})
        found.append(
            _Turn(operation=main, glyph=_glyph(main), steps=tuple(steps[-_MOST_NUMBERS:]))
        )
    return found


def _weight_of(operation: Operation) -> float:
    return _WEIGHT.get(_glyph(operation), 1.0)


def _with_room(
    turn: _Turn, boxes: Sequence[Box], lie: Lie, *, must: bool
) -> tuple[Mark, ...] | None:
    """Draw a tool where it stands clear of others; None if it cannot and need not be drawn."""
    drawn: tuple[Mark, ...] | None = None
    for share in _ALONG_THE_CUT:
        place = _place(turn.operation, turn.glyph, lie, share)
        marks = lathe_tool(turn.glyph, replace(place, numbers=turn.steps))
        own = box_of(marks)
        if not any(own.meets(box) for box in boxes):
            return marks
        drawn = drawn or marks
    return drawn if must else None


def _glyph(operation: Operation) -> Glyph:
    if operation.verb == "thread" and operation.inside:
        return "inside screwcutting tool"
    return _GLYPHS[operation.verb]


def _place(operation: Operation, glyph: Glyph, lie: Lie, share: float) -> ToolPlace:
    view, frame, sense = lie.view, lie.frame, lie.sense
    start, end = sense * operation.starts, sense * operation.ends
    right, axis = frame.x(view.stock_right), frame.at[1]
    size = operation.cut_size * frame.scale
    if glyph in _ON_AXIS:
        wide = max(2.0, min(size or 3.0, 2 * frame.scale * view.radius))
        return ToolPlace(at=(right + _CLEAR, axis), feed=(-1.0, 0.0), wide=wide)
    if glyph in _BORING:
        at = (right + _CLEAR, axis + size / 2)
        return ToolPlace(at=at, feed=(-1.0, 0.0), wide=max(size, 4.0), reach=10.0)
    clear = frame.scale * view.radius - size / 2
    if glyph == "facing tool":
        touch = 0.6 * frame.scale * view.radius
        clear = frame.scale * view.radius - touch
        return ToolPlace(at=(frame.x(view.right), axis + touch), feed=(0.0, -1.0), clear=clear)
    left, right_end = min(start, end), min(max(start, end), view.stock_right)
    if glyph == "parting tool":
        parts = operation.verb == "part off"
        clear = frame.scale * view.radius - size / 2
        at = (frame.x(min(start, end)), axis + (frame.scale * view.radius if parts else size / 2))
        wide = abs(end - start) * frame.scale
        if parts:
            return ToolPlace(at=at, feed=(0.0, -1.0), wide=wide, reach=12.0)
        return ToolPlace(at=at, feed=(0.0, -1.0), wide=wide, reach=12.0, clear=clear)
    if glyph == "screwcutting tool":
        share = 1.0 - share
    place = left + share * (right_end - left)
    return ToolPlace(at=(frame.x(place), axis + size / 2), feed=(-1.0, 0.0), clear=clear)
