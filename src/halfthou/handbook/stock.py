"""Bright bar that is usually to be had, and how much under size it comes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeAlias, get_args

from halfthou.errors import OutOfRangeError
from halfthou.handbook.limits_fits import Deviations, limits
from halfthou.handbook.tables import rows
from halfthou.quantities import DrawingUnits, Length, parse_length
from halfthou.units import Millimetre

BarForm: TypeAlias = Literal["round", "hexagon", "square"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A bright bar: its form, and its diameter or width across flats."""

    form: BarForm
    size: Length

    @property
    def tolerance(self) -> Deviations:
        """Deviations [mm]: h9 for rounds, h11 for hexagons and squares (EN 10278)."""
        return limits(self.size.value, "h", 9 if self.form == "round" else 11)


@cache
def bars(form: BarForm, units: DrawingUnits) -> tuple[Bar, ...]:
    """Usual bars of a form, smallest first."""
    found = [
        Bar(form=_form(row["form"]), size=parse_length(f"{row['size']} {units}", units=units))
        for row in rows("stock_sizes")
        if row["form"] == form and row["unit"] == units
    ]
    return tuple(sorted(found, key=lambda bar: bar.size.value))


def _form(text: str) -> BarForm:
    return next(each for each in get_args(BarForm) if each == text)


def next_bar(diameter: Millimetre, form: BarForm = "round", *, units: DrawingUnits = "mm") -> Bar:
    """Smallest usual bar not under ``diameter`` (across flats for a hexagon) [mm].

    >>> next_bar(28.6, units="in").size.text
    '1 1/4 in'
    """
    for bar in bars(form, units):
        if bar.size.value >= diameter - 1e-9:
            return bar
    biggest = bars(form, units)[-1]
    raise OutOfRangeError(
        f"no usual {form} bar is {diameter:.1f} mm or more",
        why=f"the list ends at {biggest.size.text}",
        tries=("start from a casting or a sawn block", "give the bar's own size in the part file"),
    )
