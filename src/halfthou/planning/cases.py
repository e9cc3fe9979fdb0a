"""The cases worth solving for a part: one for each blank it can be made from."""

from __future__ import annotations

from halfthou.drawing.model import Hole, Part
from halfthou.errors import NoPlan
from halfthou.planning.assemble import Case
from halfthou.planning.milled.on_round import operations_mill_on_round
from halfthou.planning.milled.on_round_holding import schemes_mill_on_round
from halfthou.planning.milled.on_round_orders import orders_mill_on_round
from halfthou.planning.model import Link, Operation, Order, Scheme
from halfthou.planning.operations_on_axis import operations_on_axis
from halfthou.planning.operations_turned import operations_outside, sawing
from halfthou.planning.orders_turned import orders_turned
from halfthou.planning.schemes_turned import schemes_turned
from halfthou.planning.stock import Stock, turned_stocks
from halfthou.workshop.model import HoldingDevice, Workshop


def cases(part: Part, workshop: Workshop) -> tuple[Case, ...]:
    """Every blank for the part, each with its operations, holdings and orders.

    Raises
    ------
    NoPlan
        If the blank is too small for the part.
    """
    if part.turned:
        stocks = turned_stocks(part, workshop)
        if not stocks:
            raise NoPlan(
                f"the blank of the {part.name} is no longer than the part",
                where=f"[blank] {part.blank.text}",
                why="each end needs a skim, and the work something to be held by",
                tries=("a longer blank", "leave the length out of [blank]: the plan then says it"),
            )
        return tuple(_turned(part, workshop, stock) for stock in stocks)
    from halfthou.planning.milled.case import case_milled

    return (case_milled(part, workshop),)


def _turned(part: Part, workshop: Workshop, stock: Stock) -> Case:
    work = (
        operations_outside(part, workshop, stock)
        + operations_on_axis(part, workshop, stock)
        + operations_mill_on_round(part, workshop)
    )
    operations = (sawing(stock), *work.operations)
    schemes, refused = schemes_turned(part, workshop, stock, operations)
    mill_schemes, mill_refused = schemes_mill_on_round(part, workshop, operations)
    every = (at_the_bench(workshop, operations), *schemes, *mill_schemes)
    return Case(
        part=part,
        blank=(stock.saw, stock.across, stock.across),
        metal=stock.metal,
        stock=stock,
        operations=operations,
        alternatives=work.alternatives,
        schemes=every,
        refused=refused + mill_refused,
        orders=_saw_first(operations)
        + orders_turned(operations)
        + orders_mill_on_round(part, operations),
    )


def _saw_first(operations: tuple[Operation, ...]) -> tuple[Order, ...]:
    return tuple(
        Order(
            before="saw the blank",
            after=op.key,
            rule="metal first",
            reason="the blank is sawn off the bar",
            other_set_up=True,
        )
        for op in operations
        if op.key != "saw the blank"
    )


_BENCH_VICE = HoldingDevice(
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


def at_the_bench(workshop: Workshop, operations: tuple[Operation, ...]) -> Scheme:
    """Holding for bench work: sawing the blank."""
    vice = next((d for d in workshop.holding if d.device == "bench vice"), _BENCH_VICE)
    return Scheme(
        key="bench vice",
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
        can=frozenset(op.key for op in operations if op.verb == "saw"),
        need=(),
        ban=(),
    )


def off_axis(part: Part) -> bool:
    """Whether a turned part has holes away from its axis."""
    return any(isinstance(f, Hole) and not f.on_axis for f in part.features)
