"""Kinds of metal as the lathe feels them: which speed, how hard to push, how deep to cut."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

from halfthou.handbook.tables import rows
from halfthou.units import Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """One kind of metal for cutting.

    ``speed`` is the name of its cutting speed in the workshop's list and ``share`` the part of
    it to use; ``force`` and ``exponent`` are the specific cutting force at 1 mm chip thickness
    [N/mm²] and how it rises on thinner chips; ``rough`` is a roughing cut a side [mm].
    ``known`` is false where the drawing's word for it says nothing to the handbook.
    """

    name: str
    group: str
    speed: str
    share: float
    force: float
    exponent: float
    rough: Millimetre
    known: bool = True

    @property
    def yellow(self) -> bool:
        """Whether it grabs a raked tool: brass and the bronzes."""
        return self.group in {"brass", "gunmetal", "phosphor bronze", "copper"}


# group -> speed name, share of it, specific force, exponent, roughing cut a side.
# Forces: the groups of ISO 513 as printed in tooling makers' tables; free-cutting steel takes
# 0.85 of plain. Roughing: 1 mm in steel is usual practice, the others are scaled from it.
_GROUPS: Final[dict[str, tuple[str, float, float, float, Millimetre]]] = {
    "free-cutting steel": ("free-cutting steel", 1.0, 1150.0, 0.21, 1.0),
    "mild steel": ("mild steel", 1.0, 1350.0, 0.21, 1.0),
    "medium carbon steel": ("EN8", 1.0, 1500.0, 0.22, 1.0),
    "alloy steel": ("EN8", 0.8, 1775.0, 0.24, 0.75),
    "tool steel": ("silver steel", 1.0, 2000.0, 0.24, 0.75),
    "stainless steel": ("stainless steel", 1.0, 2150.0, 0.20, 0.75),
    "grey iron": ("grey iron", 1.0, 1150.0, 0.20, 1.0),
    "spheroidal iron": ("grey iron", 1.0, 1225.0, 0.25, 1.0),
    "gunmetal": ("gunmetal", 1.0, 700.0, 0.27, 1.25),
    "phosphor bronze": ("phosphor bronze", 1.0, 1150.0, 0.27, 1.0),
    "brass": ("brass", 1.0, 700.0, 0.27, 1.5),
    "copper": ("gunmetal", 1.0, 1100.0, 0.27, 1.0),
    "aluminium": ("aluminium", 1.0, 800.0, 0.25, 1.5),
    "plastic": ("brass", 1.0, 150.0, 0.25, 1.5),
}
_UNKNOWN: Final = "mild steel"


@cache
def _names() -> dict[str, str]:
    """Every name of a metal in the handbook, folded, with its group."""
    found: dict[str, str] = {}
    for row in rows("materials"):
        for name in (row["name"], *row["others"].split(";")):
            found[name.strip().casefold()] = row["group"]
    return found | {group.casefold(): group for group in _GROUPS}


def metal_of(material: str) -> Metal:
    """Tell what a drawing's material is to the cutter; an unknown word counts as mild steel.

    >>> metal_of("EN8").speed
    'EN8'
    >>> metal_of("cast iron").group
    'grey iron'
    >>> metal_of("unobtainium").known
    False
    """
    group = _group(material.strip().casefold())
    speed, share, force, exponent, rough = _GROUPS[group or _UNKNOWN]
    return Metal(
        name=material,
        group=group or _UNKNOWN,
        speed=speed,
        share=share,
        force=force,
        exponent=exponent,
        rough=rough,
        known=group is not None,
    )


def _group(material: str) -> str | None:
    names = _names()
    if material in names:
        return names[material]
    within = [name for name in names if len(name) > 2 and name in material]
    return names[max(within, key=len)] if within else None
