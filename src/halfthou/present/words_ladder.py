"""The ladder of cuts: every setting of the slide on one line with what it leaves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final, Literal, TypeAlias

from halfthou.planning.worked import Measure, Move, Pass, Step
from halfthou.planning.working import mill_words
from halfthou.planning.working.dials import division_travel
from halfthou.present.card_view import LadderView, RungView
from halfthou.present.figures import divisions
from halfthou.present.numbers import THIN, Units, fixed, places_of_limits, plain
from halfthou.present.words_dials import along_words, move_words
from halfthou.present.words_moments import MEASURED_EACH, MEASURED_FIRST
from halfthou.units import Millimetre
from halfthou.workshop.model import Dial, Workshop

Leaves: TypeAlias = Literal["diameter", "bore", "size", "left on", "depth"]

_ROUND: Final = frozenset({"turn", "turn taper", "groove"})
_FACES: Final = frozenset({"face", "mill face"})
_LENGTHS: Final = frozenset({"length", "width", "position", "depth"})
_NO_SIZE: Final = (mill_words.NOT_CLEAN, mill_words.NOT_CLEAN_ZERO)
"""Remarks of a first face: what it leaves hangs on what the raw work measures."""
_SAME: Final[Millimetre] = 1e-6
_NEAR: Final[Millimetre] = 0.006
_HALVES: Final = 0.05
"""How near a figure must be to half a division to be one."""
_HEADS: Final[dict[Leaves, str]] = {
    "diameter": "leaves", "bore": "leaves", "size": "leaves",
    "left on": "still on", "depth": "deep",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """Cuts ``first`` to ``last`` of a step: the move to the last, and the size or depth then."""

    first: int
    last: int
    move: Move | None
    each: float
    """Divisions of the dial for one of several cuts."""
    leaves: Millimetre
    lot: Pass


def sizing_slide(step: Step) -> str:
    """Give the slide that sizes the work, cut by cut; none where the cuts are not told by one."""
    settings = _settings(step)
    return settings[0].slide if settings else ""


def rungs_of(step: Step, workshop: Workshop) -> tuple[Rung, ...]:
    """Give the cuts of a step: like ones of roughing together, others each by itself."""
    settings = _settings(step)
    found: list[Rung] = []
    number = 0
    for lot in step.passes:
        own = settings[number : number + lot.count] if settings else ()
        before = settings[number - 1] if settings and number else None
        for first, last in _together(lot, own, before, workshop):
            move = own[last - 1] if own else None
            found.append(
                Rung(
                    first=number + first,
                    last=number + last,
                    move=move,
                    lot=lot,
                    each=_each(lot, move, workshop) if last > first else 0.0,
                    leaves=_leaves(step, lot, lot.count - last),
                )
            )
        number += lot.count
    return tuple(found)


def _settings(step: Step) -> tuple[Move, ...]:
    """Where the slide stands for each cut: as planning says it, else the slide moved so often."""
    told = tuple(move for lot in step.passes for move in lot.settings)
    count = sum(lot.count for lot in step.passes)
    if told:
        return told if len(told) == count else ()
    slides = dict.fromkeys(move.slide for move in step.moves)
    sideways = bool(step.operations) and step.operations[-1].verb == "mill face"
    order = sorted(slides, key=lambda slide: (slide == "knee") == (sideways and count == 1))
    order = [slide for slide in order if slide not in ("saddle", "tailstock", "quill")]
    for slide in order:
        moves = tuple(move for move in step.moves if move.slide == slide)
        if len(moves) == count and count:
            return moves
    return ()


def _together(
    lot: Pass, own: tuple[Move, ...], before: Move | None, workshop: Workshop
) -> Iterator[tuple[int, int]]:
    """Give the cuts of a lot to be told on one line, counted from one."""
    alike = lot.purpose in ("rough", "skin") or lot.side_by_side
    if not alike or lot.count == 1:
        yield from ((number, number) for number in range(1, lot.count + 1))
        return
    if lot.side_by_side or not own:
        yield 1, lot.count
        return
    each = _each(lot, own[-1], workshop)
    start = _counted(before, own[-1], workshop)
    on = abs(abs(_counted(own[0], own[-1], workshop) - start) - each) < _HALVES
    steady = each and _evenly(own, each, workshop)
    if not steady:
        yield from ((number, number) for number in range(1, lot.count + 1))
    elif on:
        yield 1, lot.count
    else:  # the first stands somewhere of its own: a cut sideways is not counted from a touch
        yield 1, 1
        yield 2, lot.count


def _evenly(own: tuple[Move, ...], each: float, workshop: Workshop) -> bool:
    stands = [_counted(move, move, workshop) for move in own]
    return all(abs(abs(b - a) - each) < _HALVES for a, b in pairwise(stands))


def _counted(move: Move | None, like: Move, workshop: Workshop) -> float:
    """Count where a slide stands in divisions from zero."""
    if move is None:
        return 0.0
    dial = dial_of(like, workshop)
    around = dial.lead / division_travel(dial) if dial is not None else 0.0
    return move.turns * around + move.divisions


def _each(lot: Pass, move: Move | None, workshop: Workshop) -> float:
    """Give the divisions one cut goes on, if they are whole or halves."""
    if move is None or move.by != "dial":
        return 0.0
    dial = dial_of(move, workshop)
    if dial is None:
        return lot.divisions
    on = lot.depth / division_travel(dial)
    return round(2 * on) / 2 if abs(2 * on - round(2 * on)) < 2 * _HALVES else 0.0


def dial_of(move: Move, workshop: Workshop) -> Dial | None:
    """Find the dial a move is read on."""
    if move.slide in ("cross-slide", "top-slide", "saddle") and workshop.lathes:
        lathe = workshop.lathes[0]
        own = {"cross-slide": lathe.cross_slide, "top-slide": lathe.top_slide}
        return own.get(move.slide, lathe.saddle)
    if workshop.mills:
        mill = workshop.mills[0]
        return {"table": mill.x, "cross-table": mill.y}.get(move.slide, mill.z)
    return None


# --- what a cut leaves ---


def leaves_what(step: Step) -> Leaves:
    """Tell what the cuts of a step are followed by: a diameter, a length, what is still on it."""
    op = step.operations[-1]
    if op.verb in _ROUND or op.verb == "bore":
        return "bore" if op.verb == "bore" or op.inside else "diameter"
    if op.verb not in _FACES:
        return "depth"
    if any(one in step.remarks for one in _NO_SIZE):
        return "left on"
    return "size" if step.passes[-1].leaves > _SAME or _length(step) is not None else "left on"


def _length(step: Step) -> Measure | None:
    return next((m for m in step.measures if m.kind in _LENGTHS), None)


def _leaves(step: Step, lot: Pass, left: int) -> Millimetre:
    """Give the size after a cut with ``left`` cuts of its lot still to come."""
    what = leaves_what(step)
    if what == "depth" and step.operations[-1].verb == "thread":
        passes = step.passes
        done = sum(one.count * one.depth for one in passes[: passes.index(lot) + 1])
        return done - left * lot.depth
    way = {"diameter": 2.0, "bore": -2.0, "size": 1.0, "left on": 1.0, "depth": -1.0}[what]
    own = _length(step)
    base = own.aim if what == "size" and own is not None and _from_nought(step) else 0.0
    if lot.side_by_side:
        return base + lot.leaves
    return base + lot.leaves + way * left * lot.depth


def _from_nought(step: Step) -> bool:
    return abs(step.passes[-1].leaves) <= _SAME


def started_from(step: Step) -> Millimetre:
    """Give the size there is before the first cut; nought where the cuts leave no round."""
    if not step.passes or leaves_what(step) not in ("diameter", "bore"):
        return 0.0
    first = step.passes[0]
    off = first.depth if first.side_by_side else first.count * first.depth
    return first.leaves + (-2.0 if leaves_what(step) == "bore" else 2.0) * off


# --- as it stands on the card ---


def ladder_words(step: Step, units: Units, workshop: Workshop, look: str) -> LadderView | None:
    """Say the cuts of a step, one setting a line; ``look`` is what to look at before the last."""
    if not step.passes or not step.operations:
        return None
    found = rungs_of(step, workshop)
    if step.passes[-1].to_measured:
        views = _by_what_is_over(step, found, units, workshop)
    else:
        views = [_rung(one, step, units) for one in found]
        views[-1] = _by_reading(views[-1], found[-1], step, units, workshop)
        if any(one in step.remarks for one in MEASURED_FIRST):
            views.insert(0, _found(step, units))
    views += _sideways(step, units)
    if look:
        views[-1] = replace(views[-1], look=look)
    slide = found[-1].move
    told = along_words(slide) if slide is not None else ""
    return LadderView(
        letter="", heads=("cut", told, _HEADS[leaves_what(step)]), rungs=tuple(views)
    )


def _sideways(step: Step, units: Units) -> list[RungView]:
    """End with the last setting sideways, where it comes when all depths are cut."""
    if mill_words.SIDE_AFTER_DEPTHS not in step.remarks:
        return []
    last = [move for move in step.moves if move.slide != "knee"][-1]
    size = next((m for m in step.measures if m.kind in ("length", "width")), None)
    return [
        RungView(
            cuts="sideways, last",
            dial=": ".join((along_words(last).partition(",")[0], move_words(last, units)[1])),
            leaves="" if size is None else fixed(size.aim, units),
        )
    ]


def _rung(one: Rung, step: Step, units: Units) -> RungView:
    last = one.last == sum(lot.count for lot in step.passes)
    return RungView(
        cuts=_cuts(one, last=last),
        dial=_dial(one, units),
        leaves=_size(one.leaves, step, units) if one.lot.purpose != "spring" else "",
        boxes=() if last else _boxes(one, step),
    )


def _by_reading(
    view: RungView, one: Rung, step: Step, units: Units, workshop: Workshop
) -> RungView:
    """Tell the last cut of a step measured after each by what the reading then asks."""
    dial = dial_of(one.move, workshop) if one.move is not None else None
    each = any(remark in step.remarks for remark in MEASURED_EACH)
    if dial is None or one.move is None or one.move.by != "dial" or not each or one.last == 1:
        return view
    if one.first != one.last or one.lot.purpose != "finish":
        return view
    worth = plain(2 * division_travel(dial), units, places=3)
    return replace(view, dial=f"rest / {worth}")


def _cuts(one: Rung, *, last: bool) -> str:
    if one.lot.purpose == "spring":
        return "again"
    number = str(one.last) if one.first == one.last else f"{one.first}–{one.last}"
    return f"{number}, last" if last and one.last > 1 else number


def _dial(one: Rung, units: Units) -> str:
    """Say the setting: ``48 div each, to 3 turns + 36 div``."""
    if one.move is None:
        return f"{plain(one.lot.depth, units)}{' each' if one.last > one.first else ''}"
    _, to = move_words(one.move, units)
    if one.last == one.first:
        return to
    if one.lot.side_by_side:
        return f"{to} each"
    if not one.each:
        return f"{plain(one.lot.depth, units)} each, to {to}"
    return f"{divisions(one.each)}{THIN}div each, to {to}"


def _size(size: Millimetre, step: Step, units: Units) -> str:
    what = leaves_what(step)
    sign = "Ø" if what in ("diameter", "bore") else ""
    fitting = [m for m in step.measures if _of_the_cut(m, what)]
    own = next((m for m in fitting if what != "depth" or m.kind == "depth"), None)
    stated = own is not None and own.high > own.low
    places = places_of_limits(own.low, own.high) if own is not None and stated else 2
    if own is not None and own.gauge == "rule" and units == "mm":
        places = 1
    if what == "left on" and size < _SAME:
        return "clean"
    return sign + fixed(size, units, places=places)


def _of_the_cut(measure: Measure, what: Leaves) -> bool:
    if what in ("diameter", "bore"):
        return measure.kind in ("diameter", "bore")
    return measure.kind in _LENGTHS


def _boxes(one: Rung, step: Step) -> tuple[str, ...]:
    """Give what is written in after a cut: at both ends, or the size that tells the next."""
    both = tuple(m.where.removesuffix(" end") for m in step.measures if _at_this_cut(m, one))
    if both:
        return both
    each = any(one in step.remarks for one in MEASURED_EACH)
    return ("",) if each and one.lot.purpose == "finish" else ()


def _at_this_cut(measure: Measure, one: Rung) -> bool:
    return (
        bool(measure.where)
        and measure.when == "now"
        and measure.kind in ("diameter", "bore")
        and abs(measure.aim - one.leaves) < _NEAR
    )


def written_in_ladder(step: Step, workshop: Workshop) -> tuple[Measure, ...]:
    """Give the measures that have their boxes in the ladder of cuts."""
    count = sum(lot.count for lot in step.passes)
    early = [one for one in rungs_of(step, workshop) if one.last < count]
    return tuple(m for m in step.measures if any(_at_this_cut(m, one) for one in early))


def _found(step: Step, units: Units) -> RungView:
    """Begin with the size there is: measured, touched, and the dial set to 0 there."""
    return RungView(
        cuts="found", dial="0", leaves=f"Ø{plain(started_from(step), units)}",
        boxes=("",),
    )  # fmt: skip


def _by_what_is_over(
    step: Step, found: tuple[Rung, ...], units: Units, workshop: Workshop
) -> list[RungView]:
    """Say the cuts of a face of which only the blank in hand tells how much comes off."""
    own = _length(step)
    aim = _size(found[-1].lot.to_measured, step, units)
    over = f"found − {aim}"
    dial = dial_of(step.moves[0], workshop) if step.moves and step.moves[0].by == "dial" else None
    views = [RungView(cuts="over", dial=over, leaves="", boxes=("",))]
    if dial is not None:
        each = f"{plain(division_travel(dial), units, places=3)} each"
        views.append(RungView(cuts="div", dial=each, leaves="", boxes=()))
    last = found[-1].lot
    if len(found) > 1 and own is not None:
        most = max((one.lot for one in found[:-1]), key=lambda lot: lot.depth)
        each = (
            f"{divisions(most.divisions)}{THIN}div" if most.divisions else plain(most.depth, units)
        )
        left = _size(last.to_measured + last.depth, step, units)
        views.append(RungView(cuts="cuts", dial=f"{each} or less", leaves=left))
    return [*views, RungView(cuts="last", dial="just what is over", leaves=aim)]
