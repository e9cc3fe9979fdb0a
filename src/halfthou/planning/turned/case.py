"""The case of a turned part made from one blank: operations, holdings and orders together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.assemble import Case
from halfthou.planning.milled.on_round import operations_mill_on_round
from halfthou.planning.milled.on_round_holding import schemes_mill_on_round
from halfthou.planning.milled.on_round_orders import orders_mill_on_round
from halfthou.planning.model import Link, Operation, Scheme
from halfthou.planning.treatment import (
    left_to_lap,
    orders_treated,
    schemes_treated,
    treatment,
)
from halfthou.planning.turned.faces import centring, facing, parting
from halfthou.planning.turned.fits_lathe import check_blank, check_lathe, no_length
from halfthou.planning.turned.grips import Shop
from halfthou.planning.turned.minutes import minutes_for
from halfthou.planning.turned.off_axis import orders_set_over, set_over, set_over_work
from halfthou.planning.turned.on_axis import holing
from halfthou.planning.turned.orders import orders_turned
from halfthou.planning.turned.rounds import turning
from halfthou.planning.turned.schemes import schemes_turned
from halfthou.planning.turned.small_cuts import small_cutting
from halfthou.planning.turned.stock import Stock, turned_stocks
from halfthou.planning.turned.threads import threading
from halfthou.planning.work import Work
from halfthou.workshop.model import HoldingDevice, Workshop

BENCH_VICE: Final = HoldingDevice(
    device="bench vice",
    name="bench vice",
    machine="bench",
    smallest=0.0,
    largest=100.0,
    inside_smallest=0.0,
    inside_largest=0.0,
    jaw_depth=40.0,
    jaw_width=100.0,
    overall=100.0,
    rehold=1.0,
    trued=1.0,
    face=1.0,
    minutes=1.0,
    most_rev_min=0.0,
)
"""What a sawn bar is held in where the workshop tells no bench vice."""


def cases_turned(part: Part, workshop: Workshop) -> tuple[Case, ...]:
    """Give a case for every blank that a turned part can be made from.

    Raises
    ------
    NoPlan
        If the blank is too small for the part, or the work too large for the lathe.
    """
    check_blank(part)
    stocks = turned_stocks(part, workshop)
    if not stocks:
        raise no_length(part)
    check_lathe(part, workshop, stocks[0])
    return tuple(_case(part, workshop, stock) for stock in stocks)


def operations_outside(part: Part, workshop: Workshop, stock: Stock) -> Work:
    """Give all turning of the outside and ends: faces, rounds, tapers, threads, grooves, edges."""
    return (
        facing(part, workshop, stock)
        + centring(part)
        + turning(part, workshop, stock)
        + threading(part, workshop)
        + small_cutting(part, workshop)
        + parting(part, workshop, stock)
    )


def _case(part: Part, workshop: Workshop, stock: Stock) -> Case:
    work = (
        Work(operations=(sawing(stock),))
        + operations_outside(part, workshop, stock)
        + holing(part, workshop, stock)
        + set_over_work(part, workshop, stock)
        + operations_mill_on_round(
            part, workshop, leave=frozenset(hole.name for hole in set_over(part, workshop))
        )
    )
    work = replace(work, operations=left_to_lap(part, work.operations))
    work += Work(operations=treatment(part))
    operations = work.operations
    shop = Shop(part=part, stock=stock, workshop=workshop, operations=operations)
    schemes, refused = schemes_turned(shop)
    mill_schemes, mill_refused = schemes_mill_on_round(part, workshop, operations)
    return Case(
        part=part,
        blank=(stock.saw, stock.across, stock.across),
        metal=stock.metal,
        stock=stock,
        operations=operations,
        alternatives=work.alternatives,
        schemes=(
            *at_the_bench(workshop, operations),
            *schemes,
            *mill_schemes,
            *schemes_treated(operations, bench_vice(workshop)),
        ),
        refused=refused + mill_refused,
        orders=(
            *orders_turned(operations),
            *orders_set_over(part, workshop, operations),
            *orders_mill_on_round(part, operations),
            *orders_treated(operations),
        ),
    )


def sawing(stock: Stock) -> Operation:
    """Give the sawing of the blank off the bar: always the first thing done."""
    return Operation(
        key="saw the blank",
        verb="saw",
        stage="only",
        feature="blank",
        machine="bench",
        makes=(),
        region=(),
        approach=((1.0, 0.0, 0.0),),
        tools=("hacksaw",),
        minutes=minutes_for("saw", length=stock.across, across=stock.across, depth=stock.across),
        starts=stock.low,
        ends=stock.high,
        cut_size=stock.saw,
    )


def bench_vice(workshop: Workshop) -> HoldingDevice:
    """Give the workshop's bench vice, or a usual one."""
    return next((d for d in workshop.holding if d.device == "bench vice"), BENCH_VICE)


def at_the_bench(workshop: Workshop, operations: tuple[Operation, ...]) -> Iterator[Scheme]:
    """Give the holdings for sawing: the blank off the bar, and the chucking piece off the work."""
    vice = bench_vice(workshop)
    for op in operations:
        if op.verb == "saw":
            on_bar = op.feature == "blank"
            yield Scheme(
                key="bench vice" if on_bar else "bench vice, by the chucking piece",
                machine="bench",
                links=(Link(holder=vice),),
                faces=(1.0, 0.0, 0.0),
                across=(0.0, 1.0, 0.0),
                grips=("stock outside",),
                seats=(),
                grip_low=0.0,
                grip_high=0.0,
                grip_size=0.0,
                inside=False,
                centre=False,
                stick_out=0.0,
                true_on=(),
                error=1.0,
                minutes=vice.minutes,
                can=frozenset({op.key}),
                need=(),
                ban=(),
            )
