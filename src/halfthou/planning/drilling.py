"""Centre drills, drills, reamers and taps for a hole, out of the workshop's own drawer."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Band
from halfthou.errors import NoPlan, OutOfRangeError
from halfthou.handbook.centre_drills import CentreDrill, centre_drills, find_centre_drill
from halfthou.handbook.drills import reaming_allowance
from halfthou.handbook.limits_fits import limits
from halfthou.handbook.tapping import tapping_diameter, tapping_drill
from halfthou.handbook.threads import Thread
from halfthou.planning.drills_at_hand import drills_in_hand
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

_SAME: Final = 0.005
_REAMED_GRADE: Final = 7
_NEAR_ENOUGH: Final = 0.97
_LARGE: Final = 13.0
"""Larger holes for taps are bored to size, mm (usual practice)."""
_SMALLEST_TABLED: Final = 0.5
_LARGEST_REAMER: Final = 50.0
_CONE_SHARE: Final = 0.7
_WEB_CLEARED: Final = 0.8
_MOUTH: Final = 1.2
"""A cone is this much wider than its pilot at least, or a small drill finds no mouth to start in
(usual practice)."""
_PILOT_DEPTH: Final = 1.3


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillChoice:
    """A drill in the drawer by the name a card gives it. ``diameter`` in mm."""

    tool: str
    diameter: Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class CentreChoice:
    """A centre drill by its name, how wide a cone it is to leave, and how deep it goes. [mm]."""

    tool: str
    across: Millimetre
    deep: Millimetre


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
    """Tapping drill in hand for a thread; none suits a large one: the nearest under it [mm].

    Raises
    ------
    NoPlan
        If every drill in hand is larger.
    """
    try:
        choice = tapping_drill(thread, drills_in_hand(workshop.drills.drills))
    except OutOfRangeError:
        wanted = tapping_diameter(thread)
        under = drill_under(workshop, wanted)
        if under.diameter >= _NEAR_ENOUGH * wanted or wanted > _LARGE:
            return under
        return DrillChoice(tool=f"drill {wanted:.1f} mm", diameter=wanted)
    return DrillChoice(tool=f"drill {choice.drill.name}", diameter=choice.drill.diameter)


def centre_drill_for(workshop: Workshop, diameter: Millimetre) -> CentreChoice:
    """Centre drill in hand to start a drill of ``diameter`` [mm]: the largest not wider than it.

    An empty drawer is answered with the one to get.
    """
    named = {name: find_centre_drill(name) for name in workshop.drills.centre_drills}
    every = named or {one.name: one for one in centre_drills()}
    fits = {name: one for name, one in every.items() if one.body <= diameter + _SAME}
    if fits:
        name = max(fits, key=lambda n: fits[n].body)
    else:
        name = min(every, key=lambda n: every[n].body)
    return _spotted(name, every[name], diameter)


_CENTRE_DRILL: Final = "centre drill "


def tool_called(tool: str) -> str:
    """Give a tool the name a card has for it: a centre drill by its number and its body.

    >>> tool_called("centre drill BS 1/4"), tool_called("drill 6.5 mm")
    ('centre drill BS No. 3 (body 1/4 in)', 'drill 6.5 mm')
    """
    if not tool.startswith(_CENTRE_DRILL):
        return tool
    return f"{_CENTRE_DRILL}{find_centre_drill(tool.removeprefix(_CENTRE_DRILL)).called}"


def _spotted(name: str, one: CentreDrill, diameter: Millimetre) -> CentreChoice:
    """Give a cone to start in: wider than the drill's web, not wider than the drill."""
    least = min(_MOUTH * one.pilot, max(one.pilot, diameter))
    across = max(least, min(_CONE_SHARE * one.body, _WEB_CLEARED * diameter))
    cone = (across - one.pilot) / 2 / math.tan(math.radians(30.0))
    return CentreChoice(
        tool=f"centre drill {name}", across=across, deep=_PILOT_DEPTH * one.pilot + cone
    )


def reamer_for(workshop: Workshop, band: Band) -> ReamerChoice | None:
    """Reamer in hand that leaves this hole within its limits (a reamer leaves H7), or none."""
    if not any(abs(r - band.nominal) < _SAME for r in workshop.drills.reamers):
        return None
    return reamer_to_get(band)


def reamer_to_get(band: Band) -> ReamerChoice | None:
    """Reamer of a hole's own size, if the H7 it leaves lies within the hole's limits."""
    if not _SMALLEST_TABLED <= band.nominal <= _LARGEST_REAMER:
        return None
    lower, upper = limits(band.nominal, "H", _REAMED_GRADE)
    inside = band.low <= band.nominal + lower + 1e-6 and band.nominal + upper <= band.high + 1e-6
    if not inside:
        return None
    return ReamerChoice(
        tool=f"reamer {band.nominal:g} mm", allowance=reaming_allowance(band.nominal)
    )
