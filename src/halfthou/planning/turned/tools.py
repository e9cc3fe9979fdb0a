"""Lathe tools for a cut, by the names this workshop gives them."""

from __future__ import annotations

from halfthou.units import Millimetre
from halfthou.workshop.model import Tool, Workshop


def lathe_tools(workshop: Workshop, *kinds: str) -> tuple[Tool, ...]:
    """Give the lathe's tools of these kinds, in the order of the workshop."""
    return tuple(t for t in workshop.tools if t.machine == "lathe" and t.kind in kinds)


def tool_for(workshop: Workshop, *kinds: str) -> tuple[str, ...]:
    """Name the tool for a cut; where none of the kinds is in hand, the kind, to be got."""
    for kind in kinds:
        for tool in lathe_tools(workshop, kind):
            return (tool.name,)
    return kinds[:1]


def plunging_tool(workshop: Workshop, *, room: Millimetre, deep: Millimetre) -> tuple[str, ...]:
    """Name the widest grooving or parting tool that goes into a groove and reaches its floor."""
    every = lathe_tools(workshop, "grooving tool", "parting tool")
    fits = [t for t in every if t.width <= room + 1e-6 and t.reach >= deep]
    best = max(fits, key=lambda t: (t.kind == "grooving tool", t.width), default=None)
    return (best.name,) if best else (f"grooving tool {room:.2g} wide",)


def goes_in(workshop: Workshop, have: Millimetre) -> bool:
    """Tell whether a boring tool in hand goes into a hole of this diameter; [mm]."""
    return any(t.least_bore <= have for t in lathe_tools(workshop, "boring tool"))


def boring_tool(workshop: Workshop, have: Millimetre, *, deep: Millimetre) -> tuple[str, ...]:
    """Name the stoutest boring tool that goes into a hole, one that reaches its depth first."""
    fits = [t for t in lathe_tools(workshop, "boring tool") if t.least_bore <= have]
    best = max(fits, key=lambda t: (t.reach >= deep, t.width or t.shank), default=None)
    return (best.name,) if best else (f"boring tool for a {have:.1f} hole",)
