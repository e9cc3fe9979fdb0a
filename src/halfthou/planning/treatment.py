"""Hardening and tempering as work with a place of its own, and what can still be done after it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from typing import Final

from halfthou.cutting.metals import metal_of
from halfthou.drawing.model import Band, Part, Surface
from halfthou.errors import NoPlan
from halfthou.handbook.tempering import tempering_heat
from halfthou.planning.at_bench import bench_scheme
from halfthou.planning.by_rule import by_rule
from halfthou.planning.model import Operation, Order, Scheme, Verb
from halfthou.planning.to_get import reamer_name
from halfthou.units import Millimetre
from halfthou.workshop.model import HoldingDevice

CLOSE: Final[Millimetre] = 0.03
"""A size with less tolerance than this is brought to it after hardening (usual practice)."""
HARDENS: Final = frozenset({"tool steel", "alloy steel", "medium carbon steel"})
"""Metals that a quench hardens, by their cutting group."""
CASED: Final = frozenset({"mild steel", "free-cutting steel"})
"""Metals that take a hard skin, and only that."""
_HEAT_UP: Final = 20.0
_TEMPER: Final = 10.0
_LAP: Final = 15.0
_HARDEN: Final = (
    "coated against scale, and slowly; bright cherry red through, no magnet sticks to it, a few "
    "minutes at that heat; then at once into {}, thin end or edge first and straight down, kept "
    "moving until cold; a file must skid on it"
)
_IN_OIL: Final = frozenset(("gauge plate", "o1", "ground flat stock"))
"""Tool steels that oil hardens; plain carbon ones want water (makers' usual advice)."""
_CASE: Final = (
    "bright red in hardening compound, several times over for a deeper skin, then into clean water"
)
_TEMPERED: Final = (
    "brighten it first, so that the colour shows; on a plate or in a tray of sand, the thick end "
    "toward the heat; when it shows {}, off and into the quench"
)
_OUTSIDE: Final = "hardening has moved it: a thousandth of its size is usual; lap it to size"
_BORE: Final = (
    "the tempering colour rubbed out first; a split lap of brass turned to Ø{:g}, to expand by a "
    "taper pin, fine abrasive and oil, both ends alike, washed out before every trial; "
    "no longer than until the size is there"
)
TO_LAP: Final[Millimetre] = 0.02
"""What a bore to be hardened is reamed under its size, on the diameter (usual practice)."""
_NEAR: Final = 1e-6
_LAP_UNDER: Final[Millimetre] = 0.01
"""How much smaller than the hole as reamed a lap begins (usual practice)."""
_ABOUT: Final = 5.0
"""A colour tells the heat no closer. [°C]"""
HEARTH: Final = "hearth"
"""Where metal is heated: nothing is gripped there but by tongs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Treated:
    """What a part's treatment asks for: ``cased`` is a skin only; ``colour`` that of tempering."""

    harden: bool
    cased: bool
    colour: str


def treated(part: Part) -> Treated:
    """Read what is done to the metal: ``harden, temper to dark straw``."""
    words = part.treatment.lower()
    _, _, after = words.partition("temper")
    colour = after.removeprefix("ing").strip().removeprefix("to").strip(" ,")
    return Treated(
        harden="harden" in words,
        cased="case" in words,
        colour=colour or ("as the drawing says" if "temper" in words else ""),
    )


def treatment(part: Part) -> tuple[Operation, ...]:
    """Give hardening, tempering, and bringing to size what was close before.

    Raises
    ------
    NoPlan
        If the metal does not harden so.
    """
    asked = treated(part)
    if not asked.harden:
        return ()
    _check_metal(part, asked)
    fire = ("torch and tongs",)
    how = _CASE if asked.cased else _HARDEN.format(quench_of(part.material))
    made = [_by_hand("harden", "harden", part.name, takes=_HEAT_UP, tools=fire, remark=how)]
    if asked.colour:
        how = _TEMPERED.format(_with_its_heat(asked.colour))
        made.append(_by_hand("temper", "temper", part.name, takes=_TEMPER, tools=fire, remark=how))
    abrasive = ("lap and fine abrasive",)
    made += [
        _by_hand(
            f"lap {s.name}",
            "lap",
            s.feature,
            takes=_LAP,
            tools=abrasive,
            remark=_BORE.format(_lap_of(s)) if s.inside else _OUTSIDE,
        )
        for s in close_rounds(part)
    ]
    return tuple(made)


def quench_of(material: str) -> str:
    """Say what a steel is quenched in.

    >>> quench_of("gauge plate"), quench_of("silver steel")
    ('oil', 'water')
    """
    by_oil = material.casefold() in _IN_OIL or metal_of(material).group == "alloy steel"
    return "oil" if by_oil else "water"


def _with_its_heat(colour: str) -> str:
    heat = tempering_heat(colour)
    if heat is None:
        return colour
    return f"{colour}, about {_ABOUT * round(heat / _ABOUT):g} °C"


def close_rounds(part: Part) -> tuple[Surface, ...]:
    """Give the rounds and bores with less tolerance than hardening takes."""
    return tuple(
        s
        for s in part.surfaces
        if s.kind == "cylinder" and s.size is not None and s.size.width < CLOSE
    )


def _lap_of(bore: Surface) -> Millimetre:
    """Give the diameter a lap begins with: just under the hole as it was reamed [mm]."""
    low = bore.size.low if bore.size is not None else 0.0
    return round(low - TO_LAP - _LAP_UNDER, 3)


def left_to_lap(part: Part, operations: tuple[Operation, ...]) -> tuple[Operation, ...]:
    """Make a bore lapped when hard under its size: scale and movement want metal left."""
    if not treated(part).harden:
        return operations
    close = {s.name for s in close_rounds(part) if s.inside}
    return tuple(
        _under_size(op) if op.verb in {"ream", "bore"} and close & set(op.makes) else op
        for op in operations
    )


def _under_size(op: Operation) -> Operation:
    size = round(op.cut_size - TO_LAP, 3)
    band = before_lapping(op.size) if op.size is not None else None
    tools = (reamer_name(math.floor(size * 100 + _NEAR) / 100),) if op.verb == "ream" else op.tools
    return replace(op, cut_size=size, size=band, tools=tools)


def size_now(part: Part, surface: Surface, verb: Verb) -> Band | None:
    """Give the limits a surface is made to: those drawn, or what leaves metal to lap when hard."""
    if surface.size is None or verb == "lap" or not surface.inside or not treated(part).harden:
        return surface.size
    close = {s.name for s in close_rounds(part)}
    return before_lapping(surface.size) if surface.name in close else surface.size


def before_lapping(band: Band) -> Band:
    """Give the limits of a bore as it is reamed, the rest to be lapped when it is hard."""
    nominal = round(band.nominal - TO_LAP, 6)
    return replace(
        band,
        nominal=nominal,
        low=round(band.low - TO_LAP, 6),
        high=round(band.high - TO_LAP, 6),
        text=f"{nominal:g}",
        origin="taken as meant",
    )


def _check_metal(part: Part, asked: Treated) -> None:
    group = metal_of(part.material).group
    fits = group in (CASED if asked.cased else HARDENS)
    if fits or (asked.cased and group in HARDENS):
        return
    case = ('treatment = "case-harden"',) if group in CASED else ()
    tries = (*case, "silver steel or gauge plate")
    raise NoPlan(
        f"the {part.name} is to be hardened and {part.material} does not harden",
        where="[part] treatment",
        why="a quench hardens steel with carbon enough in it, and no other metal",
        tries=tries,
    )


_STEP: Final[dict[str, int]] = {"harden": 1, "temper": 2, "lap": 3}
_RULES: Final[dict[str, str]] = {
    "harden": "cut everything before hardening",
    "temper": "temper at once",
    "lap": "harden before the last size",
}


def orders_treated(operations: tuple[Operation, ...]) -> Iterator[Order]:
    """Give what comes before hardening (all cutting), and what comes after (the last size)."""
    hot = [op for op in operations if op.verb in _STEP]
    for before, after in product(operations, hot):
        if _STEP.get(before.verb, 0) < _STEP[after.verb] and (
            before.verb in _STEP or after.verb == "harden"
        ):
            one_fire = after.verb == "temper"
            yield by_rule(before, after, _RULES[after.verb], other_set_up=not one_fire)


def schemes_treated(operations: tuple[Operation, ...], bench: HoldingDevice) -> Iterator[Scheme]:
    """Give the hearth, and the bench vice for what is lapped after it."""
    hot = frozenset(op.key for op in operations if op.verb in {"harden", "temper"})
    lapped = frozenset(op.key for op in operations if op.verb == "lap")
    for key, can in ((HEARTH, hot), ("bench vice, after hardening", lapped)):
        if can:
            yield bench_scheme(bench, key=key, can=can)


def _by_hand(
    key: str, verb: Verb, feature: str, *, takes: float, tools: tuple[str, ...], remark: str
) -> Operation:
    return Operation(
        key=key,
        verb=verb,
        stage="only",
        feature=feature,
        machine="bench",
        makes=(),
        region=(),
        approach=((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)),
        tools=tools,
        minutes=takes,
        remark=remark,
    )
