"""Minutes of an operation: passes by length by feed, and the handling round them."""

from __future__ import annotations

from typing import Final

from halfthou.units import Millimetre, RevPerMinute

TOOL_CHANGE: Final = 1.5
"""Minutes to change a tool (usual practice)."""
BACK_AND_SET: Final = 0.25
"""Minutes to wind back and set the next cut (usual practice)."""
MEASURING: Final = 0.75
"""Minutes to stop, clean and measure once (usual practice)."""


SAW_READY: Final = 3.0
"""Minutes to mark out and grip before sawing (usual practice)."""
SAWN_A_MINUTE: Final = 150.0
"""Square millimetres a hand hacksaw goes through in a minute (usual practice)."""


def minutes_sawing(area: float) -> float:
    r"""Time to saw through by hand.

    .. math:: t = t_0 + A / r

    Parameters
    ----------
    area :
        :math:`A`, of the section sawn. [mm²]

    Returns
    -------
    :
        :math:`t`. [min]

    Notes
    -----
    Usual practice: a keen blade, somebody who does not hurry.

    Examples
    --------
    >>> round(minutes_sawing(3848.0))
    29
    """
    return SAW_READY + area / SAWN_A_MINUTE


def minutes_cutting(
    *,
    passes: int,
    length: Millimetre,
    feed: Millimetre,
    speed: RevPerMinute,
    measured: int = 0,
) -> float:
    r"""Time of an operation under the tool.

    .. math:: t = k\left(\frac{L}{f n} + t_b\right) + j\,t_m

    Parameters
    ----------
    passes :
        :math:`k`, number of cuts.
    length :
        :math:`L`, travel of one. [mm]
    feed :
        :math:`f`, a turn. [mm]
    speed :
        :math:`n`. [rev/min]
    measured :
        :math:`j`, how often it is measured.

    Returns
    -------
    :
        :math:`t`, with :math:`t_b` to set each cut and :math:`t_m` for each measuring. [min]

    Notes
    -----
    Handling times are usual practice.

    Examples
    --------
    >>> minutes_cutting(passes=3, length=40.0, feed=0.1, speed=350.0, measured=1)
    4.93
    """
    return passes * (length / (feed * speed) + BACK_AND_SET) + measured * MEASURING
