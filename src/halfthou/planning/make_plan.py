"""A plan for a part: every blank tried, solved, judged apart from the solver, the best kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeAlias

from halfthou.drawing.model import Part
from halfthou.errors import HalfthouError, NoPlan
from halfthou.planning.assemble import TENTHS, Case, problem_of, set_ups_of
from halfthou.planning.cases import cases
from halfthou.planning.cast.skin import told_of_the_skin
from halfthou.planning.fixed_pieces import fixed_pieces, main_part, own_part
from halfthou.planning.metal import prove, prove_pieces
from halfthou.planning.model import Plan, Reason, SetUp
from halfthou.planning.put_together import joined_plan
from halfthou.planning.reasons import reasons_for
from halfthou.planning.solving.explain import WhyNot, no_plan, why_not
from halfthou.planning.solving.judge import judge
from halfthou.planning.solving.problem import Answer
from halfthou.planning.solving.slot_demands import Refusal
from halfthou.planning.solving.solver import solve
from halfthou.planning.unjudged import unjudged_sizes
from halfthou.planning.waits import waits_of
from halfthou.workshop.model import Workshop

Progress: TypeAlias = Callable[[str, float], None]
Stop: TypeAlias = Callable[[], bool]


def make_plan(
    part: Part,
    workshop: Workshop,
    *,
    on_progress: Progress | None = None,
    should_stop: Stop | None = None,
) -> Plan:
    """Give the cheapest plan for a part in a workshop, with its proof.

    Raises
    ------
    NoPlan
        With what conflicts and the cheapest way out, or because it was stopped.
    """
    pieces = fixed_pieces(part)
    if not pieces:
        return _alone(part, workshop, on_progress, should_stop)
    own = [(piece, own_part(part, piece)) for piece in pieces]
    plans = [
        _alone(one, workshop, on_progress, should_stop)
        for one in (main_part(part), *(piece_part for _, piece_part in own))
    ]
    put_in = tuple((piece, plan) for (piece, _), plan in zip(own, plans[1:], strict=True))
    return joined_plan(part, plans[0], put_in, workshop)


def _alone(
    part: Part, workshop: Workshop, on_progress: Progress | None, should_stop: Stop | None
) -> Plan:
    """Give the cheapest plan for a part in one piece, or a casting."""
    tried = cases(part, workshop)
    _see_that_tools_reach(part, tried)
    answers: list[tuple[Case, Answer]] = []
    for number, case in enumerate(tried, start=1):
        answer = _solved(case, number, len(tried), on_progress, should_stop)
        if should_stop is not None and should_stop():
            raise _stopped(part)
        if answer is not None:
            answers.append((case, answer))
    if not answers:
        raise _why_not(tried, should_stop)
    case, best = min(answers, key=lambda pair: pair[1].price)
    return _plan(case, best, tuple(a for _, a in answers), workshop)


def _see_that_tools_reach(part: Part, tried: tuple[Case, ...]) -> None:
    bare = [op for case in tried for op in case.operations if not op.tools]
    if bare:
        named = ", ".join(dict.fromkeys(op.feature for op in bare))
        raise NoPlan(
            f"no tool at hand does this work on the {part.name}: {named}",
            why="none in the workshop is small enough there, or reaches so deep",
            tries=("check the sizes of it", "add such a tool to the workshop file"),
        )


def _solved(
    case: Case, number: int, of: int, on_progress: Progress | None, should_stop: Stop | None
) -> Answer | None:
    held = {key for s in case.schemes for key in s.can}
    optional = {k for a in case.alternatives for b in a.bundles for k in b}
    if any(op.key not in held and op.key not in optional for op in case.operations):
        return None
    problem = problem_of(case)

    def tell(best: int, bound: int) -> None:
        if on_progress is not None:
            gap = 0.0 if best <= 0 else bound / best
            on_progress(f"blank {number} of {of}: {best / TENTHS:.0f} minutes so far", gap)

    answer = solve(problem, on_progress=tell, should_stop=should_stop)
    if answer is None:
        return None
    verdict = judge(problem, answer)
    if verdict.violations:
        raise HalfthouError(
            "the judge refuses the solver's plan",
            why="; ".join(verdict.violations),
            tries=("report this with the part file: it is a fault of the program",),
        )
    return answer


def _why_not(tried: tuple[Case, ...], should_stop: Stop | None = None) -> NoPlan:
    """Explain with the blank that comes nearest to a plan."""
    explained = [
        (case, why) for case in tried if (why := _explained(case, should_stop)) is not None
    ]
    if not explained:
        return _stopped(tried[0].part)
    # work that nothing reaches names its own remedy; a conflict of rules comes only after that
    case, why = min(explained, key=lambda pair: (not pair[1].unreached, len(pair[1].unreached)))
    return no_plan(f"the {case.part.name}", why)


def _stopped(part: Part) -> NoPlan:
    """Say that no plan comes of a search cut short: the blanks not looked at may be cheaper."""
    return NoPlan(
        f"no plan was found for the {part.name}",
        why="the search was stopped before it came to an end",
        tries=("let it run on",),
    )


def _explained(case: Case, should_stop: Stop | None) -> WhyNot | None:
    place = {op.key: i for i, op in enumerate(case.operations)}
    refusals = tuple(
        Refusal(holding=r.scheme, task=place[r.operation], reason=r.reason, remedy=r.remedy)
        for r in case.refused
        if r.operation in place
    )
    return why_not(problem_of(case), refusals, should_stop=should_stop)


def _plan(case: Case, best: Answer, answers: tuple[Answer, ...], workshop: Workshop) -> Plan:
    bound = min(a.bound for a in answers)
    set_ups = set_ups_of(case, best)
    reasons = tuple(_not_said_at_a_step(reasons_for(case, set_ups, workshop), set_ups))
    if case.lumps:
        prove_pieces(case.part, case.lumps, set_ups)
        set_ups = told_of_the_skin(set_ups, case.part, workshop)
    else:
        prove(case.part, case.metal, set_ups)
    return Plan(
        set_ups=set_ups,
        blank_size=case.blank,
        blank=case.metal,
        lumps=case.lumps,
        uncut=case.uncut,
        minutes=best.price / TENTHS,
        bound=bound / TENTHS,
        proved=bound >= best.price,
        up_to_set_ups=min(a.proved_for_setups for a in answers),
        reasons=(*waits_of(case.part), *reasons),
        unjudged=unjudged_sizes(case.part, workshop),
    )


def _not_said_at_a_step(
    reasons: tuple[Reason, ...], set_ups: tuple[SetUp, ...]
) -> Iterator[Reason]:
    """Leave out of a set-up's reasons what one of its steps says by itself."""
    for reason in reasons:
        own = set_ups[reason.set_up - 1].operations if reason.set_up > 0 else ()
        if all(reason.text != op.remark for op in own):
            yield reason
