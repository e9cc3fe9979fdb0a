"""Slots in the solver's terms: which tasks and which holding each has, and the hard rules.

The model is handed in by ``solver``, the one file that knows the solver library; its variables
and sums are the library's own, so they go untyped here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from halfthou.planning.solving.prepare import Order, orders
from halfthou.planning.solving.problem import Condition, InOrder, Problem

Model: TypeAlias = Any
Variable: TypeAlias = Any
Linear: TypeAlias = Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause:
    """One thing asked for: by a rule, a device or a wish; of which tasks; why; what would help."""

    kind: str
    name: str
    item: str
    reason: str = ""
    remedy: str = ""


Switch: TypeAlias = Callable[[Clause], "list[Variable] | None"]
"""For a clause: the variables that switch it on, or None if it is dropped."""


def always(_clause: Clause) -> list[Variable]:
    """Every clause holds."""
    return []


class Rows:
    """Which tasks and which holding each slot has, and the hard rules between them."""

    def __init__(
        self,
        model: Model,
        problem: Problem,
        cut: Mapping[int, frozenset[int]],
        setups: int,
        *,
        exact: bool,
        switch: Switch = always,
    ) -> None:
        self.problem, self.cut, self.setups, self.switch = problem, cut, setups, switch
        self.model = m = model
        self.slots = range(setups)
        able = sorted(frozenset().union(*cut.values()))
        self.x = {(i, p): m.new_bool_var(f"x{i}.{p}") for i in able for p in self.slots}
        self.s = {(k, p): m.new_bool_var(f"s{k}.{p}") for k in cut for p in self.slots}
        self.upto = {(i, p): m.new_bool_var(f"l{i}.{p}") for i in able for p in self.slots}
        self.bundle = [
            [m.new_bool_var(f"c{c}.{j}") for j in range(len(one.bundles))]
            for c, one in enumerate(problem.choices)
        ]
        for row in self.bundle:
            m.add_exactly_one(row)
        self.chosen = [self._chosen(i) for i in range(len(problem.tasks))]
        looped = _looped(problem)
        self.rank = {i: m.new_int_var(0, len(looped), f"r{i}") for i in looped}
        self._fill(exact=exact)
        self._orders()
        self._grips()

    def _chosen(self, i: int) -> Linear:
        """One if the task is done; a variable only where a choice decides it."""
        c = self.problem.choice_of(i)
        if c is None:
            return 1
        var = self.model.new_bool_var(f"d{i}")
        bundles = self.problem.choices[c].bundles
        self.model.add(
            sum(b for b, tasks in zip(self.bundle[c], bundles, strict=True) if i in tasks) == var
        )
        return var

    def done(self, i: int, p: int) -> Linear:
        """One if the task is done by the end of slot p."""
        return self.upto.get((i, p), 0)

    def at(self, i: int, p: int) -> Linear:
        """One if the task is done in slot p."""
        return self.x.get((i, p), 0)

    def held(self, holdings: Sequence[int], p: int) -> Linear:
        """One if slot p has one of these holdings."""
        return sum(self.s[k, p] for k in holdings if k in self.cut)

    def _fill(self, *, exact: bool) -> None:
        m = self.model
        for i in range(len(self.problem.tasks)):
            m.add(sum(self.at(i, p) for p in self.slots) == self.chosen[i])
        for (i, p), var in self.x.items():
            m.add(self.upto[i, p] == self.done(i, p - 1) + var)
            m.add(var <= self.held([k for k, t in self.cut.items() if i in t], p))
        for p in self.slots:
            row = [self.s[k, p] for k in self.cut]
            if exact:
                m.add_exactly_one(row)
                m.add_at_least_one([self.x[i, p] for i, q in self.x if q == p])
            else:
                m.add_at_most_one(row)
        if not any(order.strict for order in orders(self.problem)):
            for k in self.cut:
                for p in range(1, self.setups if exact else 0):
                    m.add_at_most_one(self.s[k, p - 1], self.s[k, p])

    def add(self, rows: Sequence[object], clause: Clause) -> None:
        """Add constraints that hold unless the clause they come from is dropped."""
        literals = self.switch(clause)
        if literals is None:
            return
        for row in rows:
            constraint = self.model.add(row)
            if literals:
                constraint.only_enforce_if(literals)

    def _orders(self) -> None:
        tasks = self.problem.tasks
        for kind, name, reason, order in _hard_orders(self.problem):
            a, b = order.before, order.after
            rows: list[object] = [
                self.done(b, p) <= self.done(a, p - order.strict) + 1 - self.chosen[a]
                for p in self.slots
            ]
            rows += self.ranked(a, b, 0)
            item = f"{tasks[a].name} before {tasks[b].name}"
            self.add(rows, Clause(kind=kind, name=name, item=item, reason=reason))
        for t in self.problem.togethers:
            off = 2 - self.chosen[t.a] - self.chosen[t.b]
            rows = [self.at(t.a, p) <= self.at(t.b, p) + off for p in self.slots]
            rows += [self.at(t.b, p) <= self.at(t.a, p) + off for p in self.slots]
            item = f"{tasks[t.a].name} together with {tasks[t.b].name}"
            self.add(rows, Clause(kind="rule", name=t.rule, item=item, reason=t.reason))

    def ranked(self, a: int, b: int, broken: Linear) -> list[object]:
        """Rank a before b unless one is not done or the order is broken; only on circles."""
        if a not in self.rank or b not in self.rank:
            return []
        off = 2 - self.chosen[a] - self.chosen[b] + broken
        return [self.rank[b] >= self.rank[a] + 1 - (len(self.rank) + 1) * off]

    def _grips(self) -> None:
        """Need and ban; where no clause can be dropped, holdings that share one go together."""
        apart = self.switch is not always
        holdings = self.problem.holdings
        needs: dict[tuple[int, Condition | None, str], list[int]] = {}
        bans: dict[tuple[int, Condition | None, str], list[int]] = {}
        for k in self.cut:
            for group, conditions in ((needs, holdings[k].need), (bans, holdings[k].ban)):
                for c in conditions:
                    mark = (c.task, c if apart else None, holdings[k].name if apart else "")
                    group.setdefault(mark, []).append(k)
        for (i, why, name), ks in needs.items():
            late = 1 - self.chosen[i]
            rows = [self.held(ks, p) <= self.done(i, p - 1) + late for p in self.slots]
            self.add(rows, _grip_clause(why, f"{self.problem.tasks[i].name} before {name}"))
        for (i, why, name), ks in bans.items():
            rows = [self.held(ks, p) + self.done(i, p) <= 1 for p in self.slots]
            self.add(rows, _grip_clause(why, f"{self.problem.tasks[i].name} after {name}"))


def _grip_clause(c: Condition | None, item: str) -> Clause:
    if c is None:
        return Clause(kind="rule", name="", item=item)
    return Clause(kind="rule", name=c.rule, item=item, reason=c.reason)


def _hard_orders(problem: Problem) -> list[tuple[str, str, str, Order]]:
    """Hard orders with the kind, name and reason of the clause each comes from."""
    found = [
        ("rule", r.rule, r.reason, Order(before=r.before, after=r.after, strict=r.strict))
        for r in problem.precedences
        if r.hard
    ]
    found += [
        ("wish", w.name, "", Order(before=w.before, after=w.after, strict=w.strict))
        for w in problem.wishes
        if isinstance(w, InOrder)
    ]
    return found


def _looped(problem: Problem) -> list[int]:
    """Tasks on or between circles of orders; usually none."""
    pairs = {(o.before, o.after) for o in orders(problem)}
    left = set(range(len(problem.tasks)))
    for side in (0, 1):
        while True:
            open_ = {pair[side] for pair in pairs if set(pair) <= left}
            if left <= open_:
                break
            left &= open_
    return sorted(left)
