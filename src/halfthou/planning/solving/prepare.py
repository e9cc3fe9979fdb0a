"""What can be settled before solving: wishes, dominated holdings, bounds."""

from __future__ import annotations

from dataclasses import dataclass

from halfthou.planning.solving.problem import BENCH, Chosen, HeldIn, InOrder, Problem, Without


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """A hard or soft order of two tasks, from a rule or a wish."""

    before: int
    after: int
    strict: bool
    cost: int | None = None


def orders(problem: Problem) -> tuple[Order, ...]:
    """All orders of the problem, wishes among them; a soft one carries its cost."""
    rules = tuple(
        Order(before=r.before, after=r.after, strict=r.strict, cost=None if r.hard else r.cost)
        for r in problem.precedences
        if r.hard or r.cost
    )
    wishes = tuple(
        Order(before=w.before, after=w.after, strict=w.strict)
        for w in problem.wishes
        if isinstance(w, InOrder)
    )
    return rules + wishes


def cuttable(problem: Problem) -> dict[int, frozenset[int]]:
    """Tasks each holding may cut once the wishes are kept; holdings that cut none are left out."""
    banned = frozenset().union(*(w.holdings for w in problem.wishes if isinstance(w, Without)))
    pins = [w for w in problem.wishes if isinstance(w, HeldIn)]
    left: dict[int, frozenset[int]] = {}
    for k, holding in enumerate(problem.holdings):
        away = {w.task for w in pins if k not in w.holdings} | _unchosen(problem)
        tasks = holding.tasks - away
        if tasks and k not in banned:
            left[k] = tasks
    return left


def _unchosen(problem: Problem) -> frozenset[int]:
    """Tasks that a wish for another bundle rules out."""
    out: frozenset[int] = frozenset()
    for wish in problem.wishes:
        if isinstance(wish, Chosen):
            bundles = problem.choices[wish.choice].bundles
            out |= frozenset().union(*bundles) - bundles[wish.bundle]
    return out


def undominated(problem: Problem) -> dict[int, frozenset[int]]:
    """List the holdings worth using, with what each may cut.

    A holding is dropped if another on the same machine cuts all it cuts, asks no more, and
    costs no more in minutes and in every tie. Of equals the first is kept.
    """
    left = cuttable(problem)
    kept = problem.start.holding if problem.start is not None else None
    facts = {k: _Facts.of(problem, k, tasks) for k, tasks in left.items()}
    order = sorted(facts, key=lambda k: (-len(facts[k].tasks), facts[k].minutes, k))
    best: list[int] = []
    for k in order:
        if k == kept or not any(facts[j].as_good_as(facts[k]) for j in best):
            best = [j for j in best if j == kept or not facts[k].as_good_as(facts[j])] + [k]
    return {k: left[k] for k in sorted(best)}


_NEVER = 1 << 40
"""Cost of a tie that a holding never meets: any other holding is as good there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Facts:
    machine: str
    minutes: int
    tasks: frozenset[int]
    need: frozenset[int]
    ban: frozenset[int]
    ties: tuple[int, ...]
    shares: frozenset[int]

    @classmethod
    def of(cls, problem: Problem, k: int, tasks: frozenset[int]) -> _Facts:
        holding = problem.holdings[k]
        return cls(
            machine=holding.machine,
            minutes=holding.minutes,
            tasks=tasks,
            need=frozenset(c.task for c in holding.need),
            ban=frozenset(c.task for c in holding.ban),
            ties=tuple(tie.cost(k) if {tie.a, tie.b} & tasks else _NEVER for tie in problem.ties),
            shares=frozenset(n for n, tie in enumerate(problem.ties) if k in tie.shared),
        )

    def as_good_as(self, other: _Facts) -> bool:
        return (
            self.machine == other.machine
            and self.minutes <= other.minutes
            and other.tasks <= self.tasks
            and self.need <= other.need
            and self.ban <= other.ban
            and other.shares <= self.shares
            and all(a <= b for a, b in zip(self.ties, other.ties, strict=True))
        )


def least_price(problem: Problem, holdings: dict[int, frozenset[int]], setups: int) -> int:
    """Give a price that no plan of this many set-ups or more can beat."""
    optional = {i for c in problem.choices for b in c.bundles for i in b}
    tasks = problem.tasks
    work = sum(t.minutes for i, t in enumerate(tasks) if i not in optional)
    work += sum(
        min(sum(tasks[i].minutes for i in bundle) for bundle in c.bundles) for c in problem.choices
    )
    cheapest = min((problem.holdings[k].minutes for k in holdings), default=0)
    free = 1 if problem.start is not None and problem.start.holding is not None else 0
    return work + cheapest * max(0, setups - free) + _least_tools(problem, holdings, optional)


def _least_tools(problem: Problem, holdings: dict[int, frozenset[int]], optional: set[int]) -> int:
    """Cost of the tools that always done tasks must have, counted where they share none."""
    at_bench = {i for k, t in holdings.items() if problem.holdings[k].machine == BENCH for i in t}
    used: set[str] = set()
    count = 0
    for i in sorted(range(len(problem.tasks)), key=lambda i: (len(problem.tasks[i].tools), i)):
        if i not in optional and i not in at_bench and not used & set(problem.tasks[i].tools):
            used |= set(problem.tasks[i].tools)
            count += 1
    if problem.start is not None and problem.start.tool in used:
        count -= 1
    return count * problem.prices.tool_change
