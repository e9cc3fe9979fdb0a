"""The price of a row of slots, as a linear sum over the solver's variables."""

from __future__ import annotations

from itertools import pairwise

from halfthou.planning.solving.prepare import orders
from halfthou.planning.solving.problem import Tie
from halfthou.planning.solving.slot_rows import Linear, Rows, Variable


class Prices:
    """The price of the rows, as a linear sum over the model's variables."""

    def __init__(self, rows: Rows) -> None:
        self.rows, self.model, self.problem = rows, rows.model, rows.problem
        self.terms: list[tuple[int, Linear]] = []
        self.broken: dict[int, Variable] = {}
        self._work()
        self._moves()
        self._soft_orders()
        for n, tie in enumerate(self.problem.ties):
            self._tie(n, tie)

    def total(self) -> Linear:
        """Give the whole price, once the tools are in."""
        return sum(cost * var for cost, var in self.terms if cost)

    def bool(self, name: str) -> Variable:
        """Make a yes-or-no variable."""
        return self.model.new_bool_var(name)

    def machine(self, name: str, p: int) -> Linear:
        """One if slot p is on this machine."""
        holdings = self.problem.holdings
        return self.rows.held([k for k in self.rows.cut if holdings[k].machine == name], p)

    def _work(self) -> None:
        for i, task in enumerate(self.problem.tasks):
            self.terms.append((task.minutes, self.rows.chosen[i]))
        start = self.problem.start
        for (k, p), var in self.rows.s.items():
            if not (p == 0 and start is not None and start.holding == k):
                self.terms.append((self.problem.holdings[k].minutes, var))

    def _moves(self) -> None:
        machines = sorted({self.problem.holdings[k].machine for k in self.rows.cut})
        start = self.problem.start
        for p in self.rows.slots:
            if p == 0:
                if start is not None:
                    for name in machines:
                        cost = self.problem.prices.move(start.machine, name)
                        self.terms.append((cost, self.machine(name, 0)))
                continue
            for cost in {self.problem.prices.move(a, b) for a in machines for b in machines} - {0}:
                moved = self.bool(f"m{p}.{cost}")
                self.terms.append((cost, moved))
                for name in machines:
                    far = [a for a in machines if self.problem.prices.move(a, name) == cost]
                    before = sum(self.machine(a, p - 1) for a in far)
                    self.model.add(moved >= self.machine(name, p) + before - 1)

    def _soft_orders(self) -> None:
        rows = self.rows
        for n, order in enumerate(orders(self.problem)):
            if order.cost is None:
                continue
            a, b = order.before, order.after
            self.broken[n] = broken = self.bool(f"b{n}")
            self.terms.append((order.cost, broken))
            for row in rows.ranked(a, b, broken):
                self.model.add(row)
            for p in rows.slots:
                self.model.add(
                    rows.done(b, p) <= rows.done(a, p - order.strict) + 1 - rows.chosen[a] + broken
                )

    def _tie(self, n: int, tie: Tie) -> None:
        """Price a tie in steps: each step is paid unless the holding is among the cheaper ones.

        Every term is a cost, never a saving: the solver climbs to a bound much sooner so.
        """
        rows, model = self.rows, self.model
        apart = [self.bool(f"t{n}.{p}") for p in rows.slots]
        cutters = [k for k, tasks in rows.cut.items() if {tie.a, tie.b} & tasks]
        steps = sorted(
            {tie.cost(k) for k in cutters} | ({tie.shared_cost} if tie.shared else set())
        )
        both = 2 - rows.chosen[tie.a] - rows.chosen[tie.b]
        relief = self._one_datum(n, tie)
        for p in rows.slots:
            for a, b in ((tie.a, tie.b), (tie.b, tie.a)):
                model.add(apart[p] >= rows.at(a, p) + rows.done(b, p - 1) - 1)
                model.add(sum(apart) >= rows.at(a, p) - rows.at(b, p) - both)
            for low, step in pairwise([0, *steps]):
                cheap = [k for k in cutters if tie.cost(k) < step]
                spared = relief is not None and step > tie.shared_cost
                paid: Linear = apart[p]
                if cheap or spared:
                    paid = self.bool(f"t{n}.{p}.{step}")
                    less = rows.held(cheap, p) if cheap else 0
                    model.add(paid >= apart[p] - less - (relief if spared else 0))
                self.terms.append((step - low, paid))

    def _one_datum(self, n: int, tie: Tie) -> Variable | None:
        """One if both tasks are cut in holdings that share a datum."""
        rows, model = self.rows, self.model
        shared = [k for k in rows.cut if k in tie.shared]
        if not shared:
            return None
        relief = self.bool(f"d{n}")
        for task in (tie.a, tie.b):
            there = [self.bool(f"d{n}.{task}.{p}") for p in rows.slots]
            for p, one in enumerate(there):
                model.add(one <= rows.at(task, p))
                model.add(one <= rows.held(shared, p))
            model.add(relief <= sum(there))
        return relief
