"""What is taken as meant of castings: what lies on one axis runs true, cut or cast."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from halfthou.drawing.boss_metal import BossBody
from halfthou.drawing.built import Built, Solved
from halfthou.drawing.frame import cross_axes, main_axis
from halfthou.drawing.model import Hole, Requirement, Surface
from halfthou.drawing.sheet import belongs
from halfthou.units import Millimetre

CAST_WITHIN: Final = 1.0
"""A bore lies in the middle of its raw boss within this [mm]. Usual practice."""
_TRUE: Final = frozenset({"run-out", "concentric"})
_SAME: Final = 1e-6


def true_in_castings(
    solved: Solved,
    built: Built,
    stated: Sequence[Requirement],
    within: Callable[[Surface, Surface], Millimetre],
) -> Iterator[Requirement]:
    """Yield, for each axis with a boss on it, what is meant to run true to what.

    ``within`` gives the limit for two machined diameters.
    """
    if not solved.written.blank.has("casting"):
        return
    done = {frozenset((one.surface, one.to)) for one in stated if one.kind in _TRUE}
    for group in _axes(solved, built):
        cut = [one for one in group if not one.raw]
        if not cut:
            continue
        main = min(cut, key=lambda one: (not one.inside, one.size.width if one.size else 0.0))
        for one in group:
            pair = frozenset((one.name, main.name))
            if one is main or pair in done:
                continue
            done.add(pair)
            held, to = (main, one) if one.raw else (one, main)
            yield Requirement(
                kind="concentric",
                surface=held.name,
                to=to.name,
                within=CAST_WITHIN if one.raw else within(one, main),
                text=f"{held.name} in the middle of {to.name}, as cast"
                if one.raw
                else f"{held.name} concentric with {to.name}",
                origin="taken as meant",
                place=held.feature,
            )


def _axes(solved: Solved, built: Built) -> Iterator[list[Surface]]:
    """Yield the diameters on each axis that a boss lies on."""
    groups: list[tuple[BossBody, list[Surface]]] = []
    for body in solved.own:
        if not isinstance(body, BossBody) or solved.only_cast(body.name):
            continue
        mine = [
            found
            for name in (body.name, f"{body.name} inside")
            if (found := built.surfaces.get(name)) is not None
        ]
        held = next((group for other, group in groups if _in_line(body, other)), None)
        if held is None:
            groups.append((body, mine))
        else:
            held += mine
    for body, group in groups:
        yield [*group, *_bores(solved, built, body)]


def _in_line(a: BossBody, b: BossBody) -> bool:
    return a.axis == b.axis and all(
        abs(a.centre[n] - b.centre[n]) < _SAME for n in cross_axes(a.axis)
    )


def _bores(solved: Solved, built: Built, body: BossBody) -> Iterator[Surface]:
    mine = belongs(solved.written, body.name)
    for hole in built.features:
        if not isinstance(hole, Hole) or len(hole.entries) > 1:
            continue
        entry = hole.entries[0]
        level = all(abs(entry[n] - body.centre[n]) < _SAME for n in cross_axes(body.axis))
        straight = abs(hole.into[main_axis(hole.into)]) > 1 - _SAME
        if main_axis(hole.into) == body.axis and straight and level:
            surface = built.surfaces.get(hole.name)
            if surface is not None and belongs(solved.written, hole.name) & mine:
                yield surface
