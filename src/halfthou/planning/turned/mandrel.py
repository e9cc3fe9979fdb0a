"""Work on a stub mandrel turned in place to its finished bore."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Hole, HoleStep
from halfthou.planning.model import Scheme
from halfthou.planning.turned.grips import CLEAR, Grip, Shop, Way, fit
from halfthou.planning.turned.shape import (
    ENDS,
    TOWARD,
    End,
    end_at,
    ends,
    holes_on_axis,
    other_end,
    planes_at,
)
from halfthou.planning.turned.slender import LIGHT_DIAMETERS
from halfthou.workshop.model import HoldingDevice

COLLAR: Final = 15.0
"""Length of mandrel behind the work, mm (usual practice)."""
WHY: Final = "turned in place, so it runs dead true with the spindle"


def on_mandrel(shop: Shop) -> Iterator[Scheme | None]:
    """Give the ways to hold work by a finished bore that goes through."""
    mandrel = shop.device("stub mandrel")
    if mandrel is None:
        return
    x0, x1 = ends(shop.part)
    for hole in holes_on_axis(shop.part):
        step = min(hole.steps, key=lambda s: s.diameter.nominal)
        across = step.diameter.nominal
        fits = mandrel.inside_smallest <= across <= mandrel.inside_largest
        if not step.breaks_out or step.thread is not None or not fits:
            continue
        if x1 - x0 <= LIGHT_DIAMETERS * across:
            for end in ENDS:
                yield _outside_only(shop, fit(shop, _way(shop, mandrel, hole, step, end)))


def _way(shop: Shop, mandrel: HoldingDevice, hole: Hole, step: HoleStep, end: End) -> Way:
    back = end_at(shop.part, other_end(end))
    seats = planes_at(shop.part, back, TOWARD[other_end(end)])
    wall = _wall(shop, hole, step)
    need = [(key, "the mandrel is turned to the finished bore") for key in shop.makers(wall)]
    need += [
        (key, "the faced end goes back against the mandrel's shoulder")
        for face in seats
        for key in shop.makers(face)
    ]
    low, high = (back - COLLAR, back - CLEAR) if end == "right" else (back + CLEAR, back + COLLAR)
    x0, x1 = ends(shop.part)
    return Way(
        device=mandrel,
        grip=Grip(
            low=low,
            high=high,
            size=max(step.diameter.nominal, (x1 - x0) / LIGHT_DIAMETERS + COLLAR),
            surfaces=(wall,),
            seats=seats,
            need=tuple(need),
        ),
        faces=end,
        name=f"mandrel in the {hole.name}, {end} end out",
        error=mandrel.trued,
        minutes=mandrel.minutes,
        reason=WHY,
    )


def _wall(shop: Shop, hole: Hole, step: HoleStep) -> str:
    return next(
        (s.name for s in shop.part.surfaces if s.feature == hole.name and s.size is step.diameter),
        hole.name,
    )


def _outside_only(shop: Shop, scheme: Scheme | None) -> Scheme | None:
    """Give the mandrel fills the bore: nothing is cut inside."""
    if scheme is None:
        return None
    inside = {op.key for op in shop.operations if op.inside}
    keep = scheme.can - inside
    return replace(scheme, can=keep, inside=True) if keep else None
