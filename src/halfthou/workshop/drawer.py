"""The drill drawer: series of drills written out one by one."""

from __future__ import annotations

import re
import string
from fractions import Fraction
from typing import Final

from halfthou.errors import InputFault

_SERIES: Final = re.compile(
    r"\s*(?P<first>[\d./]+)\s+to\s+(?P<last>[\d./]+)\s+by\s+(?P<step>[\d./]+)\s*"
)
_NUMBERS: Final = re.compile(r"\s*(?:Nos?\.?|numbers)\s*(\d+)\s+to\s+(\d+)\s*", re.IGNORECASE)
_LETTERS: Final = re.compile(r"\s*letters?\s+([A-Z])\s+to\s+([A-Z])\s*", re.IGNORECASE)
_MOST: Final = 1000
FORMS: Final = ("1 to 13 by 0.1", "1/64 to 1/2 by 1/64", "Nos 1 to 60", "letters A to Z", "6.35")


def written_out(text: str) -> tuple[str, ...]:
    """Name the single drills of a series.

    >>> written_out("1 to 1.3 by 0.1")
    ('1', '1.1', '1.2', '1.3')
    >>> written_out("Nos 1 to 3")
    ('No. 1', 'No. 2', 'No. 3')
    """
    if found := _NUMBERS.fullmatch(text):
        return tuple(f"No. {n}" for n in range(int(found[1]), min(int(found[2]), 80) + 1))
    if found := _LETTERS.fullmatch(text):
        letters = string.ascii_uppercase
        first, last = letters.index(found[1].upper()), letters.index(found[2].upper())
        return tuple(f"letter {letter}" for letter in letters[first : last + 1])
    if found := _SERIES.fullmatch(text):
        return _steps(text, found["first"], found["last"], found["step"])
    if " to " in text:
        raise _not_understood(text)
    return (text.strip(),)


def _steps(text: str, *figures: str) -> tuple[str, ...]:
    try:
        first, last, step = (Fraction(figure) for figure in figures)
    except (ValueError, ZeroDivisionError):
        raise _not_understood(text) from None
    if step <= 0 or last < first or (last - first) / step > _MOST:
        raise _not_understood(text)
    inches = any("/" in figure for figure in figures)
    count = int((last - first) / step) + 1
    return tuple(_figure(first + number * step, inches=inches) for number in range(count))


def _figure(size: Fraction, *, inches: bool) -> str:
    if not inches:
        return f"{float(size):.4f}".rstrip("0").rstrip(".")
    whole, rest = divmod(size, 1)
    if not rest:
        return f"{whole} in"
    return f"{whole} {rest}" if whole else f"{rest}"


def _not_understood(text: str) -> InputFault:
    return InputFault(
        f"{text!r} is not understood as a series of drills",
        why="the drills in it cannot be told",
        tries=FORMS,
    )
