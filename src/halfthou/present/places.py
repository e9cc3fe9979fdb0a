"""The table of hole places of a set-up: from its zero, with turns and divisions of the dials."""

from __future__ import annotations

from typing import Final

from halfthou.planning.worked import Move, Place, WorkedSetUp
from halfthou.present.card_view import PlacesView
from halfthou.present.numbers import Units, fixed, joined
from halfthou.present.words_steps import move_words

_FEWEST: Final = 1


def places_of(worked: WorkedSetUp, units: Units) -> tuple[PlacesView, ...]:
    """Tables of places; steps at the same places share one."""
    tables: dict[tuple[Place, ...], list[int]] = {}
    for step in worked.steps:
        if len(step.places) >= _FEWEST:
            tables.setdefault(step.places, []).append(step.number)
    return tuple(_table(places, steps, units) for places, steps in tables.items())


def _table(places: tuple[Place, ...], steps: list[int], units: Units) -> PlacesView:
    slides = tuple(dict.fromkeys(move.slide for place in places for move in place.moves))
    word = "step" if len(steps) == 1 else "steps"
    return PlacesView(
        title=f"Places for {word} {joined(tuple(map(str, steps)))}",
        heads=("", "x", "y", *slides),
        rows=tuple(_row(place, slides, units) for place in places),
        steps=tuple(map(str, steps)),
    )


def _setting(move: Move, units: Units) -> str:
    _, setting = move_words(move, units)
    return setting if setting == "at zero" else f"{move.sense} {setting}"


def _row(place: Place, slides: tuple[str, ...], units: Units) -> tuple[str, ...]:
    by_slide: dict[str, str] = {move.slide: _setting(move, units) for move in place.moves}
    dials = tuple(by_slide.get(slide, "") for slide in slides)
    return (place.label, fixed(place.x, units), fixed(place.y, units), *dials)
