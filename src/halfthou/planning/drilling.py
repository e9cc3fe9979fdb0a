"""Drills, reamers and taps for a hole on the axis, out of the workshop's own drawer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Band
from halfthou.errors import NoPlan
from halfthou.handbook.drills import reaming_allowance
from halfthou.handbook.limits_fits import limits
from halfthou.handbook.tapping import tapping_drill
from halfthou.handbook.threads import Thread
from halfthou.planning.drills_at_hand import drills_in_hand
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

_SAME: Final = 0.005
_REAMED_GRADE: Final = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillChoice:
    """A drill in the drawer by the name a card gives it. ``diameter`` in mm."""

    tool: str
    diameter: Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class ReamerChoice:
    """A reamer in hand, and the metal [mm] to leave for it on the diameter."""

    tool: str
    allowance: Millimetre


def drill_under(workshop: Workshop, diameter: Millimetre) -> DrillChoice:
    """Largest drill in hand not over ``diameter`` [mm].

    Raises
    ------
    NoPlan
        If every drill in hand is larger.
    """
    fits = [d for d in drills_in_hand(workshop.drills.drills) if d.diameter <= diameter + 1e-9]
    if not fits:
        raise NoPlan(
            f"no drill in hand is as small as {diameter:.2f} mm",
            why="the hole starts from a drill",
            tries=("put the drill in the workshop file",),
        )
    best = max(fits, key=lambda d: d.diameter)
    return DrillChoice(tool=f"drill {best.name}", diameter=best.diameter)


def drill_for_tap(workshop: Workshop, thread: Thread) -> DrillChoice:
    """Tapping drill in hand for a thread."""
    choice = tapping_drill(thread, drills_in_hand(workshop.drills.drills))
    return DrillChoice(tool=f"drill {choice.drill.name}", diameter=choice.drill.diameter)


def reamer_for(workshop: Workshop, band: Band) -> ReamerChoice | None:
    """Reamer in hand that leaves this hole within its limits (a reamer leaves H7), or none."""
    if not any(abs(r - band.nominal) < _SAME for r in workshop.drills.reamers):
        return None
    lower, upper = limits(band.nominal, "H", _REAMED_GRADE)
    inside = band.low <= band.nominal + lower + 1e-6 and band.nominal + upper <= band.high + 1e-6
    if not inside:
        return None
    return ReamerChoice(
        tool=f"reamer {band.nominal:g} mm", allowance=reaming_allowance(band.nominal)
    )
