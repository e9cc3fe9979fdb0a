"""From the trade's words to the solver's numbers and back: one problem for one blank."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.geometry import RegionSet
from halfthou.drawing.model import Lump, Part
from halfthou.planning.model import Alternative, Operation, Order, Refused, Scheme, SetUp
from halfthou.planning.one_setting import kept_together
from halfthou.planning.solving.problem import (
    Answer,
    Choice,
    Condition,
    Holding,
    Precedence,
    Problem,
    Task,
    Tie,
    Together,
)
from halfthou.planning.ties import ties_of
from halfthou.planning.turned.standing import as_it_stands
from halfthou.planning.turned.stock import Stock
from halfthou.units import Vec3

TENTHS: Final = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Everything known about making one part from one blank, before it is solved."""

    part: Part
    blank: Vec3
    metal: RegionSet
    stock: Stock | None
    operations: tuple[Operation, ...]
    alternatives: tuple[Alternative, ...]
    schemes: tuple[Scheme, ...]
    refused: tuple[Refused, ...]
    orders: tuple[Order, ...]
    lumps: tuple[Lump, ...] = ()
    uncut: tuple[Lump, ...] = ()
    at_once: tuple[Order, ...] = ()
    """Pairs to be done in one set-up."""


def _tenths(minutes: float) -> int:
    return round(minutes * TENTHS)


def problem_of(case: Case) -> Problem:
    """Give the case as plain numbers for the solver and the judge."""
    place = {op.key: i for i, op in enumerate(case.operations)}
    spot = {s.key: i for i, s in enumerate(case.schemes)}
    return Problem(
        tasks=tuple(
            Task(name=op.key, minutes=_tenths(op.minutes), tools=op.tools, stage=op.stage)
            for op in case.operations
        ),
        holdings=tuple(_holding(s, place) for s in case.schemes),
        choices=tuple(
            Choice(
                name=a.name,
                bundles=tuple(frozenset(place[k] for k in bundle) for bundle in a.bundles),
                bundle_names=tuple(", ".join(bundle) for bundle in a.bundles),
            )
            for a in case.alternatives
        ),
        precedences=tuple(_precedence(o, place) for o in case.orders),
        togethers=(
            *kept_together(case.operations),
            *(
                Together(a=place[o.before], b=place[o.after], rule=o.rule, reason=o.reason)
                for o in case.at_once
            ),
        ),
        ties=tuple(
            Tie(
                name=t.name,
                a=place[t.a],
                b=place[t.b],
                apart=_tenths(t.worst),
                by_holding=tuple((spot[k], _tenths(c)) for k, c in t.by_scheme),
                shared=frozenset(spot[k] for k in t.one_datum),
                shared_cost=_tenths(t.datum_cost),
            )
            for t in ties_of(case.part, case.operations, case.schemes)
        ),
    )


def _precedence(order: Order, place: dict[str, int]) -> Precedence:
    return Precedence(
        before=place[order.before],
        after=place[order.after],
        rule=order.rule,
        reason=order.reason,
        strict=order.other_set_up,
        hard=order.hard,
        cost=_tenths(order.cost),
    )


def _holding(scheme: Scheme, place: dict[str, int]) -> Holding:
    return Holding(
        name=scheme.key,
        machine=scheme.machine,
        device=scheme.device.device,
        tasks=frozenset(place[k] for k in scheme.can),
        minutes=_tenths(scheme.minutes),
        need=tuple(
            Condition(task=place[k], rule="hold by what is there", reason=why)
            for k, why in scheme.need
            if k in place
        ),
        ban=tuple(
            Condition(task=place[k], rule="keep what is held", reason=why)
            for k, why in scheme.ban
            if k in place
        ),
    )


def set_ups_of(case: Case, answer: Answer) -> tuple[SetUp, ...]:
    """Give the answer in the trade's words, each cut told what it really starts from."""
    set_ups = tuple(
        SetUp(
            scheme=case.schemes[slot.holding],
            operations=tuple(case.operations[i] for i in slot.tasks),
        )
        for slot in answer.setups
    )
    return as_it_stands(set_ups)
