"""What the drawing check noticed, ringed in red on the drawing and numbered."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from typing import Final

from halfthou.drawing.model import Finding
from halfthou.present.picture.crowding import Candidate, these
from halfthou.present.picture.sheet import Box, Disc, Mark, Words
from halfthou.shapes.flat import Point2
from halfthou.units import Vec3

_RING: Final = 3.0
_NUMBER: Final = 3.0


def finding_rings(
    findings: Iterable[Finding], to_paper: Callable[[Vec3], Point2]
) -> tuple[tuple[Mark, ...], list[list[Candidate]]]:
    """Return red rings at the findings' places, and the ways to set their numbers beside them."""
    rings: list[Mark] = []
    wishes: list[list[Candidate]] = []
    for number, finding in enumerate(findings, start=1):
        if finding.at is None:
            continue
        at = to_paper(finding.at)
        rings.append(Disc(centre=at, radius=_RING, style="finding"))
        wishes.append([_number(number, at, way) for way in _WAYS])
    return tuple(rings), wishes


_WAYS: Final[tuple[Point2, ...]] = (
    (0.8, -0.8),
    (-0.8, -0.8),
    (0.8, 0.8),
    (-0.8, 0.8),
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.0, -1.0),
    (1.6, -1.6),
    (-1.6, -1.6),
    (1.6, 1.6),
    (-1.6, 1.6),
)


def _number(number: int, at: Point2, way: Point2) -> Candidate:
    reach = _RING + 2.6
    centre = (at[0] + reach * way[0], at[1] + reach * way[1])
    words = Words(
        at=(centre[0], centre[1] + 0.35 * _NUMBER),
        text=str(number),
        style="finding words",
        size=_NUMBER,
        anchor="middle",
        weight="medium",
    )
    disc = Disc(centre=centre, radius=2.1, style="finding number")
    box = Box(
        left=centre[0] - 2.1, right=centre[0] + 2.1, top=centre[1] - 2.1, bottom=centre[1] + 2.1
    )
    return Candidate(
        draw=partial(these, disc, words), boxes=(box,), lines=(), witness=(), cost=abs(way[0])
    )
