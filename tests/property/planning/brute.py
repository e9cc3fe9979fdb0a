"""Small random problems, and the price of their cheapest plan by looking at every state."""

from __future__ import annotations

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import count, product
from random import Random
from typing import TypeAlias

from halfthou.planning.solving.problem import (
    BENCH,
    Choice,
    Condition,
    HeldIn,
    Holding,
    InOrder,
    Precedence,
    Prices,
    Problem,
    Start,
    Task,
    Tie,
    Together,
    Wish,
)

Tasks: TypeAlias = frozenset[int]
State: TypeAlias = tuple[Tasks, Tasks, int | None, str, Tasks]
"""Tasks done before this set-up, in it, its holding, the tool, tasks done on the shared datum."""


def random_problem(seed: int, *, tasks: int = 6, holdings: int = 5) -> Problem:
    """Make a small problem with some of everything; about one in four has no plan."""
    rng = Random(seed)  # noqa: S311  (no secret depends on it)
    n = rng.randint(2, tasks)
    machines = ["lathe", "mill", BENCH]
    tools = ["t1", "t2", "t3"]
    some = range(n)

    def pair() -> tuple[int, int]:
        a, b = rng.sample(some, 2)
        return (a, b) if rng.random() < 0.95 else (b, a)

    held = []
    for k in range(rng.randint(2, holdings)):
        cuts = frozenset(i for i in some if rng.random() < 0.6)
        rest = [i for i in some if i not in cuts]
        need = tuple(Condition(task=i, rule="need") for i in rest if rng.random() < 0.2)
        ban = tuple(Condition(task=i, rule="ban") for i in rest if rng.random() < 0.15)
        held.append(
            Holding(
                name=f"h{k}",
                machine=rng.choice(machines[: 3 if k else 1]),
                device="d",
                tasks=cuts,
                minutes=rng.choice([0, 20, 50, 80]),
                need=need,
                ban=ban,
            )
        )
    order = [
        Precedence(
            before=min(p),
            after=max(p),
            rule="order",
            strict=rng.random() < 0.15,
            hard=(hard := rng.random() < 0.7),
            cost=0 if hard else rng.choice([5, 12, 40]),
        )
        for p in (pair() for _ in range(rng.randint(0, n)))
    ]
    datum = (
        frozenset(rng.sample(range(len(held)), min(2, len(held))))
        if rng.random() < 0.5
        else frozenset()
    )
    ties = tuple(
        Tie(
            name="tie",
            a=p[0],
            b=p[1],
            apart=rng.choice([30, 60]),
            shared=datum,
            shared_cost=rng.choice([0, 20, 70]) if datum else 0,
            by_holding=tuple(
                (k, rng.choice([0, 10, 90])) for k in range(len(held)) if rng.random() < 0.4
            ),
        )
        for p in (pair() for _ in range(rng.randint(0, 3)))
    )
    choices: tuple[Choice, ...] = ()
    if n >= 4 and rng.random() < 0.5:
        choices = (
            Choice(
                name="way",
                bundles=(frozenset({0, 1}), frozenset({0, 2}), frozenset({3}))[
                    : rng.randint(2, 3)
                ],
            ),
        )
    wishes: list[Wish] = []
    if rng.random() < 0.2:
        wishes.append(InOrder(name="w", before=n - 1, after=0))
    if rng.random() < 0.2:
        wishes.append(HeldIn(name="v", task=0, holdings=frozenset({0, 1})))
    start = Start(machine="lathe", tool="t1", holding=rng.choice([None, 0]))
    return Problem(
        tasks=tuple(
            Task(
                name=f"task {i}",
                minutes=rng.choice([10, 30]),
                tools=tuple(rng.sample(tools, rng.choice([1, 1, 2]))),
            )
            for i in some
        ),
        holdings=tuple(held),
        choices=choices,
        precedences=tuple(order),
        togethers=(Together(a=0, b=n - 1, rule="one"),) if rng.random() < 0.15 else (),
        ties=ties,
        wishes=tuple(wishes),
        prices=Prices(
            machine_change=rng.choice([0, 50]),
            bench_change=rng.choice([0, 10]),
            tool_change=rng.choice([0, 15]),
        ),
        start=start if rng.random() < 0.4 else None,
    )


def cheapest(problem: Problem, *, setups: int = 0) -> int | None:
    """Price of the cheapest plan of so many set-ups or more, or None if there is none."""
    prices = [
        price
        for chosen in product(*(range(len(c.bundles)) for c in problem.choices))
        if (price := _cheapest_of(problem, problem.done(chosen), setups)) is not None
    ]
    return min(prices, default=None)


def _cheapest_of(problem: Problem, wanted: frozenset[int], setups: int) -> int | None:
    """Walk states (done before this set-up, done in it, holding, tool), cheapest first.

    Set-ups are counted down to none: those past the number wanted are free to come or not.
    """
    tickets = count()
    start = problem.start
    first: State = (
        frozenset(), frozenset(), None, start.tool if start else "", frozenset()
    )  # fmt: skip
    queue = [(0, next(tickets), setups, first)]
    settled: set[tuple[int, State]] = set()
    while queue:
        price, _, wanting, state = heappop(queue)
        if (wanting, state) in settled:
            continue
        settled.add((wanting, state))
        before, here, *_ = state
        if before | here == wanted and not wanting and (here or not setups):
            return price
        for step, following in _steps(problem, wanted, state):
            began = following[1] == frozenset()
            left = max(0, wanting - began)
            heappush(queue, (price + step, next(tickets), left, following))
    return None


def _steps(problem: Problem, wanted: Tasks, state: State) -> Iterator[tuple[int, State]]:
    before, here, holding, _, on_datum = state
    gone = before | here
    if holding is None or here:
        for k in range(len(problem.holdings)):
            if _may_hold(problem, wanted, gone, k):
                yield (
                    _setup_price(problem, holding, k),
                    (gone, frozenset(), k, _tool(problem, state, k), on_datum),
                )
    if holding is None:
        return
    for i in sorted(problem.holdings[holding].tasks & wanted - gone):
        if _may_do(problem, wanted, state, i):
            for t in problem.tasks[i].tools:
                price = _task_price(problem, wanted, state, i, t)
                there = on_datum | {i} if holding in _datum(problem) else on_datum
                yield price, (before, here | {i}, holding, t, there)


def _datum(problem: Problem) -> frozenset[int]:
    """Give the holdings that share a datum: one set for all the ties of a random problem."""
    return frozenset().union(*(tie.shared for tie in problem.ties))


def _tool(problem: Problem, state: State, k: int) -> str:
    _, _, holding, tool, _ = state
    start = problem.start
    machine = problem.holdings[k].machine
    if holding is None:
        return tool if start and start.machine == machine else ""
    return tool if problem.holdings[holding].machine == machine else ""


def _setup_price(problem: Problem, old: int | None, k: int) -> int:
    new = problem.holdings[k]
    start = problem.start
    if old is None:
        if start is None:
            return new.minutes
        kept = start.holding == k
        return (0 if kept else new.minutes) + problem.prices.move(start.machine, new.machine)
    return new.minutes + problem.prices.move(problem.holdings[old].machine, new.machine)


def _may_hold(problem: Problem, wanted: Tasks, gone: Tasks, k: int) -> bool:
    holding = problem.holdings[k]
    need = {c.task for c in holding.need} & wanted
    ban = {c.task for c in holding.ban}
    return need <= gone and not ban & gone


def _may_do(problem: Problem, wanted: Tasks, state: State, i: int) -> bool:
    before, here, k, *_ = state
    gone = before | here
    if k is None or any(c.task == i for c in problem.holdings[k].ban):
        return False
    orders = [(r.before, r.after, r.strict) for r in problem.precedences if r.hard]
    for w in problem.wishes:
        if isinstance(w, InOrder):
            orders.append((w.before, w.after, w.strict))
        elif isinstance(w, HeldIn) and w.task == i and k not in w.holdings:
            return False
    late = any(
        b == i and a in wanted and a not in (before if strict else gone) for a, b, strict in orders
    )
    parted = any({i} < {t.a, t.b} and {t.a, t.b} & before for t in problem.togethers)
    return not late and not parted


def _task_price(problem: Problem, wanted: Tasks, state: State, i: int, tool: str) -> int:
    before, here, k, old, on_datum = state
    assert k is not None
    price = problem.tasks[i].minutes
    if problem.holdings[k].machine != BENCH and tool != old:
        price += problem.prices.tool_change
    for r in problem.precedences:
        if not r.hard and r.after == i and r.before in wanted:
            price += 0 if r.before in (before if r.strict else before | here) else r.cost
    for tie in problem.ties:
        if (tie.a == i and tie.b in before) or (tie.b == i and tie.a in before):
            other = tie.b if tie.a == i else tie.a
            price += tie.cost(k, k if other in on_datum and k in tie.shared else None)
    return price
