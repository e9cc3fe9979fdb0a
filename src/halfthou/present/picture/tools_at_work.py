"""Which tool of a lathe set-up to show, and where it stands."""

from __future__ import annotations

from typing import Final

from halfthou.planning.model import Operation, Verb
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.half_view import HalfView
from halfthou.present.picture.sheet import Mark
from halfthou.present.picture.tools import Glyph, ToolPlace, lathe_tool
from halfthou.units import Millimetre

_GLYPHS: Final[dict[Verb, Glyph]] = {
    "face": "facing tool",
    "turn": "knife tool",
    "turn taper": "knife tool",
    "groove": "parting tool",
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
_NEAR_THE_SHOULDER: Final = 0.25
_CLEAR: Final[Millimetre] = 1.4


def tool_at_work(
    operations: tuple[Operation, ...], *, view: HalfView, frame: Frame, sense: float
) -> tuple[Mark, ...]:
    """Draw the tool of the set-up's main cut; nothing if it cuts nothing."""
    shown = [op for op in operations if op.verb in _GLYPHS]
    if not shown:
        return ()
    main = max(shown, key=lambda op: op.minutes * _WEIGHT.get(_glyph(op), 1.0))
    glyph = _glyph(main)
    return lathe_tool(glyph, _place(main, glyph, view, frame, sense))


def _glyph(operation: Operation) -> Glyph:
    if operation.verb == "thread" and operation.inside:
        return "inside screwcutting tool"
    return _GLYPHS[operation.verb]


def _place(
    operation: Operation, glyph: Glyph, view: HalfView, frame: Frame, sense: float
) -> ToolPlace:
    start, end = sense * operation.starts, sense * operation.ends
    right = frame.x(view.stock_right)
    axis = frame.at[1]
    size = operation.cut_size * frame.scale
    if glyph in _ON_AXIS:
        wide = max(2.0, min(size or 3.0, 2 * frame.scale * view.radius))
        return ToolPlace(at=(right + _CLEAR, axis), feed=(-1.0, 0.0), wide=wide)
    if glyph in {"boring tool", "inside screwcutting tool"}:
        at = (right + _CLEAR, axis + size / 2)
        return ToolPlace(at=at, feed=(-1.0, 0.0), wide=max(size, 4.0), reach=10.0)
    if glyph == "facing tool":
        at = (frame.x(view.right), axis + 0.55 * frame.scale * view.radius)
        return ToolPlace(at=at, feed=(0.0, -1.0))
    if glyph == "parting tool":
        left = min(start, end)
        at = (frame.x(left), axis + size / 2)
        wide = abs(end - start) * frame.scale
        return ToolPlace(at=at, feed=(0.0, -1.0), wide=wide, reach=12.0)
    left, right_end = min(start, end), max(start, end)
    place = left + _NEAR_THE_SHOULDER * (right_end - left)
    clear = frame.scale * view.radius - size / 2
    return ToolPlace(at=(frame.x(place), axis + size / 2), feed=(-1.0, 0.0), clear=clear)
