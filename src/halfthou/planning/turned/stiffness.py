"""How slender the work is where a tool pushes it: length over diameter of a plain bar as weak.

The usual limits of stick-out (three diameters free, ten with a centre) are said of plain bars.
Work of several diameters is compared by how far it gives under the tool.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from halfthou.units import Millimetre

BUILT_IN: Final = 7 / 16
"""A bar built in at one end gives so much less in its middle than one on two centres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A stretch of the work of one diameter; [mm]."""

    length: Millimetre
    diameter: Millimetre


def overhung(pieces: Sequence[Piece], *, at: Millimetre, across: Millimetre) -> float:
    r"""Slenderness of work that stands out of its jaws, pushed ``at`` a distance from them.

    .. math:: s^3 = d \sum_i \frac{(x - a_i)^3 - (x - b_i)^3}{d_i^4}

    Parameters
    ----------
    pieces :
        The work, from the jaws outward.
    at :
        :math:`x`, where the tool pushes, from the jaws. [mm]
    across :
        :math:`d`, diameter being cut; the plain bar compared with has it. [mm]

    Returns
    -------
    :
        :math:`s`, length over diameter of the plain bar that gives as much. [-]

    Notes
    -----
    Bending of a cantilever by its end load, summed over stretches of one section each; derived.

    Examples
    --------
    >>> round(overhung([Piece(length=60, diameter=20)], at=60, across=20), 6)
    3.0
    """
    total = 0.0
    for begin, end, diameter in _stretches(pieces):
        a, b = max(at - begin, 0.0), max(at - end, 0.0)
        total += (a**3 - b**3) / diameter**4
    return float((across * total) ** (1 / 3))


def carried(
    pieces: Sequence[Piece], *, at: Millimetre, across: Millimetre, in_jaws: bool
) -> float:
    r"""Slenderness of work carried at both ends, pushed ``at`` a distance from the first.

    .. math:: s^3 = 48\, d\, k \sum_i \int_{a_i}^{b_i} \frac{m(x)^2}{d_i^4}\, dx

    Parameters
    ----------
    pieces :
        The work, from the first support to the second.
    at :
        Where the tool pushes, from the first support. [mm]
    across :
        :math:`d`, diameter being cut. [mm]
    in_jaws :
        Whether jaws hold the first end (:math:`k = 7/16`) or a centre (:math:`k = 1`).

    Returns
    -------
    :
        :math:`s`, length over diameter of a plain bar on centres, pushed in its middle. [-]

    Notes
    -----
    :math:`m` is the bending moment of a unit push; a plain bar on centres pushed in its middle
    gives :math:`l^3 / 48`. For jaws the ratio of the two middle deflections is taken; derived.

    Examples
    --------
    >>> bar = [Piece(length=100, diameter=10)]
    >>> round(carried(bar, at=50, across=10, in_jaws=False), 6)
    10.0
    """
    length = sum(p.length for p in pieces)
    if length <= 0 or not 0 < at < length:
        return 0.0
    left, right = (length - at) / length, at / length
    total = 0.0
    for begin, end, diameter in _stretches(pieces):
        before = min(end, at) ** 3 - min(begin, at) ** 3
        after = (length - max(begin, at)) ** 3 - (length - max(end, at)) ** 3
        total += (left**2 * before + right**2 * after) / 3 / diameter**4
    return float((48 * across * (BUILT_IN if in_jaws else 1.0) * total) ** (1 / 3))


def _stretches(pieces: Sequence[Piece]) -> Iterator[tuple[float, float, float]]:
    begin = 0.0
    for piece in pieces:
        yield begin, begin + piece.length, piece.diameter
        begin += piece.length
