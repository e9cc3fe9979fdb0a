"""Lengths as written on a drawing: ``1 3/8 in``, ``.875``, ``22.2 mm``, ``35``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from halfthou.quantities.figure import (
    FIGURE,
    UNIT,
    DrawingUnits,
    FigureForm,
    in_millimetres,
    need_inches_for_fraction,
    not_understood,
    read_figure,
    refuse_long,
    unit_of,
)
from halfthou.units import MM_PER_INCH

if TYPE_CHECKING:
    from halfthou.units import Millimetre

LENGTH_FORMS: Final = ("35", "22.2 mm", ".875", "1 3/8 in", '1-3/8"')

_LENGTH: Final = re.compile(rf"\s*({FIGURE})\s*({UNIT})?\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length [mm] with the author's own text, unit and form of figure."""

    value: Millimetre
    text: str
    unit: DrawingUnits
    form: FigureForm
    places: int

    def write(self) -> str:
        """Give the author's own text back."""
        return self.text


def parse_length(text: str, *, units: DrawingUnits) -> Length:
    """Read a length; a bare figure takes the drawing's ``units``.

    >>> parse_length("1 3/8 in", units="mm").value
    34.925
    """
    refuse_long(text, "a length")
    match = _LENGTH.fullmatch(text)
    if match is None:
        raise not_understood(text, "a length", LENGTH_FORMS, why=_reason(text))
    return length_from(match[1], match[2], units=units, text=text)


def length_from(figure: str, unit: str | None, *, units: DrawingUnits, text: str) -> Length:
    """Length from a figure and a unit already taken apart; ``text`` is what was written."""
    read = read_figure(figure, whole=text.strip())
    own = unit_of(unit, units)
    need_inches_for_fraction(read, own, whole=text.strip())
    return Length(
        value=in_millimetres(read.value, own),
        text=text,
        unit=own,
        form=read.form,
        places=read.places,
    )


def decimal_length(value: Millimetre, *, unit: DrawingUnits, places: int) -> Length:
    """Length written as a decimal with ``places``, for one that nobody has written yet."""
    shown = value / MM_PER_INCH if unit == "in" else value
    text = f"{shown:.{places}f} {unit}"
    return Length(value=value, text=text, unit=unit, form="decimal", places=places)


def _reason(text: str) -> str:
    if text.strip().startswith(("-", "+")):
        return "a length has no sign; the side is given in words"
    if re.search(r"\d\s*(cm|m|ft|thou|th)\b", text):
        return "drawings here are in mm or inches"
    return ""
