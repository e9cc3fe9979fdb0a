"""How fast: cutting speed by metal and work, and the speed the machine really has."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from halfthou.cutting.metals import Metal
from halfthou.units import Millimetre, RevPerMinute
from halfthou.workshop.model import Workshop

FACTORS: Final[dict[str, float]] = {
    "bore": 0.8,
    "drill": 0.8,
    "spot": 0.8,
    "centre": 0.8,
    "groove": 0.5,
    "chamfer": 0.5,
    "part off": 0.5,
    "ream": 0.4,
    "thread": 0.33,
    "knurl": 0.3,
    "countersink": 0.2,
    "counterbore": 0.2,
    "spot-face": 0.2,
    "mill step": 0.8,
    "mill slot": 0.8,
    "mill pocket": 0.8,
    "mill keyway": 0.8,
    "mill chamfer": 0.8,
}
"""Share of the turning speed by work (usual practice; countersinks a quarter of the drill's)."""
THREAD_AT_MOST: Final[RevPerMinute] = 100.0
"""Fastest for screwcutting, where the half-nut or the hand must be in time (usual practice)."""
REAM_AT_MOST: Final[RevPerMinute] = 500.0
"""Fastest for a reamer, fed by hand and felt (usual practice)."""
USUAL_SPEEDS: Final[dict[str, float]] = {
    "free-cutting steel": 35,
    "mild steel": 28,
    "EN8": 22,
    "silver steel": 14,
    "stainless steel": 15,
    "grey iron": 18,
    "grey iron, skin": 12,
    "gunmetal": 35,
    "phosphor bronze": 22,
    "brass": 60,
    "aluminium": 80,
}
"""Turning with high-speed steel, dry, m/min (usual practice), where a workshop tells none."""
A_HAIR_OVER: Final = 0.05
"""How far over the wanted speed a step may be: cutting speeds are not known better than that."""
CARBIDE: Final = 3.0
"""How much faster a carbide tip may go (the low end of what is printed: 3 to 6)."""


def cutting_speed(
    *, metal: Metal, verb: str, workshop: Workshop, skin: bool = False, carbide: bool = False
) -> float:
    """Surface speed to aim at.

    Parameters
    ----------
    metal :
        What is cut.
    verb :
        The operation; its factor is taken from ``FACTORS``.
    workshop :
        Whose list of cutting speeds is used.
    skin :
        Whether the tool meets the skin of a casting.
    carbide :
        Whether the tool is tipped.

    Returns
    -------
    :
        Speed of the work past the tool. [m/min]

    Notes
    -----
    Usual practice for high-speed steel, dry, on light machines.
    """
    listed = dict(USUAL_SPEEDS) | dict(workshop.cutting_speeds)
    name = f"{metal.speed}, skin" if skin and f"{metal.speed}, skin" in listed else metal.speed
    return listed[name] * metal.share * FACTORS.get(verb, 1.0) * (CARBIDE if carbide else 1.0)


def turns_a_minute(*, speed: float, diameter: Millimetre) -> RevPerMinute:
    r"""Spindle speed for a surface speed.

    .. math:: n = \frac{1000\,v}{\pi d}

    Parameters
    ----------
    speed :
        :math:`v`, surface speed. [m/min]
    diameter :
        :math:`d`, of the work on a lathe, of the cutter on a mill. [mm]

    Returns
    -------
    :
        :math:`n`. [rev/min]

    Notes
    -----
    Exact; 1000 is the millimetres of a metre. Any diameter above nothing.

    Examples
    --------
    >>> turns_a_minute(speed=28.0, diameter=25.0)
    356.5
    """
    return 1000 * speed / (math.pi * max(diameter, 0.1))


def machine_speed(speeds: Sequence[RevPerMinute], wanted: RevPerMinute) -> RevPerMinute:
    """Give the machine's step at or a hair over the wanted speed, or below; else its slowest.

    >>> machine_speed((35.0, 210.0, 350.0, 590.0), 356.5)
    350.0
    >>> machine_speed((100.0, 165.0, 210.0), 159.2)
    165.0
    """
    below = [speed for speed in speeds if speed <= wanted * (1 + A_HAIR_OVER)]
    return max(below) if below else min(speeds)


def speed_for(
    *,
    metal: Metal,
    verb: str,
    diameter: Millimetre,
    workshop: Workshop,
    speeds: Sequence[RevPerMinute],
    at_most: RevPerMinute = 0.0,
    skin: bool = False,
) -> RevPerMinute:
    """Give the speed to set: by metal, work and diameter, within what the holding stands."""
    surface = cutting_speed(metal=metal, verb=verb, workshop=workshop, skin=skin)
    wanted = turns_a_minute(speed=surface, diameter=diameter)
    limits = {"thread": THREAD_AT_MOST, "ream": REAM_AT_MOST}
    most = min(limits.get(verb, math.inf), at_most if at_most > 0 else math.inf)
    allowed = [speed for speed in speeds if speed <= most] or [min(speeds)]
    return machine_speed(allowed, wanted)
