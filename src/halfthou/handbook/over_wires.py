"""Measuring a thread over three wires."""

from __future__ import annotations

import math

from halfthou.handbook.threads import Thread
from halfthou.units import Millimetre, Radian


def best_wire(*, pitch: Millimetre, angle: Radian) -> Millimetre:
    r"""Wire that touches the flanks at the effective diameter.

    .. math:: W = \frac{p}{2 \cos(\alpha/2)}

    Parameters
    ----------
    pitch :
        :math:`p`, pitch of the thread. [mm]
    angle :
        :math:`\alpha`, included angle of the thread. [rad]

    Returns
    -------
    :
        :math:`W`, diameter of each wire. [mm]

    Notes
    -----
    For any symmetrical thread of small helix angle.

    Examples
    --------
    >>> best_wire(pitch=1.0, angle=math.pi / 3)
    0.57735
    """
    return pitch / (2 * math.cos(angle / 2))


def size_over_wires(
    *, effective: Millimetre, wire: Millimetre, pitch: Millimetre, angle: Radian
) -> Millimetre:
    r"""Size over three wires laid in a thread.

    .. math:: M = E + W\left(1 + \csc\frac{\alpha}{2}\right) - \frac{p}{2}\cot\frac{\alpha}{2}

    Parameters
    ----------
    effective :
        :math:`E`, effective diameter. [mm]
    wire :
        :math:`W`, diameter of each wire. [mm]
    pitch :
        :math:`p`, pitch of the thread. [mm]
    angle :
        :math:`\alpha`, included angle of the thread. [rad]

    Returns
    -------
    :
        :math:`M`, reading of the micrometer. [mm]

    Notes
    -----
    Leaves out the helix angle: under 2 µm for single threads of usual pitch.

    Examples
    --------
    A thread of 7/16 in by 14 to the inch, 60°, on wires of 0.045 in, in inches:

    >>> size_over_wires(effective=0.39111, wire=0.045, pitch=1 / 14, angle=math.pi / 3)
    0.46425

    References
    ----------
    Machinery's Handbook 31, p. 2130.
    """
    half = angle / 2
    return effective + wire * (1 + 1 / math.sin(half)) - pitch / 2 / math.tan(half)


def thread_over_wires(thread: Thread, wire: Millimetre) -> Millimetre:
    """Size over wires of a thread at its basic effective diameter [mm]."""
    return size_over_wires(
        effective=thread.effective, wire=wire, pitch=thread.pitch, angle=thread.angle
    )
