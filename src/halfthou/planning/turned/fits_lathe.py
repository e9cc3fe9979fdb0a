"""Whether a blank can be turned to the part at all, and goes into this workshop's lathe."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part
from halfthou.errors import NoPlan
from halfthou.planning.turned.rounds import bar_as_drawn
from halfthou.planning.turned.shape import ENDS, NEAR, ends, largest, rounds
from halfthou.planning.turned.stock import Stock
from halfthou.planning.turned.turned_off import spare_for_centre
from halfthou.workshop.model import Lathe, Workshop

SHORT_WORK: Final = 40.0
"""Shorter work is turned with the cross-slide drawn back beside it, mm (usual practice)."""
TRUE_UP: Final = 0.2
"""A round turned true takes at least so much off the bar's diameter, mm (usual practice)."""
_BARS: Final = frozenset({"round bar", "hexagon bar", "square bar"})


def check_blank(part: Part) -> None:
    """Refuse a blank that the part cannot be turned from.

    Raises
    ------
    NoPlan
        If it is no bar, or thinner than the part.
    """
    where = f"[blank] {part.blank.text}"
    if part.blank.form not in _BARS:
        raise NoPlan(
            f"the {part.name} is turned, and its blank is a {part.blank.form}",
            where=where,
            why="turned work is planned from round, hexagon or square bar",
            tries=("a bar of the nearest size: [blank] bar = ...",),
        )
    widest = max(rounds(part), key=largest)
    bare = [r for r in rounds(part) if abs(largest(r) - part.blank.across) < TRUE_UP]
    to_turn = [r for r in bare if not bar_as_drawn(part, r) and r.right_diameter is None]
    if to_turn:
        raise NoPlan(
            f"the blank of the {part.name} leaves nothing to turn on the {to_turn[0].name}",
            where=where,
            why="a bar does not run true in the chuck, and this round is to be true or a fit",
            tries=("a bar a millimetre larger",),
        )
    if largest(widest) > part.blank.across + NEAR:
        raise NoPlan(
            f"the blank of the {part.name} is too small",
            where=where,
            why=f"it is {part.blank.across:g} across and the {widest.name} {largest(widest):g}",
            tries=("a larger bar",),
        )


def no_length(part: Part) -> NoPlan:
    """Say that the blank is too short, and what it needs."""
    x0, x1 = ends(part)
    spare = sum(spare_for_centre(part, end) for end in ENDS)
    if spare <= 0:
        return NoPlan(
            f"the blank of the {part.name} is no longer than the part",
            where=f"[blank] {part.blank.text}",
            why="each end needs a skim, and the work something to be held by",
            tries=("a longer blank", "leave the length out of [blank]: the plan then says it"),
        )
    return NoPlan(
        f"the blank of the {part.name} is too short for centres that are faced off",
        where=f"[blank] {part.blank.text}",
        why=f"the part is {x1 - x0:.1f} long and the centres need {spare:.1f} more",
        tries=("a longer blank", "left_in = true under [centres]", "a smaller centre drill"),
    )


def check_lathe(part: Part, workshop: Workshop, stock: Stock) -> None:
    """Refuse work that goes into none of the workshop's lathes.

    Raises
    ------
    NoPlan
        With the size of the work and of the machine.
    """
    if not workshop.lathes:
        raise NoPlan(
            f"the {part.name} is turned, and the workshop has no lathe",
            tries=("put a lathe in the workshop file",),
        )
    reasons = [_too_large(lathe, stock) for lathe in workshop.lathes]
    if all(reasons):
        what, remedy = next(r for r in reasons if r is not None)
        raise NoPlan(
            f"the {part.name} does not go into the lathe",
            where=f"[blank] {part.blank.text}",
            why=what,
            tries=(remedy,),
        )


def _too_large(lathe: Lathe, stock: Stock) -> tuple[str, str] | None:
    swing, length = 2 * lathe.centre_height, stock.high - stock.low
    if stock.across > swing:
        return (
            f"it is {stock.across:.1f} across and the {lathe.name} swings {swing:g} over its bed",
            "a larger lathe, or a blank sawn nearer the size",
        )
    if stock.across > lathe.swing_over_cross_slide and length > SHORT_WORK:
        return (
            (
                f"it is {stock.across:.1f} across and the {lathe.name} swings "
                f"{lathe.swing_over_cross_slide:g} over its cross-slide, "
                f"for work {length:.0f} long"
            ),
            "a larger lathe",
        )
    if length > lathe.between_centres and stock.across > lathe.spindle_bore:
        return (
            (
                f"it is {length:.0f} long, the {lathe.name} takes {lathe.between_centres:g} "
                f"between centres and {lathe.spindle_bore:g} through its spindle"
            ),
            "a longer lathe",
        )
    return None
