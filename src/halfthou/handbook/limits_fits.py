"""ISO 286: tolerance grades and the deviations of holes and shafts, 0 to 500 mm."""

from __future__ import annotations

from functools import cache
from typing import Final, NamedTuple

from halfthou.errors import OutOfRangeError
from halfthou.handbook.tables import Row, band, number, rows
from halfthou.quantities import FitClass
from halfthou.units import MICROMETRE, Millimetre

GRADES: Final = tuple(range(1, 19))

_DELTA_GRADES: Final = range(3, 9)
_CLEAR: Final = ("a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h")


class Deviations(NamedTuple):
    """Lower and upper deviation [mm] from the nominal size."""

    lower: Millimetre
    upper: Millimetre


class Fit(NamedTuple):
    """A hole and a shaft class that go together."""

    hole: FitClass
    shaft: FitClass
    meaning: str


def it_grade(size: Millimetre, grade: int) -> Millimetre:
    """Width of a standard tolerance grade.

    Parameters
    ----------
    size :
        Nominal size, over 0 to 500. [mm]
    grade :
        1 to 18 for IT1 to IT18; 0 for IT0. [-]

    Returns
    -------
    :
        Tolerance. [mm]

    Raises
    ------
    OutOfRangeError
        Outside 0 to 500 mm, or IT14 and coarser at up to 1 mm.

    Notes
    -----
    The table is the standard: its first band lies up to 15 % above the formula.

    Examples
    --------
    >>> it_grade(25.0, 7)
    0.021

    References
    ----------
    ISO 286-1:2010, table 1.
    """
    return _micrometres_to_mm(_it(size, grade))


def _it(size: Millimetre, grade: int) -> float:
    row = _row("iso286_it_grades", size)
    if f"IT{grade}" not in row or (grade >= 14 and size <= 1):
        raise OutOfRangeError(
            f"no tolerance grade IT{grade} at {size:g} mm",
            why="ISO 286 has IT0 to IT18, and IT14 and coarser only over 1 mm",
            tries=("write the limits out",),
        )
    return float(row[f"IT{grade}"])


def grade_held(size: Millimetre, width: Millimetre) -> int:
    """Coarsest grade, 0 to 18, no wider than ``width``; 0 also for anything finer still.

    Examples
    --------
    >>> grade_held(25.0, 0.04)
    8
    """
    held = 0
    for grade in range(1, 19):
        if grade >= 14 and size <= 1:
            break
        if it_grade(size, grade) <= width + 1e-9:
            held = grade
    return held


def limits(nominal: Millimetre, letter: str, grade: int) -> Deviations:
    """Deviations of a tolerance class.

    Parameters
    ----------
    nominal :
        Nominal size, over 0 to 500. [mm]
    letter :
        Capital for a hole, small for a shaft: ``H``, ``js``. [-]
    grade :
        Tolerance grade. [-]

    Returns
    -------
    :
        Lower and upper deviation. [mm]

    Raises
    ------
    OutOfRangeError
        If the standard has no such class at this size.

    Examples
    --------
    >>> limits(25.0, "H", 7)
    Deviations(lower=0.0, upper=0.021)
    >>> limits(20.0, "f", 7)
    Deviations(lower=-0.041, upper=-0.020)

    References
    ----------
    ISO 286-1:2010, tables 2 to 5.
    """
    width = _it(nominal, grade)
    if letter[:1].isupper():
        lower, upper = _hole(nominal, letter.lower(), grade, width)
    else:
        lower, upper = _shaft(nominal, letter, grade, width)
    return Deviations(_micrometres_to_mm(lower), _micrometres_to_mm(upper))


def fit_limits(nominal: Millimetre, fit: FitClass) -> Deviations:
    """Deviations of a class as read from a drawing."""
    return limits(nominal, fit.letter, fit.grade)


def _shaft(size: Millimetre, letter: str, grade: int, width: float) -> tuple[float, float]:
    if letter == "js":
        return -width / 2, width / 2
    if letter == "j":
        lower = _shaft_j(size, grade)
        return lower, lower + width
    if letter == "k" and not 4 <= grade <= 7:
        return 0.0, width
    deviation = _shaft_deviation(size, letter, letter, grade)
    if letter in _CLEAR:
        return deviation - width, deviation
    return deviation, deviation + width


def _shaft_j(size: Millimetre, grade: int) -> float:
    row = _row("iso286_shaft_deviations", size)
    column = {5: "j5_j6", 6: "j5_j6", 7: "j7"}.get(grade)
    if column is None:
        raise _no_class("j", grade, size)
    return float(row[column])


def _shaft_deviation(size: Millimetre, letter: str, shown: str, grade: int) -> float:
    row = _row("iso286_shaft_deviations", size)
    value = number(row.get(letter, ""))
    if value is None or (letter in {"a", "b"} and size <= 1):
        raise _no_class(shown, grade, size)
    return value


def _hole(size: Millimetre, letter: str, grade: int, width: float) -> tuple[float, float]:
    if letter == "js":
        return -width / 2, width / 2
    if letter in _CLEAR:
        lower = -_shaft_deviation(size, letter, letter.upper(), grade)
        return lower, lower + width
    upper = _hole_upper(size, letter, grade)
    return upper - width, upper


def _hole_upper(size: Millimetre, letter: str, grade: int) -> float:
    if letter == "j":
        column = _row("iso286_hole_rules", size).get(f"ES_J{grade}")
        if column is None:
            raise _no_class("J", grade, size)
        return float(column)
    if letter == "k" and grade > 8 and size > 3:
        raise _no_class("K", grade, size)
    if letter == "n" and grade > 8 and size > 3:
        return 0.0
    if letter == "m" and grade == 6 and 250 < size <= 315:
        return -9.0
    finest_plain = 8 if letter in {"k", "m", "n"} else 7
    delta = _delta(size, grade) if grade <= finest_plain else 0.0
    return -_shaft_deviation(size, letter, letter.upper(), grade) + delta


def _delta(size: Millimetre, grade: int) -> float:
    if size <= 3 or grade not in _DELTA_GRADES:
        return 0.0
    return float(_row("iso286_hole_rules", size)[f"d_IT{grade}"])


def _row(table: str, size: Millimetre) -> Row:
    row = band(rows(table), size, over="over_mm", upto="upto_mm")
    if row is None:
        raise OutOfRangeError(
            f"no ISO 286 limits for {size:g} mm",
            why="the tables here run over 0 to 500 mm",
            tries=("write the limits out",),
        )
    return row


def _no_class(letter: str, grade: int, size: Millimetre) -> OutOfRangeError:
    return OutOfRangeError(
        f"ISO 286 has no {letter}{grade} at {size:g} mm",
        why="the standard leaves out this letter at this size or grade",
        tries=("take the next letter", "write the limits out"),
    )


def _micrometres_to_mm(value: float) -> Millimetre:
    return round(value * MICROMETRE, 7)


@cache
def fit_words() -> dict[str, Fit]:
    """Fits in words and the classes nearest to them by usual practice.

    Examples
    --------
    >>> fit_words()["running"].shaft.symbol
    'f7'
    """
    return {
        row["word"]: Fit(_class(row["hole"]), _class(row["shaft"]), row["meaning"])
        for row in rows("fit_words")
    }


def _class(text: str) -> FitClass:
    letters = text.rstrip("0123456789")
    return FitClass(letter=letters, grade=int(text.removeprefix(letters)))
