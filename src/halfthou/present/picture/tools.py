"""What cuts: lathe tools and cutters as small pictures with the way they are fed.

``at`` is the tool's point on paper. Lathe tools stand below the axis, on the operator's side.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from halfthou.present.picture.devices_lathe import broken
from halfthou.present.picture.ink import Style
from halfthou.present.picture.label import RING, ring_marks
from halfthou.present.picture.sheet import Disc, Mark, Path
from halfthou.shapes.flat import Point2, Polyline2
from halfthou.units import Millimetre

Glyph: TypeAlias = Literal[
    "knife tool",
    "left-hand knife tool",
    "facing tool",
    "round-nosed tool",
    "boring tool",
    "parting tool",
    "chamfer tool",
    "screwcutting tool",
    "inside screwcutting tool",
    "centre drill",
    "drill",
    "reamer",
    "tap",
    "die",
]

_SHANK: Final[Millimetre] = 8.0
_LONG: Final[Millimetre] = 13.0
_NUMBER: Final[Millimetre] = 2 * RING + 0.5
"""Room for one step's number on a tool."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolPlace:
    """Where a tool stands: its point, the way it is fed, how wide it cuts (paper mm)."""

    at: Point2
    feed: Point2
    wide: Millimetre = 4.0
    reach: Millimetre = 18.0
    clear: Millimetre = 0.0
    """From the point outward to where the work ends: the shank reaches beyond."""
    numbers: tuple[int, ...] = ()
    """The steps it is used in, shown on its shank."""


def feed_arrow(*, at: Point2, way: Point2, long: Millimetre = 8.0) -> Path:
    """Draw a broad arrow: the only one on the sheet, and always the way a tool is fed."""
    size = math.hypot(*way) or 1.0
    ux, uy = way[0] / size, way[1] / size
    stem, half, head = 0.55, 1.6, 3.2
    points = (
        (-long / 2, stem),
        (long / 2 - head, stem),
        (long / 2 - head, half),
        (long / 2, 0.0),
        (long / 2 - head, -half),
        (long / 2 - head, -stem),
        (-long / 2, -stem),
    )
    figure = tuple((at[0] + u * ux - v * uy, at[1] + u * uy + v * ux) for u, v in points)
    return Path(lines=(figure,), style="feed", closed=True)


def _placed(figure: Polyline2, at: Point2) -> Polyline2:
    return tuple((at[0] + x, at[1] + y) for x, y in figure)


def _shanked(nose: Polyline2, right: float, left: float, place: ToolPlace) -> tuple[Mark, ...]:
    """Draw a tool whose shank comes up from below; ``nose`` runs from left to right.

    Its arrow and the numbers of its steps stand on the shank, outside the work.
    """
    start = max(place.clear, *(y for _, y in nose)) + 0.8
    upright = abs(place.feed[1]) > abs(place.feed[0])
    arrow = 7.4 if upright else 3.6
    long = max(_LONG, start + arrow + _NUMBER * len(place.numbers) + 1.6)
    wave = broken((right, long), (left, long))
    figure = _placed((*nose, *wave), place.at)
    middle = place.at[0] + (left + right) / 2
    wide = abs(right - left) - 0.9
    return (
        Path(lines=(figure,), style="tool", closed=True),
        feed_arrow(
            at=(middle, place.at[1] + start + arrow / 2),
            way=place.feed,
            long=6.8 if upright else min(6.4, wide),
        ),
        *_numbered(place, (middle, place.at[1] + start + arrow + _NUMBER / 2), (0.0, _NUMBER)),
    )


def _numbered(place: ToolPlace, first: Point2, step: Point2) -> tuple[Mark, ...]:
    """Set the steps' numbers in a row from the first one's middle."""
    return tuple(
        mark
        for rank, number in enumerate(place.numbers)
        for mark in ring_marks(
            number,
            centre=(first[0] + rank * step[0], first[1] + rank * step[1]),
            style="tool number",
            words="tool words",
        )
    )


def _knife(place: ToolPlace) -> tuple[Mark, ...]:
    sense = 1.0 if place.feed[0] <= 0 else -1.0
    nose = ((0.0, 0.0), (1.0, 0.35), (_SHANK - 0.5, 2.2), (_SHANK, 4.0))
    left = (0.6, 5.0)
    if sense > 0:
        return _shanked((left, *nose), _SHANK, 0.6, place)
    mirrored = tuple((-x, y) for x, y in (*reversed(nose), left))
    return _shanked(mirrored, -0.6, -_SHANK, place)


def _facing(place: ToolPlace) -> tuple[Mark, ...]:
    """Cuts toward the axis on a face at its left: point forward, clear of the face behind."""
    nose = ((0.9, 6.0), (0.0, 0.0), (2.4, 1.6), (_SHANK, 5.0))
    return _shanked(nose, _SHANK, 1.0, place)


def _round_nosed(place: ToolPlace) -> tuple[Mark, ...]:
    arc = tuple(
        (2.2 * math.cos(t), 2.2 - 2.2 * math.sin(t))
        for t in (math.pi * (1 - n / 8) for n in range(9))
    )
    return _shanked(arc, 3.2, -3.2, place)


def _parting(place: ToolPlace) -> tuple[Mark, ...]:
    wide = max(1.2, min(place.wide, 5.0))
    deep = max(min(place.reach, 14.0), place.clear + 0.8)
    nose = ((0.0, 0.0), (wide, 0.0), (wide, deep), (_SHANK - 2.0, deep))
    long = deep + 9.0 + _NUMBER * len(place.numbers)
    wave = broken((_SHANK - 2.0, long), (-2.0, long))
    figure = _placed(((-2.0, deep), (0.0, deep), *nose, *wave), place.at)
    x, y = place.at[0] + (_SHANK - 4.0) / 2, place.at[1] + deep
    return (
        Path(lines=(figure,), style="tool", closed=True),
        feed_arrow(at=(x, y + 4.3), way=place.feed, long=6.8),
        *_numbered(place, (x, y + 8.0 + _NUMBER / 2), (0.0, _NUMBER)),
    )


def _pointed(place: ToolPlace) -> tuple[Mark, ...]:
    """Screwcutting and chamfer tools: a symmetrical point."""
    nose = ((-3.2, 5.2), (0.0, 0.0), (3.2, 5.2))
    return _shanked(nose, 3.2, -3.2, place)


def _boring(place: ToolPlace) -> tuple[Mark, ...]:
    """Draw a bar from the right with its bit toward the operator."""
    x, y = place.at
    thick = max(2.6, min(7.0, place.wide * 0.6))
    long = place.reach + 10.0 + _NUMBER * len(place.numbers)
    top = y - thick - 1.0
    wave = broken((x + long, top), (x + long, top + thick))
    bar = ((x + 0.4, top), *wave, (x + 2.8, top + thick))
    bit = (
        (x, y),
        (x + 0.5, top + thick * 0.4),
        (x + 2.4, top + thick * 0.4),
        (x + 2.6, top + thick),
        (x + 1.0, y - 0.1),
    )
    return (
        Path(lines=((*bar, (x + 0.4, top + thick)),), style="tool", closed=True),
        Path(lines=(bit,), style="tool", closed=True),
        feed_arrow(at=(x + 8.0, top + thick / 2), way=place.feed, long=7.5),
        *_numbered(place, (x + 12.5 + _NUMBER / 2, top + thick / 2), (_NUMBER, 0.0)),
    )


def _from_tailstock(place: ToolPlace, nose: Polyline2, flutes: float) -> tuple[Mark, ...]:
    x, y = place.at
    half = place.wide / 2
    neck = x + flutes
    chuck = max(half + 2.0, 5.0)
    body = (*_placed(nose, place.at), (neck + 2.0, y - half), (neck + 2.0, y + half))
    end = neck + 13.0 + _NUMBER * len(place.numbers)
    wave = broken((end, y - chuck), (end, y + chuck))
    holder = (
        (neck + 2.0, y - 0.6 * chuck),
        (neck + 5.5, y - chuck),
        *wave,
        (neck + 5.5, y + chuck),
        (neck + 2.0, y + 0.6 * chuck),
    )
    twist = tuple(
        ((x + u, y + half * 0.8), (x + u + 0.9 * place.wide, y - half * 0.8))
        for u in _steps(half + 1.0, flutes - 0.9 * place.wide, max(1.6, 0.9 * place.wide))
    )
    marks: list[Mark] = [
        Path(lines=(holder,), style="tool", closed=True),
        Path(lines=(body,), style="tool", closed=True),
    ]
    if twist:
        marks.append(Path(lines=twist, style="tool line"))
    marks.append(feed_arrow(at=(neck + 8.6, y), way=place.feed, long=6.5))
    return (*marks, *_numbered(place, (neck + 12.4 + _NUMBER / 2, y), (_NUMBER, 0.0)))


def _steps(start: float, stop: float, by: float) -> list[float]:
    return [start + n * by for n in range(max(0, int((stop - start) / by) + 1))]


def _drill(place: ToolPlace) -> tuple[Mark, ...]:
    half = place.wide / 2
    nose = ((0.6 * half, half), (0.0, 0.0), (0.6 * half, -half))
    return _from_tailstock(place, nose, max(10.0, 2.2 * place.wide))


def _reamer(place: ToolPlace) -> tuple[Mark, ...]:
    half = place.wide / 2
    nose = ((0.5, half), (0.0, 0.8 * half), (0.0, -0.8 * half), (0.5, -half))
    long = max(11.0, 2.0 * place.wide)
    marks = _from_tailstock(place, nose, long)
    x, y = place.at
    flutes = tuple(
        ((x + 0.8, y + half * s), (x + long - 2.0, y + half * s)) for s in (-0.45, 0.0, 0.45)
    )
    plain = tuple(mark for mark in marks if mark.style != "tool line")
    return (*plain[:2], Path(lines=flutes, style="tool line"), *plain[2:])


def _centre_drill(place: ToolPlace) -> tuple[Mark, ...]:
    half = place.wide / 2
    pilot = max(0.7, 0.35 * half)
    nose = (
        (pilot * 2.4 + (half - pilot) * 1.7, half),
        (pilot * 2.4, pilot),
        (0.5 * pilot, pilot),
        (0.0, 0.0),
        (0.5 * pilot, -pilot),
        (pilot * 2.4, -pilot),
        (pilot * 2.4 + (half - pilot) * 1.7, -half),
    )
    marks = _from_tailstock(place, nose, 9.0)
    return tuple(mark for mark in marks if mark.style != "tool line")


_DRAWN: Final[dict[Glyph, Callable[[ToolPlace], tuple[Mark, ...]]]] = {
    "knife tool": _knife,
    "left-hand knife tool": _knife,
    "facing tool": _facing,
    "round-nosed tool": _round_nosed,
    "parting tool": _parting,
    "chamfer tool": _pointed,
    "screwcutting tool": _pointed,
    "boring tool": _boring,
    "inside screwcutting tool": _boring,
    "centre drill": _centre_drill,
    "drill": _drill,
    "reamer": _reamer,
    "tap": _drill,
    "die": _drill,
}


def lathe_tool(glyph: Glyph, place: ToolPlace) -> tuple[Mark, ...]:
    """Draw a lathe tool at its work."""
    return _DRAWN[glyph](place)


def as_ghost(marks: Iterable[Mark]) -> tuple[Mark, ...]:
    """Return a tool as an outline only: it has its turn in another step."""
    styles: dict[str, Style] = {"tool": "ghost", "feed": "ghost feed"}
    return tuple(
        replace(mark, style=styles.get(mark.style, mark.style))
        for mark in marks
        if mark.style != "tool line" or isinstance(mark, Disc)
    )
