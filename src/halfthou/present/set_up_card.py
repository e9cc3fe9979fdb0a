"""One set-up as it stands on its card."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.machines import at_the_machine
from halfthou.planning.model import Machine, Plan
from halfthou.planning.worked import CoarseCheck, Step, Worked, WorkedSetUp
from halfthou.planning.working.words import BREAK_EDGES
from halfthou.present.card_view import (
    LineView,
    Paragraph,
    Pictures,
    SetUpView,
    StepView,
    StripView,
)
from halfthou.present.numbers import Units, capital, joined, minutes, one_of, sentence, uncapital
from halfthou.present.places import places_of
from halfthou.present.words_cautions import all_through, caution_box, caution_words
from halfthou.present.words_dials import dial_words
from halfthou.present.words_holding import holding_words
from halfthou.present.words_ladder import ladder_words, sizing_slide, written_in_ladder
from halfthou.present.words_measures import check_head, check_words, measures_of
from halfthou.present.words_moments import lines_of
from halfthou.present.words_plan import units_words, way_words
from halfthou.present.words_same_grip import goes_back, stays_in
from halfthou.present.words_steps import (
    feed_words,
    lettered,
    locked,
    order_words,
    speed_words,
    tool_words,
)
from halfthou.present.words_truing import mill_first_words, truing_words
from halfthou.present.words_verbs import doing_words
from halfthou.present.words_why import why_words
from halfthou.present.words_zero import dials_words, zero_words
from halfthou.workshop.model import Workshop

_MANY: Final = 2
"""Steps from which a remark is said for the whole set-up."""
_SHORT: Final = 45
"""Letters up to which a remark is short."""
_WORTH_POINTING: Final = 2
"""Lines from which an earlier step with the same ones is pointed at."""
_BEFORE_THE_LAST: Final = "before the last cut"
_TAKEN: Final = ("before gripping", "now", "out of the holding")
"""The order in which sizes are taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """All that the views of one part are made from."""

    part: Part
    plan: Plan
    worked: Worked
    workshop: Workshop
    units: Units = "mm"


def set_up_view(job: Job, worked: WorkedSetUp, pictures: Pictures) -> SetUpView:
    """Format one set-up; ``pictures`` are those of the whole part."""
    part, units = job.part, one_of(job.units)
    machine = worked.set_up.scheme.machine
    return SetUpView(
        part=capital(part.name),
        title=f"Set-up {worked.number} of {worked.of} — {machine}",
        at_the_bench=machine == "bench",
        strip=strip_of(job, pictures, now=worked.number),
        picture=_at(pictures.set_ups, worked.number),
        paragraphs=_paragraphs(job, worked),
        cautions=caution_box(worked),
        dials=_DIALS[machine],
        steps=step_views(job, worked),
        places=places_of(worked, units),
        closing=_closing(job, worked),
        rest="A good place to stop for the night." if worked.rest_here else "",
        again=dials_words(worked, job.workshop).partition(" Top-slide set")[0],
        foot=_foot(job, worked),
    )


def _paragraphs(job: Job, worked: WorkedSetUp) -> tuple[Paragraph, ...]:
    part, units = job.part, one_of(job.units)
    earlier = tuple(one for one in job.worked.set_ups if one.number < worked.number)
    lathe = worked.set_up.scheme.machine == "lathe"
    return _filled(
        ("Before the work goes in", mill_first_words(worked, units, earlier)),
        ("Hold", holding_words(worked, part, units, earlier[-1] if earlier else None)),
        (
            "Clock it true" if lathe else "Set it true",
            truing_words(worked, part, units, earlier),
        ),
        ("Zero", zero_words(worked, part, job.workshop, units)),
        ("Throughout", throughout_words(worked)),
        ("Why here", why_words(worked, part, units)),
    )


_DIALS: Final[dict[Machine, str]] = {
    "lathe": "Dials, from zero",
    "mill": "Dials; ways are the cutter's",
    "bench": " ",
}


def _at(pictures: tuple[str, ...], number: int) -> str:
    return pictures[number - 1] if number <= len(pictures) else ""


def strip_of(job: Job, pictures: Pictures, *, now: int = 0) -> tuple[StripView, ...]:
    """Small pictures of the way through; ``now`` is the one in hand."""
    return tuple(
        StripView(
            svg=_at(pictures.way, one.number),
            number=str(one.number),
            words=way_words(one.set_up),
            now=one.number == now,
        )
        for one in job.worked.set_ups
    )


def _filled(*pairs: tuple[str, str]) -> tuple[Paragraph, ...]:
    return tuple(Paragraph(head=head, body=body) for head, body in pairs if body)


def throughout(worked: WorkedSetUp) -> dict[str, tuple[int, ...]]:
    """Give what holds at many steps, with the steps; it is said once.

    What is touched, and where a feed is thrown out, is said where the hands are: at its step.
    So is what is locked, unless it is the same at every step, or a run of holes on the mill.
    """
    steps: dict[str, list[int]] = {}
    locks = {locked(step) for step in worked.steps}
    alike = len(locks) == 1 or worked.set_up.scheme.machine == "mill"
    for step in worked.steps:
        held = locked(step) if alike else ()
        for remark in dict.fromkeys((*held, *filter(_of_the_set_up, step.remarks))):
            steps.setdefault(remark, []).append(step.number)
    return {remark: tuple(at) for remark, at in steps.items() if len(at) >= _enough(remark)}


def _enough(remark: str) -> int:
    """Give from how many steps a remark is said once for all: a short one stays where it is."""
    return _MANY if sum(len(line) for _, line in lines_of(remark)) > _SHORT else _MANY + 1


def _of_the_set_up(remark: str) -> bool:
    """Tell whether a remark may be said once for many steps: it has no figures of its step."""
    return all(moment != "touch" and "{" not in line for moment, line in lines_of(remark))


def throughout_words(worked: WorkedSetUp) -> str:
    """Say what is to be minded at more steps than one, the remarks of the same steps together."""
    grouped: dict[tuple[int, ...], list[str]] = {}
    for remark, steps in throughout(worked).items():
        grouped.setdefault(steps, []).append(remark)
    said = []
    for steps, remarks in grouped.items():
        text = " ".join(sentence(line) for one in remarks for _, line in lines_of(one))
        every = len(steps) == len(worked.steps)
        said.append(text if every else f"Steps {joined(tuple(map(str, steps)))}: {text}")
    return " ".join(said)


def step_views(job: Job, worked: WorkedSetUp) -> tuple[StepView, ...]:
    """Format the steps; what is said once is not said again: a tool in hand, a whole list."""
    views: list[StepView] = []
    before: Step | None = None
    boxed = frozenset(all_through(worked))
    warned = boxed if worked.set_up.scheme.machine != "bench" else frozenset[str]()
    common = frozenset(throughout(worked))
    job = replace(job, workshop=at_the_machine(worked.set_up, job.workshop))
    for step in worked.steps:
        view = _step(job, step, before, said=common, warned=warned)
        views.append(_as_before(view, views))
        warned |= frozenset(step.cautions)
        before = step
    return tuple(views)


def _as_before(view: StepView, earlier: list[StepView]) -> StepView:
    """Point at an earlier step where every line is the same, and there is more than one."""
    if view.ladder is not None or len(view.after) + len(view.before) < _WORTH_POINTING:
        return view
    same = [one for one in earlier if one.ladder is None and _lines(one) == _lines(view)]
    if not same:
        return view
    pointed = LineView(letter="", words=f"As step {same[0].number}.")
    return replace(view, before=(pointed,), after=())


def _lines(view: StepView) -> tuple[LineView, ...]:
    return (*view.before, *view.after)


def _step(
    job: Job, step: Step, before: Step | None, *, said: frozenset[str], warned: frozenset[str]
) -> StepView:
    units = one_of(job.units)
    tool, more = tool_words(step, units)
    if before is not None and (tool, more) == tool_words(before, units):
        tool, more = "same tool", ()
    check = check_words(step.check, job.units)
    early = step.check is not None and _BEFORE_THE_LAST not in step.check.what
    look = "" if early or step.check is None else check_words(_shorter(step.check), job.units)
    ladder = ladder_words(step, units, job.workshop, look)
    order = order_words(step, job.part, units, job.workshop, said=said)
    lines = lettered(order, ladder)
    count = len(order.before)
    rest = lines[count:] if ladder is None else lines[count + 1 :]
    return StepView(
        number=str(step.number),
        doing=doing_words(step, job.part, units),
        before=lines[:count],
        ladder=None if ladder is None else replace(ladder, letter=lines[count].letter),
        after=rest,
        tool=tool,
        tool_more=more,
        speed=speed_words(step, units),
        feed=feed_words(step, units),
        dial=dial_words(step, units, told=sizing_slide(step)),
        measures=measures_of(_without(step, job.workshop), job.part, job.units),
        check_head=check_head(step) if early or ladder is None else "",
        check=check if early or ladder is None else "",
        warn=tuple(caution_words(one) for one in step.cautions if one not in warned),
    )


def _shorter(check: CoarseCheck) -> CoarseCheck:
    """Say what is looked at without saying when: it stands where it is done."""
    return replace(check, what=check.what.replace(f" {_BEFORE_THE_LAST}", ""))


def _without(step: Step, workshop: Workshop) -> Step:
    """Leave out the measures written down in the ladder of cuts; the rest as they are taken."""
    inside = written_in_ladder(step, workshop)
    kept = (one for one in step.measures if one not in inside)
    return replace(step, measures=tuple(sorted(kept, key=lambda one: _TAKEN.index(one.when))))


def _closing(job: Job, worked: WorkedSetUp) -> tuple[Paragraph, ...]:
    following = next((s for s in job.worked.set_ups if s.number == worked.number + 1), None)
    then = ""
    if following is not None:
        machine = following.set_up.scheme.machine
        at = "" if machine == "bench" else f"{machine}: "
        then = f"Set-up {following.number}, {at}{uncapital(way_words(following.set_up))}."
    if stays_in(worked, job.worked.set_ups):
        return _filled(("Next", f"{then} The work stays in the chuck."))
    first = " ".join(map(sentence, _letting_go(job, worked)))
    if worked.set_up.scheme.machine == "bench":
        return _filled(("When it is done", first), ("Next", then))
    return _filled(("Before you let go", first), ("Next", then))


def _letting_go(job: Job, worked: WorkedSetUp) -> tuple[str, ...]:
    """Say what is done before the work comes out, and when it is out."""
    notes = [note for note in worked.next_notes if note != BREAK_EDGES]
    at_the_bench = worked.set_up.scheme.machine == "bench"
    if at_the_bench or BREAK_EDGES not in worked.next_notes:
        return tuple(notes)
    if any(op.verb == "part off" for op in worked.set_up.operations):
        kept = [note for note in notes if "before it is cut off" not in note]
        return ("measure what was made here before it is parted", "then break its edges", *kept)
    said = ["measure what was made here"]
    if goes_back(worked, job.worked.set_ups):
        said.append("mark the work against No. 1 jaw: it comes back to it")
    said += ["take it out, spindle stopped", "then break the edges you could not reach"]
    return (*said, *notes)


def _foot(job: Job, worked: WorkedSetUp) -> tuple[str, ...]:
    own = " Tools and gauges by their own mm." if job.units == "in" else ""
    return (
        f"{units_words(job.units, job.part)}.{own} About {minutes(worked.minutes)}.",
        "A usual workshop's speeds and dials: check them against yours."
        if job.workshop.built_in
        else "",
    )
