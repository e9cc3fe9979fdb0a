"""Lengths of turned work: rows above and below, witness lines from the outline on that side."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from halfthou.present.picture.crowding import Candidate
from halfthou.present.picture.dimensions import Edge, Linear, ways
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.label import Label
from halfthou.present.picture.profile import Reach, radius_at
from halfthou.present.picture.sheet import Box
from halfthou.units import Millimetre

_OTHER_SIDE: Final = 4.0


def length_ways(
    ends: tuple[Millimetre, Millimetre],
    label: Label,
    *,
    reaches: Iterable[Reach],
    frame: Frame,
    work: Box,
    below_first: bool = False,
) -> list[Candidate]:
    """List the ways to dimension a length; an inside one is better below, where it is cut open."""
    reaches = tuple(reaches)
    edges: tuple[Edge, Edge] = ("below", "above") if below_first else ("above", "below")
    found: list[Candidate] = []
    for rank, edge in enumerate(edges):
        side = 1.0 if edge == "above" else -1.0
        a, b = (frame.to((x, side * radius_at(reaches, x))) for x in ends)
        linear = Linear(a=a, b=b, upright=False, label=label, edges=(edge,))
        found += ways(linear, work=work, dearer=_OTHER_SIDE * rank)
    return found
