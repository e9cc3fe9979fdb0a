"""Names of drills: ``No. 27``, ``#27``, ``letter F``, ``5.5``, ``7/32``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from halfthou.quantities.figure import DrawingUnits, not_understood, refuse_long
from halfthou.quantities.length import Length, parse_length

if TYPE_CHECKING:
    from typing import Literal

DRILL_FORMS: Final = ("5.5", "7/32", "No. 27", "letter F")

_NUMBER: Final = re.compile(r"\s*(?:no\.?|number|#)\s*(\d{1,2})\s*", re.IGNORECASE)
_LETTER: Final = re.compile(r"\s*letter\s+([A-Za-z])\s*", re.IGNORECASE)
_BARE_FRACTION: Final = re.compile(r"\s*(?:\d+[ -])?\d+/\d+\s*")
_LAST_NUMBER: Final = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillName:
    """A drill by its name; exactly one of number, letter and length is given."""

    kind: Literal["number", "letter", "length"]
    text: str
    number: int | None = None
    letter: str | None = None
    length: Length | None = None

    def write(self) -> str:
        """Give the author's own text back."""
        return self.text


def parse_drill(text: str, *, units: DrawingUnits) -> DrillName:
    """Read the name of a drill; a bare fraction is inches whatever the ``units``."""
    refuse_long(text, "a drill")
    if (found := _NUMBER.fullmatch(text)) is not None:
        number = int(found[1])
        if not 1 <= number <= _LAST_NUMBER:
            raise not_understood(
                text, "a drill", DRILL_FORMS, why="number drills run from 1 to 80"
            )
        return DrillName(kind="number", number=number, text=text)
    if (found := _LETTER.fullmatch(text)) is not None:
        return DrillName(kind="letter", letter=found[1].upper(), text=text)
    if not re.match(r"\s*[\d.,]", text):
        raise not_understood(text, "a drill", DRILL_FORMS)
    own: DrawingUnits = "in" if _BARE_FRACTION.fullmatch(text) else units
    return DrillName(kind="length", length=parse_length(text, units=own), text=text)
