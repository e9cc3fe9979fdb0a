"""Every way this workshop can hold a turned part in the lathe, and why others cannot be."""

from __future__ import annotations

from typing import Final

from halfthou.cutting.overhang import WORK_DIAMETERS
from halfthou.planning.model import Operation, Refused, Scheme
from halfthou.planning.turned.centres import between_centres
from halfthou.planning.turned.grips import Shop
from halfthou.planning.turned.in_three_jaw import on_the_bar
from halfthou.planning.turned.mandrel import on_mandrel
from halfthou.planning.turned.off_axis_holding import cannot_throw, thrown_over
from halfthou.planning.turned.on_finished import on_finished, on_rough
from halfthou.planning.turned.shape import ends, rounds, smallest
from halfthou.units import Millimetre

HOLDINGS: Final = (on_the_bar, on_rough, on_finished, on_mandrel, between_centres, thrown_over)
"""Each way of holding, by what the work is held on."""


def schemes_turned(shop: Shop) -> tuple[tuple[Scheme, ...], tuple[Refused, ...]]:
    """Give the holdings of a turned part in the lathe, and what nothing holds it for."""
    found = [s for holding in HOLDINGS for s in holding(shop) if s is not None]
    held = {key for scheme in found for key in scheme.can}
    lost = [op for op in shop.operations if op.machine == "lathe" and op.key not in held]
    return tuple(found), tuple(_refusal(shop, op) for op in lost)


def _refusal(shop: Shop, op: Operation) -> Refused:
    thrown = cannot_throw(shop, op)
    if thrown is not None:
        return thrown
    jaws = shop.device("three-jaw chuck") or shop.device("four-jaw chuck")
    if jaws is None:
        return Refused(
            scheme="chuck",
            operation=op.key,
            reason="the workshop has no lathe chuck",
            remedy="put a chuck in the workshop file",
        )
    across = shop.stock.across
    four = shop.device("four-jaw chuck")
    widest = max(jaws.largest, four.largest if four else 0.0)
    if across > widest:
        return Refused(
            scheme=jaws.name,
            operation=op.key,
            reason=f"the chucks take {widest:.0f} mm and the work is {across:.1f} across",
            remedy="a faceplate, a larger chuck, or a larger lathe",
        )
    return _out_of_reach(shop, op, jaws.name)


def _out_of_reach(shop: Shop, op: Operation, name: str) -> Refused:
    if op.follows.startswith("centre"):
        return Refused(
            scheme=name,
            operation=op.key,
            reason="nothing holds the work near enough to that end to face its centre off",
            remedy="left_in = true under [centres], if the centres may stay",
        )
    x0, x1 = ends(shop.part)
    thin = min(smallest(r) for r in rounds(shop.part))
    if x1 - x0 > WORK_DIAMETERS * thin:
        both = all(shop.centre(end) is not None for end in ("left", "right"))
        return Refused(
            scheme=name,
            operation=op.key,
            reason=f"the work is {_slender(x1 - x0, thin)} times its thinnest diameter long "
            "and bends away from the tool",
            remedy="a travelling steady, or cut it in shorter lengths"
            if both
            else 'centres in its ends: [centres] both = "A2.5" in the part file',
        )
    return Refused(
        scheme=name,
        operation=op.key,
        reason="no way of holding leaves room for the tool there",
        remedy="a longer blank, so that there is metal to hold by",
    )


def _slender(length: Millimetre, across: Millimetre) -> str:
    return f"{length / across:.1f}"
