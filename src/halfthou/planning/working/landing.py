"""Where a dial really lands: cuts as the dial shows them, and what is left where it cannot."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final, Literal, TypeAlias

from halfthou.cutting.passes import CLOSE, Cuts
from halfthou.drawing.model import Band
from halfthou.planning.worked import Move, Pass
from halfthou.planning.working.dials import READABLE, Rounding
from halfthou.units import Millimetre

SetTo: TypeAlias = Callable[[Millimetre, Rounding], Move]
Limits: TypeAlias = tuple[Millimetre, Millimetre]
Way: TypeAlias = Literal[-2, 1, 2]

LEFT_FOR_ABRASIVE: Final[Millimetre] = 0.005
"""What a dial stops short of the metal limit, at least, before fine abrasive (usual practice)."""
MARK: Final[Millimetre] = 0.01
"""A figure to stop at is a whole hundredth, as the micrometer shows it."""
_SAME: Final = 1e-6
_MANY_ALIKE: Final = 4


def finer_than_dial(band: Band, division: Millimetre) -> bool:
    """Tell whether half a division, which counts twice on a diameter, is more than the band.

    Examples
    --------
    >>> from halfthou.drawing.model import Band
    >>> k6 = Band(nominal=16, low=16.001, high=16.012, text="16 k6", origin="drawn", place="")
    >>> finer_than_dial(k6, 0.02)
    True
    """
    return band.width < division - _SAME


def short_of_band(band: Band, *, inside: bool, doubt: Millimetre = 0.0) -> Millimetre:
    """Give the figure to stop at on the metal side of a band too fine for the dial.

    It is as far off the limit as the gauge may be out, where that is more than a mark's half.

    Examples
    --------
    >>> from halfthou.drawing.model import Band
    >>> k6 = Band(nominal=16, low=16.001, high=16.012, text="16 k6", origin="drawn", place="")
    >>> short_of_band(k6, inside=False)
    16.02
    """
    left = max(LEFT_FOR_ABRASIVE, doubt)
    if inside:
        marks = math.floor((band.low - left) / MARK + _SAME)
    else:
        marks = math.ceil((band.high + left) / MARK - _SAME)
    return round(marks * MARK, 6)


def landed(
    cuts: Sequence[Cuts],
    set_to: SetTo,
    *,
    size: Millimetre,
    way: Way,
    division: Millimetre,
    limits: Limits | None = None,
) -> tuple[Pass, ...]:
    """Tell cuts as the dial makes them: settings, depths and sizes left all of one piece.

    Parameters
    ----------
    cuts :
        What is to come off, in order.
    set_to :
        Tells the move to a depth from the first touch, to the nearest or just short of it.
    size :
        What is wanted after the last. [mm]
    way :
        What a side's metal adds to the size: +2 outside, -2 in a bore, +1 at a face.
    division :
        What one division moves the slide. [mm]
    limits :
        Between which the last cut has to land, if it can. [mm]

    Notes
    -----
    Every finishing cut is a pass by itself, so that ``leaves`` is true for each.
    """
    metal = sum(cut.count * cut.depth for cut in cuts)
    start = size + way * metal
    found: list[Pass] = []
    total, stands = 0.0, 0.0
    for cut in cuts:
        for _ in range(cut.count):
            total += cut.depth
            at = _setting(set_to, total, start, way, limits if total > metal - _SAME else None)
            one = Pass(
                count=1, depth=at.to - stands, leaves=round(start - way * at.to, 6),
                purpose=cut.purpose, settings=(at,), divisions=_on(at.to - stands, division),
            )  # fmt: skip
            stands = at.to
            found.append(one)
    if found and (limits is None or limits[1] - limits[0] >= CLOSE):
        half = abs(way) * division * READABLE
        end = found[-1].leaves
        found = [_one_and_the_same(p, size, half) if p.leaves == end else p for p in found]
    return _alike_together(found)


def _one_and_the_same(one: Pass, size: Millimetre, half: Millimetre) -> Pass:
    """Call what is left by the size wanted, where the dial cannot tell the two apart."""
    return replace(one, leaves=size) if abs(one.leaves - size) <= half / 2 + _SAME else one


def _setting(
    set_to: SetTo, total: Millimetre, start: Millimetre, way: Way, limits: Limits | None
) -> Move:
    """Set the dial nearest; where that lies outside the limits, short of them."""
    near = set_to(total, "near")
    if limits is None:
        return near
    size = start - way * near.to
    inside = limits[0] - _SAME <= size <= limits[1] + _SAME
    return near if inside else set_to(total, "short")


def _on(depth: Millimetre, division: Millimetre) -> float:
    return round(2 * depth / division) / 2 if division > 0 else 0.0


def _alike_together(passes: Sequence[Pass]) -> tuple[Pass, ...]:
    """Put roughing cuts of one depth together."""
    found: list[Pass] = []
    for one in passes:
        last = found[-1] if found else None
        if last is not None and last.purpose == one.purpose == "rough" and _alike(last, one):
            found[-1] = replace(
                last, count=last.count + 1, leaves=one.leaves,
                settings=(*last.settings, *one.settings),
            )  # fmt: skip
        else:
            found.append(one)
    return tuple(found)


def _alike(a: Pass, b: Pass) -> bool:
    return abs(a.depth - b.depth) < _SAME


def stops_of(passes: Sequence[Pass]) -> tuple[Move, ...]:
    """Give where the slide stands at every cut; of many alike the last, if all else is single."""
    short = all(one.count == 1 or one.count >= _MANY_ALIKE for one in passes)
    return tuple(at for one in passes for at in (one.settings[-1:] if short else one.settings))
