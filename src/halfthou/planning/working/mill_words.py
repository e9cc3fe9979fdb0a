"""What the trade says beside a step on the mill: plain sentences without figures."""

from __future__ import annotations

from typing import Final, Literal, TypeAlias

from halfthou.drawing.model import Surface
from halfthou.planning.axes import side_toward
from halfthou.planning.model import Operation

Moment: TypeAlias = Literal["before", "touch", "while", "end", "after"]

TOUCHED: Final = (
    "spindle stopped, cutter turned back by hand, knee up until the feeler just drags; feeler "
    "out, knee up by its thickness, dial to 0; knee down, table clear of the work"
)
TOUCHED_HIGHEST: Final = (
    "spindle stopped, cutter turned back by hand, knee up until it just scrapes the highest "
    "spot; dial to 0; knee down, table clear of the work"
)
KNEE_LOCKED: Final = (
    "at each depth, cutter clear beside the work: knee up to the figure, lock it, cut, unlock it"
)
ONE_DEPTH: Final = (
    "cutter clear beside the work: knee up to the figure in one, lock it; then the cuts go "
    "sideways"
)
ONE_HEIGHT: Final = (
    "cutter clear beside the work: knee up in one, past the whole height of the work as measured, "
    "lock it; then the cuts go sideways"
)
SIDE_AFTER_DEPTHS: Final = (
    "all depths at the first setting sideways; the last setting only at the full depth"
)
KNEE_ONCE: Final = "cutter clear beside the work: knee up to its figure, lock it"
WOUND_UP: Final = (KNEE_LOCKED, ONE_DEPTH, ONE_HEIGHT, KNEE_ONCE)
"""Remarks that lock the knee themselves, when it is wound up."""
LANES_INWARD: Final = "lane by lane from the open side in, every lane at one depth before the next"
NOT_CLEAN_ZERO: Final = (
    "not clean all over after the last: once more by what the last took; then that dial set back "
    "to the last figure, as this edge is the zero"
)
NOT_CLEAN: Final = "not clean all over after the last: once more by what the last took"
WHAT_IS_OVER: Final = (
    "measure it first: more on than these cuts take, cuts of the first depth until only the "
    "last is left"
)
ROUGHING_TO_TAKE: Final = (
    "measure it first: the roughing takes what is on, less what is left to the last cut, and "
    "never more; with no more on than that, the last cut only"
)
LEFT_TO_THE_LAST: Final = "measure before the last cut: it takes just what is still over"
NAMED: Final = "deburred, its name goes on the new face with a felt pen: {}"
CLEAR_BELOW: Final = "see that the drill goes clear of parallels, clamps and table"
CLEAR_BELOW_VICE: Final = "see that the drill goes clear of the parallels and the bed of the vice"
CHUCK_IN: Final = (
    "knee well down, table wound to the place and locked both ways, quill unlocked; drill "
    "chuck and drill in, knee up until the tip is just clear, locked"
)
ANOTHER_IN: Final = "tool changed with the knee down; up again just clear, locked"
KNEE_BACK: Final = "drill chuck out, quill up and locked, cutter in; knee up, touched anew"
SPOT_TOUCHED: Final = "depth from where the point just touches"
MOUTH_TOUCHED: Final = "depth from where the cone touches the edge all round"
NOSE_AT_FACE: Final = "depth from the reamer's nose level with the face"
ONE_BY_ONE: Final = "unlock, on to the next place, lock both ways again"
HEIGHT_LESS: Final = (
    "the jaws hide the foot: the last cut goes down from the top by the height as measured, less "
    "the height wanted"
)
AS_DEEP: Final = "last cut: to the dial figure the step before it was finished at, both alike"
HALF_BY_HALF: Final = (
    "a pen line across the middle; first the half clear of the clamps, all its cuts to the last, "
    "lane by lane, each run just over the line; then, one by one, never all loose at once, the "
    "clamps over on to the cut half, soft metal under them; then the other half with the same "
    "figures, knee and spindle untouched between"
)

CORNER: Final = (
    "spindle stopped, cutter turned back by hand, wound in until a slip of paper just drags at "
    "the highest corner; paper out, in by its thickness, dial to 0"
)
RUNS_OUT: Final = (
    "the end was squared to its size first: the last cut stops as the slant just runs out at its "
    "corner, no lower"
)
CLOCK_SQUARE: Final = (
    "this was the last slant: set the vice square again by clock on the fixed jaw"
)
RIM: Final = (
    "spindle stopped, knee clear: saw turned back by hand, wound in until its rim just drags a "
    "slip of paper against the face it enters; paper out, in by its thickness, that dial to 0; "
    "then clear of the work again"
)
UNDERSIDE: Final = "the height is that of the saw's under side; the depth of the slot is sideways"
SLOWEST: Final = "the mill turns no slower than this and the saw would like it: oil, a slow feed"
STALLS: Final = "no key in the saw: one that jams slips on its collars then"

WHEN: Final[dict[str, Moment]] = {
    CHUCK_IN: "before",
    ANOTHER_IN: "before",
    CLEAR_BELOW: "before",
    CLEAR_BELOW_VICE: "before",
    WHAT_IS_OVER: "before",
    ROUGHING_TO_TAKE: "before",
    STALLS: "before",
    TOUCHED: "touch",
    KNEE_ONCE: "touch",
    CORNER: "touch",
    UNDERSIDE: "touch",
    RIM: "touch",
    TOUCHED_HIGHEST: "touch",
    SPOT_TOUCHED: "touch",
    MOUTH_TOUCHED: "touch",
    NOSE_AT_FACE: "touch",
    LEFT_TO_THE_LAST: "end",
    NOT_CLEAN: "end",
    NOT_CLEAN_ZERO: "end",
    RUNS_OUT: "end",
    KNEE_BACK: "after",
    CLOCK_SQUARE: "after",
    HEIGHT_LESS: "end",
    AS_DEEP: "end",
}
"""When a sentence is minded; the others while cutting."""


def named(face: Surface, operation: Operation) -> tuple[str, ...]:
    """Say that a new face is marked with its name: every holding calls it by that."""
    if operation.stage == "rough":
        return ()
    return (NAMED.format(side_toward(face.direction).upper()),)
