"""Passes: how many cuts how deep, from the size there is to the size wanted."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import Final, Literal

from halfthou.units import Millimetre

LEAVE: Final[Millimetre] = 0.25
"""Metal left a side for finishing (usual practice)."""
LEAVE_CLOSE: Final[Millimetre] = 0.30
"""The same before a close size: a first cut that bites, then two alike (usual practice)."""
ALIKE: Final[Millimetre] = 0.10
"""Each of the last two cuts, made alike so that the spring is the same (usual practice)."""
LEAST_HSS: Final[Millimetre] = 0.03
"""Least cut a keen high-speed steel tool takes and does not rub (usual practice)."""
FACING_CUT: Final[Millimetre] = 0.75
"""Deepest facing cut in steel (usual practice)."""
LAST_FACE: Final[Millimetre] = 0.10
"""Last cut over a face (usual practice)."""
FIRST_THREAD: Final[Millimetre] = 0.16
"""First cut of a single-point thread (usual practice)."""
LAST_THREAD: Final[Millimetre] = 0.04
"""Last cut of a single-point thread (usual practice)."""
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
    As few cuts as the deepest allows, each in whole divisions; where they cannot all be alike
    the last is the lightest. What is left is never less than ``leave`` nor more than it by a
    division.

    Examples
    --------
    >>> [(c.count, round(c.depth, 2), round(c.left, 2)) for c in roughing(
    ...     metal_off=3.2, deepest=1.0, leave=0.25, step=0.02)]
    [(3, 0.98, 0.26)]
    """
    rough = metal_off - leave
    if rough < LEAST_HSS:
        return ()
    each = max(1, math.floor(deepest / step + 1e-6))
    whole = math.floor(rough / step + 1e-6)
    count = math.ceil(whole / each)
    if count == 0:
        return ()
    heavy = math.ceil(whole / count)
    many, last = divmod(whole, heavy)
    if 0 < last * step < LEAST_HSS:
        many, last = whole - count * (heavy - 1), heavy - 1
    before = _cuts(many, heavy * step, metal_off)
    left = metal_off - many * heavy * step
    return (*before, *_cuts((whole - many * heavy) // last if last else 0, last * step, left))


def _cuts(count: int, depth: Millimetre, metal_off: Millimetre) -> tuple[Cuts, ...]:
    if depth <= 0 or count <= 0:
        return ()
    return (Cuts(count=count, depth=depth, left=metal_off - count * depth, purpose="rough"),)


def finishing(
    *, metal_off: Millimetre, close: bool, least: Millimetre = LEAST_HSS
) -> tuple[Cuts, ...]:
    """Last cuts to size: for a close one two alike, after a first that bites and does not rub.

    Examples
    --------
    >>> [(c.count, round(c.depth, 3)) for c in finishing(metal_off=0.32, close=True)]
    [(1, 0.12), (2, 0.1)]
    >>> [(c.count, round(c.depth, 3)) for c in finishing(metal_off=0.26, close=True)]
    [(2, 0.13)]
    """
    if metal_off < least:
        return ()
    if not close:
        return (Cuts(count=1, depth=metal_off, left=0.0, purpose="finish"),)
    alike = max(ALIKE, least)
    before = metal_off - 2 * alike
    if before >= alike - 1e-9:
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
    """Cuts of a single-point thread: each lighter than the last, then a spring pass.

    The tool cuts on both flanks, wider at every cut: eight divisions of 0.02 to begin, two at
    the end, the last taking what remains (usual practice).

    Examples
    --------
    >>> [(c.count, round(c.depth, 2)) for c in screwcutting(depth=0.75, step=0.02)]
    [(2, 0.14), (1, 0.12), (1, 0.1), (2, 0.08), (1, 0.04), (1, 0.05), (1, 0.0)]
    """
    found: list[Cuts] = []
    left = depth
    for each in _lighter(depth, step):
        left -= each
        if found and math.isclose(found[-1].depth, each, abs_tol=1e-9):
            count = found.pop().count + 1
        else:
            count = 1
        found.append(Cuts(count=count, depth=each, left=max(left, 0.0), purpose="rough"))
    return (*found, Cuts(count=1, depth=0.0, left=0.0, purpose="spring"))


def _lighter(depth: Millimetre, step: Millimetre) -> list[Millimetre]:
    """Depths in whole divisions, growing lighter evenly; the odd end of a division last."""
    whole = math.floor(depth / step + 1e-6)
    first, last = max(1, round(FIRST_THREAD / step)), max(1, round(LAST_THREAD / step))
    count = max(1, math.ceil(whole / ((first + last) / 2)))
    slope = (first - last) / (count - 1) if count > 1 else 0.0
    even = [first - slope * number for number in range(count)]
    share = whole / sum(even)
    marks = [0, *(round(sum(even[: n + 1]) * share) for n in range(count))]
    parts = sorted((b - a for a, b in itertools.pairwise(marks)), reverse=True)
    depths = [part * step for part in parts if part > 0]
    odd = depth - whole * step
    return [*depths[:-1], depths[-1] + odd] if depths else [depth]


def roughing_to(
    *, metal_off: Millimetre, deepest: Millimetre, step: Millimetre
) -> tuple[Cuts, ...]:
    """Cuts to a rough size of its own: whole divisions, the odd end of one at the last.

    Examples
    --------
    >>> [(c.count, round(c.depth, 2), round(c.left, 3)) for c in roughing_to(
    ...     metal_off=1.35, deepest=1.0, step=0.02)]
    [(1, 0.68, 0.67), (1, 0.67, 0.0)]
    """
    cuts = roughing(metal_off=metal_off, deepest=deepest, leave=0.0, step=step)
    if not cuts or cuts[-1].left < 1e-9:
        return cuts
    *before, last = cuts
    odd = Cuts(count=1, depth=last.depth + last.left, left=0.0, purpose="rough")
    if last.count == 1:
        return (*before, odd)
    even = Cuts(count=last.count - 1, depth=last.depth, left=odd.depth, purpose="rough")
    return (*before, even, odd)
