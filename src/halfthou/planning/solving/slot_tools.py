"""Tools of each slot in the solver's terms: visits, their order, a tool carried over."""

from __future__ import annotations

from halfthou.planning.solving.prepare import orders
from halfthou.planning.solving.problem import BENCH
from halfthou.planning.solving.slot_prices import Prices
from halfthou.planning.solving.slot_rows import Linear, Variable

ORDERED = 2
VISITS = ORDERED + 1
"""Visits of one tool in one set-up: two kept in order, and a third that stands for all more.

The third makes the model a bound where a plan wants more than two; the exact order is found
afterwards, and only a plan that costs what the model says is called proved.
"""


class Tools:
    """Visits of tools in each slot, their order, and a tool carried over a re-clamp."""

    def __init__(self, prices: Prices) -> None:
        self.prices, self.rows, self.model = prices, prices.rows, prices.model
        self.problem = prices.problem
        holdings = self.problem.holdings
        cut = self.rows.cut
        off = [t for k, t in cut.items() if holdings[k].machine != BENCH]
        at_bench = [t for k, t in cut.items() if holdings[k].machine == BENCH]
        self.tasks = sorted(frozenset().union(*off))
        self.mixed = frozenset().union(*at_bench)
        self.inner = [
            (n, o)
            for n, o in enumerate(orders(self.problem))
            if not o.strict and any({o.before, o.after} <= t for t in off)
        ]
        self.visits = [(t, v) for t, count in self._counts().items() for v in range(count)]
        self.options = {
            i: [tv for tv in self.visits if tv[0] in self.problem.tasks[i].tools]
            for i in self.tasks
        }
        top = len(self.visits)
        names = [(t, v, p) for t, v in self.visits for p in self.rows.slots]
        self.used = {n: prices.bool(f"w{n}") for n in names}
        self.place = {n: self.model.new_int_var(0, top, f"o{n}") for n in names if n[1] < ORDERED}
        self.end = [self.model.new_int_var(0, top + 1, f"e{p}") for p in self.rows.slots]
        self.does: dict[tuple[int, str, int, int], Variable] = {}
        change = self.problem.prices.tool_change
        for p in self.rows.slots:
            self._assign(p)
            self._keep_order(p)
        self.fetched: dict[str, list[Variable]] = {t: [] for t, _ in self.visits}
        for p in self.rows.slots:
            self._fetch(p, self._carry(p), change)
        self._fetch_once()

    def _fetch(self, p: int, kept: dict[str, Variable], change: int) -> None:
        """Charge each visit, but not a first one with the tool still in."""
        for t, v in self.visits:
            fetched = self.used[t, v, p]
            if v == 0:
                if t in kept:
                    fetched = self.prices.bool(f"g{t}.{p}")
                    self.model.add_bool_or(self.used[t, v, p].negated(), kept[t], fetched)
                self.fetched[t].append(fetched)
            self.prices.terms.append((change, fetched))

    def _fetch_once(self) -> None:
        """Say what follows anyway: a tool that must be used is fetched at least once."""
        start = self.problem.start
        for i in self.tasks:
            tools = self.problem.tasks[i].tools
            must = i not in self.mixed and self.problem.choice_of(i) is None
            if must and not (start and start.tool in tools):
                self.model.add_bool_or([var for t in tools for var in self.fetched[t]])

    def _counts(self) -> dict[str, int]:
        """Visits each tool may want: one, unless orders can part its own tasks."""
        tasks = self.problem.tasks
        users: dict[str, list[int]] = {}
        for i in self.tasks:
            for tool in tasks[i].tools:
                users.setdefault(tool, []).append(i)
        parted = [
            (o.before, o.after)
            for _, o in self.inner
            if len(tasks[o.before].tools) > 1 or tasks[o.before].tools != tasks[o.after].tools
        ]
        counts = {}
        for tool, ones in sorted(users.items()):
            again = {a for a, _ in parted} & {*ones} and {b for _, b in parted} & {*ones}
            counts[tool] = min(VISITS, len(ones)) if again else 1
        return counts

    def _assign(self, p: int) -> None:
        bench = self.prices.machine(BENCH, p)
        for i in self.tasks:
            here = self.rows.x[i, p]
            mine = self.options[i]
            if len(mine) == 1 and i not in self.mixed:
                self.does[i, *mine[0], p] = here
            else:
                for t, v in mine:
                    self.does[i, t, v, p] = self.prices.bool(f"y{i}.{t}.{v}.{p}")
                total = sum(self.does[i, t, v, p] for t, v in mine)
                if i in self.mixed:
                    self.model.add(total >= here - bench)
                    self.model.add(total <= here)
                else:
                    self.model.add(total == here)
            for t, v in mine:
                self.model.add_implication(self.does[i, t, v, p], self.used[t, v, p])
            if len({t for t, _ in mine}) == 1 and i not in self.mixed:
                self.model.add_implication(here, self.used[mine[0][0], 0, p])

    def _keep_order(self, p: int) -> None:
        for t, v in self.visits:
            if v:
                self.model.add_implication(self.used[t, v, p], self.used[t, v - 1, p])
            if v == 1:
                self.model.add(self.place[t, 0, p] + 1 <= self.place[t, 1, p])
        for n, order in self.inner:
            unless = [self.prices.broken[n].negated()] if n in self.prices.broken else []
            for first in self.options[order.before]:
                for then in self.options[order.after]:
                    if first != then and first[1] < ORDERED and then[1] < ORDERED:
                        self.model.add(
                            self.place[*first, p] + 1 <= self.place[*then, p]
                        ).only_enforce_if(
                            self.does[order.before, *first, p],
                            self.does[order.after, *then, p],
                            *unless,
                        )

    def _ends(self, p: int, *, last: bool) -> dict[str, Linear]:
        """For each tool, one if its visit is the first (or last) of slot p."""
        found: dict[str, Linear] = {}
        literals = []
        for t, v in self.visits:
            it = self.prices.bool(f"{'z' if last else 'f'}{t}.{v}.{p}")
            literals.append(it)
            if last or v == 0:
                found[t] = found.get(t, 0) + it
            used = self.used[t, v, p]
            self.model.add_implication(it, used)
            if v < ORDERED:
                place = self.place[t, v, p]
                edge = self.end[p] if last else 0
                self.model.add(place == edge).only_enforce_if(it)
                inside = place <= self.end[p] - 1 if last else place >= 1
                self.model.add(inside).only_enforce_if(used, it.negated())
        self.model.add_at_most_one(literals)
        return found

    def _carry(self, p: int) -> dict[str, Variable]:
        """For each tool, one only if it is still in the machine when slot p begins with it."""
        start = self.problem.start
        kept: dict[str, Variable] = {}
        if p == 0:
            if start is not None and start.tool in self.fetched and start.machine != BENCH:
                kept[start.tool] = self.prices.bool(f"k{start.tool}.0")
                there = self.prices.machine(start.machine, 0)
                self.model.add(kept[start.tool] <= there)
        else:
            last = self._ends(p - 1, last=True)
            machines = sorted({self.problem.holdings[k].machine for k in self.rows.cut})
            for t in self.fetched:
                kept[t] = self.prices.bool(f"k{t}.{p}")
                self.model.add(kept[t] <= last[t])
            for name in machines:
                stays = 1 - self.prices.machine(name, p - 1) + self.prices.machine(name, p)
                self.model.add(sum(kept.values()) <= stays)
        first = self._ends(p, last=False) if kept else {}
        for t, it in kept.items():
            self.model.add(it <= first[t])
        return kept
