"""The red mark where the dials are set to zero, and notes that find their own place."""

from __future__ import annotations

import math
from functools import partial
from typing import Final

from halfthou.present.picture.crowding import Candidate, these
from halfthou.present.picture.ink import Style
from halfthou.present.picture.lettering import width_of
from halfthou.present.picture.sheet import SMALL_TEXT, Box, Disc, Mark, Path, Words, box_of_words
from halfthou.shapes.flat import Point2
from halfthou.units import Millimetre

ZERO_RADIUS: Final[Millimetre] = 1.7
_LEADS: Final = (5.0, 8.0, 11.0, 15.0, 20.0, 26.0, 33.0)
_TURNS: Final = tuple(
    math.radians(angle) for angle in (50, 130, -50, -130, 25, 155, -25, -155, 75, 105)
)


def zero_mark(at: Point2) -> tuple[Mark, ...]:
    """Draw the zero: a ring, two of its quarters filled, with a cross."""
    x, y = at
    r = ZERO_RADIUS
    quarters = tuple(_quarter(at, turn) for turn in (0.0, math.pi))
    cross = (((x - r - 1.2, y), (x + r + 1.2, y)), ((x, y - r - 1.2), (x, y + r + 1.2)))
    return (
        Disc(centre=at, radius=r, style="paper"),
        Path(lines=quarters, style="zero fill", closed=True),
        Disc(centre=at, radius=r, style="zero"),
        Path(lines=cross, style="zero"),
    )


def zero_box(at: Point2) -> Box:
    """Return the paper the mark covers, its cross apart."""
    x, y = at
    reach = ZERO_RADIUS + 0.4
    return Box(left=x - reach, right=x + reach, top=y - reach, bottom=y + reach)


def _quarter(at: Point2, start: float) -> tuple[Point2, ...]:
    arc = (start + n * math.pi / 12 for n in range(7))
    return (
        at,
        *((at[0] + ZERO_RADIUS * math.cos(t), at[1] - ZERO_RADIUS * math.sin(t)) for t in arc),
    )


def note_ways(
    text: str,
    *,
    at: Point2,
    style: Style = "zero words",
    line: Style = "zero line",
    clear: float = 3.2,
) -> list[Candidate]:
    """List the ways to write a short note near a point, with a thin line to it."""
    found: list[Candidate] = []
    for rank, turn in enumerate(_TURNS):
        for lead in _LEADS:
            knee = (at[0] + lead * math.cos(turn), at[1] - lead * math.sin(turn))
            start = (at[0] + clear * math.cos(turn), at[1] - clear * math.sin(turn))
            side = 1.0 if math.cos(turn) > 0 else -1.0
            cost = 0.2 * lead + 0.15 * rank
            words = _beside_its_line(text, knee, side, style)
            found.append(
                Candidate(
                    draw=partial(these, Path(lines=((start, knee),), style=line), words),
                    boxes=(box_of_words(words),),
                    lines=((start, knee),),
                    witness=(),
                    cost=cost,
                )
            )
    return found


def _beside_its_line(text: str, knee: Point2, side: float, style: Style) -> Words:
    long = width_of(text, size=SMALL_TEXT)
    foot = knee[0] + 0.8 if side > 0 else knee[0] - 0.8 - long
    return Words(at=(foot, knee[1] + 1.0), text=text, style=style, size=SMALL_TEXT)
