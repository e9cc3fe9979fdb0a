"""The plan of a part: the same pictures and words as on its cards, and how planning goes."""

from __future__ import annotations

import re
from collections.abc import Hashable
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from halfthou.cards.cards import Paper
from halfthou.errors import Faults, HalfthouError, InputFault
from halfthou.pages.pictures import placed
from halfthou.pages.runs import Run
from halfthou.pages.shelf import Seen, Shelf
from halfthou.present.card_view import CoverView, SetUpView
from halfthou.present.numbers import Units
from halfthou.store.part_on_disk import faults_in
from halfthou.store.plan_file import Changes, KeptPlan

_VIEW_BOX: Final = re.compile(r'viewBox="0 0 ([\d.]+) ')
_ACROSS_MM: Final = 125.0
"""Width in mm from which a picture takes the whole width of a card, and of a page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RunView:
    """Planning that goes on now."""

    words: str
    percent: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownSetUp:
    """A set-up with its picture fit for the page."""

    card: SetUpView
    picture: Markup | None
    wide: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """The page of one plan. ``blocked`` says why it cannot be planned as it stands.

    ``drawing``: its pictures are being drawn, and the page will be redrawn when they are there.
    """

    name: str
    title: str
    blocked: str
    run: RunView | None
    errors: tuple[HalfthouError, ...]
    difference: tuple[str, ...]
    changes: Changes
    kept: bool
    drawing: bool
    units: Units
    cover: CoverView | None
    way: tuple[Markup | None, ...]
    set_ups: tuple[ShownSetUp, ...]
    version: str


def view(shelf: Shelf, seen: Seen, *, units: Units) -> PlanView:
    """Look at the plan of one part."""
    version = shelf.version(seen.name)
    run = shelf.runs.of(seen.name)
    going = run is not None and not run.over
    kept = seen.plan.kept
    cover, set_ups, broken = _sheets_or_errors(shelf, kept, units)
    drawing = kept is not None and cover is None and not broken
    return PlanView(
        name=seen.name,
        title=seen.last_good.name if seen.last_good is not None else seen.name,
        blocked=_blocked(seen),
        run=RunView(words=run.words, percent=round(100 * run.share)) if run and going else None,
        errors=(*seen.plan.faults, *_errors(run), *broken),
        difference=run.difference if run is not None and run.over else (),
        changes=seen.plan.changes,
        kept=kept is not None,
        drawing=drawing,
        units=units,
        cover=cover,
        way=tuple(_picture(shelf, one.svg) for one in cover.way) if cover else (),
        set_ups=tuple(
            ShownSetUp(card=card, picture=_picture(shelf, card.picture), wide=_wide(card.picture))
            for card in set_ups
        ),
        version=version,
    )


def sheets(
    shelf: Shelf, kept: KeptPlan, *, units: Units
) -> tuple[CoverView, tuple[SetUpView, ...]]:
    """Give the views of the cover and of every set-up, as on the cards."""
    from halfthou.cards.of_plan import views_of  # noqa: PLC0415  (OpenCascade, on demand)

    return shelf.drawn.now(_key(kept, units), lambda: views_of(kept, units=units))


def _key(kept: KeptPlan, units: Units) -> Hashable:
    return ("sheets", kept, units)


def _sheets_or_errors(
    shelf: Shelf, kept: KeptPlan | None, units: Units
) -> tuple[CoverView | None, tuple[SetUpView, ...], tuple[HalfthouError, ...]]:
    if kept is None:
        return None, (), ()
    from halfthou.cards.of_plan import views_of  # noqa: PLC0415  (OpenCascade, on demand)

    try:
        found = shelf.drawn.later(_key(kept, units), lambda: views_of(kept, units=units))
    except Faults as error:
        return None, (), faults_in(error)
    except HalfthouError as error:
        return None, (), (error,)
    return (*(found or (None, ())), ())


def cards(shelf: Shelf, kept: KeptPlan, *, units: Units, paper: Paper) -> bytes:
    """Give the cards as PDF."""
    from halfthou.cards.cards import set_cards  # noqa: PLC0415  (the typesetter, on demand)

    cover, set_ups = sheets(shelf, kept, units=units)
    key = ("cards", kept, units, paper)
    return shelf.drawn.now(key, lambda: set_cards(cover, set_ups, paper=paper).pdf)


def _picture(shelf: Shelf, svg: str) -> Markup | None:
    return placed(shelf, svg) if svg else None


def _wide(svg: str) -> bool:
    """Tell whether a picture is meant to go across the whole sheet."""
    found = _VIEW_BOX.search(svg)
    return found is not None and float(found[1]) > _ACROSS_MM


def _blocked(seen: Seen) -> str:
    if seen.on_disk.part is None:
        return f"{seen.on_disk.path.name} cannot be read as it stands"
    if seen.on_disk.grave:
        return "the drawing has to be mended first"
    return ""


def _errors(run: Run | None) -> tuple[HalfthouError, ...]:
    if run is None or not run.over or run.error is None:
        return ()
    if isinstance(run.error, Faults | InputFault):
        return faults_in(run.error)
    return (run.error,)
