"""General tolerances: ISO 2768 classes, or by the form of the figure on inch drawings."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias, get_args

from halfthou.errors import InputFault
from halfthou.handbook.limits_fits import Deviations
from halfthou.handbook.tables import band, number, rows
from halfthou.quantities import DrawingUnits, Length, parse_angle, parse_length
from halfthou.units import MINUTE_OF_ARC, Millimetre, Radian

LinearClass: TypeAlias = Literal["f", "m", "c", "v"]
GeometryClass: TypeAlias = Literal["H", "K", "L"]
GeometryKind: TypeAlias = Literal["flatness", "squareness", "symmetry", "run-out"]

OTHERWISE_FORMS: Final = (
    "ISO 2768-mK",
    "ISO 2768-m",
    "fractions ±1/64, decimals ±.005",
    "fractions ±1/64, two places ±.010, three places ±.005, angles ±30'",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Iso2768:
    """General tolerances by the classes of ISO 2768."""

    text: str
    linear: LinearClass
    geometry: GeometryClass | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ByFigure:
    """General tolerances by the form of the figure; each is the half width, none if not given.

    ``places`` pairs a number of decimal places with its half width. [mm]
    """

    text: str
    fractions: Millimetre | None = None
    decimals: Millimetre | None = None
    places: tuple[tuple[int, Millimetre], ...] = ()
    angles: Radian | None = None


GeneralRule: TypeAlias = Iso2768 | ByFigure

_ISO: Final = re.compile(r"\s*ISO\s*2768\s*-?\s*([fmcv])\s*-?\s*([HKL])?\s*", re.IGNORECASE)
_CLAUSE: Final = re.compile(
    r"(?P<what>fractions?|decimals?|(?:one|two|three|four) places?|angles?)"
    r"\s*(?:±|\+/-|\+-)\s*(?P<half>.+)"
)
_PLACES: Final = {"one": 1, "two": 2, "three": 3, "four": 4}


def parse_otherwise(text: str, *, units: DrawingUnits = "in") -> GeneralRule:
    """Read the drawing's rule for sizes that give no tolerance of their own.

    >>> parse_otherwise("ISO 2768-mK").geometry
    'K'
    """
    if (found := _ISO.fullmatch(text)) is not None:
        linear = next(each for each in get_args(LinearClass) if each == found[1].lower())
        letter = (found[2] or "").upper()
        geometry = next((each for each in get_args(GeometryClass) if each == letter), None)
        return Iso2768(text=text, linear=linear, geometry=geometry)
    rule = ByFigure(text=text)
    lengths: dict[str, Millimetre] = {}
    places: list[tuple[int, Millimetre]] = []
    for clause in text.split(","):
        found = _CLAUSE.fullmatch(clause.strip())
        if found is None:
            raise _not_a_rule(text, clause)
        what = found["what"].rstrip("s")
        if what == "angle":
            rule = ByFigure(text=text, angles=parse_angle(found["half"]).value)
        elif what.endswith("place"):
            half = parse_length(found["half"], units=units).value
            places.append((_PLACES[what.split()[0]], half))
        else:
            lengths[what] = parse_length(found["half"], units=units).value
    return ByFigure(
        text=text,
        fractions=lengths.get("fraction"),
        decimals=lengths.get("decimal"),
        places=tuple(sorted(places)),
        angles=rule.angles,
    )


def _not_a_rule(text: str, clause: str) -> InputFault:
    return InputFault(
        f"'{text}' cannot be read as a general tolerance",
        why=f"'{clause.strip()}' names neither a class nor a form of figure with its ±",
        tries=(f"write it like {' | '.join(OTHERWISE_FORMS)}",),
    )


def general_limits(rule: GeneralRule, length: Length) -> Deviations | None:
    """Deviations the rule gives to a length without its own; none where it gives none.

    Parameters
    ----------
    rule :
        The drawing's rule. [-]
    length :
        The length as written: its form counts under a rule by the figure. [mm]

    Returns
    -------
    :
        Lower and upper deviation. [mm]

    Notes
    -----
    ISO 2768-1 covers 0.5 to 1000 mm here, class v from 3 mm. Under a rule by the figure
    a whole number counts as a fraction.

    Examples
    --------
    >>> from halfthou.quantities import parse_length
    >>> general_limits(parse_otherwise("ISO 2768-mK"), parse_length("35", units="mm"))
    Deviations(lower=-0.3, upper=0.3)

    References
    ----------
    ISO 2768-1:1989, table 1.
    """
    if isinstance(rule, Iso2768):
        half = _iso_half(rule.linear, length.value)
    else:
        half = _figure_half(rule, length)
    return None if half is None else Deviations(-half, half)


def _iso_half(linear: LinearClass, size: Millimetre) -> Millimetre | None:
    row = band(rows("iso2768_linear"), size)
    if row is None and size == 0.5:
        row = rows("iso2768_linear")[0]
    return number(row[linear]) if row else None


def _figure_half(rule: ByFigure, length: Length) -> Millimetre | None:
    if length.form == "fraction" or length.places == 0:
        return rule.fractions
    return dict(rule.places).get(length.places, rule.decimals)


def general_angle(rule: GeneralRule, shorter_leg: Millimetre) -> Radian | None:
    """Half width [rad] for an angle without its own; ISO goes by the shorter leg [mm]."""
    if isinstance(rule, ByFigure):
        return rule.angles
    row = band(rows("iso2768_angular"), shorter_leg)
    return float(row[rule.linear]) * MINUTE_OF_ARC if row else None


def general_edge(rule: GeneralRule, size: Millimetre) -> Millimetre | None:
    """Half width [mm] for a chamfer or a radius without its own."""
    if isinstance(rule, ByFigure):
        return rule.fractions
    row = band(rows("iso2768_edges"), size)
    return float(row[rule.linear]) if row else None


def general_geometry(
    rule: GeneralRule, kind: GeometryKind, length: Millimetre
) -> Millimetre | None:
    """Width [mm] of the general geometrical tolerance; none if the rule names no class."""
    if isinstance(rule, ByFigure) or rule.geometry is None:
        return None
    row = band((each for each in rows("iso2768_geometry") if each["kind"] == kind), length)
    return float(row[rule.geometry]) if row else None
