"""The sizes and demands of a drawing as rows of a ruled sheet, in the drawing's own order."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Band, Centres, Origin, Part
from halfthou.present.numbers import Units, limits

_COPY: Final = re.compile(r"\d+ to \d+")
_FOLLOWS: Final = "follows from the others"
_ORIGINS: Final[dict[Origin, str]] = {
    "drawn": "as drawn",
    "general": "general tolerance",
    "taken as meant": "taken as meant",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """One size or demand: what it is, in the author's own text, what it allows and by whom."""

    what: str
    drawn: str
    allows: str
    origin: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FeatureRows:
    """The rows of one feature."""

    feature: str
    rows: tuple[SheetRow, ...]


def drawing_rows(part: Part, units: Units | None = None) -> tuple[FeatureRows, ...]:
    """Lay the drawing out feature by feature; limits in the drawing's units unless told."""
    shown: Units = units or part.units
    found: dict[str, dict[SheetRow, None]] = {name: {} for name in _names(part)}
    for feature, row in (*_sizes(part, shown), *_distances(part, shown), *_demands(part)):
        found.setdefault(feature, {}).setdefault(row)
    return tuple(
        FeatureRows(feature=name, rows=tuple(rows)) for name, rows in found.items() if rows
    )


def _names(part: Part) -> Iterator[str]:
    for feature in part.features:
        if not isinstance(feature, Centres):
            yield feature.name


def _sizes(part: Part, units: Units) -> Iterator[tuple[str, SheetRow]]:
    for surface in part.surfaces:
        if surface.size is not None:
            what = surface.size.place.rpartition(" ")[2]
            yield _feature_of(surface.size.place, surface.feature), _row(what, surface.size, units)


def _distances(part: Part, units: Units) -> Iterator[tuple[str, SheetRow]]:
    for each in part.distances:
        feature = _feature_of(each.band.place, "")
        said = each.name.removeprefix(feature).strip()
        ends = said.removesuffix(each.band.text).strip()
        if (ends and ends != said) or _COPY.fullmatch(said):
            yield feature, _row(ends, each.band, units)
        else:
            yield feature, _row("at", each.band, units, said)
    for each in part.reference:
        feature = _feature_of(each.band.place, "")
        said = each.name.removeprefix(feature).strip()
        ends = said.removesuffix(each.band.text).strip()
        named = bool(ends) and ends != said
        what, drawn = (ends, each.band.text) if named else ("at", said)
        yield feature, SheetRow(what=what, drawn=drawn, allows="", origin=_FOLLOWS)


def _demands(part: Part) -> Iterator[tuple[str, SheetRow]]:
    for each in part.requirements:
        origin = _ORIGINS[each.origin]
        meant = each.origin == "taken as meant"
        feature = origin if meant else _feature_of(each.place, each.surface)
        by = "" if meant else origin
        yield feature, SheetRow(what="must", drawn=each.text, allows="", origin=by)


def _feature_of(place: str, otherwise: str) -> str:
    """``round.journal diameter`` speaks of the journal."""
    kind, dot, rest = place.partition(".")
    return rest.split(" ")[0] if dot and " " not in kind else (otherwise or place)


def _row(what: str, band: Band, units: Units, drawn: str = "") -> SheetRow:
    allows = limits(band.low, band.high, units)
    return SheetRow(
        what=what, drawn=drawn or band.text, allows=allows, origin=_ORIGINS[band.origin]
    )
