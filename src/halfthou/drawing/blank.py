"""The blank: bar, plate or casting, matched to the part's own directions."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.drawing.leanings import parse_casting
from halfthou.drawing.model import Blank
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault
from halfthou.quantities import DrawingUnits, parse_length
from halfthou.units import Millimetre, Vec3

Section: TypeAlias = Literal["round", "hexagon", "square", "flat"]
BAR_FORMS: Final = (
    "round 1 1/4 in x 7 3/4",
    "round 28",
    "hexagon 22 x 60",
    "square 20 x 60",
    "flat 25 x 12 x 60",
)
_BAR: Final = re.compile(r"(round|hexagon|square|flat)\s+(.+)")
_FLAT_SIZES: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A bar as written: its section, its sizes across, its length [mm]; 0 as long as need be."""

    section: Section
    across: tuple[Millimetre, ...]
    length: Millimetre


def parse_bar(text: str, *, units: DrawingUnits) -> Bar:
    """Read a bar.

    >>> parse_bar("round 25 x 60", units="mm").length
    60.0
    >>> parse_bar("round 25", units="mm").length
    0.0
    """
    found = _BAR.fullmatch(" ".join(text.split()))
    sizes = re.split(r"\s*[x×]\s*", found[2]) if found else []
    wanted = _FLAT_SIZES if found and found[1] == "flat" else _FLAT_SIZES - 1
    open_ended = found is not None and len(sizes) == 1 and wanted < _FLAT_SIZES
    if found is None or (len(sizes) != wanted and not open_ended):
        raise InputFault(
            f"'{text}' cannot be read as a bar",
            why="" if found is None else f"a {found[1]} bar has {wanted} sizes, its length last",
            tries=(f"write it like {', '.join(BAR_FORMS)}",),
        )
    values = tuple(parse_length(size, units=units).value for size in sizes)
    if min(values) <= 0:
        raise InputFault(f"'{text}' has a size of nothing")
    sections: dict[str, Section] = {
        "round": "round", "hexagon": "hexagon", "square": "square", "flat": "flat",
    }  # fmt: skip
    if open_ended:
        return Bar(section=sections[found[1]], across=values, length=0.0)
    return Bar(section=sections[found[1]], across=values[:-1], length=values[-1])


def parse_plate(text: str, *, units: DrawingUnits) -> Vec3:
    """Read a plate or sawn block: three sizes in any order.

    >>> parse_plate("12 x 110 x 90", units="mm")
    (12.0, 110.0, 90.0)
    """
    sizes = re.split(r"\s*[x×]\s*", text.strip())
    if len(sizes) != _FLAT_SIZES:
        raise InputFault(
            f"'{text}' cannot be read as a plate",
            why="a plate has three sizes",
            tries=("write it like 12 x 110 x 90",),
        )
    a, b, c = (parse_length(size, units=units).value for size in sizes)
    if min(a, b, c) <= 0:
        raise InputFault(f"'{text}' has a size of nothing")
    return (a, b, c)


def blank_of(table: WrittenTable, *, units: DrawingUnits, extent: Vec3, turned: bool) -> Blank:
    """Turn the written blank so that its sizes lie along the part's own.

    Turned work takes the bar along x. Other work takes the longest size where the part is
    longest, and so on down.
    """
    bright = table.text("black") != "true"
    if table.has("casting"):
        return _casting(table.text("casting"), units=units, extent=extent)
    if table.has("plate"):
        text = table.text("plate")
        sizes = parse_plate(text, units=units)
        matched = _matched(sizes, extent)
        return Blank(form="plate", text=text, across=min(sizes), size=matched, bright=bright)
    text = table.text("bar")
    bar = parse_bar(text, units=units)
    if bar.length <= 0 and not turned:
        raise InputFault(
            f"'{text}' gives no length",
            why="only turned work is sawn off a bar as long as the plan needs",
            tries=(f"write it like '{text} x 60'",),
        )
    across = bar.across[0]
    sizes = (bar.length, bar.across[0], bar.across[-1])
    size = sizes if turned else _matched(sizes, extent)
    forms: dict[Section, Literal["round bar", "hexagon bar", "square bar", "flat bar"]] = {
        "round": "round bar", "hexagon": "hexagon bar", "square": "square bar", "flat": "flat bar",
    }  # fmt: skip
    return Blank(form=forms[bar.section], text=text, across=across, size=size, bright=bright)


def _casting(text: str, *, units: DrawingUnits, extent: Vec3) -> Blank:
    cast = parse_casting(text, units=units)
    over = 2 * cast.stock
    size = cast.over_all or (extent[0] + over, extent[1] + over, extent[2] + over)
    return Blank(form="casting", text=text, across=max(size), size=size, bright=False,
                 stock=cast.stock, draft=cast.draft)  # fmt: skip


def _matched(sizes: Vec3, extent: Vec3) -> Vec3:
    order = sorted(range(3), key=lambda axis: (extent[axis], -axis))
    matched = [0.0, 0.0, 0.0]
    for axis, size in zip(order, sorted(sizes), strict=True):
        matched[axis] = size
    return (matched[0], matched[1], matched[2])
