"""Mates: the fits a part says it is made to, ``suits = "journal of arbor, 0.02 to 0.04 free"``."""

from __future__ import annotations

import re
from typing import Final

from halfthou.drawing.built import Built
from halfthou.drawing.model import Mate
from halfthou.drawing.written import Written
from halfthou.errors import InputFault
from halfthou.quantities import DrawingUnits, parse_length

_SUITS: Final = re.compile(r"(?P<surface>.+?) of (?P<part>[^,]+?)(?:\s*,\s*(?P<rest>.+))?")
_FREE: Final = re.compile(r"(?P<low>.+?) to (?P<high>.+?) (?P<way>free|tight)(?:\s*,.*)?")


def parse_suits(text: str, *, surface: str, units: DrawingUnits) -> Mate:
    """Read a mate and how freely it is to go in; tight counts as less than free.

    >>> parse_suits("journal of arbor, 0.02 to 0.04 free", surface="bore", units="mm").free_high
    0.04
    """
    found = _SUITS.fullmatch(text.strip())
    if found is None:
        raise InputFault(
            f"'{text}' names no mate",
            why="a mate is a surface of another part",
            tries=("write it like journal of arbor, 0.02 to 0.04 free",),
        )
    low = high = None
    free = _FREE.fullmatch(found["rest"]) if found["rest"] else None
    if free is not None:
        low = parse_length(free["low"], units=units).value
        high = parse_length(free["high"], units=units).value
        if free["way"] == "tight":
            low, high = -high, -low
    return Mate(
        surface=surface,
        text=text,
        part=found["part"].strip(),
        mate_surface=found["surface"].strip(),
        free_low=low,
        free_high=high,
    )


def mates_of(written: Written, built: Built) -> tuple[Mate, ...]:
    """Every mate the part file names."""
    return tuple(
        parse_suits(text, surface=table.name, units=written.units)
        for table in written.features
        for text in table.texts("suits")
        if built.named(table.name) is not None
    )
