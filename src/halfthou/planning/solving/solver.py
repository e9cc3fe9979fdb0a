"""The exact solver: a plan of P set-ups is a row of P slots, each with a holding and tasks.

The only file that imports the solver library. P starts at the least that can work and widens;
each P is closed by a proof or by a bound, up to the most set-ups that a cheaper plan can have
(``any_length``): past those nothing is left to look at. Same problem, same plan: seed, workers
and the solver's own measure of effort are fixed, and no clock is read.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from math import ceil
from typing import TypeAlias

from ortools.sat.python import cp_model

from halfthou.planning.solving.any_length import AnyLength
from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.prepare import least_price, undominated
from halfthou.planning.solving.problem import Answer, Problem
from halfthou.planning.solving.slot_demands import Refusal, limit, willing
from halfthou.planning.solving.slot_prices import Prices
from halfthou.planning.solving.slot_rows import Clause, Rows
from halfthou.planning.solving.slot_tools import Tools
from halfthou.planning.solving.tool_order import in_best_order

Key: TypeAlias = tuple[str, ...]
Progress: TypeAlias = Callable[[int, int], None]
Stop: TypeAlias = Callable[[], bool]

MOST_SETUPS = 12
WIDEN = 2
"""Set-ups more than the best plan has that are tried even where each takes much effort."""

FURTHEST = 4
"""Set-ups more than the best plan has beyond which the longer plans are bounded, not searched."""

NO_PLAN = 1 << 40
"""Bound of a number of set-ups with which there is no plan."""

EFFORT = 14.0
"""Default effort for one problem, in the solver's deterministic seconds."""


def solve(
    problem: Problem,
    *,
    most_setups: int = MOST_SETUPS,
    effort: float = EFFORT,
    on_progress: Progress | None = None,
    should_stop: Stop | None = None,
) -> Answer | None:
    """Find the cheapest plan, or None if there is none of up to ``most_setups`` set-ups."""
    search = _Search(problem, most_setups, effort, on_progress, should_stop)
    return search.run()


def least_of_any_length(problem: Problem, setups: int) -> int:
    """No plan of this many set-ups or more costs less; ``NO_PLAN`` if there is none."""
    return _Search(problem, len(problem.tasks), EFFORT, None, None).least_of(setups)


class _Search:
    """One search: widening P, what is left of the effort, the best plan so far."""

    def __init__(
        self,
        problem: Problem,
        most_setups: int,
        effort: float,
        on_progress: Progress | None,
        should_stop: Stop | None,
    ) -> None:
        self.problem = problem
        self.cut = undominated(problem)
        self.most = min(most_setups, len(problem.tasks))
        self.left, self.enough = effort, 0.75 * effort
        self.on_progress, self.should_stop = on_progress, should_stop
        self.best: Answer | None = None
        self.floor = 0
        self.rest: dict[tuple[int, int], int] = {}
        self.stopped: bool = False

    def run(self) -> Answer | None:
        if not self.problem.tasks:
            return Answer(setups=(), chosen=(), price=0, bound=0, proved=True, proved_for_setups=0)
        fewest = self._fewest()
        if fewest is None:
            return None
        bounds: dict[int, int] = {}
        for setups in range(fewest, self.most + 1):
            if self._over(setups):
                break
            self.floor = min([*bounds.values(), least_price(self.problem, self.cut, setups)])
            bounds[setups] = self._exactly(setups)
            if self.stopped or self.left <= 0:
                break
        return self._summary(bounds, fewest - 1)

    def _over(self, setups: int) -> bool:
        """Whether no plan so long or longer is cheaper, or they are too long to look at."""
        return self.best is not None and (
            self._rest(setups) >= self.best.price or self._far_enough(setups)
        )

    def _far_enough(self, setups: int) -> bool:
        """Whether so long a plan is left to the bound of the longer ones."""
        more = setups - len(self.best.setups if self.best else ())
        return more > FURTHEST or (more > WIDEN and self.left < self.enough)

    def _summary(self, bounds: dict[int, int], closed: int) -> Answer | None:
        """Give the best plan with what the bounds of each P prove about it."""
        best = self.best
        if best is None:
            return None
        while bounds.get(closed + 1, -1) >= best.price:
            closed += 1
        bound = min(best.price, self._rest(max(bounds) + 1), *bounds.values())
        return Answer(
            setups=best.setups,
            chosen=best.chosen,
            price=best.price,
            bound=bound,
            proved=bound == best.price,
            proved_for_setups=max(closed, 0),
        )

    def _rest(self, setups: int) -> int:
        """No plan of so many set-ups or more costs less; the best price, if that is less."""
        if self.best is None:
            return 0
        if setups > len(self.problem.tasks):
            return self.best.price
        mark = setups, self.best.price
        if mark not in self.rest:
            self.rest[mark] = self.least_of(setups, below=self.best.price)
        return self.rest[mark]

    def least_of(self, setups: int, *, below: int = NO_PLAN) -> int:
        """No plan of so many set-ups or more costs less; ``below`` if it is that or more."""
        model = cp_model.CpModel()
        plans = AnyLength(model, self.problem, self.cut)
        model.add(plans.set_ups() >= setups)
        model.add(plans.least() <= below - 1)
        model.minimize(plans.least())
        solver, status = self._run(model, share=0.1, core=False)
        if status == cp_model.INFEASIBLE:
            return below
        least = least_price(self.problem, self.cut, setups)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            least = max(least, ceil(solver.best_objective_bound - 1e-6))
        return least

    def _fewest(self) -> int | None:
        """No plan has fewer set-ups than this; None if there is none, or the search is stopped."""
        model = cp_model.CpModel()
        rows = Rows(model, self.problem, self.cut, self.most, exact=False)
        model.minimize(sum(rows.s.values()))
        solver, status = self._run(model, share=0.2)
        if status == cp_model.INFEASIBLE or self.stopped:
            return None
        return max(1, ceil(solver.best_objective_bound - 1e-6))

    def _exactly(self, setups: int) -> int:
        """Look for a better plan of exactly this many set-ups; give the bound reached."""
        model = cp_model.CpModel()
        rows = Rows(model, self.problem, self.cut, setups, exact=True)
        prices = Prices(rows)
        Tools(prices)
        total = prices.total()
        if self.best is not None:
            model.add(total <= self.best.price - 1)
        model.minimize(total)
        solver, status = self._run(model, share=0.5, prices=True)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            self._keep(rows, solver)
        if status == cp_model.INFEASIBLE:
            return NO_PLAN if self.best is None else self.best.price
        least = least_price(self.problem, self.cut, setups)
        return max(least, ceil(solver.best_objective_bound - 1e-6))

    def _keep(self, rows: Rows, solver: cp_model.CpSolver) -> None:
        """Take the plan found, with its tools in the best order, if it is better."""
        held = {p: k for (k, p), var in rows.s.items() if solver.value(var)}
        done = {
            p: frozenset(i for (i, q), x in rows.x.items() if q == p and solver.value(x))
            for p in held
        }
        setups = in_best_order(self.problem, tuple((held[p], done[p]) for p in rows.slots))
        if setups is None:
            return
        chosen = tuple(
            next(j for j, var in enumerate(row) if solver.value(var)) for row in rows.bundle
        )
        answer = Answer(
            setups=setups, chosen=chosen, price=0, bound=0, proved=False, proved_for_setups=0
        )
        price = judge(self.problem, answer).price.total
        if self.best is None or price < self.best.price:
            self.best = Answer(
                setups=setups,
                chosen=chosen,
                price=price,
                bound=0,
                proved=False,
                proved_for_setups=0,
            )

    def _run(
        self, model: cp_model.CpModel, *, share: float, prices: bool = False, core: bool = True
    ) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
        """Solve with a fixed seed and a share of the effort that is left."""
        solver = cp_model.CpSolver()
        _fix(solver, effort=max(self.left * share, 0.5), core=core)
        if prices and self.best:
            enough = self.best.price
            solver.best_bound_callback = lambda bound: (
                solver.stop_search() if bound >= enough else None
            )
        told = _Told(self) if prices else None
        status, stopped = _watched(solver, model, self.should_stop, told)
        self.stopped = self.stopped or stopped
        self.left -= solver.response_proto.deterministic_time
        return solver, status


def _fix(solver: cp_model.CpSolver, *, effort: float, core: bool = True) -> None:
    """Fix the settings under which the same model gives the same answer on any machine."""
    p = solver.parameters
    p.random_seed = 1
    p.catch_sigint_signal = False  # Ctrl-C is for the program to catch: the handler would abort
    p.num_workers = 1
    if core:
        p.subsolvers.append("core")
    p.max_deterministic_time = effort


class _Told(cp_model.CpSolverSolutionCallback):
    """Reports each better plan."""

    def __init__(self, search: _Search) -> None:
        super().__init__()
        self.search = search

    def on_solution_callback(self) -> None:
        """Report a better plan."""
        if self.search.on_progress:
            best = round(self.objective_value)
            bound = min(best, self.search.floor, round(self.best_objective_bound))
            self.search.on_progress(best, bound)


def _watched(
    solver: cp_model.CpSolver,
    model: cp_model.CpModel,
    should_stop: Stop | None,
    told: _Told | None = None,
) -> tuple[cp_model.CpSolverStatus, bool]:
    """Run the solver, asking from time to time whether to stop; give also whether it was."""
    if should_stop is None:
        return solver.solve(model, told), False
    over, stopped = threading.Event(), threading.Event()

    def ask() -> None:
        while not over.wait(0.1):
            if should_stop():
                stopped.set()
                solver.stop_search()
                return

    asker = threading.Thread(target=ask, daemon=True)
    asker.start()
    try:
        return solver.solve(model, told), stopped.is_set()
    finally:
        over.set()
        asker.join()


class _Drops:
    """Switches for clauses: all of them, or only those named; each gets one variable."""

    def __init__(self, model: cp_model.CpModel, only: frozenset[Key] | None) -> None:
        self.model, self.only = model, only
        self.switches: dict[Key, cp_model.IntVar] = {}

    def __call__(self, clause: Clause) -> list[cp_model.IntVar] | None:
        """Give the switch of a clause: of its name as a whole, or of the clause alone."""
        whole, alone = (clause.kind, clause.name), (clause.kind, clause.name, clause.item)
        key: Key = whole
        if self.only is not None and whole not in self.only:
            if alone not in self.only:
                return None
            key = alone
        if key not in self.switches:
            self.switches[key] = self.model.new_bool_var(" ".join(key))
        return [self.switches[key]]


def clauses(problem: Problem, refusals: Sequence[Refusal] = ()) -> tuple[Clause, ...]:
    """Everything asked of a plan that could be dropped, one by one."""
    found: list[Clause] = []

    def note(clause: Clause) -> list[cp_model.IntVar] | None:
        found.append(clause)
        return None

    cut = willing(problem, refusals)
    limit(Rows(cp_model.CpModel(), problem, cut, 1, exact=False, switch=note), refusals)
    return tuple(found)


def _droppable(
    problem: Problem,
    refusals: Sequence[Refusal],
    only: frozenset[Key] | None,
    most_setups: int,
) -> tuple[cp_model.CpModel, _Drops]:
    model = cp_model.CpModel()
    drops = _Drops(model, only)
    setups = min(most_setups, len(problem.tasks))
    cut = willing(problem, refusals)
    limit(Rows(model, problem, cut, setups, exact=False, switch=drops), refusals)
    return model, drops


def conflict(
    problem: Problem,
    refusals: Sequence[Refusal] = (),
    *,
    only: frozenset[Key] | None = None,
    most_setups: int = MOST_SETUPS,
    should_stop: Stop | None = None,
) -> frozenset[Key] | None:
    """Find clauses that no plan keeps together, or None if a plan keeps all (or none is shown).

    A key is (kind, name) for all clauses of that name, (kind, name, item) for one alone.
    """
    model, drops = _droppable(problem, refusals, only, most_setups)
    model.add_assumptions(list(drops.switches.values()))
    solver = cp_model.CpSolver()
    solver.parameters.random_seed = 1
    solver.parameters.catch_sigint_signal = False
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = EFFORT / 2
    status, _ = _watched(solver, model, should_stop)
    if status != cp_model.INFEASIBLE:
        return None
    core = set(solver.sufficient_assumptions_for_infeasibility())
    return frozenset(key for key, var in drops.switches.items() if var.index in core)


def cheapest_drop(
    problem: Problem,
    refusals: Sequence[Refusal],
    weight: Callable[[Key], int],
    *,
    most_setups: int = MOST_SETUPS,
    should_stop: Stop | None = None,
) -> tuple[Key, ...] | None:
    """Find the clauses of least weight whose dropping leaves a plan, or None if none is found."""
    model, drops = _droppable(problem, refusals, None, most_setups)
    dropped = {key: var.negated() for key, var in drops.switches.items()}
    model.minimize(sum(weight(key) * var for key, var in dropped.items()))
    solver = cp_model.CpSolver()
    _fix(solver, effort=EFFORT / 2)
    status, _ = _watched(solver, model, should_stop)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return tuple(key for key, var in dropped.items() if solver.value(var))
