"""Shop mathematics: circles of holes, chords, keyways, tapers, sine bar, indexing."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

from halfthou.errors import OutOfRangeError
from halfthou.units import Millimetre, Radian

WORM_RATIO: Final = 40


def pitch_circle(
    *,
    count: int,
    diameter: Millimetre,
    first: Radian = 0.0,
    centre: tuple[Millimetre, Millimetre] = (0.0, 0.0),
) -> tuple[tuple[Millimetre, Millimetre], ...]:
    r"""Coordinates of holes equally spaced on a circle, anticlockwise.

    .. math:: x_k = x_0 + \tfrac{D}{2}\cos(\varphi + 2\pi k/n), \quad
              y_k = y_0 + \tfrac{D}{2}\sin(\varphi + 2\pi k/n)

    Parameters
    ----------
    count :
        :math:`n`, number of holes. [-]
    diameter :
        :math:`D`, pitch circle. [mm]
    first :
        :math:`\varphi`, place of the first hole from the right, anticlockwise. [rad]
    centre :
        :math:`(x_0, y_0)`. [mm]

    Returns
    -------
    :
        A pair (x, y) for each hole. [mm]

    Notes
    -----
    Any count from 1.

    Examples
    --------
    >>> pitch_circle(count=4, diameter=50.0)[1]
    (0.0000, 25.0000)
    """
    if count < 1:
        raise OutOfRangeError(f"a circle of {count} holes has none to place")
    step = 2 * math.pi / count
    return tuple(
        (
            centre[0] + diameter / 2 * math.cos(first + step * k),
            centre[1] + diameter / 2 * math.sin(first + step * k),
        )
        for k in range(count)
    )


def chord(*, diameter: Millimetre, angle: Radian) -> Millimetre:
    r"""Straight distance between two points of a circle, :math:`D \sin(\theta/2)`.

    Parameters
    ----------
    diameter :
        :math:`D`, of the circle. [mm]
    angle :
        :math:`\theta`, between the two radii; 2 pi / n for neighbours of n holes. [rad]

    Returns
    -------
    :
        Distance to set dividers to. [mm]

    Examples
    --------
    >>> chord(diameter=50.0, angle=math.pi / 3)
    25.0
    """
    return diameter * math.sin(angle / 2)


def flat_rise(*, diameter: Millimetre, width: Millimetre) -> Millimetre:
    r"""Height of a round's crown over a flat or a keyway's edges.

    .. math:: a = \frac{D - \sqrt{D^2 - w^2}}{2}

    Parameters
    ----------
    diameter :
        :math:`D`, of the round. [mm]
    width :
        :math:`w`, of the flat or keyway, up to ``diameter``. [mm]

    Returns
    -------
    :
        :math:`a`. [mm]

    Examples
    --------
    >>> flat_rise(diameter=1.0, width=0.25)
    0.0159

    References
    ----------
    Machinery's Handbook, depths of keyways.
    """
    if width > diameter:
        raise OutOfRangeError(
            f"a flat {width:g} mm wide does not go on a round of {diameter:g} mm"
        )
    return (diameter - math.sqrt(diameter**2 - width**2)) / 2


def arc_radius(*, chord: Millimetre, rise: Millimetre) -> Millimetre:
    r"""Radius of an arc from its chord and rise.

    .. math:: R = \frac{h^2 + c^2/4}{2h}

    Parameters
    ----------
    chord :
        :math:`c`. [mm]
    rise :
        :math:`h`, over 0. [mm]

    Returns
    -------
    :
        :math:`R`. [mm]

    Examples
    --------
    >>> arc_radius(chord=96.0, rise=24.0)
    60.0
    """
    if rise <= 0:
        raise OutOfRangeError(f"an arc with a rise of {rise:g} mm has no radius")
    return (rise**2 + chord**2 / 4) / (2 * rise)


def taper_angle(ratio: float) -> Radian:
    r"""Included angle of a taper, :math:`2\arctan(t/2)`.

    Parameters
    ----------
    ratio :
        :math:`t`, change of diameter over length: 1 in 12 is 1/12. [-]

    Returns
    -------
    :
        Included angle; the top-slide is set to half of it. [rad]

    Examples
    --------
    >>> math.degrees(taper_angle(0.035))
    2.00515
    """
    return 2 * math.atan(ratio / 2)


def taper_ratio(included: Radian) -> float:
    r"""Change of diameter over length of a taper, :math:`2\tan(\alpha/2)`.

    Parameters
    ----------
    included :
        :math:`\alpha`, under pi. [rad]

    Returns
    -------
    :
        Taper. [-]

    Examples
    --------
    >>> taper_ratio(math.radians(30))
    0.5359
    """
    return 2 * math.tan(included / 2)


def tailstock_set_over(*, ratio: float, length: Millimetre) -> Millimetre:
    r"""Set-over of the tailstock for a taper between centres, :math:`t L / 2`.

    Parameters
    ----------
    ratio :
        :math:`t`, change of diameter over length. [-]
    length :
        :math:`L`, of the whole work between centres, not of the taper alone. [mm]

    Returns
    -------
    :
        Set-over. [mm]

    Notes
    -----
    Holds for slender tapers; the centres' depth in the work is left out.

    Examples
    --------
    A taper of 1 in 24 over 18 of length:

    >>> tailstock_set_over(ratio=1 / 24, length=18.0)
    0.375
    """
    return ratio * length / 2


def sine_bar_stack(*, bar: Millimetre, angle: Radian) -> Millimetre:
    r"""Blocks under one roller of a sine bar, :math:`L \sin\alpha`.

    Parameters
    ----------
    bar :
        :math:`L`, distance of the rollers. [mm]
    angle :
        :math:`\alpha`. [rad]

    Returns
    -------
    :
        Height of the blocks. [mm]

    Examples
    --------
    >>> sine_bar_stack(bar=5.0, angle=math.radians(27))
    2.26995
    """
    return bar * math.sin(angle)


def indexing_turns(divisions: int, *, ratio: int = WORM_RATIO) -> Fraction:
    """Give the turns of the handle for one division on a dividing head.

    Parameters
    ----------
    divisions :
        Number of divisions, from 1. [-]
    ratio :
        Turns of the handle for one of the spindle. [-]

    Returns
    -------
    :
        Whole turns and the part of a turn. [-]

    Examples
    --------
    >>> indexing_turns(6)
    Fraction(20, 3)
    """
    if divisions < 1:
        raise OutOfRangeError(f"{divisions} divisions cannot be indexed")
    return Fraction(ratio, divisions)


def holes_in_circle(turns: Fraction, circle: int) -> tuple[int, int] | None:
    """Whole turns and holes of a hole circle; none if the circle does not divide so.

    >>> holes_in_circle(indexing_turns(6), 39)
    (6, 26)
    """
    holes = turns * circle
    if holes.denominator != 1:
        return None
    return divmod(holes.numerator, circle)
