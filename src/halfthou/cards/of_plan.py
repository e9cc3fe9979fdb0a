"""The cards of a kept plan: from what the plan was made of, whatever the part file says by now."""

from __future__ import annotations

from halfthou.cards.cards import Paper, set_cards
from halfthou.cards.typeset import Typeset
from halfthou.present.card_view import CoverView, SetUpView
from halfthou.present.cover_card import cover_view
from halfthou.present.kept_job import job_of, pictures_of
from halfthou.present.numbers import Units
from halfthou.present.set_up_card import set_up_view
from halfthou.store.plan_file import KeptPlan


def views_of(kept: KeptPlan, *, units: Units = "mm") -> tuple[CoverView, tuple[SetUpView, ...]]:
    """Give the cover and the set-ups of a kept plan, ready to be placed on a sheet or a page."""
    job = job_of(kept, units=units)
    pictures = pictures_of(job)
    cards = tuple(set_up_view(job, one, pictures) for one in job.worked.set_ups)
    return cover_view(job, pictures), cards


def cards_of(kept: KeptPlan, *, units: Units = "mm", paper: Paper = "A4") -> Typeset:
    """Set the cover and the cards of a kept plan."""
    cover, cards = views_of(kept, units=units)
    return set_cards(cover, cards, paper=paper)
