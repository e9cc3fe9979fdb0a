"""A round lying level between vice jaws, put into words: what it clears, which jaw is which."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Surface
from halfthou.planning.milled.jaws_on_round import BESIDE_LARGER, closes_square, larger_beside
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working import keyway_words
from halfthou.present.numbers import plain
from halfthou.present.words_held import Held
from halfthou.present.words_surfaces import shop_name

SAME_ROUND: Final = "a piece of the same diameter"
"""What closes jaws square that a round only half fills."""
_NEAR: Final = 0.05


def level_round_words(held: Held, on: str) -> list[str]:
    """Say what lies between the jaws, what stands clear of them, and what it lies down on."""
    clear = _clear_of_larger(held)
    under = f"down on {on}{', no nearer to it' if clear else ''}"
    return [
        f"{held.gripped} between the jaws", *clear, under, "a stop at its left end",
        *_filled_up(held),
    ]  # fmt: skip


def which_jaw_words(copper: str) -> str:
    """Say which jaw is the fixed one, and that soft copper goes to the other only."""
    said = " The far jaw is fixed"
    if not copper:
        return f"{said}."
    return f"{said}, the work bare on it; {copper.strip()[0].lower()}{copper.strip()[1:]}"


def tried_first_words(worked: WorkedSetUp) -> str:
    """Say what is tried before the work is held: a cutter whose slot a plug must fit."""
    for step in worked.steps:
        keyed = any(op.verb == "mill keyway" for op in step.operations)
        if keyed and any(one.to_make and one.kind == "width" for one in step.measures):
            return keyway_words.TRIED_FIRST.format(step=step.number)
    return ""


def _held_round(held: Held) -> Surface | None:
    return next((one for one in held.part.surfaces if one.name in held.scheme.grips), None)


def _clear_of_larger(held: Held) -> list[str]:
    """Say how far a larger round beside the held one stands off the end of the jaws."""
    one, jaws = _held_round(held), held.scheme.jaws
    if one is None or jaws is None:
        return []
    left, right = larger_beside(held.part, one)
    said = []
    if left is not None and abs(jaws[0] - left.high[0] - BESIDE_LARGER) < _NEAR:
        said.append((left, "left"))
    if right is not None and abs(right.low[0] - BESIDE_LARGER - jaws[1]) < _NEAR:
        said.append((right, "right"))
    clear = plain(BESIDE_LARGER, held.units)
    return [
        f"the {shop_name(larger.feature)} {clear} clear of the {end} end of the jaws"
        for larger, end in said
    ]


def _filled_up(held: Held) -> list[str]:
    """Close the jaws square where the round lies at one end of them."""
    one, jaws = _held_round(held), held.scheme.jaws
    if one is None or jaws is None or closes_square(one, jaws):
        return []
    end = "right" if one.low[0] + one.high[0] < jaws[0] + jaws[1] else "left"
    return [f"{SAME_ROUND} past its {end} end, so that the jaws close square"]
