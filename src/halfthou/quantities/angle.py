"""Angles in degrees, minutes and seconds: ``20°``, ``20 deg``, ``20° 30'``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from halfthou.quantities.figure import not_understood, refuse_long
from halfthou.units import DEGREE

if TYPE_CHECKING:
    from halfthou.units import Radian

ANGLE_FORMS: Final = ("20°", "20 deg", "20° 30'", "30'")

_NUMBER: Final = r"\d+(?:[.,]\d+)?|[.,]\d+"
ANGLE: Final = (
    rf"(?=\d|[.,])(?:(?:{_NUMBER})\s*(?:°|deg(?:rees?|\.)?))?"
    rf"(?:\s*(?:{_NUMBER})\s*['′])?(?:\s*(?:{_NUMBER})\s*[\"″])?"
)
_ANGLE: Final = re.compile(
    rf"\s*(?=\d|[.,])(?:({_NUMBER})\s*(?:°|deg(?:rees?|\.)?))?"
    rf"(?:\s*({_NUMBER})\s*['′])?(?:\s*({_NUMBER})\s*[\"″])?\s*"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Angle:
    """An angle [rad] with the author's own text."""

    value: Radian
    text: str

    def write(self) -> str:
        """Give the author's own text back."""
        return self.text


def parse_angle(text: str) -> Angle:
    """Read an angle; the degree sign or ``deg`` must be there.

    >>> round(parse_angle("20° 30'").value / DEGREE, 9)
    20.5
    """
    refuse_long(text, "an angle")
    match = _ANGLE.fullmatch(text)
    if match is None or not any(match.groups()):
        bare = re.fullmatch(rf"\s*(?:{_NUMBER})\s*", text)
        why = "a bare figure is a length" if bare else ""
        raise not_understood(text, "an angle", ANGLE_FORMS, why=why)
    degrees, minutes, seconds = (_exact(group) for group in match.groups())
    if (match[1] and minutes >= 60) or (any(match.groups()[:2]) and seconds >= 60):  # noqa: PLR2004
        raise not_understood(
            text, "an angle", ANGLE_FORMS, why="minutes and seconds of arc run up to 59"
        )
    return Angle(value=float(degrees + minutes / 60 + seconds / 3600) * DEGREE, text=text)


def _exact(text: str | None) -> Fraction:
    return Fraction("0" + text.replace(",", ".")) if text else Fraction(0)
