"""The cover sheet of one part."""

from __future__ import annotations

from halfthou.present.card_view import CoverView, Paragraph, Pictures
from halfthou.present.numbers import capital, counted, one_of, sentence
from halfthou.present.set_up_card import Job, strip_of
from halfthou.present.words_kit import cutting_kit, gauge_kit, holding_kit
from halfthou.present.words_plan import (
    finding_words,
    made_words,
    meant_words,
    names_words,
    price_line,
    saw_words,
    time_words,
    units_words,
    unjudged_words,
    workshop_words,
)


def cover_view(job: Job, pictures: Pictures) -> CoverView:
    """Format the cover sheet."""
    part, worked = job.part, job.worked
    return CoverView(
        part=capital(part.name),
        subtitle=_subtitle(job),
        picture=pictures.part,
        facts=_facts(job),
        way=strip_of(job, pictures),
        holding=holding_kit(worked, job.part, one_of(job.units)),
        tools=cutting_kit(worked),
        gauges=gauge_kit(worked, part),
        findings=finding_words(part),
        unjudged=tuple(
            dict.fromkeys(unjudged_words(one, part, job.units) for one in job.plan.unjudged)
        ),
        meant=meant_words(part, one_of(job.units), job.plan.set_ups),
        made=made_words(worked, part, job.units),
        price=price_line(job.plan),
        rules_off=job.plan.rules_off,
        workshop=workshop_words(job.workshop),
        sources=(
            *map(sentence, worked.sources),
            "Sure at: readings at which the size is good whatever the gauge's doubt.",
        ),
        foot=(f"{units_words(job.units, part)}.",),
    )


def _subtitle(job: Job) -> str:
    number = len(job.worked.set_ups)
    cards = f"{counted(number)} set-up{'' if number == 1 else 's'}"
    wanted = f", make {job.part.quantity}" if job.part.quantity > 1 else ""
    return f"{job.part.material}, {cards}{wanted}"


def _facts(job: Job) -> tuple[Paragraph, ...]:
    part = job.part
    pairs = (
        (
            "Metal",
            saw_words(job.worked, part, job.units),
        ),
        ("Waits for", " ".join(sentence(r.text) for r in job.plan.reasons if r.set_up == 0)),
        ("Time", time_words(job.worked)),
        ("Names on the cards", capital(names_words(part))),
        ("Where the drawing gives no limits", capital(part.otherwise)),
    )
    return tuple(Paragraph(head=head, body=body) for head, body in pairs if body)
