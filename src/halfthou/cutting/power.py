"""Force and power of a cut, as a range: printed forces differ by 1.6 for one metal."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from halfthou.cutting.metals import Metal
from halfthou.units import Kilowatt, Millimetre, Newton, RevPerMinute

UPPER: Final = 1.6
"""How far the highest printed force of a metal lies above the lowest."""
_N_M_A_MINUTE_IN_A_KILOWATT: Final = 60_000.0


class Span(NamedTuple):
    """Lowest and highest value that published forces give."""

    low: float
    high: float


def cutting_force(*, metal: Metal, depth: Millimetre, feed: Millimetre) -> Span:
    r"""Force along the cut of a turning tool square to the work.

    .. math:: F = k_{1}\, a\, f^{\,1-m}

    Parameters
    ----------
    metal :
        Gives :math:`k_1` [N/mm²] and :math:`m`.
    depth :
        :math:`a`, depth of cut a side. [mm]
    feed :
        :math:`f`, a turn. [mm]

    Returns
    -------
    :
        :math:`F` by the lowest and the highest of the published forces. [N]

    Notes
    -----
    The chip thickness stands for its ratio to 1 mm. Below 0.05 mm it reads low: the edge rubs.

    Examples
    --------
    >>> from halfthou.cutting.metals import metal_of
    >>> cutting_force(metal=metal_of("mild steel"), depth=1.0, feed=0.1).low
    218.9

    References
    ----------
    Specific forces by the groups of ISO 513, tooling makers' tables.
    """
    force: Newton = metal.force * depth * feed ** (1 - metal.exponent)
    return Span(force, UPPER * force)


def power_needed(*, force: float, speed: float) -> Kilowatt:
    r"""Power a cutting force takes.

    .. math:: P = F v / 60000

    Parameters
    ----------
    force :
        :math:`F`. [N]
    speed :
        :math:`v`, surface speed. [m/min]

    Returns
    -------
    :
        :math:`P`. [kW]

    Notes
    -----
    Exact.

    Examples
    --------
    >>> power_needed(force=1860.0, speed=120.0)
    3.72
    """
    return force * speed / _N_M_A_MINUTE_IN_A_KILOWATT


def power_of_cut(
    *, metal: Metal, depth: Millimetre, feed: Millimetre, diameter: Millimetre, speed: RevPerMinute
) -> Span:
    """Give the power a turning cut takes, by the lowest and the highest of the forces [kW]."""
    surface = math.pi * diameter * speed / 1000
    force = cutting_force(metal=metal, depth=depth, feed=feed)
    return Span(
        power_needed(force=force.low, speed=surface), power_needed(force=force.high, speed=surface)
    )


def depth_within_power(
    *,
    metal: Metal,
    depth: Millimetre,
    feed: Millimetre,
    diameter: Millimetre,
    speed: RevPerMinute,
    power: Kilowatt,
) -> Millimetre:
    """Give the depth of cut wanted, or what the spindle can pull by the higher of the forces."""
    needed = power_of_cut(metal=metal, depth=depth, feed=feed, diameter=diameter, speed=speed).high
    if power <= 0 or needed <= power:
        return depth
    return depth * power / needed
