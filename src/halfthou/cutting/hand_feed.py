"""Hand feed said as the hand does it: one turn of the handle in so many seconds."""

from __future__ import annotations

from halfthou.units import Millimetre, RevPerMinute, Second


def seconds_a_turn(*, lead: Millimetre, feed: Millimetre, speed: RevPerMinute) -> Second:
    r"""Time for one turn of the handle.

    .. math:: t = 60\,\frac{p}{f\,n}

    Parameters
    ----------
    lead :
        :math:`p`, what the slide moves in one turn of its handle. [mm]
    feed :
        :math:`f`, what the tool should move in one turn of the spindle. [mm]
    speed :
        :math:`n`. [rev/min]

    Returns
    -------
    :
        :math:`t`. [s]

    Notes
    -----
    Exact; 60 is the seconds of a minute.

    Examples
    --------
    >>> seconds_a_turn(lead=2.0, feed=0.1, speed=350.0)
    3.43
    """
    return 60 * lead / (feed * speed)
