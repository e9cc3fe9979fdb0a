"""Change wheels for a pitch, found among those that come with a lathe."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, permutations
from typing import Final, TypeAlias

from halfthou.units import Millimetre

WHEELS: Final = (*range(20, 125, 5), 127)
"""Teeth of the usual set: 20 to 120 by fives, and 127 for pitches in the other unit."""
EXACT: Final = 1e-9
NEAR: Final = 2e-4
"""Error of the pitch that passes over the length of a nut, as a share (usual practice)."""
HANDY: Final = 40
"""Wheels from this size on mesh without trouble (usual practice)."""
Train: TypeAlias = tuple[tuple[int, ...], tuple[int, ...]]
"""Drivers and driven, in the order of the train from the spindle."""


def train_for(*, pitch: Millimetre, leadscrew: Millimetre) -> Train | None:
    """Give wheels for a pitch: one pair if it goes, else two, the nearest within ``NEAR``.

    Parameters
    ----------
    pitch :
        Of the thread to be cut. [mm]
    leadscrew :
        Its pitch. [mm]

    Examples
    --------
    >>> train_for(pitch=1.5, leadscrew=3.0)
    ((40,), (80,))
    >>> train_for(pitch=25.4 / 20, leadscrew=3.0)
    ((40, 127), (100, 120))
    """
    ratio = pitch / leadscrew
    for pairs in (_single(ratio), _double(ratio)):
        best = min(pairs, key=lambda one: one[0], default=None)
        if best is not None:
            return best[1]
    return None


_Order: TypeAlias = tuple[float, int, int]


def _order(off: float, *wheels: int) -> _Order:
    """Nearest first; then without the smallest wheels, which hardly reach their neighbours."""
    return off, -min(*wheels, HANDY), sum(wheels)


def _off(ratio: float, made: float) -> float:
    error = abs(made / ratio - 1)
    return 0.0 if error < EXACT else error


def _single(ratio: float) -> Iterator[tuple[_Order, Train]]:
    for a, b in permutations(WHEELS, 2):
        if _off(ratio, a / b) == 0:
            yield _order(0.0, a, b), ((a,), (b,))


def _double(ratio: float) -> Iterator[tuple[_Order, Train]]:
    made = {pair: pair[0] * pair[1] for pair in combinations(WHEELS, 2)}
    by_product: dict[int, list[tuple[int, int]]] = {}
    for pair, product in made.items():
        by_product.setdefault(product, []).append(pair)
    for driven, product in made.items():
        wanted = product * ratio
        for near in range(round(wanted * (1 - NEAR)), round(wanted * (1 + NEAR)) + 1):
            for drivers in by_product.get(near, ()):
                off = _off(ratio, near / product)
                if off <= NEAR and not set(drivers) & set(driven):
                    yield _order(off, *drivers, *driven), (drivers, driven)
