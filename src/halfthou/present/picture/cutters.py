"""What cuts on the mill, seen from the front: a cutter upright above the work and how it moves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal, TypeAlias

from halfthou.present.picture.devices_lathe import broken
from halfthou.present.picture.label import RING, ring_marks
from halfthou.present.picture.sheet import Mark, Path
from halfthou.present.picture.tools import feed_arrow
from halfthou.shapes.flat import Point2, Polyline2
from halfthou.units import Millimetre

CutterGlyph: TypeAlias = Literal["end mill", "drill", "centre drill", "reamer", "tap", "face mill"]

_FLUTES: Final[Millimetre] = 11.0
_HOLDER: Final[Millimetre] = 8.0
_ABOVE: Final[Millimetre] = 13.0
"""How far a plain shank is drawn above the metal before it is broken off."""
_NUMBER: Final[Millimetre] = 2 * RING + 0.5


def cutter_at(
    glyph: CutterGlyph,
    *,
    at: Point2,
    wide: Millimetre,
    arrow: bool = True,
    metal: Millimetre | None = None,
    numbers: Sequence[int] = (),
) -> tuple[Mark, ...]:
    """Draw a cutter with its end at ``at``; ``arrow`` shows it fed down.

    ``metal`` is how high the metal stands on paper: a mill's shank is seen above it.
    """
    x, y = at
    half = max(0.8, wide / 2)
    if glyph == "face mill":
        return _face_mill(at, half, numbers)
    if glyph == "end mill":
        return _end_mill(at, half, y if metal is None else metal, numbers, arrow=arrow)
    neck = y - max(_FLUTES, min(18.0, 1.6 * wide))
    holder = max(half + 2.0, 4.5)
    body = (*_nose(glyph, at, half), (x + half, neck), (x - half, neck))
    top = neck - _HOLDER - _NUMBER * max(0, len(numbers) - 1)
    wave = broken((x - holder, top), (x + holder, top))
    chuck = (
        (x - 0.65 * holder, neck),
        (x - holder, neck - 3.0),
        *wave,
        (x + holder, neck - 3.0),
        (x + 0.65 * holder, neck),
    )
    twist = tuple(
        ((x - half * 0.85, y - rise), (x + half * 0.85, y - rise - 0.9 * half))
        for rise in _rises(half, y - neck)
    )
    marks: list[Mark] = [
        Path(lines=(chuck,), style="tool", closed=True),
        Path(lines=(body,), style="tool", closed=True),
    ]
    if twist:
        marks.append(Path(lines=twist, style="tool line"))
    if arrow:
        marks.append(feed_arrow(at=(x + holder + 3.2, neck), way=(0.0, 1.0)))
    return (*marks, *_numbered(numbers, (x, neck - 3.4 - RING / 2)))


def _numbered(numbers: Sequence[int], foot: Point2) -> tuple[Mark, ...]:
    """Set the steps' numbers one over the other."""
    return tuple(
        mark
        for rank, number in enumerate(reversed(numbers))
        for mark in ring_marks(
            number,
            centre=(foot[0], foot[1] - rank * _NUMBER),
            style="tool number",
            words="tool words",
        )
    )


def _end_mill(
    at: Point2, half: float, metal: float, numbers: Sequence[int], *, arrow: bool
) -> tuple[Mark, ...]:
    """Draw a mill at its own size with a plain shank, broken off above the metal."""
    x, y = at
    top = min(metal, y) - _ABOVE - _NUMBER * max(0, len(numbers) - 1)
    flutes = min(metal, y) - 3.0
    wave = broken((x - half, top), (x + half, top))
    body = ((x + half, y), (x - half, y), *wave)
    twist = tuple(
        ((x - half, y - rise), (x + half, y - rise - 1.1 * half))
        for rise in _rises(half, y - flutes)
    )
    marks: list[Mark] = [Path(lines=(body,), style="tool", closed=True)]
    edge = ((x - half, flutes), (x + half, flutes))
    marks.append(Path(lines=(*twist, edge), style="tool line"))
    if arrow:
        marks.append(feed_arrow(at=(x + half + 3.4, flutes - 3.0), way=(0.0, 1.0)))
    return (*marks, *_numbered(numbers, (x, flutes - RING - 1.2)))


def _face_mill(at: Point2, half: float, numbers: Sequence[int]) -> tuple[Mark, ...]:
    """Draw a wide cutter: a shallow body with its teeth below, on an arbor."""
    x, y = at
    body = ((x - half, y - 1.6), (x + half, y - 1.6), (x + half, y - 6.5), (x - half, y - 6.5))
    teeth = tuple(
        ((c - 1.1, y - 1.6), (c - 0.8, y), (c + 0.8, y), (c + 1.1, y - 1.6))
        for c in (x - half + 1.2, x, x + half - 1.2)
    )
    shank = max(3.0, min(6.0, 0.4 * half))
    wave = broken((x - shank, y - 15.0), (x + shank, y - 15.0))
    return (
        Path(
            lines=(((x - shank, y - 6.5), *wave, (x + shank, y - 6.5)),), style="tool", closed=True
        ),
        Path(lines=teeth, style="tool", closed=True),
        Path(lines=(body,), style="tool", closed=True),
        *_numbered(numbers, (x, y - 9.6)),
    )


def _rises(half: float, long: float) -> list[float]:
    step = max(2.2, 0.7 * half)
    count = int((long - 1.2 * half - 1.0) / step)
    return [1.0 + n * step for n in range(max(0, count))]


def _nose(glyph: CutterGlyph, at: Point2, half: float) -> Polyline2:
    x, y = at
    match glyph:
        case "drill":
            return ((x - half, y - 0.6 * half), (x, y), (x + half, y - 0.6 * half))
        case "centre drill":
            pilot = 0.35 * half
            rise = 1.6 * pilot
            return (
                (x - half, y - rise - 1.2 * half),
                (x - pilot, y - rise),
                (x, y),
                (x + pilot, y - rise),
                (x + half, y - rise - 1.2 * half),
            )
        case "reamer" | "tap":
            return (
                (x - half, y - 0.8),
                (x - 0.8 * half, y),
                (x + 0.8 * half, y),
                (x + half, y - 0.8),
            )
        case _:
            return ((x - half, y), (x + half, y))
