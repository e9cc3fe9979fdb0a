"""A travel told in the turns and divisions of the slide's own dial."""

from __future__ import annotations

import math
from typing import Final, Literal, TypeAlias

from halfthou.planning.worked import Move, Slide
from halfthou.units import Millimetre
from halfthou.workshop.model import Dial

Sense: TypeAlias = Literal["in", "out", "left", "right", "down", "up", "away", "toward"]
Rounding: TypeAlias = Literal["near", "short"]
READABLE: Final = 0.5
"""A dial can be read to half a division (usual practice)."""


def division_travel(dial: Dial) -> Millimetre:
    """Give what the slide moves for one division: half of it where the dial reads diameter."""
    return dial.division / 2 if dial.reads == "diameter" else dial.division


def on_dial(travel: Millimetre, dial: Dial, *, rounding: Rounding = "near") -> Millimetre:
    """Give the travel nearest to the wanted one (or just short of it) that the dial can show."""
    step = division_travel(dial) * READABLE
    steps = travel / step
    whole = math.floor(steps + 1e-6) if rounding == "short" else math.floor(steps + 0.5 + 1e-9)
    return whole * step


def turns_and_divisions(travel: Millimetre, dial: Dial) -> tuple[int, float]:
    """Tell whole turns of the handle, and divisions after them.

    Examples
    --------
    >>> from halfthou.workshop.model import Dial
    >>> dial = Dial(name="x", lead=2.0, division=0.02, reads="travel", backlash=0.2)
    >>> turns_and_divisions(19.05, dial)
    (9, 52.5)
    """
    shown = on_dial(abs(travel), dial)
    turns = math.floor(shown / dial.lead + 1e-9)
    divisions = round((shown - turns * dial.lead) / division_travel(dial) / READABLE) * READABLE
    around = dial.lead / division_travel(dial)
    if divisions >= around - 1e-9:
        return turns + 1, 0.0
    return turns, divisions


def move(
    slide: Slide,
    travel: Millimetre,
    dial: Dial | None,
    *,
    sense: Sense,
    readout: bool = False,
    rounding: Rounding = "near",
) -> Move:
    """Tell a move of a slide from its zero, by its dial, the readout, or failing both a rule.

    ``sense`` says which way; ``to`` is how far, whatever the sign of ``travel``.
    """
    far = abs(travel)
    if readout or dial is None:
        return Move(
            slide=slide, to=far, turns=0, divisions=0.0, reads="travel", sense=sense,
            by="readout" if readout else "rule",
        )  # fmt: skip
    shown = on_dial(far, dial, rounding=rounding)
    turns, divisions = turns_and_divisions(shown, dial)
    return Move(
        slide=slide, to=shown, turns=turns, divisions=divisions, reads=dial.reads, sense=sense
    )
