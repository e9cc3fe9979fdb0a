"""Sizes with the tolerance the drawing gives them: ``25 H7``, ``20 +0.02/-0``, ``(30)``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal, TypeAlias, get_args

from halfthou.errors import InputFault
from halfthou.quantities.figure import (
    FIGURE,
    UNIT,
    DrawingUnits,
    in_millimetres,
    need_inches_for_fraction,
    not_understood,
    read_figure,
    refuse_long,
    unit_of,
)
from halfthou.quantities.length import Length, length_from

if TYPE_CHECKING:
    from halfthou.units import Millimetre

SIZE_FORMS: Final = (
    "35",
    "1 3/8 in",
    "25 H7",
    "20 +0.02/-0",
    "40 ±0.05",
    "20.00/19.98",
    "3/4 running",
    "(30)",
    "24 may be less",
    "28 fixed",
)
FitWordName: TypeAlias = Literal["running", "sliding", "push", "press", "drive", "shrink", "ream"]
Prefix: TypeAlias = Literal["ø", "R"]

FIT_LETTERS: Final = frozenset(
    "a b c cd d e ef f fg g h j js k m n p r s t u v x y z za zb zc".split()  # noqa: SIM905
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlusMinus:
    """Deviations [mm] from the nominal size, written beside it."""

    lower: Millimetre
    upper: Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Both limits of size [mm] written out."""

    lower: Millimetre
    upper: Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class FitClass:
    """A tolerance class of ISO 286: capital letter for a hole, small for a shaft."""

    letter: str
    grade: int

    @property
    def hole(self) -> bool:
        """Whether the class is one for holes."""
        return self.letter[0].isupper()

    @property
    def symbol(self) -> str:
        """The class as written: ``H7``."""
        return f"{self.letter}{self.grade}"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitWord:
    """A fit in words, as on old inch drawings."""

    word: FitWordName


Tolerance: TypeAlias = PlusMinus | Limits | FitClass | FitWord


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A size as the drawing gives it: nominal, tolerance, and what may give."""

    text: str
    nominal: Length
    tolerance: Tolerance | None = None
    reference: bool = False
    fixed: bool = False
    may: Literal["less", "more"] | None = None
    prefix: Prefix | None = None

    def own_deviations(self) -> tuple[Millimetre, Millimetre] | None:
        """Lower and upper deviation [mm] where the figures themselves are written."""
        match self.tolerance:
            case PlusMinus(lower=lower, upper=upper):
                return lower, upper
            case Limits(lower=lower, upper=upper):
                return lower - self.nominal.value, upper - self.nominal.value
            case _:
                return None

    def write(self) -> str:
        """Give the author's own text back."""
        return self.text


_TAIL: Final = re.compile(r"\s+(?:may be (?P<may>less|more)|(?P<fixed>fixed))\s*$", re.IGNORECASE)
_PREFIX: Final = re.compile(r"\s*(ø|Ø|⌀|dia\.?\s|R)\s*(?=[\d.,])")
_NOMINAL: Final = re.compile(rf"({FIGURE})\s*({UNIT}(?![A-Za-z]))?")
_CLASS: Final = re.compile(r"([A-Za-z]{1,2})(\d{1,2})")
_WORD: Final = re.compile(rf"({'|'.join(get_args(FitWordName))})(?: fit)?", re.IGNORECASE)
_EITHER: Final = re.compile(rf"(?:±|\+/-|\+-)\s*({FIGURE})\s*({UNIT})?")
_PAIR: Final = re.compile(rf"([+-]?)({FIGURE})\s*(?:/\s*|\s)([+-]?)({FIGURE})\s*({UNIT})?")
_DECIMAL: Final = r"\d+[.,]\d*|[.,]\d+"
_SLASHED: Final = re.compile(rf"({_DECIMAL}|\d+)\s*/\s*({_DECIMAL}|\d+)\s*({UNIT})?")
_DASHED: Final = re.compile(rf"({_DECIMAL})\s*-\s*({_DECIMAL})\s*({UNIT})?")
_DASH_REACH: Final = 0.2


def parse_size(text: str, *, units: DrawingUnits) -> Size:
    """Read a size; bare figures take the drawing's ``units``.

    >>> parse_size("20 +0.02/-0", units="mm").tolerance
    PlusMinus(lower=0.0, upper=0.02)
    """
    refuse_long(text, "a size")
    body, reference = _out_of_brackets(text.strip())
    tail = _TAIL.search(body)
    if tail:
        body = body[: tail.start()]
    prefix: Prefix | None = None
    if head := _PREFIX.match(body):
        prefix = "R" if head[1] == "R" else "ø"
        body = body[head.end() :]
    size = _read_body(body.strip(), units, text)
    may = (tail["may"] or "").lower() if tail else None
    return replace(
        size,
        reference=reference,
        fixed=bool(tail and tail["fixed"]),
        may="less" if may == "less" else "more" if may == "more" else None,
        prefix=prefix,
    )


def _out_of_brackets(text: str) -> tuple[str, bool]:
    if text.startswith("(") and text.endswith(")"):
        return text[1:-1].strip(), True
    return text, False


def _read_body(body: str, units: DrawingUnits, text: str) -> Size:
    limits = _read_limits(body, units, text)
    if limits:
        return limits
    head = _NOMINAL.match(body)
    if head is None:
        raise not_understood(text, "a size", SIZE_FORMS)
    rest = body[head.end() :].strip()
    own = unit_of(head[2] or _trailing_unit(rest), units)
    tolerance = _tolerance(rest, own, text) if rest else None
    nominal = length_from(head[1], head[2], units=own, text=head[0].strip())
    return Size(text=text, nominal=nominal, tolerance=tolerance)


def _trailing_unit(rest: str) -> str | None:
    if (found := _EITHER.fullmatch(rest)) is not None:
        return found[2]
    if (found := _PAIR.fullmatch(rest)) is not None:
        return found[5]
    return None


def _tolerance(rest: str, unit: DrawingUnits, text: str) -> Tolerance:
    if (found := _CLASS.fullmatch(rest)) is not None:
        return _fit_class(found[1], int(found[2]), text)
    if (found := _WORD.fullmatch(rest)) is not None:
        word = next(name for name in get_args(FitWordName) if name == found[1].lower())
        return FitWord(word=word)
    if (found := _EITHER.fullmatch(rest)) is not None:
        half = _mm(found[1], unit_of(found[2], unit), text)
        if half == 0:
            raise not_understood(text, "a size", SIZE_FORMS, why="±0 allows nothing")
        return PlusMinus(lower=-half, upper=half)
    found = _PAIR.fullmatch(rest)
    if found is None:
        raise not_understood(text, "a size", SIZE_FORMS, why=_reason(rest))
    return _pair(found, unit_of(found[5], unit), text)


def _fit_class(letter: str, grade: int, text: str) -> FitClass:
    one_case = letter.islower() or letter.isupper()
    if letter.lower() not in FIT_LETTERS or not one_case or not 1 <= grade <= 18:  # noqa: PLR2004
        raise InputFault(
            f"'{text}' names no fit: {letter}{grade}",
            why="the letters of ISO 286 run from a to zc without i, l, o, q, w, the grades to 18",
            tries=("write a hole as 25 H7 and a shaft as 25 h6",),
        )
    return FitClass(letter=letter, grade=grade)


def _pair(found: re.Match[str], unit: DrawingUnits, text: str) -> PlusMinus:
    first = _signed(found[1], found[2], unit, text)
    second = _signed(found[3], found[4], unit, text)
    if first == second:
        raise not_understood(
            text, "a size", SIZE_FORMS, why="both deviations are the same, so nothing is allowed"
        )
    return PlusMinus(lower=min(first, second), upper=max(first, second))


def _signed(sign: str, figure: str, unit: DrawingUnits, text: str) -> float:
    value = _mm(figure, unit, text)
    if not sign and value:
        raise not_understood(text, "a size", SIZE_FORMS, why=f"the deviation {figure} has no sign")
    return -value if sign == "-" and value else value


def _read_limits(body: str, units: DrawingUnits, text: str) -> Size | None:
    slashed = _SLASHED.fullmatch(body)
    found = slashed or _DASHED.fullmatch(body)
    if found is None or not any(mark in found[1] + found[2] for mark in ".,"):
        return None
    own = unit_of(found[3], units)
    nominal = length_from(found[1], None, units=own, text=found[1])
    other = length_from(found[2], None, units=own, text=found[2])
    low, high = sorted((nominal.value, other.value))
    if low == high:
        raise not_understood(text, "limits", SIZE_FORMS, why="both limits are the same")
    if slashed is None and high - low > _DASH_REACH * high:
        raise not_understood(
            text, "a size", SIZE_FORMS, why="limits with a dash must lie close to each other"
        )
    return Size(text=text, nominal=nominal, tolerance=Limits(lower=low, upper=high))


def _mm(figure: str, unit: DrawingUnits, text: str) -> float:
    read = read_figure(figure, whole=text.strip())
    need_inches_for_fraction(read, unit, whole=text.strip())
    return in_millimetres(read.value, unit)


def _reason(rest: str) -> str:
    if re.fullmatch(rf"[+-]\s*{FIGURE}", rest):
        return "only one deviation is given; the other may be 0 but must be written"
    if re.fullmatch(r"[A-Z]+\d+/[a-z]+\d+", rest):
        return "a part has one of the two classes of a fit, its mate the other"
    return ""
