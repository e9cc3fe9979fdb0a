"""Sizes made to a mate as it came out: its reading first, then the size from that."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Mate, Part
from halfthou.planning.worked import Measure, Step, WorkedSetUp
from halfthou.units import Millimetre

_MICROMETER: Final = "micrometer"
_FINISHING: Final = frozenset(("bore", "turn", "ream", "lap"))


def to_its_mate(part: Part, one: WorkedSetUp) -> WorkedSetUp:
    """Give a set-up with the reading of the mate asked for wherever a size is made to it."""
    if not part.mates:
        return one
    return replace(one, steps=tuple(_step(part, step) for step in one.steps))


def _step(part: Part, step: Step) -> Step:
    op = step.operations[0]
    mate = next((m for m in part.mates if m.surface == op.feature), None)
    if mate is None or op.stage == "rough" or op.verb not in _FINISHING:
        return step
    own = next((m for m in step.measures if m.kind in {"bore", "diameter"} and m.band), None)
    if own is None:
        return step
    freely = _freely(mate)
    if freely is None:
        return replace(step, remarks=(*step.remarks, _asked_for(mate, own), told_of(mate)))
    expected = own.aim - freely * (1.0 if own.kind == "bore" else -1.0)
    reading = Measure(
        surface=f"{mate.mate_surface} of {mate.part}", gauge=_MICROMETER, aim=expected,
        low=expected, high=expected, doubt=0.0,
        kind="diameter" if own.kind == "bore" else "bore", decides=False,
        where=f"the {mate.mate_surface} of the {mate.part} as made", when="before gripping",
    )  # fmt: skip
    aimed = replace(
        own, low=own.aim, high=own.aim, band=None, good=None, decides=False, to_make=False,
        gauge=_over_it(own), doubt=0.0, where=_more_or_less(mate, own), tick=False,
    )  # fmt: skip
    rest = tuple(m for m in step.measures if m is not own)
    return replace(
        step,
        measures=(reading, aimed, *rest),
        remarks=(*step.remarks, told_of(mate)),
    )


def _freely(mate: Mate) -> Millimetre | None:
    """Give the middle of the clearance; a tight fit has less than none, one in words no figure."""
    if mate.free_low is None or mate.free_high is None:
        return None
    return (mate.free_low + mate.free_high) / 2


def _asked_for(mate: Mate, own: Measure) -> str:
    """Ask for the reading of a mate that goes in by words alone: no figure to expect of it.

    The size keeps the limits of its own drawing, for the words put none in their place.
    """
    by = _MICROMETER if own.kind == "bore" else f"telescopic gauge, {_MICROMETER}"
    return (
        f"before gripping, the {mate.mate_surface} of the {mate.part} as made, by {by}; "
        "write it here: ________"
    )


def _over_it(own: Measure) -> str:
    """Name what both are measured with: the same micrometer, so that its error drops out."""
    return f"telescopic gauge, {_MICROMETER}" if own.kind == "bore" else _MICROMETER


def told_of(mate: Mate) -> str:
    """Say what a size is made to, with the drawing's own words for how freely it goes."""
    how = mate.text.partition(",")[2].strip()
    to = f"made to the {mate.mate_surface} of the {mate.part} as it measures"
    return f"{to}{f', {how}' if how else ''}; the same micrometer for both"


def _more_or_less(mate: Mate, own: Measure) -> str:
    """Say how far from the mate's reading the size is: in the drawing's own figures."""
    how = mate.text.partition(",")[2].strip().partition(",")[0]
    free, tight = how.removesuffix(" free"), how.removesuffix(" tight")
    if mate.free_low is None or how in {"", *((free,) if free == tight else ())}:
        return "to that reading"
    loose = free != how
    more = loose == (own.kind == "bore")
    return f"that reading {'and' if more else 'less'} {free if loose else tight}"
