"""The planning problem as plain data: tasks, holdings, rules, prices, wishes.

Nothing here knows the trade. Tasks, choices and holdings are named by their place in the
problem's tuples; every time and cost is a whole number. [0.1 min]
"""

from __future__ import annotations

from dataclasses import dataclass, field

BENCH = "bench"
"""The machine of every bench holding; tools there are picked up at no cost."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One piece of work, done once or not at all, with one of its tools."""

    name: str
    minutes: int
    tools: tuple[str, ...]
    stage: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Exactly one of these bundles of tasks is done; tasks in no choice are always done."""

    name: str
    bundles: tuple[frozenset[int], ...]
    bundle_names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Precedence:
    """One task before another, if both are done.

    ``strict`` asks for an earlier set-up; else an earlier place in the same one will do.
    A soft precedence (``hard=False``) may be broken for ``cost``.
    """

    before: int
    after: int
    rule: str
    reason: str = ""
    strict: bool = False
    hard: bool = True
    cost: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """Two tasks in one set-up, if both are done."""

    a: int
    b: int
    rule: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """A task that must come before (need) or after (ban) a holding, and the rule that says so."""

    task: int
    rule: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """One way to hold the work: what it can cut, and when it may be used.

    ``need``: tasks done in a strictly earlier set-up, if done at all. ``ban``: tasks done in a
    strictly later one. ``minutes``: to set up.
    """

    name: str
    machine: str
    device: str
    tasks: frozenset[int]
    minutes: int
    need: tuple[Condition, ...] = ()
    ban: tuple[Condition, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """A requirement between two tasks: what it costs to cut them in different set-ups.

    ``by_holding`` gives (holding, cost) where the later one is cut in that holding (small where
    it is located from the earlier surface); any other holding costs ``apart``. Holdings that
    share a datum (two ends between the same centres) are ``shared``: where both tasks are cut
    in such, the cost is at most ``shared_cost``.
    """

    name: str
    a: int
    b: int
    apart: int
    by_holding: tuple[tuple[int, int], ...] = ()
    shared: frozenset[int] = frozenset()
    shared_cost: int = 0

    def cost(self, holding: int, earlier: int | None = None) -> int:
        """Cost when the later of the two is cut in ``holding``, the other in ``earlier``."""
        own = dict(self.by_holding).get(holding, self.apart)
        if holding in self.shared and earlier in self.shared:
            return min(own, self.shared_cost)
        return own


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """What a change costs: from machine to machine, to or from the bench, of tool."""

    machine_change: int = 50
    bench_change: int = 10
    tool_change: int = 15

    def move(self, before: str, after: str) -> int:
        """Cost of carrying the work from one machine to the next."""
        if before == after:
            return 0
        return self.bench_change if BENCH in (before, after) else self.machine_change


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldIn:
    """Wish: this task in one of these holdings."""

    name: str
    task: int
    holdings: frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Without:
    """Wish: these holdings not at all."""

    name: str
    holdings: frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class InOrder:
    """Wish: one task before another."""

    name: str
    before: int
    after: int
    strict: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Wish: this bundle of a choice."""

    name: str
    choice: int
    bundle: int


Wish = HeldIn | Without | InOrder | Chosen


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """Where work stands now: the machine, its tool, and the holding the work is still in."""

    machine: str
    tool: str = ""
    holding: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Everything the solver and the judge need to know."""

    tasks: tuple[Task, ...]
    holdings: tuple[Holding, ...]
    choices: tuple[Choice, ...] = ()
    precedences: tuple[Precedence, ...] = ()
    togethers: tuple[Together, ...] = ()
    ties: tuple[Tie, ...] = ()
    wishes: tuple[Wish, ...] = ()
    prices: Prices = field(default_factory=Prices)
    start: Start | None = None

    def __post_init__(self) -> None:
        faults = (*_number_faults(self), *_holding_faults(self), *_choice_faults(self))
        if faults:
            raise ValueError("; ".join(faults))

    def choice_of(self, task: int) -> int | None:
        """Give the choice this task belongs to, or None if it is always done."""
        return next(
            (c for c, one in enumerate(self.choices) if any(task in b for b in one.bundles)), None
        )

    def done(self, chosen: tuple[int, ...]) -> frozenset[int]:
        """Tasks that are done when these bundles are chosen."""
        optional = frozenset(i for c in self.choices for b in c.bundles for i in b)
        always = frozenset(range(len(self.tasks))) - optional
        picked = (c.bundles[j] for c, j in zip(self.choices, chosen, strict=True))
        return always.union(*picked)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One set-up of a plan: the holding, its tasks in order, the tool of each."""

    holding: int
    tasks: tuple[int, ...]
    tools: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A plan and what is known about its price.

    ``bound``: no plan costs less. ``proved``: this is the cheapest plan of any number of
    set-ups. ``proved_for_setups``: it is the cheapest of up to that many (0 = not shown).
    """

    setups: tuple[Slot, ...]
    chosen: tuple[int, ...]
    price: int
    bound: int
    proved: bool
    proved_for_setups: int


def _number_faults(problem: Problem) -> list[str]:
    """Task numbers that name nothing, and prices under zero."""
    count, held = len(problem.tasks), len(problem.holdings)
    named = [i for k in problem.holdings for i in k.tasks]
    named += [c.task for k in problem.holdings for c in (*k.need, *k.ban)]
    named += [i for r in problem.precedences for i in (r.before, r.after)]
    named += [i for r in problem.togethers for i in (r.a, r.b)]
    named += [i for r in problem.ties for i in (r.a, r.b)]
    named += [i for c in problem.choices for b in c.bundles for i in b]
    holdings = [k for tie in problem.ties for k, _ in tie.by_holding]
    holdings += [k for tie in problem.ties for k in tie.shared]
    for wish in problem.wishes:
        match wish:
            case HeldIn():
                named.append(wish.task)
                holdings += wish.holdings
            case Without():
                holdings += wish.holdings
            case InOrder():
                named += [wish.before, wish.after]
            case Chosen():
                pass
    faults = [f"task number {i} of {count} tasks" for i in named if not 0 <= i < count]
    faults += [f"holding number {k} of {held}" for k in holdings if not 0 <= k < held]
    prices = problem.prices
    costs = [t.minutes for t in problem.tasks] + [k.minutes for k in problem.holdings]
    costs += [r.cost for r in problem.precedences]
    costs += [c for tie in problem.ties for c in (tie.apart, *(c for _, c in tie.by_holding))]
    costs += [tie.shared_cost for tie in problem.ties]
    costs += [prices.machine_change, prices.bench_change, prices.tool_change]
    return faults + (["a cost under zero"] if any(c < 0 for c in costs) else [])


def _holding_faults(problem: Problem) -> list[str]:
    """Find holdings that cut what they hold by, and tasks that want a tool and have none."""
    faults = [f"{t.name} has no tool" for t in problem.tasks if not t.tools]
    for k in problem.holdings:
        held = {c.task for c in (*k.need, *k.ban)} & k.tasks
        faults += [f"{k.name} would cut {problem.tasks[i].name}, which it holds by" for i in held]
    return faults


def _choice_faults(problem: Problem) -> list[str]:
    """Choices without bundles, and tasks in two choices."""
    faults = [f"choice {c.name} has nothing to choose" for c in problem.choices if not c.bundles]
    seen: dict[int, str] = {}
    for c in problem.choices:
        for i in frozenset().union(*c.bundles):
            if i in seen:
                faults.append(f"{problem.tasks[i].name} is in choices {seen[i]} and {c.name}")
            seen[i] = c.name
    for wish in problem.wishes:
        if isinstance(wish, Chosen) and not (
            0 <= wish.choice < len(problem.choices)
            and 0 <= wish.bundle < len(problem.choices[wish.choice].bundles)
        ):
            faults += [f"wish {wish.name} names no bundle"]
    return faults
