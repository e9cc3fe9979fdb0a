"""The cheapest order of tasks and tools once each set-up has its tasks: exact."""

from __future__ import annotations

from heapq import heappop, heappush
from typing import NamedTuple

from halfthou.planning.solving.prepare import Order, orders
from halfthou.planning.solving.problem import BENCH, Problem, Slot


class _State(NamedTuple):
    """Set-up reached, tasks done in it (one bit each), and the tool in the machine."""

    setup: int
    done: int
    tool: str


def in_best_order(
    problem: Problem, setups: tuple[tuple[int, frozenset[int]], ...]
) -> tuple[Slot, ...] | None:
    """Order the tasks of (holding, tasks) set-ups for the fewest tool changes.

    Soft orders inside a set-up are weighed with the changes. Gives None if the hard orders
    go round in a circle inside a set-up. A task that can be done now with the tool in hand,
    and breaks no order, is done now: waiting never pays.
    """
    rooms = [_Room(problem, holding, tasks) for holding, tasks in setups]
    start = _first_state(problem, rooms)
    best = {start: 0}
    came: dict[_State, tuple[_State, tuple[int, ...]]] = {}
    queue = [(0, 0, start)]
    ticket = 0
    while queue:
        cost, _, state = heappop(queue)
        if cost > best[state]:
            continue
        if state.setup == len(rooms):
            return _trace(rooms, came, state)
        for step, following, did in _moves(problem, rooms, state):
            if cost + step < best.get(following, cost + step + 1):
                best[following] = cost + step
                came[following] = (state, did)
                ticket += 1
                heappush(queue, (cost + step, ticket, following))
    return None


class _Room:
    """One set-up with its orders, tasks numbered from nought."""

    def __init__(self, problem: Problem, holding: int, tasks: frozenset[int]) -> None:
        self.holding = holding
        self.machine = problem.holdings[holding].machine
        self.tasks = tuple(sorted(tasks))
        self.tools = [problem.tasks[i].tools for i in self.tasks]
        self.full = (1 << len(self.tasks)) - 1
        number = {i: n for n, i in enumerate(self.tasks)}
        self.hard = [0] * len(self.tasks)
        self.soft: list[list[tuple[int, int]]] = [[] for _ in self.tasks]
        for order in orders(problem):
            if order.before in number and order.after in number and not order.strict:
                self._note(order, number[order.before], number[order.after])

    def _note(self, order: Order, before: int, after: int) -> None:
        if order.cost is None:
            self.hard[after] |= 1 << before
        else:
            self.soft[after].append((1 << before, order.cost))

    def ready(self, n: int, done: int) -> bool:
        return not done >> n & 1 and not self.hard[n] & ~done

    def broken(self, n: int, done: int) -> int:
        return sum(cost for bit, cost in self.soft[n] if not bit & done)

    def do_free(self, done: int, tool: str) -> tuple[int, tuple[int, ...]]:
        """Do everything the tool in hand can do at no cost."""
        did: list[int] = []
        again = True
        while again:
            again = False
            for n, tools in enumerate(self.tools):
                fits = self.machine == BENCH or tool in tools
                if fits and self.ready(n, done) and not self.broken(n, done):
                    done |= 1 << n
                    did.append(n)
                    again = True
        return done, tuple(did)


def _first_state(problem: Problem, rooms: list[_Room]) -> _State:
    start = problem.start
    same = start is not None and bool(rooms) and start.machine == rooms[0].machine
    return _State(0, 0, start.tool if start is not None and same else "")


def _moves(
    problem: Problem, rooms: list[_Room], state: _State
) -> list[tuple[int, _State, tuple[int, ...]]]:
    """Cost, next state and tasks done, for each thing that can come next."""
    room = rooms[state.setup]
    if state.done == room.full:
        after = state.setup + 1
        kept = after < len(rooms) and rooms[after].machine == room.machine
        return [(0, _State(after, 0, state.tool if kept else ""), ())]
    done, did = room.do_free(state.done, state.tool)
    if did:
        return [(0, _State(state.setup, done, state.tool), did)]
    found: list[tuple[int, _State, tuple[int, ...]]] = []
    for n, tools in enumerate(room.tools):
        if room.ready(n, done):
            for tool in tools if room.machine != BENCH else tools[:1]:
                changed = room.machine != BENCH and tool != state.tool
                step = problem.prices.tool_change * changed + room.broken(n, done)
                found.append((step, _State(state.setup, done | 1 << n, tool), (n,)))
    return found


def _trace(
    rooms: list[_Room], came: dict[_State, tuple[_State, tuple[int, ...]]], state: _State
) -> tuple[Slot, ...]:
    done: list[list[tuple[int, str]]] = [[] for _ in rooms]
    while state in came:
        before, did = came[state]
        if did:
            room = rooms[before.setup]
            for n in reversed(did):
                at_bench = room.machine == BENCH
                tool = room.tools[n][0] if at_bench else state.tool
                done[before.setup].append((room.tasks[n], tool))
        state = before
    return tuple(
        Slot(
            holding=room.holding,
            tasks=tuple(i for i, _ in reversed(pairs)),
            tools=tuple(tool for _, tool in reversed(pairs)),
        )
        for room, pairs in zip(rooms, done, strict=True)
    )
