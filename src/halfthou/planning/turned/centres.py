"""Work between centres: every diameter about the one line."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.planning.model import Scheme
from halfthou.planning.turned.grips import Grip, Shop, Way, fit
from halfthou.planning.turned.shape import ENDS, ends

DRIVER: Final = 15.0
"""Length the driver takes up, mm (usual practice)."""
WHY: Final = "every diameter is turned about the one line between the centres"


def between_centres(shop: Shop) -> Iterator[Scheme | None]:
    """Give the two ways to hang work between centres: either end at the driver."""
    centres = shop.device("centres")
    have = [op.key for op in shop.operations if op.verb == "centre"]
    room = max((m.between_centres for m in shop.workshop.lathes), default=0.0)
    x0, x1 = ends(shop.part)
    if centres is None or len(have) < len(ENDS) or x1 - x0 > room:
        return
    need = tuple((key, "both ends are centred first") for key in have)
    for end in ENDS:
        low, high = (x0, x0 + DRIVER) if end == "right" else (x1 - DRIVER, x1)
        yield fit(
            shop,
            Way(
                device=centres,
                grip=Grip(
                    low=low,
                    high=high,
                    size=shop.stock.across,
                    surfaces=("centre left", "centre right"),
                    need=need,
                ),
                faces=end,
                name=f"between centres, {end} end at the tailstock",
                error=centres.trued,
                minutes=centres.minutes,
                centre=True,
                in_jaws=False,
                reason=WHY,
            ),
        )
