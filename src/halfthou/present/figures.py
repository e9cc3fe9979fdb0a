"""Figures as they stand on cards and pages: the one place where they are rounded.

Sizes to cut to are rounded to the nearest; limits are rounded to the safe side, the low one up
and the high one down, so that a size within the printed limits is within the true ones.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from halfthou.units import MM_PER_INCH, Millimetre

Display: TypeAlias = Literal["mm", "in", "both"]

_PLACES: Final = {"mm": 2, "in": 4}
_FINEST_FRACTION: Final = 64
_FRACTION_NOISE: Final = 1e-6
_NOISE: Final = 9
"""Decimals of a millimetre below which a figure is arithmetic and not metal."""


def length(value: Millimetre, display: Display = "mm", *, places: int | None = None) -> str:
    """Write a length; without ``places``, to 0.01 mm or 0.0001 in, needless noughts dropped.

    >>> length(20.5), length(20.018, places=3), length(25.4, "in"), length(12.7, "both")
    ('20.5', '20.018', '1', '12.7 (0.5 in)')
    """
    if display == "both":
        return f"{length(value, 'mm', places=places)} ({length(value, 'in')} in)"
    shown = _PLACES[display] if places is None else places
    text = _rounded(_in(value, display), shown, ROUND_HALF_EVEN)
    return text if places is not None else _short(text)


def as_drawn(value: Millimetre, units: Literal["mm", "in"] = "mm") -> str:
    """Write a length as a drawing would: inches in fractions where they come out in 64ths.

    >>> as_drawn(25.4 / 32, "in"), as_drawn(25.4 * 1.375, "in"), as_drawn(2.54, "in")
    ('1/32', '1 3/8', '0.1')
    """
    parts = value / MM_PER_INCH * _FINEST_FRACTION
    if units == "mm" or abs(parts - round(parts)) > _FRACTION_NOISE:
        return length(value, units)
    whole, rest = divmod(round(parts), _FINEST_FRACTION)
    if not rest:
        return str(whole)
    share = Fraction(rest, _FINEST_FRACTION)
    return f"{whole} {share}" if whole else str(share)


def diameter(value: Millimetre, display: Display = "mm", *, places: int | None = None) -> str:
    """Write a diameter.

    >>> diameter(16.009, places=3)
    'Ø16.009'
    """
    return "Ø" + length(value, display, places=places)


def limits(
    low: Millimetre, high: Millimetre, display: Literal["mm", "in"] = "mm", *, places: int = 3
) -> str:
    """Write two limits, each rounded to the safe side.

    >>> limits(15.9996, 16.0184)
    '16.000–16.018'
    """
    least = _rounded(_in(low, display), places, ROUND_CEILING)
    most = _rounded(_in(high, display), places, ROUND_FLOOR)
    return f"{least}–{most}"


def places_for(width: Millimetre, display: Literal["mm", "in"] = "mm") -> int:
    """Return how many decimals show a tolerance of this width to a tenth of itself or better.

    >>> places_for(0.2), places_for(0.021), places_for(0.008)
    (2, 3, 4)
    """
    wide = _in(width, display)
    for places in (2, 3, 4):
        if wide >= Decimal(10) ** (1 - places) * Decimal("1.9"):
            return places
    return 4


def divisions(count: float) -> str:
    """Write divisions of a dial: whole ones, or halves where it is read between lines.

    >>> divisions(12.0), divisions(7.5), divisions(0.5)
    ('12', '7½', '½')
    """
    whole, half = divmod(round(count * 2), 2)
    if not half:
        return str(whole)
    return f"{whole}½" if whole else "½"


def dial_setting(turns: int, count: float) -> str:
    """Write whole turns of a handle and divisions past them.

    >>> dial_setting(3, 12.5), dial_setting(1, 0.0), dial_setting(0, 40.0)
    ('3 turns + 12½ div', '1 turn', '40 div')
    """
    parts = [f"{turns} turn{'' if turns == 1 else 's'}"] if turns else []
    if count or not turns:
        parts.append(f"{divisions(count)} div")
    return " + ".join(parts)


def _in(value: Millimetre, display: Literal["mm", "in"]) -> Decimal:
    shown = value / MM_PER_INCH if display == "in" else value
    return Decimal(repr(round(shown, _NOISE)))


def _rounded(value: Decimal, places: int, way: str) -> str:
    shown = value.quantize(Decimal(1).scaleb(-places), rounding=way)
    return f"{shown:f}".replace("-", "−") if shown else f"{abs(shown):f}"


def _short(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text
