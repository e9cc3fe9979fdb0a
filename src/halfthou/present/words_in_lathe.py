"""Work held in the lathe, put into words."""

from __future__ import annotations

from typing import Final

from halfthou.present.numbers import plain
from halfthou.present.words_held import (
    Held,
    back_words,
    copper_words,
    end_out,
    grip_words,
    packing_out,
)
from halfthou.units import Millimetre

_EASE: Final[Millimetre] = 0.02
"""How much larger than the work soft jaws are bored (usual practice)."""
_CLEAR: Final[Millimetre] = 1.5
"""How much larger than a bore the jaws' step is opened: its chamfer shows (usual practice)."""
_SMALLER: Final[Millimetre] = 2.5
"""How much smaller than the work soft jaws stand: their step then bears (usual practice)."""
_BEARS: Final[Millimetre] = 2.0
"""How much smaller than the work the step's inside is at most: past a chamfer (usual practice)."""
_AT: Final[Millimetre] = 1e-3


def soft_jaws_words(held: Held) -> str:
    """Say how work is held in soft jaws."""
    grip = grip_words(held, f"in soft jaws bored {held.size}", "their step")
    return f"{_bored_jaws(held)} {grip} {held.out}"


def _bored_jaws(held: Held) -> str:
    """Say how the jaws are bored: on a ring, to the work as it measures, deep enough, cleared."""
    size = f"the {held.size} as it measures and {plain(_EASE, held.units)} more"
    if held.scheme.inside:
        return (
            "The jaws first, pulled outward on a ring laid round them: knife tool, turn them to "
            f"{held.size} as it measures and {plain(_EASE, held.units)} less, {held.in_jaws} long."
        )
    step = _step_inside(held)
    left = f", the step inside {step}" if step else ""
    corner = "; undercut the corner" if held.scheme.seats else ""
    return (
        "The jaws first: a ring gripped at their back, so large that they stand "
        f"{plain(_SMALLER, held.units)} smaller than the work; boring tool, bore them to {size}, "
        f"{held.in_jaws} deep{left}{corner}; break their edges."
    )


def _step_inside(held: Held) -> str:
    """Give what the jaws' step is open to: clear of a bore, bearing past the work's chamfer."""
    work = held.scheme.grip_size
    seats = {s.point[0] for s in held.part.surfaces if s.name in held.scheme.seats}
    holes = [
        2 * s.high[1]
        for s in held.part.surfaces
        if s.inside and any(min(abs(s.low[0] - x), abs(s.high[0] - x)) < _AT for x in seats)
    ]
    if not holes or max(holes) + _CLEAR >= work:
        return ""
    least, most = max(max(holes) + _CLEAR, work - _SMALLER), work - _BEARS
    if least >= most:
        return f"at least Ø{plain(least, held.units)}"
    return f"between Ø{plain(least, held.units)} and Ø{plain(most, held.units)}"


def four_jaw_words(held: Held) -> str:
    """Say how work is held in the four-jaw."""
    against = "the jaw steps or equal packing"
    grip = grip_words(held, "in the four-jaw", against)
    return f"{grip} {held.out}{copper_words(held)}{packing_out(held)}"


def collet_words(held: Held) -> str:
    """Say how work is held in a collet."""
    return f"{grip_words(held, f'in the {held.size} collet', 'its stop')} {held.out}"


def centres_words(held: Held) -> str:
    """Say how work is held between centres."""
    tail = end_out(held.scheme)
    driven = "left" if tail == "right" else "right"
    where = f"driver on the {driven} end, {tail} end at the tailstock"
    return f"Between centres, {where}: no shake, no bind."


def mandrel_words(held: Held) -> str:
    """Say how work is held on a mandrel."""
    return (
        f"On a stub mandrel turned to a light push fit in {held.gripped}"
        f"{back_words(held, 'its shoulder')}; nut and washer. "
        f"{end_out(held.scheme).capitalize()} end out."
    )


def faceplate_words(held: Held) -> str:
    """Say how work is held on the faceplate."""
    seat = f"{held.seat} flat on it, " if held.seat else ""
    return f"On the faceplate, {seat}{end_out(held.scheme)} end out. Paper between."


def cross_slide_words(held: Held) -> str:
    """Say how work is bolted to the cross-slide, to be bored by a bar between centres."""
    seat = f", {held.seat} down" if held.seat else ""
    return (
        f"Bolted to the cross-slide in place of the top-slide{seat} on packing, until the bar, "
        "held between centres and driven, runs down the middle of the core. Lock the cross-slide."
    )
