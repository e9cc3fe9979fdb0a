"""Plain figures as the trade writes them: whole numbers, decimals, fractions, and their unit."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final, Literal, TypeAlias

from halfthou.errors import InputFault

if TYPE_CHECKING:
    from collections.abc import Sequence

DrawingUnits: TypeAlias = Literal["mm", "in"]
FigureForm: TypeAlias = Literal["fraction", "decimal"]

FIGURE: Final = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+[.,]\d*|[.,]\d+|\d+)"
UNIT: Final = r"(?:(?i:mm|inch(?:es)?|in\.?)|\"|″|'')"
LONGEST: Final = 120
MM_IN_AN_INCH: Final = Fraction(254, 10)

_MIXED: Final = re.compile(r"(?:(\d+)[ -])?(\d+)/(\d+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A figure read exactly: its value, its form and its decimal places."""

    value: Fraction
    form: FigureForm
    places: int


def not_understood(text: str, what: str, forms: Sequence[str], why: str = "") -> InputFault:
    """Fault naming a text that cannot be read, and the forms that can."""
    if not text.strip():
        return InputFault(f"{what} is empty", why=why, tries=_like(forms))
    return InputFault(f"'{text}' cannot be read as {what}", why=why, tries=_like(forms))


def refuse_long(text: str, what: str) -> None:
    """Refuse a text far longer than any quantity, before it is taken apart."""
    if len(text) > LONGEST:
        shown = " ".join(text[:20].split())
        raise InputFault(
            f"'{shown}...' is too long for {what}: {len(text)} characters",
            why=f"nothing on a drawing takes over {LONGEST}",
            tries=("look for a missing quote before it",),
        )


def _like(forms: Sequence[str]) -> tuple[str, ...]:
    return (f"write it like {', '.join(forms)}",)


def read_figure(text: str, *, whole: str) -> Figure:
    """Read one figure that already matches ``FIGURE``; ``whole`` is named in a fault."""
    mixed = _MIXED.fullmatch(text)
    if mixed is None:
        point = text.replace(",", ".")
        places = len(point.partition(".")[2])
        return Figure(value=Fraction(f"0{point}"), form="decimal", places=places)
    ones, top, bottom = (int(group or 0) for group in mixed.groups())
    if bottom == 0 or top >= bottom:
        raise InputFault(
            f"'{whole}' has a fraction that is not less than one: {top}/{bottom}",
            why="a fraction of an inch is written with the smaller figure on top",
            tries=("write 1 3/8 for one and three eighths", "write limits as 20.00/19.98"),
        )
    return Figure(value=ones + Fraction(top, bottom), form="fraction", places=0)


def unit_of(text: str | None, units: DrawingUnits) -> DrawingUnits:
    """Which unit a written one means; the drawing's own where none is written."""
    if not text:
        return units
    return "mm" if text.lower() == "mm" else "in"


def in_millimetres(value: Fraction, unit: DrawingUnits) -> float:
    """Nearest float in mm to an exact figure in ``unit``."""
    return float(value * MM_IN_AN_INCH if unit == "in" else value)


def need_inches_for_fraction(figure: Figure, unit: DrawingUnits, *, whole: str) -> None:
    """Refuse a fraction of a millimetre: on a drawing it is always an inch size."""
    if figure.form == "fraction" and unit == "mm":
        raise InputFault(
            f"'{whole}' is a fraction without a unit on a drawing in mm",
            why="fractions are sizes in inches; fractions of a millimetre are not drawn",
            tries=(f"write '{whole} in'", "write the size in mm as a decimal")
            if re.fullmatch(FIGURE, whole)
            else ("write it in mm as a decimal",),
        )
