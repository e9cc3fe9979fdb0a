"""What the trade says beside a keyway: plain sentences in the order of the hands."""

from __future__ import annotations

from typing import Final, Literal, TypeAlias

Moment: TypeAlias = Literal["before", "touch", "while", "end", "after"]

AT_THE_START: Final = "table to the place from, below, cross-table to 0; lock both, and the quill"
SUNK: Final = (
    "at each depth: knee up to the figure, lock it: so it cuts down; unlock the table, run to the "
    "place to, back past from and on to it as it was first come to, lock; unlock the knee"
)
BY_THE_TOUCH: Final = (
    "last cut: to its figure, counted from the touch; the depth rod is too coarse to set it by, "
    "it only shows a blunder"
)
TRY_THE_KEY: Final = (
    "plug tried in the vice: go does not enter, cross-table half a division to each side of 0, "
    "each come to going away, from well toward; through at each, and try again"
)
OVER_THE_BAR: Final = (
    "last, out of the vice: caliper jaws on the floor of the keyway and the far side of the bar"
)
TRIED_FIRST: Final = (
    "First, vice empty: a slot in scrap of the metal, tried with the plug. No-go enters: the "
    "second cutter; enters again: stop, a smaller cutter, each side opened by half of what is "
    "wanting. Go does not enter: end of step {step}."
)

WHEN: Final[dict[str, Moment]] = {
    AT_THE_START: "touch",
    SUNK: "while",
    BY_THE_TOUCH: "end",
    TRY_THE_KEY: "after",
    OVER_THE_BAR: "after",
}
"""When a sentence is minded."""
