"""A plan worked out: every number a person sets, turns, reads and measures."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.cutting.gauging import serving
from halfthou.drawing.model import Part
from halfthou.errors import HalfthouError
from halfthou.planning.cast.held_part import held_part
from halfthou.planning.drilling import tool_called
from halfthou.planning.model import Plan
from halfthou.planning.worked import Step, Worked, WorkedSetUp, Zero
from halfthou.planning.working import words
from halfthou.planning.working.bench import bench_drafts
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.holding import (
    can_rest,
    cautions,
    hold_notes,
    next_notes,
    true_notes,
    witness,
)
from halfthou.planning.working.lathe import lathe_drafts
from halfthou.planning.working.lengths import sawn_to
from halfthou.planning.working.look_twice import looked_twice
from halfthou.planning.working.mill import mill_drafts
from halfthou.planning.working.pieces import each_by_itself
from halfthou.planning.working.settled import settled
from halfthou.planning.working.task import Task
from halfthou.planning.working.wanted import wanted_for
from halfthou.planning.working.zero import BOTH_SIDES, lathe_zero, mill_zero
from halfthou.planning.working.zero_at_jaw import AT_THE_JAW
from halfthou.workshop.model import Workshop

CLOCK: Final = "0.01 clock"
"""What work is clocked with, unless the workshop has a clock by another name."""


def work_out(plan: Plan, part: Part, workshop: Workshop) -> Worked:
    """Work out every set-up of a plan.

    Parameters
    ----------
    plan :
        Set-ups in order.
    part :
        What is made.
    workshop :
        With what: its machines' speeds and dials, its tools and gauges.

    Returns
    -------
    :
        The plan's numbers, and what to lay out before starting.
    """
    parted = each_by_itself(plan, part)
    every = [u for one in parted for u in one.placed(_worked(one.plan, one.part, workshop))]
    set_ups = tuple(sorted(every, key=lambda u: u.number))
    return Worked(
        set_ups=set_ups,
        saw=_sawn(plan),
        tools=_serving([(u.number, step.tool) for u in set_ups for step in u.steps]),
        gauges=_serving(_gauges(set_ups, workshop)),
        sources=_sources(part, workshop),
    )


def _worked(plan: Plan, part: Part, workshop: Workshop) -> tuple[WorkedSetUp, ...]:
    plan = settled(plan, part, workshop)
    tasks = [
        Task(part=held_part(part, plan, number), workshop=workshop, plan=plan, number=number)
        for number in range(1, len(plan.set_ups) + 1)
    ]
    return tuple(_set_up(task) for task in tasks)


def _set_up(task: Task) -> WorkedSetUp:
    zero, drafts = _drafts(task)
    steps = tuple(_step(draft, number) for number, draft in enumerate(drafts, start=1))
    earlier = task.done_before
    return WorkedSetUp(
        number=task.number,
        of=len(task.plan.set_ups),
        set_up=task.set_up,
        zero=zero,
        steps=steps,
        before=tuple(region for op in earlier for region in op.region),
        off=tuple(region for op in task.operations for region in op.region),
        wanted=wanted_for(task, steps, zero),
        hold_notes=_holding_words(task, steps),
        true_notes=true_notes(task),
        cautions=cautions(task, frozenset(s.speed for s in steps if s.speed is not None)),
        reasons=tuple(r for r in task.plan.reasons if r.set_up == task.number),
        mark=witness(task),
        next_notes=next_notes(task),
        rest_here=can_rest(task),
        minutes=task.scheme.minutes + sum(step.minutes for step in steps),
    )


def _step(draft: Draft, number: int) -> Step:
    """Make a step: its check wide enough and by other means, its tool by the trade's name."""
    step = looked_twice(draft.step(number))
    return replace(step, tool=tool_called(step.tool))


def _drafts(task: Task) -> tuple[Zero | None, list[Draft]]:
    match task.scheme.machine:
        case "lathe":
            if task.lathe is None:
                raise _no_machine("lathe")
            drafts = lathe_drafts(task, task.lathe)
            slides: set[str] = {move.slide for draft in drafts for move in draft.moves}
            slides |= {m.slide for draft in drafts for cut in draft.passes for m in cut.settings}
            return lathe_zero(task, frozenset(slides)), drafts
        case "mill":
            if task.mill is None:
                raise _no_machine("mill")
            zero = mill_zero(task)
            return zero, mill_drafts(task, task.mill, zero.at)
        case "bench":
            return None, bench_drafts(task)


def _no_machine(machine: str) -> HalfthouError:
    return HalfthouError(
        f"the plan uses a {machine} and this workshop has none",
        why="the workshop file has changed since the plan was made",
        tries=("plan again",),
    )


def _holding_words(task: Task, steps: tuple[Step, ...]) -> tuple[str, ...]:
    notes = list(hold_notes(task))
    if task.scheme.machine == "mill" and any(step.places for step in steps):
        notes.append(words.CUTTER_GOES)
    if not task.metal.known and task.scheme.machine != "bench":
        notes.append(words.UNKNOWN_METAL)
    return tuple(notes)


def _sawn(plan: Plan) -> float:
    saws = [op for set_up in plan.set_ups for op in set_up.operations if op.verb == "saw"]
    return sawn_to(saws[0].cut_size) if saws and saws[0].cut_size > 0 else plan.blank_size[0]


def _gauges(set_ups: tuple[WorkedSetUp, ...], workshop: Workshop) -> list[tuple[int, str]]:
    used: list[tuple[int, str]] = []
    clock = next((one.name for one in workshop.gauges if one.kind == "clock"), CLOCK)
    for set_up in set_ups:
        picks = set_up.zero.pick_up if set_up.zero is not None else ()
        used += [(set_up.number, means) for _, _, means, _ in picks if _is_kit(means)]
        if set_up.set_up.scheme.true_on:
            used.append((set_up.number, clock))
        for step in set_up.steps:
            used += [(set_up.number, m.gauge) for m in step.measures if m.gauge]
            used += [(set_up.number, name) for name in _sizing(step, workshop)]
            if step.check is not None:
                used.append((set_up.number, step.check.means))
    return [(number, _tool(name)) for number, name in used if name]


def _tool(means: str) -> str:
    """Name what is laid out for a way of picking up."""
    for ending in (" swept round it", BOTH_SIDES, *AT_THE_JAW):
        means = means.removesuffix(ending)
    return means


def _sizing(step: Step, workshop: Workshop) -> list[str]:
    """Name the micrometers that size the plugs a step wants made."""
    sizes = [m.aim for m in step.measures if m.to_make]
    return [
        next((g.name for g in serving("diameter", size, workshop) if g.kind == "micrometer"), "")
        for size in sizes
    ]


def _is_kit(means: str) -> bool:
    """Tell whether a way of picking up needs something laid out."""
    return not means.startswith(("trial", "cutter"))


def _serving(used: list[tuple[int, str]]) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Give each thing once with the set-ups it serves, in the order first wanted."""
    found: dict[str, list[int]] = {}
    for number, name in used:
        numbers = found.setdefault(name, [])
        if number not in numbers:
            numbers.append(number)
    return tuple((name, tuple(numbers)) for name, numbers in found.items())


def _sources(part: Part, workshop: Workshop) -> tuple[str, ...]:
    sizes = [s.size.text for s in part.surfaces if s.size is not None]
    fits = any(any(letter.isalpha() for letter in text) for text in sizes)
    whose = "the default workshop, usual practice" if workshop.built_in else workshop.name
    found = [
        *(("limits: ISO 286-1 as tabulated in the handbook",) if fits else ()),
        f"machines, devices and gauges: {whose}",
        "speeds, feeds, depths of cut, allowances: usual practice for high-speed steel, dry",
        "cutting force and power: groups of ISO 513 as printed by tooling makers, a range",
        "gauges: each leaves a third of the tolerance beside its doubt (ISO 14253-1, JCGM 106)",
    ]
    return tuple(found)
