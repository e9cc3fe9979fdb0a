"""Sizes this workshop has to make and cannot judge, and what would judge them."""

from __future__ import annotations

from typing import Final

from halfthou.cutting.gauging import MeasureKind, choose_gauge
from halfthou.drawing.model import Part, Surface
from halfthou.planning.model import Unjudged
from halfthou.workshop.model import Workshop

_INSIDE: Final = (
    "make a go and no-go plug pair to the two limits",
    "borrow a bore gauge with a setting ring",
    "finish it to the mate",
)
_OUTSIDE: Final = (
    "borrow a finer micrometer or a comparator, with a setting standard",
    "finish it to the mate",
)


def kind_of(surface: Surface) -> MeasureKind | None:
    """How the size of a surface is measured, if it has one."""
    if surface.size is None:
        return None
    match surface.kind:
        case "cylinder":
            return "bore" if surface.inside else "diameter"
        case "plane":
            return "width"
        case _:
            return None


def unjudged_sizes(part: Part, workshop: Workshop) -> tuple[Unjudged, ...]:
    """Every size of the part that no gauge of the workshop decides."""
    found = []
    for surface in part.surfaces:
        kind, band = kind_of(surface), surface.size
        if kind is None or band is None or band.origin != "drawn" or surface.raw:
            continue
        best = choose_gauge(kind=kind, low=band.low, high=band.high, workshop=workshop)
        if best is not None and best.decides:
            continue
        found.append(
            Unjudged(
                surface=surface.name,
                size=band,
                best_gauge=best.gauge.name if best else "",
                doubt=best.doubt if best else 0.0,
                remedies=_INSIDE if surface.inside else _OUTSIDE,
            )
        )
    return tuple(found)
