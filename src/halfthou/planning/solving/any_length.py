r"""What a plan of any number of set-ups costs at the least: a smaller model, without slots.

The slots of ``slot_rows`` prove one number of set-ups at a time, so they never come to an end of
the longer plans. Here every plan, however long, is looked at in one model that forgets which
set-up comes after which, and so can only be too cheap.

Derivation. Take a plan of :math:`P` set-ups. Let :math:`z_{ik}` be one if task :math:`i` is cut
in holding :math:`k`; :math:`u_k` the set-ups in holding :math:`k`; :math:`t_i` the number of the
set-up of task :math:`i`. Then

- :math:`\sum_k u_k = P`, and :math:`u_k \le \sum_i z_{ik}`: every set-up has a task of its own;
- the orders, and what a holding needs and bans, hold between the :math:`t_i` as they do between
  the set-ups themselves: a set-up holds by what is done before or after *each of its tasks*;
- setting up costs :math:`\sum_k m_k u_k` (less the holding the work is still in, once);
- a tie whose tasks lie in two set-ups costs what its later holding asks; two set-ups in one
  holding make :math:`u_k \ge 2`;
- **tools**: each pair of machine and tool in use is fetched once. Also, a set-up with
  :math:`s` different tools fetches at least :math:`s - 1`, as one at most can be left in over a
  re-clamp. Over the :math:`u_k` set-ups of holding :math:`k`, whose tools together are
  :math:`w_k`, that is :math:`\sum (s - 1) \ge \max(0, w_k - u_k)`; and the first set-up on each
  machine fetches one more, because nothing of that machine's was left in it;
- **moves**: a plan on :math:`M` machines away from the bench changes between them at least
  :math:`M - 1` times, at the price :math:`c` of a machine change, or by way of the bench at twice
  the bench change :math:`b`. At most one for each bench set-up, :math:`v` say, goes that way.
  A bench set-up that lies between none costs :math:`b` once. Together at least
  :math:`c (M - 1 - v) + b v + b` if anything is done at the bench, :math:`c (M - 1)` if not.

Each line is true of every plan, so the least price of this model is at most the price of the
cheapest plan; asked for at least :math:`P` set-ups, at most that of the cheapest of :math:`P` or
more. Where it is no less than the price of a plan in hand, longer ones need not be looked at.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from halfthou.planning.solving.prepare import orders
from halfthou.planning.solving.problem import BENCH, Problem, Tie
from halfthou.planning.solving.slot_rows import Linear, Model, Variable


class AnyLength:
    """Plans of any number of set-ups, and what they cost at the least."""

    def __init__(self, model: Model, problem: Problem, cut: Mapping[int, frozenset[int]]) -> None:
        self.model, self.problem, self.cut = model, problem, cut
        self.terms: list[tuple[int, Linear]] = []
        count = len(problem.tasks)
        self.when = [model.new_int_var(0, count - 1, f"t{i}") for i in range(count)]
        self.inside = {
            (i, k): model.new_bool_var(f"z{i}.{k}") for k in cut for i in sorted(cut[k])
        }
        self.visits = {k: model.new_int_var(0, len(cut[k]), f"u{k}") for k in cut}
        self.used = {k: model.new_bool_var(f"h{k}") for k in cut}
        self.chosen = self._choices()
        self._before: dict[tuple[int, int], Variable] = {}
        self._places()
        self._orders()
        self._grips()
        self._tools()
        self._moves()
        for n, tie in enumerate(problem.ties):
            self._tie(n, tie)

    def set_ups(self) -> Linear:
        """Give the number of set-ups."""
        return sum(self.visits.values())

    def least(self) -> Linear:
        """Give the price that no such plan can beat."""
        return sum(cost * var for cost, var in self.terms if cost)

    def _bool(self, name: str) -> Variable:
        return self.model.new_bool_var(name)

    def _choices(self) -> list[Variable]:
        problem, model = self.problem, self.model
        chosen: list[Variable] = [model.new_constant(1) for _ in problem.tasks]
        for c, choice in enumerate(problem.choices):
            row = [self._bool(f"c{c}.{j}") for j in range(len(choice.bundles))]
            model.add_exactly_one(row)
            for i in sorted(frozenset().union(*choice.bundles)):
                chosen[i] = self._bool(f"d{i}")
                mine = [b for b, of in zip(row, choice.bundles, strict=True) if i in of]
                model.add(sum(mine) == chosen[i])
        return chosen

    def _places(self) -> None:
        """Each task in one holding, each set-up with a task, and what both cost."""
        problem, model = self.problem, self.model
        for i, task in enumerate(problem.tasks):
            mine = [self.inside[i, k] for k in self.cut if i in self.cut[k]]
            model.add(sum(mine) == self.chosen[i])
            self.terms.append((task.minutes, self.chosen[i]))
        start = problem.start
        for k, tasks in self.cut.items():
            mine = [self.inside[i, k] for i in sorted(tasks)]
            model.add(self.visits[k] <= sum(mine))
            model.add(self.visits[k] >= self.used[k])
            for var in mine:
                model.add_implication(var, self.used[k])
            self.terms.append((problem.holdings[k].minutes, self.visits[k]))
            if start is not None and start.holding == k:
                self.terms.append((-problem.holdings[k].minutes, self.used[k]))
                model.add(self.used[k] <= self.visits[k])

    def _orders(self) -> None:
        for n, order in enumerate(orders(self.problem)):
            a, b = order.before, order.after
            if_all = [self.chosen[a], self.chosen[b]]
            if order.cost is not None:
                broken = self._bool(f"b{n}")
                self.terms.append((order.cost, broken))
                if_all.append(broken.negated())
            row = self.when[a] + order.strict <= self.when[b]
            self.model.add(row).only_enforce_if(if_all)
        for t in self.problem.togethers:
            both = [self.chosen[t.a], self.chosen[t.b]]
            self.model.add(self.when[t.a] == self.when[t.b]).only_enforce_if(both)
            self._same_holding(t.a, t.b, both)

    def _same_holding(self, a: int, b: int, both: list[Variable]) -> None:
        off = [var.negated() for var in both]
        for k, tasks in self.cut.items():
            if a in tasks:
                there = [self.inside[b, k]] if b in tasks else []
                self.model.add_bool_or([*off, self.inside[a, k].negated(), *there])

    def _earlier(self, a: int, b: int) -> Variable:
        """One only if task a, if done at all, is done in an earlier set-up than b."""
        if (a, b) not in self._before:
            var = self._before[a, b] = self._bool(f"e{a}.{b}")
            row = self.when[a] + 1 <= self.when[b]
            self.model.add(row).only_enforce_if(var, self.chosen[a])
        return self._before[a, b]

    def _grips(self) -> None:
        for k, tasks in self.cut.items():
            holding = self.problem.holdings[k]
            for i in sorted(tasks):
                pairs = {(c.task, i) for c in holding.need} | {(i, c.task) for c in holding.ban}
                for a, b in sorted(pairs):
                    if b == i:
                        self.model.add_implication(self.inside[i, k], self._earlier(a, b))
                    else:
                        self._later(i, k, b)

    def _later(self, i: int, k: int, banned: int) -> None:
        """Put what a holding bans after its task, if it is done at all."""
        name = (i, -1 - banned)
        if name not in self._before:
            var = self._before[name] = self._bool(f"a{i}.{banned}")
            row = self.when[i] + 1 <= self.when[banned]
            self.model.add(row).only_enforce_if(var, self.chosen[banned])
        self.model.add_implication(self.inside[i, k], self._before[name])

    def _machine(self, k: int) -> str:
        return self.problem.holdings[k].machine

    def _tools(self) -> None:
        problem, model = self.problem, self.model
        away = [k for k in self.cut if self._machine(k) != BENCH]
        once: dict[tuple[str, str], Variable] = {}
        over: list[Variable] = []
        for k in away:
            here: dict[str, Variable] = {}
            for i in sorted(self.cut[k]):
                tools = problem.tasks[i].tools
                for tool in tools:
                    if tool not in here:
                        here[tool] = self._bool(f"w{k}.{tool}")
                        pair = (self._machine(k), tool)
                        once.setdefault(pair, self._bool(f"y{pair}"))
                        model.add_implication(here[tool], once[pair])
                model.add_bool_or([self.inside[i, k].negated(), *(here[t] for t in tools)])
            extra = model.new_int_var(0, len(here), f"x{k}")
            model.add(extra >= sum(here.values()) - self.visits[k])
            over.append(extra)
        changes = model.new_int_var(0, len(problem.tasks) + len(away), "changes")
        start = problem.start
        left_in = 0 if start is None else 1
        free = None if start is None else (start.machine, start.tool)
        model.add(changes >= sum(var for pair, var in once.items() if pair != free))
        machines = sorted({self._machine(k) for k in away})
        model.add(changes >= sum(over) + sum(self._at(name) for name in machines) - left_in)
        self.terms.append((problem.prices.tool_change, changes))

    def _at(self, machine: str) -> Variable:
        """One if anything is done on this machine."""
        there = self._bool(f"m{machine}")
        mine = [self.used[k] for k in self.cut if self._machine(k) == machine]
        for used in mine:
            self.model.add_implication(used, there)
        return there

    def _moves(self) -> None:
        problem, model = self.problem, self.model
        start = problem.start
        machines = {self._machine(k) for k in self.cut}
        if start is not None:
            machines.add(start.machine)
        there = {name: self._at(name) for name in sorted(machines)}
        if start is not None:
            model.add(there[start.machine] == 1)
        away = [there[name] for name in there if name != BENCH]
        changes = model.new_int_var(0, len(away), "machine changes")
        model.add(changes >= sum(away) - 1)
        by_bench = model.new_int_var(0, len(away), "by way of the bench")
        at_bench = [self.visits[k] for k in self.cut if self._machine(k) == BENCH]
        model.add(by_bench <= sum(at_bench))
        model.add(by_bench <= changes)
        prices = problem.prices
        self.terms.append((prices.machine_change, changes - by_bench))
        self.terms.append((prices.bench_change, by_bench))
        if BENCH in there and away:
            both = self._bool("bench and machine")
            for one in away:
                model.add(both >= there[BENCH] + one - 1)
            self.terms.append((prices.bench_change, both))

    def _tie(self, n: int, tie: Tie) -> None:
        model = self.model
        apart, a_later = self._bool(f"p{n}"), self._bool(f"l{n}")
        both = [self.chosen[tie.a], self.chosen[tie.b]]
        one_set_up = [*both, apart.negated()]
        model.add(self.when[tie.a] == self.when[tie.b]).only_enforce_if(one_set_up)
        self._same_holding(tie.a, tie.b, one_set_up)
        for k, tasks in self.cut.items():
            if {tie.a, tie.b} <= tasks:
                twice = [apart, self.inside[tie.a, k], self.inside[tie.b, k]]
                model.add(self.visits[k] > 1).only_enforce_if(twice)
        for later, other, so in ((tie.a, tie.b, a_later), (tie.b, tie.a, a_later.negated())):
            model.add(self.when[other] + 1 <= self.when[later]).only_enforce_if(apart, so, *both)
            self._tie_price(n, tie, later, [apart, so])

    def _tie_price(self, n: int, tie: Tie, later: int, when: list[Variable]) -> None:
        """Pay in steps, each unless the later holding is a cheaper one or a datum is shared."""
        model = self.model
        other = tie.b if later == tie.a else tie.a
        cutters = [k for k, tasks in self.cut.items() if later in tasks]
        steps = {tie.cost(k) for k in cutters} | ({tie.shared_cost} if tie.shared else set())
        off = [var.negated() for var in when] + [self.chosen[i].negated() for i in (later, other)]
        relief = self._one_datum(n, tie, later, other)
        for low, step in pairwise([0, *sorted(steps)]):
            paid = self._bool(f"p{n}.{later}.{step}")
            cheap = [self.inside[later, k] for k in cutters if tie.cost(k) < step]
            spared = [relief] if relief is not None and step > tie.shared_cost else []
            model.add_bool_or([paid, *off, *cheap, *spared])
            self.terms.append((step - low, paid))

    def _one_datum(self, n: int, tie: Tie, later: int, other: int) -> Variable | None:
        """One only if both are cut in holdings that share a datum."""
        if not tie.shared:
            return None
        relief = self._bool(f"d{n}.{later}")
        for i in (later, other):
            there = [self.inside[i, k] for k in sorted(tie.shared) if (i, k) in self.inside]
            self.model.add(relief <= sum(there))
        return relief
