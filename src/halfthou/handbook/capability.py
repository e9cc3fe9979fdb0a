"""What each process usually holds, from charts of tolerance grades and roughness."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeAlias, get_args

from halfthou.handbook.tables import rows
from halfthou.units import MICROMETRE, Millimetre

SurfaceKind: TypeAlias = Literal["outside", "inside", "flat"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Capability:
    """A process, its usual grades of ISO 286 and its usual roughness Ra [mm]."""

    process: str
    kinds: tuple[SurfaceKind, ...]
    finest: int
    coarsest: int
    smoothest: Millimetre
    roughest: Millimetre


@cache
def capabilities() -> tuple[Capability, ...]:
    """Every process, the cheapest first."""
    ordered = sorted(rows("capability"), key=lambda row: int(row["rank"]))
    return tuple(
        Capability(
            process=row["process"],
            kinds=tuple(kind for kind in get_args(SurfaceKind) if kind in row["kinds"].split()),
            finest=int(row["finest"]),
            coarsest=int(row["coarsest"]),
            smoothest=float(row["ra_finest"]) * MICROMETRE,
            roughest=float(row["ra_coarsest"]) * MICROMETRE,
        )
        for row in ordered
    )


def processes_for(
    it_grade: int, kind: SurfaceKind, *, roughness: Millimetre | None = None
) -> tuple[Capability, ...]:
    """List the processes that usually hold a grade, and a roughness Ra [mm]; cheapest first.

    >>> [each.process for each in processes_for(7, "inside")][0]
    'ream'
    """
    return tuple(
        each
        for each in capabilities()
        if kind in each.kinds
        and each.finest <= it_grade
        and (roughness is None or each.smoothest <= roughness)
    )


def capability_of(process: str) -> Capability | None:
    """Usual grades and roughness of a process by its name; none if it is not listed."""
    return next((each for each in capabilities() if each.process == process), None)
