"""The kinds of line on a sheet: colour, weight for print at real size, dashes, filling.

Nothing is said by colour alone: metal to come off is hatched the other way from a section, a
tool is the only thing with a broad arrow, hidden edges are dashed and centre lines chained.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.units import Millimetre

Style: TypeAlias = Literal[
    "metal",
    "silhouette",
    "outline",
    "edge",
    "fine edge",
    "thread",
    "scribed",
    "pop",
    "small outline",
    "hidden",
    "section",
    "section hatch",
    "section arrow",
    "removed",
    "removed hatch",
    "removed edge",
    "removed line",
    "small removed",
    "small metal",
    "holding",
    "holding line",
    "holding moved",
    "note line",
    "note dot",
    "soft copper",
    "tool",
    "tool line",
    "tool number",
    "ghost",
    "ghost feed",
    "feed",
    "dimension",
    "arrow",
    "leader dot",
    "balloon",
    "centre",
    "zero",
    "zero fill",
    "zero line",
    "finding",
    "finding number",
    "frame",
    "frame now",
    "paper",
    "words",
    "quiet words",
    "dimension words",
    "zero words",
    "tool words",
    "finding words",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """How one kind of mark is drawn. ``width`` 0 draws no line; ``fill`` ``none`` no filling."""

    stroke: str = "none"
    width: Millimetre = 0.0
    dash: tuple[Millimetre, ...] = ()
    fill: str = "none"
    round_ends: bool = False


_BLACK: Final = "#16181c"
_NAVY: Final = "#0d2f66"
_BLUE: Final = "#1a56a8"
_RED: Final = "#a80f1c"
_ORANGE: Final = "#b8500c"

INKS: Final[dict[Style, Ink]] = {
    "metal": Ink(fill="#fbfbfa"),
    "silhouette": Ink(fill="#ffffff"),
    "outline": Ink(stroke=_BLACK, width=0.5, round_ends=True),
    "edge": Ink(stroke=_BLACK, width=0.3, round_ends=True),
    "fine edge": Ink(stroke=_BLACK, width=0.18, round_ends=True),
    "thread": Ink(stroke=_BLACK, width=0.18),
    "small outline": Ink(stroke=_BLACK, width=0.22, round_ends=True),
    "scribed": Ink(stroke=_ORANGE, width=0.3),
    "pop": Ink(fill=_ORANGE),
    "hidden": Ink(stroke="#4a4f57", width=0.22, dash=(1.6, 0.8)),
    "section": Ink(fill="#f3f3ee"),
    "section hatch": Ink(stroke="#5d6168", width=0.15),
    "section arrow": Ink(fill=_BLACK),
    "removed": Ink(fill="#fde3c8"),
    "removed hatch": Ink(stroke="#d9772b", width=0.2),
    "removed edge": Ink(stroke=_ORANGE, width=0.25, dash=(1.4, 0.6)),
    "removed line": Ink(stroke=_ORANGE, width=0.2),
    "small removed": Ink(stroke="#e8791c", width=0.45, fill="#f9a95c"),
    "small metal": Ink(fill="#dcdfe4"),
    "holding": Ink(stroke="#6b7688", width=0.25, fill="#e2e7ee"),
    "holding line": Ink(stroke="#6b7688", width=0.2),
    "note line": Ink(stroke="#4a4f57", width=0.15),
    "note dot": Ink(fill="#4a4f57"),
    "holding moved": Ink(stroke="#6b7688", width=0.25, dash=(1.6, 0.8)),
    "soft copper": Ink(stroke="#8a5a33", width=0.2, fill="#dcae8a"),
    "tool": Ink(stroke=_BLUE, width=0.3, fill="#cfe1f8"),
    "tool line": Ink(stroke=_BLUE, width=0.22),
    "tool number": Ink(stroke=_BLUE, width=0.22, fill="#ffffff"),
    "ghost": Ink(stroke=_BLUE, width=0.2, dash=(1.3, 0.6), fill="#f6f9fd"),
    "ghost feed": Ink(stroke=_BLUE, width=0.18, fill="#ffffff"),
    "feed": Ink(fill=_BLUE),
    "dimension": Ink(stroke=_NAVY, width=0.18),
    "arrow": Ink(fill=_NAVY),
    "leader dot": Ink(fill=_NAVY),
    "balloon": Ink(stroke=_NAVY, width=0.22, fill="#ffffff"),
    "centre": Ink(stroke="#5a606a", width=0.18, dash=(5.0, 0.9, 0.7, 0.9)),
    "zero": Ink(stroke=_RED, width=0.3),
    "zero line": Ink(stroke=_RED, width=0.18),
    "zero fill": Ink(fill=_RED),
    "finding": Ink(stroke=_RED, width=0.45),
    "finding number": Ink(stroke=_RED, width=0.25, fill="#ffffff"),
    "frame": Ink(stroke="#9aa1ab", width=0.2),
    "frame now": Ink(stroke=_BLUE, width=0.6),
    "paper": Ink(fill="#ffffff"),
    "words": Ink(fill=_BLACK),
    "quiet words": Ink(fill="#4a4f57"),
    "dimension words": Ink(fill=_NAVY),
    "zero words": Ink(fill=_RED),
    "tool words": Ink(fill="#123f7d"),
    "finding words": Ink(fill=_RED),
}

LINES: Final[frozenset[Style]] = frozenset(style for style, ink in INKS.items() if ink.width)
"""Styles that draw lines: a text may not stand over one."""
