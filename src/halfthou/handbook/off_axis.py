"""Work held off its own axis in the lathe: what the clock reads, how thick the packing must be.

The throw is the distance from the middle of the work's outside to the line it turns on.
"""

from __future__ import annotations

import math

from halfthou.errors import OutOfRangeError
from halfthou.units import Millimetre

_THIRD_OF_A_TURN = math.radians(120.0)


def clock_over_the_turn(throw: Millimetre) -> Millimetre:
    r"""Give what a clock on the outside reads from least to most in one turn.

    .. math:: T = 2e

    Parameters
    ----------
    throw :
        :math:`e`. [mm]

    Returns
    -------
    :
        :math:`T`, total reading. [mm]

    Notes
    -----
    Exact for a plunger square to the axis at the height of the centres. Derived: the outside
    stands :math:`e` nearer on one side of the line and :math:`e` farther on the other.

    Examples
    --------
    >>> clock_over_the_turn(0.8)
    1.6
    """
    if throw < 0:
        raise OutOfRangeError(f"a throw of {throw:.2f} mm is less than nothing")
    return 2 * throw


def packing(*, throw: Millimetre, diameter: Millimetre) -> Millimetre:
    r"""Give the packing under one jaw of a three-jaw chuck for a throw, jaws bearing on a line.

    .. math:: p = \tfrac32 e - R + \sqrt{R^2 - \tfrac34 e^2}

    Parameters
    ----------
    throw :
        :math:`e`, under the radius. [mm]
    diameter :
        :math:`2R`, what the jaws hold. [mm]

    Returns
    -------
    :
        :math:`p`. [mm]

    Notes
    -----
    From the triangle of chuck centre, work centre and the line where a jaw without packing
    bears, 60 degrees at the chuck centre. Published with a worked example by R. Thibault,
    "Turning an eccentric hole in a 3-jaw chuck" (2000). Jaws with flat faces wider than the
    line bear a shade off it: see ``packing_for_flat_jaws``.

    Examples
    --------
    >>> round(packing(throw=0.8, diameter=14.0), 3)
    1.166
    """
    radius = diameter / 2
    if not 0 <= throw < radius:
        raise OutOfRangeError(
            f"a throw of {throw:.2f} mm is outside work {diameter:.2f} mm across",
            why="the line it turns on must lie within the work",
        )
    across = throw * math.sin(_THIRD_OF_A_TURN)
    return 1.5 * throw - radius + math.sqrt(radius**2 - across**2)


def packing_for_flat_jaws(throw: Millimetre) -> Millimetre:
    r"""Give the packing for a throw where the jaws' faces are flat and touch the round.

    .. math:: p = \tfrac32 e

    Parameters
    ----------
    throw :
        :math:`e`. [mm]

    Returns
    -------
    :
        :math:`p`, never less than for jaws that bear on a line. [mm]

    Notes
    -----
    Derived: each face stands one radius from the work's middle, square to its own jaw.

    Examples
    --------
    >>> round(packing_for_flat_jaws(0.8), 3)
    1.2
    """
    if throw < 0:
        raise OutOfRangeError(f"a throw of {throw:.2f} mm is less than nothing")
    return 1.5 * throw
