"""One set-up as it stands on its card."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Hole, Part
from halfthou.planning.model import Plan
from halfthou.planning.worked import Step, Worked, WorkedSetUp
from halfthou.present.card_view import Paragraph, Pictures, SetUpView, StepView, StripView
from halfthou.present.numbers import Units, capital, minutes, one_of, sentence, uncapital
from halfthou.present.places import places_of
from halfthou.present.words_holding import holding_words, truing_words
from halfthou.present.words_measures import check_head, check_words, measures_of
from halfthou.present.words_plan import units_words, way_words
from halfthou.present.words_steps import (
    caution_words,
    dial_words,
    feed_words,
    how_words,
    mind_words,
    speed_words,
    tool_words,
)
from halfthou.present.words_verbs import doing_words
from halfthou.present.words_zero import zero_words
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
    scheme = worked.set_up.scheme
    return SetUpView(
        part=capital(part.name),
        title=f"Set-up {worked.number} of {worked.of} — {scheme.machine}",
        at_the_bench=scheme.machine == "bench",
        strip=strip_of(job, pictures, now=worked.number),
        picture=_at(pictures.set_ups, worked.number),
        paragraphs=_filled(
            ("Hold", holding_words(worked, part, units)),
            (
                "Clock it true" if scheme.machine == "lathe" else "Set it true",
                truing_words(worked, part, units),
            ),
            ("Zero", zero_words(worked, part, job.workshop, units)),
            ("Throughout", " ".join(sentence(one) for one in throughout(worked))),
            ("Why here", why_words(worked, part)),
        ),
        cautions=tuple(sentence(one) for one in all_through(worked)),
        steps=step_views(job, worked),
        places=places_of(worked, units),
        closing=_closing(job, worked),
        rest="A good place to stop for the night." if worked.rest_here else "",
        foot=_foot(job, worked),
    )


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


def why_words(worked: WorkedSetUp, part: Part) -> str:
    """Say why this is done here and so; the members of a pattern are named once, together."""
    copies = [
        hole.name for hole in part.features if isinstance(hole, Hole) and len(hole.entries) > 1
    ]
    texts = [reason.text for reason in worked.reasons]
    for name in copies:
        texts = [re.sub(rf"\b{re.escape(name)} \d+\b", name, text) for text in texts]
    return " ".join(dict.fromkeys(map(sentence, texts)))


def throughout(worked: WorkedSetUp) -> tuple[str, ...]:
    """Give what is to be minded at many steps and with more than one tool, said once."""
    tools: dict[str, list[str]] = {}
    for step in worked.steps:
        for remark in dict.fromkeys(step.remarks):
            tools.setdefault(remark, []).append(step.tool)
    return tuple(
        remark for remark, used in tools.items() if len(used) >= _MANY and len(set(used)) > 1
    )


def all_through(worked: WorkedSetUp) -> tuple[str, ...]:
    """Give the cautions of the set-up, and those of more than one step."""
    every = [one for step in worked.steps for one in dict.fromkeys(step.cautions)]
    often = tuple(one for one in dict.fromkeys(every) if every.count(one) > 1)
    return tuple(dict.fromkeys((*worked.cautions, *often)))


def step_views(job: Job, worked: WorkedSetUp) -> tuple[StepView, ...]:
    """Format the steps; what is said once is not said again: a tool in hand, a remark."""
    views = []
    before: Step | None = None
    remarked: dict[tuple[str, ...], frozenset[str]] = {}
    warned = frozenset(all_through(worked))
    common = frozenset(throughout(worked))
    for step in worked.steps:
        verbs = tuple(op.verb for op in step.operations)
        said = common if _to_size(step) else remarked.get(verbs, common)
        views.append(_step(job, step, before, said=said, warned=warned))
        remarked[verbs] = said | frozenset(step.remarks)
        warned |= frozenset(step.cautions)
        before = step
    return tuple(views)


def _to_size(step: Step) -> bool:
    """Tell whether a step comes to a drawn size: nothing is left unsaid there."""
    return any(measure.band is not None for measure in step.measures)


def _step(
    job: Job, step: Step, before: Step | None, *, said: frozenset[str], warned: frozenset[str]
) -> StepView:
    units = one_of(job.units)
    tool, more = tool_words(step, units)
    if before is not None and (tool, more) == tool_words(before, units):
        tool, more = "same tool", ()
    return StepView(
        number=str(step.number),
        doing=doing_words(step, job.part, units),
        how=how_words(step, units),
        mind=mind_words(step, said=said),
        tool=tool,
        tool_more=more,
        speed=speed_words(step),
        feed=feed_words(step, units),
        dial=dial_words(step, units),
        measures=measures_of(step, job.part, job.units),
        check_head=check_head(step),
        check=check_words(step.check, job.units),
        warn=caution_words(step, said=warned),
    )


def _closing(job: Job, worked: WorkedSetUp) -> tuple[Paragraph, ...]:
    following = next((s for s in job.worked.set_ups if s.number == worked.number + 1), None)
    notes = (*worked.next_notes, worked.mark)
    first = " ".join(sentence(note) for note in notes if note)
    then = ""
    if following is not None:
        machine = following.set_up.scheme.machine
        at = "" if machine == "bench" else f"{machine}: "
        then = f"Set-up {following.number}, {at}{uncapital(way_words(following.set_up))}."
    return _filled(("Before you let go", first), ("Next", then))


def _foot(job: Job, worked: WorkedSetUp) -> tuple[str, ...]:
    return (
        f"{units_words(job.units)}. About {minutes(worked.minutes)}.",
        "Default workshop: check its speeds and dials against yours."
        if job.workshop.built_in
        else "",
    )
