"""The outside of turned work: every round from one end or the other, then its taper.

Regions reach out to the free end: metal is turned down from the largest diameter, and what is
smaller beyond it is turned down further. Close diameters are roughed and finished apart.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.geometry import Region, TaperTube, Tube
from halfthou.drawing.model import Part, Round
from halfthou.planning.model import Alternative, Operation, Stage
from halfthou.planning.turned.minutes import minutes_for
from halfthou.planning.turned.shape import (
    BEYOND,
    NEAR,
    TOWARD,
    End,
    end_at,
    is_neck,
    largest,
    planes_at,
    rounds,
    smallest,
    turned_from,
    walls_of,
)
from halfthou.planning.turned.stock import Stock, far_from
from halfthou.planning.turned.tools import plunging_tool, tool_for
from halfthou.planning.work import Work
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

ROUGH_LEAVES: Final = 0.25
"""Metal left a side for finishing a fitted diameter, mm (usual practice)."""
NARROW: Final = 6.0
"""A neck narrower than this is plunged with a grooving tool, mm (usual practice)."""
FITTED: Final = 0.08
"""A diameter with less tolerance than this is roughed and finished apart, mm (usual practice)."""
UNDER_MAJOR: Final = 0.1
"""A round to be threaded is turned under the thread's major diameter, in pitches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cut:
    """A round turned from one end."""

    part: Part
    workshop: Workshop
    stock: Stock
    one: Round
    end: End

    @property
    def neck(self) -> bool:
        """Whether there is larger metal on both sides."""
        return is_neck(self.part, self.one.name)

    @property
    def reach(self) -> tuple[Millimetre, Millimetre]:
        """Where turning begins and stops along x, low and high."""
        one = self.one
        if self.neck:
            return one.left, one.right
        inner = one.left if self.end == "right" else one.right
        chucked = "left" if self.end == "right" else "right"
        if self.stock.chucking == chucked and abs(inner - end_at(self.part, chucked)) < NEAR:
            inner = far_from(self.part, self.stock, self.end)
        outer = self.stock.end(self.end) + TOWARD[self.end][0] * BEYOND
        return min(inner, outer), max(inner, outer)

    @property
    def makes(self) -> tuple[str, ...]:
        """Its wall and the shoulders it is turned up to."""
        at_left = planes_at(self.part, self.one.left, TOWARD["right"])
        at_right = planes_at(self.part, self.one.right, TOWARD["left"])
        walls = tuple(s.name for s in walls_of(self.part, self.one.name))
        if self.neck:
            return walls + at_left + at_right
        return walls + (at_left if self.end == "right" else at_right)

    @property
    def tools(self) -> tuple[str, ...]:
        """A knife tool, or a grooving tool for a narrow neck."""
        low, high = self.reach
        if self.neck and high - low < NARROW:
            deep = (self.stock.across - smallest(self.one)) / 2
            return plunging_tool(self.workshop, room=high - low, deep=deep)
        if self.end == "left" and self.neck:
            return tool_for(self.workshop, "left-hand knife tool", "knife tool")
        return tool_for(self.workshop, "knife tool")


def turning(part: Part, workshop: Workshop, stock: Stock) -> Work:
    """Give the turning of every round that the bar itself does not make."""
    work = Work()
    for one in rounds(part):
        if bar_as_drawn(part, one):
            continue
        bundles = []
        for end in turned_from(part)[one.name]:
            cut = _Cut(part=part, workshop=workshop, stock=stock, one=one, end=end)
            made = _turned(cut)
            work += Work(operations=made)
            bundles.append(tuple(op.key for op in made))
        if len(bundles) > 1:
            choice = Alternative(name=f"{one.name}: from which end", bundles=tuple(bundles))
            work += Work(alternatives=(choice,))
    return work


def bar_as_drawn(part: Part, one: Round) -> bool:
    """Tell whether the bright bar itself makes this round: its size, and nothing tight asked."""
    return (
        part.blank.form == "round bar"
        and part.blank.bright
        and one.right_diameter is None
        and one.thread is None
        and abs(part.blank.across - one.diameter.nominal) < NEAR
        and one.diameter.width >= FITTED
        and not any(r.surface == one.name and r.origin == "drawn" for r in part.requirements)
    )


def _turned(cut: _Cut) -> tuple[Operation, ...]:
    one = cut.one
    if one.right_diameter is not None:
        big = largest(one)
        there = abs(cut.stock.across - big) < NEAR
        return (_taper(cut),) if there else (_turn(cut, "rough", big), _taper(cut))
    if one.thread is not None:
        return (_turn(cut, "only", one.thread.major - UNDER_MAJOR * one.thread.pitch),)
    if one.diameter.width >= FITTED:
        return (_turn(cut, "only", one.diameter.middle),)
    return (
        _turn(cut, "rough", one.diameter.high + 2 * ROUGH_LEAVES),
        _turn(cut, "finish", one.diameter.middle),
    )


def _turn(cut: _Cut, stage: Stage, to: Millimetre) -> Operation:
    """One turning of a round to a diameter; what it finds there the order of work tells."""
    one, (low, high) = cut.one, cut.reach
    start = to + 2 * ROUGH_LEAVES if stage == "finish" else max(cut.stock.across, to)
    sized = stage != "rough" and one.thread is None
    words = "" if stage == "only" else f" {stage}"
    return Operation(
        key=f"{one.name}{words} from {cut.end}",
        verb="turn",
        stage=stage,
        feature=one.name,
        machine="lathe",
        makes=() if stage == "rough" else cut.makes,
        region=_ring(low, high, to if stage == "rough" else one.diameter.nominal, cut.stock),
        approach=(TOWARD[cut.end],),
        tools=cut.tools,
        minutes=minutes_for(
            "turn", length=one.right - one.left, across=start, depth=(start - to) / 2
        ),
        starts=low,
        ends=high,
        size=one.diameter if sized else None,
        cut_size=to,
        from_size=start,
    )


def _ring(
    low: Millimetre, high: Millimetre, inside: Millimetre, stock: Stock
) -> tuple[Region, ...]:
    outside = max(stock.across, inside) + 2 * BEYOND
    return (Tube(start=(low, 0.0, 0.0), end=(high, 0.0, 0.0), inside=inside, outside=outside),)


def _taper(cut: _Cut) -> Operation:
    """Turn a taper, after its round is turned to the larger of its diameters."""
    one = cut.one
    right = one.right_diameter or one.diameter
    big, small = largest(one), smallest(one)
    length = one.right - one.left
    return Operation(
        key=f"{one.name} taper from {cut.end}",
        verb="turn taper",
        stage="finish",
        feature=one.name,
        machine="lathe",
        makes=cut.makes,
        region=(
            TaperTube(
                start=(one.left, 0.0, 0.0),
                end=(one.right, 0.0, 0.0),
                start_inside=one.diameter.nominal,
                end_inside=right.nominal,
                outside=big + 2 * BEYOND,
            ),
        ),
        approach=(TOWARD[cut.end],),
        tools=tool_for(cut.workshop, "knife tool"),
        minutes=minutes_for("turn taper", length=length, across=big, depth=(big - small) / 2),
        starts=one.left,
        ends=one.right,
        size=one.diameter,
        cut_size=small,
        from_size=big,
        angle=math.atan2((big - small) / 2, length),
    )
