"""Cut metal and metal to come off, filled and hatched with lines of their own.

Explicit lines, because patterns of SVG come out blurred or not at all in some readers. Metal
that stays is hatched up to the right, metal that comes off down to the right and closer.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Final, Literal

from halfthou.present.picture.frame import Frame
from halfthou.present.picture.ink import Style
from halfthou.present.picture.sheet import Mark, Path
from halfthou.shapes.flat import Area, Point2, Polyline2
from halfthou.shapes.section import hatch
from halfthou.units import Millimetre

_PITCH: Final[dict[str, Millimetre]] = {"section": 2.2, "removed": 1.5}
"""Between hatching lines, on paper."""
_FINEST: Final[Millimetre] = 1.1
_ON_AXIS: Final[Millimetre] = 1e-6
_ANGLE: Final = {"section": math.pi / 4, "removed": -math.pi / 4}


def hatched(
    areas: Sequence[Area],
    frame: Frame,
    kind: Literal["section", "removed"],
    *,
    half: bool = True,
) -> tuple[Mark, ...]:
    """Fill, hatch and outline areas of a view; those of a half section stay open at y = 0."""
    if not areas:
        return ()
    outlines: dict[str, Style] = {"section": "outline", "removed": "removed edge"}
    hatches: dict[str, Style] = {"section": "section hatch", "removed": "removed hatch"}
    loops = [Path(lines=frame.lines((a.outer, *a.holes)), style=kind, closed=True) for a in areas]
    thinnest = min(min(a.extent.width, a.extent.height) for a in areas) * frame.scale
    pitch = min(_PITCH[kind], max(_FINEST, thinnest / 3.0))
    lines = hatch(areas, angle=_ANGLE[kind], pitch=pitch / frame.scale)
    rule = _off_axis if half else _whole
    edges = [run for area in areas for loop in (area.outer, *area.holes) for run in rule(loop)]
    marks: list[Mark] = [*loops]
    if lines:
        marks.append(Path(lines=frame.lines(lines), style=hatches[kind]))
    marks.append(Path(lines=frame.lines(edges), style=outlines[kind]))
    return tuple(marks)


def _whole(loop: Polyline2) -> list[Polyline2]:
    return [(*loop, loop[0])]


def _off_axis(loop: Polyline2) -> list[Polyline2]:
    """Return a loop without what of it lies on y = 0: a half section ends there, not the metal."""
    runs: list[Polyline2] = []
    run: list[Point2] = []
    for a, b in pairwise((*loop, loop[0])):
        if abs(a[1]) < _ON_AXIS and abs(b[1]) < _ON_AXIS:
            if run:
                runs.append(tuple(run))
            run = []
            continue
        run = [*run, b] if run else [a, b]
    if not run:
        return runs
    if runs and runs[0][0] == run[-1]:
        runs[0] = (*run, *runs[0][1:])
        return runs
    return [*runs, tuple(run)]
