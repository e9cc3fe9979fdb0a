"""Sizes this workshop has to make and cannot judge, and what would judge them."""

from __future__ import annotations

import re
from typing import Final, Literal

from halfthou.cutting.gauging import MeasureKind, choose_gauge
from halfthou.drawing.model import Band, Part, Surface
from halfthou.planning.model import Unjudged
from halfthou.workshop.model import Workshop

_FIT: Final = re.compile(r"(?<![A-Za-z])(?P<letter>[A-Za-z]{1,2})(?P<grade>\d{1,2})\b")
_LOOSE: Final = "hg"
_SNUG: Final = "jkmn"


def ways_out(surface: Surface, band: Band, *, pressed_in: bool = False) -> tuple[str, ...]:
    """Give the three ways out the trade has: a bought gauge, a finer instrument, the mate itself.

    Parameters
    ----------
    surface :
        What has the size.
    band :
        The size, with the drawing's own text: its fit letter tells how the mate is to go.
    pressed_in :
        Whether the part itself is pressed into a housing, which closes its bore.

    Returns
    -------
    :
        Three ways, the surest for one part first.
    """
    if surface.kind == "plane":
        return (
            "two slips of gauge plate, go and no-go, each proved by a finer micrometer",
            "gauge blocks wrung to each limit and tried in it, borrowed for the day",
            "finish it to the mate: the key fitted to its slot, a push by hand with no shake",
        )
    letter = _letter(band)
    if surface.inside:
        return (
            "a bought go and no-go plug of this size",
            "borrow a bore gauge reading 0.002 or finer, set in a ring of the size",
            f"finish it to the mate: {_bore_then(pressed_in=pressed_in)} {_shaft_to_it(letter)}",
        )
    return (
        "a micrometer or comparator reading 0.001, borrowed, set on a gauge block of the size",
        "a bought gap gauge of these limits, go and no-go",
        f"finish it to the mate: {_bore_first(letter)}",
    )


def how_it_goes(band: Band | None) -> Literal["free", "slide", "snug", "press", ""]:
    """Tell from the fit letter of a size how it goes with its mate; empty where it has none.

    >>> how_it_goes(None)
    ''
    """
    first = _letter(band).lower()[:1] if band is not None else ""
    if not first:
        return ""
    if first < "g":
        return "free"
    if first in _LOOSE:
        return "slide"
    return "snug" if first in _SNUG else "press"


def _letter(band: Band) -> str:
    found = _FIT.search(band.text)
    return found["letter"] if found is not None else ""


def is_pressed_in(part: Part) -> bool:
    """Tell whether a part is pressed into its housing by an outside of it."""
    return any(
        s.kind == "cylinder" and not s.inside and how_it_goes(s.size) == "press"
        for s in part.surfaces
    )


def _bore_then(*, pressed_in: bool) -> str:
    if pressed_in:
        return "pressing in closes this bore: press the bush in, measure the bore again, then"
    return "make this bore first, then"


def _shaft_to_it(letter: str) -> str:
    """Say how the shaft is made to a bore that is there."""
    first = letter.lower()[:1]
    if first == "h":
        return "the shaft to it, as the shaft's own fit asks"
    if not first or first in _LOOSE:
        return "the shaft to it, until it enters by hand with a film of oil and has no shake"
    if first < "g":
        return "the shaft smaller by the clearance of the fit, both read with one micrometer"
    if first in _SNUG:
        return "the shaft to it, until it goes in by light taps of a soft hammer"
    return "the shaft larger by the press of the fit, both read with one micrometer"


def _bore_first(letter: str) -> str:
    """Say how an outside is brought to a bore that is there already."""
    first = letter.lower()[:1]
    if not first or first < "i":
        return (
            "its bore made first, this left 0.01 over and eased with fine abrasive strip until "
            "the bore slides on, oiled, without shake"
        )
    if first in _SNUG:
        return (
            "its bore made first, this left 0.01 over and eased with fine abrasive strip until "
            "the bore starts by hand and goes home by light taps"
        )
    return (
        "make this first, read it three times alike, then bore its housing smaller than that "
        "reading by the press of the fit"
    )


def kind_of(surface: Surface) -> MeasureKind | None:
    """How the size of a surface is measured, if it has one."""
    if surface.size is None:
        return None
    match surface.kind:
        case "cylinder":
            return "bore" if surface.inside else "diameter"
        case "plane":
            return "width"
        case _:
            return None


def unjudged_sizes(part: Part, workshop: Workshop) -> tuple[Unjudged, ...]:
    """Every size of the part that no gauge of the workshop decides."""
    found = []
    for surface in part.surfaces:
        kind, band = kind_of(surface), surface.size
        if kind is None or band is None or band.origin != "drawn" or surface.raw:
            continue
        best = choose_gauge(kind=kind, low=band.low, high=band.high, workshop=workshop)
        if best is not None and best.decides:
            continue
        found.append(
            Unjudged(
                surface=surface.name,
                size=band,
                best_gauge=best.gauge.name if best else "",
                doubt=best.doubt if best else 0.0,
                remedies=ways_out(surface, band, pressed_in=is_pressed_in(part)),
            )
        )
    return tuple(found)
