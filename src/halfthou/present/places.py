"""The table of hole places of a set-up: from its zero, with turns and divisions of the dials."""

from __future__ import annotations

from typing import Final

from halfthou.planning.worked import Place, WorkedSetUp
from halfthou.present.card_view import PlacesView
from halfthou.present.numbers import Units, fixed, joined
from halfthou.present.words_keyway import keyway_figures, place_setting

_RUN: Final = frozenset({"from", "to"})
"""What the places of a run of the cutter are called; all others are holes."""


def places_of(worked: WorkedSetUp, units: Units) -> tuple[PlacesView, ...]:
    """Tables of places: one for where cutters start and stop, one for each set of holes."""
    holes: dict[tuple[Place, ...], list[int]] = {}
    lines: list[tuple[Place, ...]] = []
    numbers: list[int] = []
    for step in worked.steps:
        if not step.places:
            continue
        if not _RUN.issuperset(place.label for place in step.places):
            holes.setdefault(step.places, []).append(step.number)
        elif not keyway_figures(step, units):
            lines.append(step.places)
            numbers.append(step.number)
    tables = [_holes(places, steps, units) for places, steps in holes.items()]
    return tuple([_runs(lines, numbers, units), *tables] if lines else tables)


def _holes(places: tuple[Place, ...], steps: list[int], units: Units) -> PlacesView:
    slides = _slides(places)
    word = "step" if len(steps) == 1 else "steps"
    return PlacesView(
        title=f"Places of the holes, {word} {joined(tuple(map(str, steps)))}",
        heads=("", "x", "y", *(f"{slide}: cutter goes" for slide in slides)),
        rows=tuple(_row(place.label, place, slides, units) for place in places),
        steps=tuple(map(str, steps)),
    )


def _runs(lines: list[tuple[Place, ...]], steps: list[int], units: Units) -> PlacesView:
    slides = _slides(tuple(place for places in lines for place in places))
    return PlacesView(
        title="Where the cutter starts and stops",
        heads=("", "x", "y", *(f"{slide}: cutter goes" for slide in slides)),
        rows=tuple(
            _row(f"step {number}, {place.label}", place, slides, units)
            for number, places in zip(steps, lines, strict=True)
            for place in places
        ),
        steps=(),
    )


def _slides(places: tuple[Place, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(move.slide for place in places for move in place.moves))


def _row(label: str, place: Place, slides: tuple[str, ...], units: Units) -> tuple[str, ...]:
    by_slide: dict[str, str] = {move.slide: place_setting(move, units) for move in place.moves}
    dials = tuple(by_slide.get(slide, "") for slide in slides)
    return (label, fixed(place.x, units), fixed(place.y, units), *dials)
