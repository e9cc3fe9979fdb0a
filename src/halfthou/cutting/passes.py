"""Passes: how many cuts how deep, from the size there is to the size wanted."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from halfthou.units import Millimetre

LEAVE: Final[Millimetre] = 0.25
"""Metal left a side for finishing (usual practice)."""
ALIKE: Final[Millimetre] = 0.10
"""Each of the last two cuts, made alike so that the spring is the same (usual practice)."""
LEAST_HSS: Final[Millimetre] = 0.03
"""Least cut a keen high-speed steel tool takes and does not rub (usual practice)."""
LEAST_MOULDED: Final[Millimetre] = 0.10
"""Least cut of a moulded insert (usual practice)."""
FACING_CUT: Final[Millimetre] = 0.75
"""Deepest facing cut in steel (usual practice)."""
LAST_FACE: Final[Millimetre] = 0.10
"""Last cut over a face (usual practice)."""
NEAR_ENOUGH: Final[Millimetre] = 0.02
"""How much more than wanted roughing may leave a side (usual practice)."""
CLOSE: Final[Millimetre] = 0.15
"""A tolerance under this wants two cuts alike (usual practice)."""

Purpose = Literal["rough", "finish", "spring", "skin"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cuts:
    """``count`` cuts of ``depth`` a side; ``left`` is the metal still on a side afterwards."""

    count: int
    depth: Millimetre
    left: Millimetre
    purpose: Purpose


def roughing(
    *, metal_off: Millimetre, deepest: Millimetre, leave: Millimetre, step: Millimetre
) -> tuple[Cuts, ...]:
    """Cuts down to what is left for finishing, told in divisions of the dial.

    Parameters
    ----------
    metal_off :
        Metal on a side before the first cut, down to the finished size. [mm]
    deepest :
        Deepest cut allowed. [mm]
    leave :
        What must stay on a side. [mm]
    step :
        What one division of the dial takes off a side. [mm]

    Notes
    -----
    As few cuts as the deepest allows. All alike where that comes to within ``NEAR_ENOUGH``;
    else the last one differs. What is left is never less than ``leave``.

    Examples
    --------
    >>> [(c.count, round(c.depth, 2), round(c.left, 2)) for c in roughing(
    ...     metal_off=3.2, deepest=1.0, leave=0.25, step=0.02)]
    [(3, 0.98, 0.26)]
    """
    rough = metal_off - leave
    if rough < LEAST_HSS:
        return ()
    count = math.ceil(rough / deepest - 1e-9)
    alike = _shown(rough / count, step / 2, up=False)
    if count == 1 or rough - count * alike <= NEAR_ENOUGH:
        return _cuts(count, alike, metal_off)
    depth = _shown(rough / count, step, up=True)
    many = math.floor(rough / depth + 1e-9)
    last = _shown(rough - many * depth, step / 2, up=False)
    before = _cuts(many, depth, metal_off)
    if last < LEAST_HSS:
        return before
    return (*before, *_cuts(1, last, metal_off - many * depth))


def _shown(depth: Millimetre, step: Millimetre, *, up: bool) -> Millimetre:
    if step <= 0:
        return depth
    rounded = math.ceil(depth / step - 1e-6) if up else math.floor(depth / step + 1e-6)
    return rounded * step


def _cuts(count: int, depth: Millimetre, metal_off: Millimetre) -> tuple[Cuts, ...]:
    if depth <= 0:
        return ()
    return (Cuts(count=count, depth=depth, left=metal_off - count * depth, purpose="rough"),)


def finishing(
    *, metal_off: Millimetre, close: bool, least: Millimetre = LEAST_HSS
) -> tuple[Cuts, ...]:
    """Last cuts to size: for a close one, two alike after whatever brings the work to them.

    Examples
    --------
    >>> [(c.count, round(c.depth, 3)) for c in finishing(metal_off=0.26, close=True)]
    [(1, 0.06), (2, 0.1)]
    """
    if metal_off < least:
        return ()
    if not close:
        return (Cuts(count=1, depth=metal_off, left=0.0, purpose="finish"),)
    alike = max(ALIKE, least)
    before = metal_off - 2 * alike
    if before >= least:
        return (
            Cuts(count=1, depth=before, left=2 * alike, purpose="finish"),
            Cuts(count=2, depth=alike, left=0.0, purpose="finish"),
        )
    if metal_off >= 2 * least:
        return (Cuts(count=2, depth=metal_off / 2, left=0.0, purpose="finish"),)
    return (Cuts(count=1, depth=metal_off, left=0.0, purpose="finish"),)


def facing(*, metal_off: Millimetre, deepest: Millimetre, step: Millimetre) -> tuple[Cuts, ...]:
    """Cuts over a face: down to the last light one, then that."""
    if metal_off <= LAST_FACE + LEAST_HSS:
        return finishing(metal_off=metal_off, close=False)
    rough = roughing(metal_off=metal_off, deepest=deepest, leave=LAST_FACE, step=step)
    left = rough[-1].left if rough else metal_off
    return (*rough, *finishing(metal_off=left, close=False))


def boring_depth(*, bar: Millimetre, out: Millimetre, deepest: Millimetre) -> Millimetre:
    """Deepest cut of a boring bar: a twentieth of it at 4 diameters out, more when shorter.

    Usual practice; never over three quarters of what the metal allows a turning tool.

    Examples
    --------
    >>> boring_depth(bar=10.0, out=40.0, deepest=1.0)
    0.5
    """
    return min(0.75 * deepest, bar / 20 * (4 * bar / out))


def milling_depth(*, cutter: Millimetre, deepest: Millimetre) -> Millimetre:
    """Deepest cut of an end mill its full width: a quarter of it, as the metal allows.

    Usual practice on a light mill; printed rules allow half.
    """
    return min(deepest, cutter / 4)


def screwcutting(*, depth: Millimetre, step: Millimetre) -> tuple[Cuts, ...]:
    """Cuts of a single-point thread: 0.10 to begin, 0.04 toward the end, then a spring pass."""
    first = roughing(metal_off=depth, deepest=ALIKE, leave=min(0.12, depth / 2), step=step)
    left = first[-1].left if first else depth
    count = max(1, math.ceil(left / 0.04 - 1e-9))
    return (
        *first,
        Cuts(count=count, depth=left / count, left=0.0, purpose="finish"),
        Cuts(count=1, depth=0.0, left=0.0, purpose="spring"),
    )
