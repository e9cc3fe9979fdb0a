"""Metals by their workshop names: the group they cut as, and their weight."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final, Literal, TypeAlias, get_args

from halfthou.errors import InputFault
from halfthou.handbook.names import near_names
from halfthou.handbook.tables import rows

CuttingGroup: TypeAlias = Literal[
    "free-cutting steel",
    "mild steel",
    "medium carbon steel",
    "alloy steel",
    "tool steel",
    "stainless steel",
    "grey iron",
    "spheroidal iron",
    "gunmetal",
    "phosphor bronze",
    "brass",
    "copper",
    "aluminium",
    "plastic",
]
Family: TypeAlias = Literal[
    "steel", "stainless", "iron", "bronze", "brass", "aluminium", "plastic"
]

GRAM_PER_CM3: Final = 1e-6

_FAMILIES: Final[dict[CuttingGroup, Family]] = {
    "free-cutting steel": "steel",
    "mild steel": "steel",
    "medium carbon steel": "steel",
    "alloy steel": "steel",
    "tool steel": "steel",
    "stainless steel": "stainless",
    "grey iron": "iron",
    "spheroidal iron": "iron",
    "gunmetal": "bronze",
    "phosphor bronze": "bronze",
    "copper": "bronze",
    "brass": "brass",
    "aluminium": "aluminium",
    "plastic": "plastic",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A metal of the workshop.

    ``density`` [kg/mm³], ``expansion`` [1/K near 20 °C], ``modulus`` [N/mm²];
    ``published`` tells whether those three were printed or are recalled.
    """

    name: str
    group: CuttingGroup
    family: Family
    density: float
    expansion: float
    modulus: float
    published: bool


@cache
def materials() -> tuple[Material, ...]:
    """Every metal the handbook knows, by its first name."""
    found = []
    for row in rows("materials"):
        group = next(each for each in get_args(CuttingGroup) if each == row["group"])
        found.append(
            Material(
                name=row["name"],
                group=group,
                family=_FAMILIES[group],
                density=float(row["density"]) * GRAM_PER_CM3,
                expansion=float(row["expansion"]) * 1e-6,
                modulus=float(row["modulus"]) * 1e3,
                published=row["status"] == "published",
            )
        )
    return tuple(found)


@cache
def _by_name() -> dict[str, Material]:
    found = {}
    for row, material in zip(rows("materials"), materials(), strict=True):
        for name in (row["name"], *row["others"].split(";")):
            found[_key(name)] = material
    return found


def _key(name: str) -> str:
    return "".join(name.casefold().replace("-", " ").split())


def material(name: str) -> Material:
    """Metal by any of its workshop names, capitals and spaces aside.

    >>> material("aluminium HE30").group
    'aluminium'
    """
    found = _by_name().get(_key(name)) or _by_last_word(name)
    if found is None:
        known = [row["name"] for row in rows("materials")]
        every = [
            *known,
            *(each.strip() for row in rows("materials") for each in row["others"].split(";")),
        ]
        raise InputFault(
            f"no material is called '{name}'",
            why="speeds, cuts and weights follow from the metal",
            tries=tuple(f"write {each}" for each in near_names(name, every))
            or (f"write one of {', '.join(known)}",),
        )
    return found


def _by_last_word(name: str) -> Material | None:
    """Metal of a grade written after its family: ``brass CZ121``, ``steel EN8``."""
    first, _, last = name.strip().partition(" ")
    grade, family = _by_name().get(_key(last)), _by_name().get(_key(first))
    return grade if grade and family and grade.family == family.family else None
