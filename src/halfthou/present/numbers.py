"""Numbers as sentences and tables of a card want them, in mm, inches or both.

All rounding is done by ``figures``; here it is chosen how fine a figure is written, and with what
words around it.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final, TypeAlias

from halfthou.drawing.model import Band
from halfthou.present import figures
from halfthou.present.figures import Display
from halfthou.units import MM_PER_INCH, Millimetre, Second

Units: TypeAlias = Display

THIN: Final = "\u00a0"
"""A space at which no line is broken."""
_MM_PLACES: Final = (2, 3)
_INCH_PLACES: Final = (3, 4, 5)
_MM_LOST: Final = 0.03
"""Share of a tolerance that rounding its limits inward may cost before a decimal is added."""
_WIDE: Final = 0.2
"""Limits so wide are read by caliper: a third decimal is idle. [mm]"""
_INCH_LOST: Final = 0.1
"""The same in inches: a tenth of a thou is as fine as most gauges read."""
_WORDS: Final = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_RULE: Final = 0.5
"""What a rule or a graduated sleeve is read to. [mm]"""
_PARTS: Final = 64
"""Parts of an inch a rule is divided into."""
_NOISE: Final = 1e-6
_MINUTES: Final = 60
_COARSE: Final = 0.02
"""A doubt of this or more is written to a hundredth, or a thou. [mm]"""


def one_of(units: Units) -> Units:
    """Give the unit for figures that need not be shown in both: depths of cut, travels, doubts."""
    return "mm" if units == "both" else units


def trimmed(value: float, places: int = 2) -> str:
    """Write a number that is no length, with no more decimals than it needs.

    >>> trimmed(24.0), trimmed(0.5), trimmed(980.0, 0)
    ('24', '0.5', '980')
    """
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def counted(number: int) -> str:
    """Write a small number as a word.

    >>> counted(6), counted(14)
    ('six', '14')
    """
    return _WORDS[number] if 0 <= number < len(_WORDS) else str(number)


def plain(value: Millimetre, units: Units, *, places: int = 2) -> str:
    """Write a length as a bare figure without idle noughts.

    >>> plain(38.1, "mm"), plain(38.1, "in"), plain(38.1, "both").replace(THIN, " ")
    ('38.1', '1.5', '38.1 (1.5 in)')
    """
    metric = _short(figures.length(value, "mm", places=places))
    inch = _short(figures.length(value, "in", places=places + 1))
    return _in_units(metric, inch, units)


def fixed(value: Millimetre, units: Units, *, places: int = 2) -> str:
    """Write a length as a bare figure with all its decimals, for columns.

    >>> fixed(19.0, "mm"), fixed(19.05, "in")
    ('19.00', '0.750')
    """
    metric = figures.length(value, "mm", places=places)
    inch = figures.length(value, "in", places=places + 1)
    return _in_units(metric, inch, units)


def length(value: Millimetre, units: Units, *, places: int = 1) -> str:
    """Write a length with its unit, for sentences.

    Figure and unit stay on one line.

    >>> length(25.4, "both").replace(THIN, " ")
    '25.4 mm (1 in)'
    """
    if units == "both":
        return f"{length(value, 'mm', places=places)} ({length(value, 'in', places=places)})"
    return f"{plain(value, units, places=places)}{THIN}{units}"


def _short(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text


def _in_units(metric: str, inch: str, units: Units) -> str:
    if units == "both":
        return f"{metric} ({inch}{THIN}in)"
    return metric if units == "mm" else inch


def _places(low: float, high: float, choices: tuple[int, ...], lost: float) -> int:
    """Fewest decimals at which limits rounded inward keep nearly all of the tolerance."""
    width = high - low
    for places in choices:
        step = 10.0**-places
        inner = math.floor(high / step + 1e-6) * step - math.ceil(low / step - 1e-6) * step
        if inner >= (1 - lost) * width - 1e-9 and inner > 0:
            return places
    return choices[-1]


def _both_places(low: Millimetre, high: Millimetre) -> tuple[int, int]:
    inch = _places(low / MM_PER_INCH, high / MM_PER_INCH, _INCH_PLACES, _INCH_LOST)
    lost = _MM_LOST if high - low < _WIDE else 2 * _MM_LOST
    return _places(low, high, _MM_PLACES, lost), inch


def places_of_limits(low: Millimetre, high: Millimetre) -> int:
    """Give the decimals of a millimetre that limits, and what is aimed at in them, are written to.

    >>> places_of_limits(20.0, 20.021), places_of_limits(19.8, 20.2)
    (3, 2)
    """
    return _both_places(low, high)[0]


def limits(low: Millimetre, high: Millimetre, units: Units) -> str:
    """Write both limits, each rounded inward, so that what the card allows the drawing allows.

    >>> limits(20.0, 20.021, "mm"), limits(19.8, 20.2, "mm"), limits(19.009, 19.0302, "in")
    ('20.000–20.021', '19.80–20.20', '0.7484–0.7492')
    """
    mm_places, inch_places = _both_places(low, high)
    metric = figures.limits(low, high, "mm", places=mm_places)
    inch = figures.limits(low, high, "in", places=inch_places)
    return _in_units(metric, inch, units)


def aim(value: Millimetre, low: Millimetre, high: Millimetre, units: Units) -> str:
    """Write a size to aim at, as fine as its limits are written.

    >>> aim(20.0105, 20.0, 20.021, "mm"), aim(24.0, 23.8, 24.2, "mm")
    ('20.010', '24.00')
    """
    mm_places, inch_places = _both_places(low, high)
    metric = figures.length(value, "mm", places=mm_places)
    inch = figures.length(value, "in", places=inch_places)
    return _in_units(metric, inch, units)


def nominal(band: Band, units: Units) -> str:
    """Write the nominal size of a drawn dimension, without idle noughts."""
    return plain(band.nominal, units, places=3)


def doubt(value: Millimetre, units: Units) -> str:
    """Write how far a reading can be doubted, rounded up.

    >>> doubt(0.0061, "mm"), doubt(0.0061, "in"), doubt(0.038, "mm")
    ('±0.007', '±0.0003', '±0.04')
    """
    places = 2 if value >= _COARSE else 3
    metric = _short(figures.limits(0.0, _up(value, places), "mm", places=places).partition("–")[2])
    fine = 3 if value >= _COARSE else 4
    inch = figures.limits(0.0, _up(value / MM_PER_INCH, fine) * MM_PER_INCH, "in", places=fine)
    return "±" + _in_units(metric, _short(inch.partition("–")[2]), units)


def _up(value: float, places: int) -> float:
    step = 10.0**-places
    return math.ceil(value / step - 1e-6) * step


def by_eye(travel: Millimetre, units: Units, *, way: int = 0) -> str:
    """Write a length as a rule shows it: half millimetres, or sixty-fourths of an inch.

    ``way`` is 1 to round up, -1 to round down, 0 to the nearest.

    >>> by_eye(133.35, "mm"), by_eye(133.35, "in"), by_eye(180.0, "in", way=1)
    ('133.5', '5 1/4', '7 3/32')
    """
    metric = plain(_to_mark(travel / _RULE, way) * _RULE, "mm", places=1)
    if units == "mm":
        return metric
    whole, part = divmod(_to_mark(travel / MM_PER_INCH * _PARTS, way), _PARTS)
    share = str(Fraction(part, _PARTS)) if part else ""
    shown = " ".join(filter(None, (str(whole) if whole or not part else "", share)))
    return shown if units == "in" else f"{metric} ({shown} in)"


def _to_mark(count: float, way: int) -> int:
    if way > 0:
        return math.ceil(count - _NOISE)
    return math.floor(count + _NOISE) if way < 0 else round(count)


def minutes(value: float) -> str:
    """Write a time at the bench.

    >>> minutes(42.3), minutes(60), minutes(145)
    ('42 min', '1 h', '2 h 25 min')
    """
    hours, rest = divmod(round(value), _MINUTES)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def seconds(value: Second) -> str:
    """Write the seconds one turn of a handle takes.

    >>> seconds(3.2).replace(THIN, " "), seconds(0.5).replace(THIN, " ")
    ('3 s', '0.5 s')
    """
    return f"{trimmed(value, 0 if value >= 2 else 1)}{THIN}s"  # noqa: PLR2004


def joined(words: tuple[str, ...], last: str = "and") -> str:
    """Join words as a sentence does.

    >>> joined(("rim", "face", "bore"))
    'rim, face and bore'
    """
    if len(words) < 2:  # noqa: PLR2004
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def capital(text: str) -> str:
    """Begin with a capital.

    >>> capital("barrel end")
    'Barrel end'
    """
    return text[:1].upper() + text[1:]


def uncapital(text: str) -> str:
    """Begin with a small letter, as inside a sentence.

    >>> uncapital("Soft jaws")
    'soft jaws'
    """
    return text[:1].lower() + text[1:]


def sentence(text: str) -> str:
    """Begin with a capital, end with a full stop.

    >>> sentence("lock the saddle")
    'Lock the saddle.'
    """
    text = text.strip()
    if not text:
        return ""
    return capital(text) + ("" if text[-1] in ".:!?" else ".")
