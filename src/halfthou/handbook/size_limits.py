"""Limits of any size on a drawing, from its own tolerance or from the rule for the rest."""

from __future__ import annotations

from dataclasses import dataclass

from halfthou.handbook.general_tolerance import GeneralRule, Iso2768, general_limits
from halfthou.handbook.limits_fits import Deviations, fit_limits, fit_words
from halfthou.quantities import FitClass, FitWord, Size
from halfthou.units import Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeLimits:
    """Smallest and largest size [mm], with where they come from.

    ``table`` is the handbook's data file behind them, none if the drawing gives the figures.
    """

    nominal: Millimetre
    lower: Millimetre
    upper: Millimetre
    basis: str
    table: str | None = None

    @property
    def width(self) -> Millimetre:
        """Upper less lower limit [mm]."""
        return self.upper - self.lower

    @property
    def middle(self) -> Millimetre:
        """Half way between the limits [mm]."""
        return (self.lower + self.upper) / 2


def size_limits(
    size: Size, *, otherwise: GeneralRule | None, inside: bool = False
) -> SizeLimits | None:
    """Limits of a size; none for a reference size or where nothing gives any.

    Parameters
    ----------
    size :
        As read from the drawing. [mm]
    otherwise :
        The drawing's general tolerance. [-]
    inside :
        Whether it is the size of a hole or a slot, which a fit in words needs to know. [-]

    Returns
    -------
    :
        Limits of size. [mm]
    """
    if size.reference:
        return None
    own = size.own_deviations()
    if own is not None:
        return _limits(size, Deviations(*own), "the drawing", None)
    match size.tolerance:
        case FitClass() as fit:
            found = fit_limits(size.nominal.value, fit)
            return _limits(size, found, f"ISO 286 {fit.symbol}", "iso286_it_grades")
        case FitWord(word=word):
            pair = fit_words()[word]
            fit = pair.hole if inside else pair.shaft
            found = fit_limits(size.nominal.value, fit)
            return _limits(size, found, f"{word} fit taken as {fit.symbol}", "fit_words")
        case _:
            return _general(size, otherwise)


def _general(size: Size, rule: GeneralRule | None) -> SizeLimits | None:
    found = general_limits(rule, size.nominal) if rule else None
    if rule is None or found is None:
        return None
    table = "iso2768_linear" if isinstance(rule, Iso2768) else None
    return _limits(size, found, rule.text, table)


def _limits(size: Size, found: Deviations, basis: str, table: str | None) -> SizeLimits:
    nominal = size.nominal.value
    return SizeLimits(
        nominal=nominal,
        lower=nominal + found.lower,
        upper=nominal + found.upper,
        basis=basis,
        table=table,
    )
