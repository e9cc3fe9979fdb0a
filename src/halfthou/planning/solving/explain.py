"""Why there is no plan: tasks nothing can reach, or demands that cannot all be kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from halfthou.errors import NoPlan
from halfthou.planning.solving import solver
from halfthou.planning.solving.problem import Problem
from halfthou.planning.solving.slot_demands import Refusal
from halfthou.planning.solving.slot_rows import Clause

WEIGHTS: Mapping[str, int] = {"wish": 1, "device": 4, "rule": 10}
"""How hard it is to give up a wish, to get another device, to go against a rule of the trade."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """A rule, device or wish that stands in the way, and what exactly it asks for."""

    kind: str
    name: str
    items: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    remedies: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Unreached:
    """A task that no holding can do, and what stopped each."""

    task: str
    refusals: tuple[Refusal, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyNot:
    """Why there is no plan.

    Either tasks are unreached, or ``conflict`` holds demands of which none can be left out:
    drop any one and the rest can be kept. ``cheapest``: what to drop, least weight first found.
    ``setups``: shown for plans of up to so many set-ups.
    """

    setups: int
    unreached: tuple[Unreached, ...] = ()
    conflict: tuple[Demand, ...] = ()
    cheapest: tuple[Demand, ...] = ()


def why_not(
    problem: Problem,
    refusals: Sequence[Refusal] = (),
    *,
    weights: Mapping[str, int] = WEIGHTS,
    most_setups: int = solver.MOST_SETUPS,
    should_stop: solver.Stop | None = None,
) -> WhyNot | None:
    """Explain why the problem has no plan, or give None if it has one (or none is shown).

    ``weights`` are by kind, or by name where a single rule, device or wish has its own.
    Stopped on the way, what was found so far is given: true, but perhaps not the least.
    """
    asked = _Asked(problem, tuple(refusals), most_setups, should_stop)
    setups = min(most_setups, len(problem.tasks))
    lost = unreached(problem, refusals)
    if lost:
        return WhyNot(setups=setups, unreached=lost)
    core = asked.conflict()
    if core is None:
        return None
    core = _least(asked, core)
    known = solver.clauses(problem, refusals)
    alone = frozenset((c.kind, c.name, c.item) for c in known if (c.kind, c.name) in core)
    items = _least(asked, alone)
    dropped = solver.cheapest_drop(
        problem,
        refusals,
        lambda key: weights.get(key[1], weights.get(key[0], WEIGHTS[key[0]])),
        most_setups=most_setups,
        should_stop=should_stop,
    )
    return WhyNot(
        setups=setups,
        conflict=_demands(known, items),
        cheapest=_demands(known, frozenset(dropped or ())),
    )


def unreached(problem: Problem, refusals: Sequence[Refusal] = ()) -> tuple[Unreached, ...]:
    """Tasks that must be done and that no holding can do."""
    able = frozenset().union(*(k.tasks for k in problem.holdings))
    optional = frozenset(i for c in problem.choices for b in c.bundles for i in b)
    lost = {i for i in range(len(problem.tasks)) if i not in able | optional}
    for choice in problem.choices:
        if not any(bundle <= able for bundle in choice.bundles):
            lost |= {i for bundle in choice.bundles for i in bundle - able}
    return tuple(
        Unreached(task=problem.tasks[i].name, refusals=tuple(r for r in refusals if r.task == i))
        for i in sorted(lost)
    )


@dataclass(frozen=True, slots=True)
class _Asked:
    """What is asked of the solver again and again."""

    problem: Problem
    refusals: tuple[Refusal, ...]
    most_setups: int
    should_stop: solver.Stop | None

    @property
    def stopped(self) -> bool:
        return self.should_stop is not None and self.should_stop()

    def conflict(self, only: frozenset[solver.Key] | None = None) -> frozenset[solver.Key] | None:
        return solver.conflict(
            self.problem,
            self.refusals,
            only=only,
            most_setups=self.most_setups,
            should_stop=self.should_stop,
        )


def _least(asked: _Asked, core: frozenset[solver.Key]) -> frozenset[solver.Key]:
    """Leave out every demand that the conflict does not need."""
    for key in sorted(core):
        if key in core and not asked.stopped:
            less = asked.conflict(core - {key})
            core = core if less is None else less
    return core


def _demands(known: Sequence[Clause], keys: frozenset[solver.Key]) -> tuple[Demand, ...]:
    """Gather clauses by the rule, device or wish they come from."""
    found: dict[tuple[str, str], list[Clause]] = {}
    for c in known:
        if (c.kind, c.name) in keys or (c.kind, c.name, c.item) in keys:
            found.setdefault((c.kind, c.name), []).append(c)
    return tuple(
        Demand(
            kind=kind,
            name=name,
            items=tuple(dict.fromkeys(c.item for c in ones)),
            reasons=tuple(dict.fromkeys(c.reason for c in ones if c.reason)),
            remedies=tuple(dict.fromkeys(c.remedy for c in ones if c.remedy)),
        )
        for (kind, name), ones in sorted(found.items())
    )


_NAMED: Final = 3
"""So many of a kind are named; the others are counted."""


def no_plan(part: str, why: WhyNot) -> NoPlan:
    """Put the explanation in words: what, why, and what to try."""
    if why.unreached:
        names = ", ".join(one.task for one in why.unreached)
        refusals = [r for one in why.unreached for r in one.refusals]
        stopped = dict.fromkeys(f"{r.holding}: {r.reason}" for r in refusals)
        remedies = dict.fromkeys(r.remedy for r in refusals if r.remedy)
        return NoPlan(
            f"{part} has work that nothing here can hold or reach: {names}",
            why=_some(tuple(stopped), "; ") or "no device in the workshop is for this work",
            tries=tuple(remedies)[:_NAMED] or _MORE,
        )
    reasons = [_named(d) for d in why.conflict]
    steps = [" or ".join(d.remedies) or _let_go(d) for d in why.cheapest]
    steps = [step for step in dict.fromkeys(steps) if step]
    return NoPlan(
        f"{part} has no plan of up to {why.setups} set-ups",
        why="these cannot all be kept: " + "; ".join(reasons) if reasons else "",
        tries=(" and ".join(steps),) if steps else _MORE,
    )


_MORE: Final = (
    "add a device that can hold it to the workshop file",
    "leave more metal on the blank to hold by",
)


def _some(texts: Sequence[str], comma: str = ", ") -> str:
    """Name a few, and count the others."""
    more = len(texts) - _NAMED
    return comma.join(texts[:_NAMED]) + (f"{comma}and {more} more" if more > 0 else "")


def _named(demand: Demand) -> str:
    if demand.kind == "wish":
        return f"the wish {demand.name}"
    return f"{demand.name} ({_some(demand.items)})"


def _let_go(demand: Demand) -> str:
    """Say how to do without a demand; nobody is told to go against a rule of the trade."""
    match demand.kind:
        case "wish":
            return f"give up the wish {demand.name}"
        case "device":
            return f"find another way than the {demand.name}"
        case _:
            return ""
