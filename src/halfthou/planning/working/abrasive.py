"""Sizes finer than the dial: turned short of them, the rest taken by fine abrasive."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from halfthou.cutting.gauging import choose_gauge
from halfthou.drawing.model import Band
from halfthou.planning.model import Operation
from halfthou.planning.unjudged import how_it_goes, is_pressed_in
from halfthou.planning.worked import Measure
from halfthou.planning.working import words
from halfthou.planning.working.cuts import Draft
from halfthou.planning.working.dials import division_travel
from halfthou.planning.working.ends import far_end, jaws_at, parted_at
from halfthou.planning.working.holes import hole_draft
from halfthou.planning.working.landing import MARK, finer_than_dial, short_of_band
from halfthou.planning.working.measures import passing_measure
from halfthou.planning.working.slides import lathe_speed
from halfthou.planning.working.task import Task
from halfthou.planning.working.turning import turn
from halfthou.units import Millimetre, RevPerMinute
from halfthou.workshop.model import Lathe, Workshop

STRIP: Final = "fine abrasive strip"
LAP: Final = "split lap and fine paste"
FASTER: Final = 2.0
"""How many times faster than the cut the work turns under a strip (usual practice)."""
OFF_THE_END: Final[Millimetre] = 1.0
"""How far a lap stays off a blind bore's end (usual practice)."""
OFF_THE_JAWS: Final[Millimetre] = 3.0
"""How far a strip's edge stays off the jaws (usual practice)."""
MINUTES: Final = 4.0
"""Minutes for the last hundredth by abrasive (usual practice)."""


def stops_short(lathe: Lathe, op: Operation, workshop: Workshop) -> Millimetre:
    """Give the figure a close cut stops at for abrasive to take the rest; nought for none.

    With a readout the slide is set to a hundredth on the diameter, and no half division counts.
    """
    if op.verb not in {"turn", "bore"} or op.stage == "rough" or op.size is None:
        return 0.0
    if lathe.readout or not finer_than_dial(op.size, division_travel(lathe.cross_slide)):
        return 0.0
    inside = op.verb == "bore"
    judged = choose_gauge(
        kind="bore" if inside else "diameter",
        low=op.size.low,
        high=op.size.high,
        workshop=workshop,
    )
    doubt = judged.doubt if judged is not None and not judged.decides else 0.0
    return short_of_band(op.size, inside=inside, doubt=doubt)


def with_abrasive(task: Task, lathe: Lathe, op: Operation, stop_at: Millimetre) -> list[Draft]:
    """Cut to where the dial can still be trusted, then take the rest by fine abrasive."""
    inside = op.verb == "bore"
    make = hole_draft if inside else turn
    cut = make(task, lathe, op, stop_at)
    sizes = [m for m in cut.measures if m.kind in {"diameter", "bore"} and m.band is not None]
    others = tuple(m for m in cut.measures if m not in sizes)
    if not sizes:
        return [cut]
    own = sizes[0]
    cut.measures = (*_as_cut(task, own, stop_at), *others)
    cut.operation = replace(op, size=None, cut_size=stop_at)
    cut.remarks.append(words.STOP_FOR_ABRASIVE)
    return [cut, _by_abrasive(task, lathe, op, own, stop_at, length=_cut_to(cut))]


def _cut_to(cut: Draft) -> Millimetre:
    """Give how far from the face the cut before went; nought where that is not told."""
    stops = [abs(one.to) for one in cut.moves if one.slide == "saddle"]
    return max(stops, default=cut.length)


def _blind(task: Task, op: Operation) -> bool:
    """Tell whether a bore ends in the metal: it is no hole through, or the bar goes on behind."""
    return not op.through or parted_at(task) is not None


def _moved(task: Task, op: Operation) -> str:
    return words.LAP_BLIND if _blind(task, op) else words.LAP


def _reach(task: Task, op: Operation, length: Millimetre) -> Millimetre:
    """Give how far from the face abrasive goes: short of a blind bore's end, clear of the jaws."""
    if op.verb == "bore":
        return max(0.0, length - OFF_THE_END) if _blind(task, op) else 0.0
    return max(0.0, min(task.from_face(far_end(task, op)), jaws_at(task) - OFF_THE_JAWS))


def _as_cut(task: Task, own: Measure, stop_at: Millimetre) -> tuple[Measure, ...]:
    """Measure what the dial leaves: never past the limit, and no more than a mark over."""
    inside = own.kind == "bore"
    near = stop_at + MARK / 2 if inside else stop_at - MARK / 2
    over = stop_at - MARK if inside else stop_at + MARK
    low, high = sorted((round(near, 6), round(over, 6)))
    one = passing_measure(task, surface=own.surface, size=stop_at, kind=own.kind, within=MARK)
    return (replace(one, low=low, high=high),) if one is not None else ()


def _speed(task: Task, lathe: Lathe, op: Operation, size: Millimetre) -> RevPerMinute:
    """Turn work fast under a strip, slowly on a lap."""
    if op.verb == "bore":
        return lathe_speed(task, lathe, replace(op, verb="ream"), size)
    return lathe_speed(task, lathe, op, size / FASTER)


def _by_abrasive(
    task: Task,
    lathe: Lathe,
    op: Operation,
    own: Measure,
    stop_at: Millimetre,
    *,
    length: Millimetre,
) -> Draft:
    inside = own.kind == "bore"
    tool = LAP if inside else STRIP
    rounds = tuple(
        name for name in op.makes if (s := task.surface(name)) is not None and s.kind != "plane"
    )
    draft = Draft(
        operation=replace(
            op, verb="lap", from_size=stop_at, makes=rounds, region=(), tools=(tool,), remark=""
        ),
        tool=tool,
        fluid="cutting oil",
        speed=_speed(task, lathe, op, stop_at),
        measures=(own,),
        minutes=MINUTES,
        length=_reach(task, op, length),
        remarks=[_moved(task, op) if inside else words.STRIP],
        cautions=[words.LAP_HELD if inside else words.STRIP_HELD],
    )
    if inside and is_pressed_in(task.part):
        draft.remarks.append(words.CLOSES_IN)
    elif not own.decides:
        draft.remarks.append(tried_in(own.band, inside=inside))
    return draft


def tried_in(band: Band | None, *, inside: bool) -> str:
    """Say how far a size no gauge decides is tried in its mate: a press fit not at all.

    Examples
    --------
    >>> from halfthou.drawing.model import Band
    >>> s6 = Band(nominal=24, low=24.035, high=24.048, text="24 s6", origin="drawn", place="")
    >>> tried_in(s6, inside=False).partition(";")[0]
    'a press fit: do not try it in its mate'
    """
    match how_it_goes(band):
        case "press":
            return words.PRESSED_BORE if inside else words.PRESSED
        case "free":
            return words.RUNS_FREE
        case "snug":
            return words.TO_THE_MATE if inside else words.STARTED_BY_HAND
        case "slide":
            return words.MATE_SLIDES
        case _:
            return words.TO_THE_MATE
