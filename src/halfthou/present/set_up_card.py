"""One set-up as it stands on its card."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Machine, Plan
from halfthou.planning.worked import Step, Worked, WorkedSetUp
from halfthou.planning.working.words import BREAK_EDGES
from halfthou.present.card_view import Paragraph, Pictures, SetUpView, StepView, StripView
from halfthou.present.numbers import Units, capital, joined, minutes, one_of, sentence, uncapital
from halfthou.present.places import places_of
from halfthou.present.words_cautions import all_through, caution_box, caution_words
from halfthou.present.words_dials import dial_words
from halfthou.present.words_holding import holding_words
from halfthou.present.words_measures import check_head, check_words, measures_of
from halfthou.present.words_plan import units_words, way_words
from halfthou.present.words_same_grip import goes_back, stays_in
from halfthou.present.words_steps import (
    feed_words,
    how_words,
    locked,
    mind_words,
    speed_words,
    tool_words,
)
from halfthou.present.words_truing import truing_words
from halfthou.present.words_verbs import doing_words
from halfthou.present.words_why import why_words
from halfthou.present.words_zero import dials_words, zero_words
from halfthou.workshop.model import Workshop

_MANY: Final = 3
"""Steps from which a remark is said for the whole set-up."""


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
    "bench": "",
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
    """Give what is to be minded at more steps than one, with the steps; it is said once."""
    steps: dict[str, list[int]] = {}
    for step in worked.steps:
        for remark in dict.fromkeys((*locked(step), *step.remarks)):
            steps.setdefault(remark, []).append(step.number)
    return {remark: tuple(found) for remark, found in steps.items() if len(found) >= _MANY}


def throughout_words(worked: WorkedSetUp) -> str:
    """Say what is to be minded at more steps than one, the remarks of the same steps together."""
    grouped: dict[tuple[int, ...], list[str]] = {}
    for remark, steps in throughout(worked).items():
        grouped.setdefault(steps, []).append(remark)
    said = []
    for steps, remarks in grouped.items():
        text = " ".join(map(sentence, remarks))
        every = len(steps) == len(worked.steps)
        said.append(text if every else f"Steps {joined(tuple(map(str, steps)))}: {text}")
    return " ".join(said)


def step_views(job: Job, worked: WorkedSetUp) -> tuple[StepView, ...]:
    """Format the steps; what is said once is not said again: a tool in hand, a remark."""
    views = []
    before: Step | None = None
    boxed = frozenset(all_through(worked))
    warned = boxed if worked.set_up.scheme.machine != "bench" else frozenset[str]()
    common = frozenset(throughout(worked))
    told: dict[int, frozenset[str]] = {}
    for step in worked.steps:
        notes = frozenset((*locked(step), *step.remarks))
        again = _said_whole(told, notes - common)
        said = common | frozenset(again)
        before_at = tuple(sorted(set(again.values())))
        views.append(_step(job, step, before, said=said, warned=warned, as_at=before_at))
        warned |= frozenset(step.cautions)
        told[step.number] = notes - common
        before = step
    return tuple(views)


def _said_whole(told: dict[int, frozenset[str]], notes: frozenset[str]) -> dict[str, int]:
    """Give the notes an earlier step says, where all that step says holds for this one too.

    A step with any other note is not pointed at: it may ask the contrary.
    """
    again: dict[str, int] = {}
    for number, said in told.items():
        if said and said <= notes:
            again = dict.fromkeys(said, number) | again
    return again


def _step(
    job: Job,
    step: Step,
    before: Step | None,
    *,
    said: frozenset[str],
    warned: frozenset[str],
    as_at: tuple[int, ...],
) -> StepView:
    units = one_of(job.units)
    tool, more = tool_words(step, units)
    if before is not None and (tool, more) == tool_words(before, units):
        tool, more = "same tool", ()
    return StepView(
        number=str(step.number),
        doing=doing_words(step, job.part, units),
        how=how_words(step, job.part, units, said=said),
        mind=mind_words(step, said=said, as_at=as_at),
        tool=tool,
        tool_more=more,
        speed=speed_words(step, units),
        feed=feed_words(step, units),
        dial=dial_words(step, units, job.workshop),
        measures=measures_of(step, job.part, job.units),
        check_head=check_head(step),
        check=check_words(step.check, job.units),
        warn=tuple(caution_words(one) for one in step.cautions if one not in warned),
    )


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
