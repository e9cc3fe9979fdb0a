"""When each remark of planning is minded, and how few words say it at the bench.

A remark may have several lines, each with its own moment. The order of the table is the order of
the hands within a moment. A line may name figures of its step in braces; where the step has not
the figure the remark is said in planning's own words.
"""

from __future__ import annotations

from typing import Final, Literal, TypeAlias

from halfthou.planning.working import keyway_words, mill_words, words
from halfthou.planning.working.cast_steps import IN_THE_CHUCK, MIDDLE_OF_THE_FACE
from halfthou.planning.working.sawing import PIECE_HELD

Moment: TypeAlias = Literal["before", "touch", "while", "end", "after"]
Lines: TypeAlias = tuple[tuple[Moment, str], ...]

MOMENTS: Final[tuple[Moment, ...]] = ("before", "touch", "while", "end", "after")
"""Made ready; touched and zeroed; the cuts themselves; the end of the cut; measured."""
OWN: Final = ""
"""Planning's own words."""

_MEASURED: Final[Lines] = (
    ("touch", "measure the {start}; touch it, cross-slide dial to 0"),
    (
        "touch",
        (
            "found larger: every setting {a_division} {more} for each {worth}; "
            "smaller: {a_division} {less}"
        ),
    ),
)
MEASURED_FIRST: Final = (
    words.FROM_MEASURED,
    words.FROM_MEASURED_BORE,
    words.FROM_MEASURED_ON_DIAMETER,
    words.FROM_MEASURED_BORE_ON_DIAMETER,
)
"""Remarks of a step that begins with measuring what there is."""
MEASURED_EACH: Final = (words.ALIKE, words.ALIKE_ON_DIAMETER)
"""Remarks of a step that is measured after every finishing cut."""
SAID: Final[dict[str, Lines]] = {
    **{text: ((moment, OWN),) for text, moment in mill_words.WHEN.items()},
    **{text: ((moment, OWN),) for text, moment in keyway_words.WHEN.items()},
    keyway_words.AT_THE_START: (
        ("before", "table to {starts}, cross-table to 0; lock both, and the quill"),
    ),
    keyway_words.SUNK: (
        (
            "while",
            (
                "at each depth: knee up to the figure, lock it: so it cuts down; unlock the "
                "table, run to dial reading {ends} (travel {travel}), back past the start, "
                "coming {coming} to {starts}, lock; unlock the knee"
            ),
        ),
    ),
    mill_words.ONE_HEIGHT: (
        (
            "while",
            (
                "cutter clear beside the work: knee up in one by its whole height as measured + "
                "{below} ({high} gives {knee_up}), lock it; then the cuts go sideways"
            ),
        ),
    ),
    mill_words.ROUGHING_TO_TAKE: (
        (
            "before",
            (
                "first: measured \N{MINUS SIGN} {left_over} = roughing to take, / {a_knee} = div, "
                "in cuts no deeper than these, never more in all; {left_over} or under: the last "
                "cut only"
            ),
        ),
    ),
    mill_words.HEIGHT_LESS: (
        (
            "end",
            (
                "the jaws hide the foot: last cut, knee up (height as measured \N{MINUS SIGN} "
                "{stays}) / {a_knee} = div; {whole} gives {knee_up}"
            ),
        ),
    ),
    mill_words.NOT_CLEAN: (("end", "not clean all over after the last: {last_cut} more"),),
    mill_words.NOT_CLEAN_ZERO: (
        (
            "end",
            (
                "not clean all over after the last: {last_cut} more, then that dial set back to "
                "the last figure: this edge is the zero"
            ),
        ),
    ),
    # --- made ready ---
    PIECE_HELD: (("before", OWN),),
    words.PLUG: (("before", "make the plug pair first: its two ends are the two limits"),),
    words.CENTRE_UP: (("before", OWN),),
    words.SMALL_END: (("before", OWN),),
    words.SMALL_END_SQUARE: (("before", OWN),),
    words.EDGE_BY_JAWS: (("before", OWN),),
    words.EDGE_AT_CENTRE: (
        ("before", "no more of the edge past the face than the chamfer: clear of the centre"),
    ),
    words.ZERO_RAKE: (("before", OWN),),
    mill_words.SLOWEST: (("before", OWN),),
    words.DULLED: (("before", OWN),),
    words.SLOT_DRILL: (("before", "a slot drill, not an end mill: it cuts down into the solid"),),
    words.TAPER_SHANK: (("before", OWN),),
    words.REAMER_SHANK: (("before", OWN),),
    "tool square to the work by the gauge, at centre height": (("before", OWN),),
    "tool exactly at centre height, or the taper is not straight": (("before", OWN),),
    "set the top-slide over by the clock along a parallel bar, and try it before the last cut": (
        ("before", OWN),
    ),
    words.OTHER_CORNER: (("before", "turn the tool round, its edge into the mouth"),),
    words.HOLDER_CLEAR: (("before", "see the holder clear the larger diameter"),),
    words.CHUCK_CLEAR: (("before", OWN),),
    words.BLIND_IN_BAR: (("while", OWN),),
    words.CLEAR_OF_JAWS: (("before", "see the cutter clear jaws, parallels and packing"),),
    words.BED_STOP: (
        ("before", "bed stop clamped just past the last figure, the tool short of the jaws"),
    ),
    words.BOTTOMING: (("before", OWN),),
    words.WHEELS_HUNG: (("before", OWN),),
    words.TAP_IN_SPINDLE: (("before", OWN),),
    "started square with the tap held in the spindle, turned by hand": (("before", OWN),),
    words.MEASURE_BEFORE: (
        ("before", "length measured before gripping: what is over {aim} comes off"),
    ),
    "lengths are of the tool's left corner: touch the zero face with it": (
        ("before", "touch the zero face with the tool's left corner: lengths are its"),
    ),
    # --- touched ---
    words.FROM_FACE: (("touch", "touch the face, top-slide dial to 0"),),
    words.FROM_TOUCH_ONCE: (("touch", "touch the {start}, cross-slide dial to 0"),),
    words.FROM_TOUCH: (("touch", "touch the {start}, cross-slide dial to 0"),),
    **dict.fromkeys(MEASURED_FIRST, _MEASURED),
    "touch the corner, then feed on by the leg of the chamfer": (
        ("touch", "touch the corner, then on by {leg}"),
    ),
    "touch the edge, then on by the leg of the chamfer": (("touch", OWN),),
    words.TIP_AT_FACE: (("touch", "depth from the tip level with the face, rule across it"),),
    words.POINT_TOUCHES: (("touch", "depth from where the point just touches"),),
    words.REAMER_NOSE: (("touch", "depth from the nose level with the face"),),
    words.HIGHEST: (("touch", "depth from the highest spot touched"),),
    words.LANES_FROM_MIDDLE: (
        ("touch", "lanes from the middle of the work: cutter over it by rule, that dial to 0"),
        ("while", "every lane at each depth before the next, its slide locked"),
    ),
    words.OWN_ZERO: (("touch", OWN),),
    words.FROM_MAJOR: (("touch", "touch the {start} with the tip, cross-slide dial to 0"),),
    words.TIP_AT_THE_FACE: (("touch", "tip level with the face by eye, saddle dial to 0"),),
    words.TOUCH_THE_CORNER: (("touch", "touch the corner, top-slide dial to 0; on by {leg}"),),
    words.LEFT_CORNER: (
        ("before", "touch the zero face with the tool's left corner: lengths are its"),
    ),
    words.LEFT_CORNER_PARTING: (("before", OWN),),
    words.CAUGHT: (("before", OWN),),
    words.CAUGHT_SOLID: (("before", OWN),),
    words.CORNER_AT_SHOULDER: (
        ("before", "touch the zero face with the tool's left corner: lengths are its"),
        ("while", "last plunge by touch: the corner just at the shoulder, whatever the dial"),
    ),
    # --- cutting ---
    words.FEED_AGAINST: (("while", "feed against the cutter: the other way snatches"),),
    words.ONE_WAY: (("while", "every place from the same side; gone past, back and again"),),
    words.RIGHT_ACROSS: (("while", "right across, clear of the work at both ends"),),
    words.LANES: (("while", "every lane at each depth before the next, its slide locked"),),
    words.OUTSIDE_IN: (("while", OWN),),
    words.SPEED_UP: (("while", "below {below} change to {faster} rev/min"),),
    words.LONG_BAR: (("while", "the bar is far out: light cuts, and gone through twice"),),
    words.STOP_SHORT: (("while", "feed out at {out}: short of the shoulder, finished later"),),
    words.COME_NEAR: (
        ("while", "feed out at {out}, short of the shoulder"),
        (
            "end",
            (
                "last cut: lock the saddle there, unlock the top-slide, touch the shoulder with "
                "it, dial to 0"
            ),
        ),
        (
            "end",
            (
                "measure; on by the top-slide what the length wants, in two or three cuts, "
                "cross-slide out each time; lock it again"
            ),
        ),
    ),
    words.LEFT_LONG: (("while", "feed out at {out}: the shoulder is left long"),),
    words.BY_WHAT_IT_IS_OVER: (
        (
            "end",
            (
                "last cut: lock the saddle there, unlock the top-slide, touch the shoulder with "
                "it, dial to 0"
            ),
        ),
        (
            "end",
            (
                "length from its own end, that toward the headstock: on by the top-slide "
                "exactly what that is over, "
                "cross-slide out; measure again; lock it again"
            ),
        ),
    ),
    words.FEED_OUT: (("while", "feed out at {out}, by hand to {stop}"),),
    words.THROUGH_BY_HAND: (
        ("while", "feed out 1 mm before {out}, by hand to it: past the bore's end"),
    ),
    words.BLIND_BORE: (("while", "feed out at {out}, by hand to {stop}"),),
    words.ROUGHED_SHOULDER: (
        ("while", "feed out at {out}, by hand to the shoulder as roughed"),
        ("while", "last cut only: on to {stop}"),
    ),
    words.FULL_WIDTH: (("while", "past its end: no lip left there"),),
    words.BAR_GOES_ON: (("while", "past where it is parted: the bar goes on"),),
    words.TO_THE_JAWS: (
        ("before", "saddle at the stop: turn the work by hand past each jaw"),
        ("while", "the full width: by hand to just clear of the jaws"),
    ),
    words.LIP_LEFT: (
        ("before", "saddle at the stop: turn the work by hand past each jaw"),
        ("while", "by hand to {stop}, clear of the jaws: the other side's facing takes the lip"),
    ),
    words.ALIGNED: (),  # the boxes of its first cut say so
    **dict.fromkeys(
        MEASURED_EACH,
        (
            (
                "while",
                "measure after each cut; last: rest, its reading to the size, / {worth} = div on",
            ),
        ),
    ),
    words.STOP_FOR_ABRASIVE: (
        ("while", "stop at this figure: fine abrasive takes the rest when all else here is cut"),
    ),
    words.STRIP: (("while", OWN),),
    words.LAP: (("while", OWN),),
    words.LAP_BLIND: (("while", OWN),),
    words.SPRING: (
        ("while", "spring shows: through once more at the same setting, before the last cut only"),
    ),
    words.CLEAR_CHIPS: (("while", "clear the chips at every diameter of depth"),),
    words.HAND_TIGHT: (
        ("while", ("draw the tailstock up part-way: the hole is deeper than it travels")),
    ),
    words.REAM: (("while", "once in and out, turning forward; never turned backward"),),
    words.SIDE_BY_SIDE: (("while", OWN),),
    words.LEG_AFTER: (("while", "deeper than drawn: opening the hole takes the rest"),),
    words.BURR: (("end", "it throws a burr into the bore: the reamer once more by hand"),),
    words.STARTED_SQUARE: (("while", OWN),),
    words.DIE: (("while", OWN),),
    words.BACK_OFF: (("while", "back off every half turn"),),
    words.TAPS_THROUGH: (("while", OWN),),
    words.TAPS_BLIND: (("while", OWN),),
    words.MOUTH: (("while", "just wider than the thread: no burr from the tap"),),
    words.NOT_OPENED: (("while", "half-nut stays shut to the end: foreign pitch"),),
    words.OPENED: (("while", "the half-nut may be opened and closed anywhere"),),
    words.DIAL_MARKS: (("while", "half-nut only at the same mark of the thread dial"),),
    words.START_CLEAR: (("while", OWN),),
    words.SADDLE_FREE: (("before", "saddle's lock off before the half-nut goes in"),),
    words.IN_UNDERCUT: (("while", OWN),),
    words.BY_MANDREL_HANDLE: (
        ("while", "tip stops in the undercut: last turns by the mandrel handle, belt slack"),
    ),
    words.RUN_OUT_THREAD: (("while", "no undercut: draw the tool out always at one place"),),
    words.RUN_BACK: (
        (
            "while",
            (
                "each cut's end: tool out, stop, back by the mandrel handle, in past the "
                "backlash to the next"
            ),
        ),
    ),
    "only until the drill has a cone to start in": (("while", OWN),),
    words.WIDEN: (("while", OWN),),
    # --- the end ---
    words.CLEAN: (("end", "clean right across, no pip left at the centre"),),
    words.NOT_CLEAN: (
        ("end", "not clean: a little more at a time; see the length the next end asks"),
    ),
    words.CLEAN_TO_HOLE: (("end", "clean right across to the hole"),),
    words.FACE_OUT: (("end", "saddle locked, cross-slide out past the rim: faces the shoulder"),),
    words.FACE_FLOOR: (("end", "saddle locked, cross-slide to the middle hole: faces the floor"),),
    words.WHEELS_OFF: (("after", OWN),),
    words.TRY_NUT: (
        ("end", "from nine tenths deep try the nut each cut; stop when it runs"),
        ("end", "still tight at full depth: 1 div at a time, at most 3, then look at the tool"),
    ),
    words.IN_BY_WHAT_IS_OVER: (
        ("end", "stop at the first setting, measure across, in by what is over"),
    ),
    # --- measured ---
    words.SQUARED: (("after", "try it with a square from the face at the fixed jaw"),),
    words.FOLLOWS: (
        ("after", "length from the other end: here it is the overall measured, less that"),
    ),
    words.CENTRE_BACK: (("after", "to measure: spindle stopped, centre back, then up as it was"),),
    words.LIFT_OUT: (
        (
            "after",
            (
                "to measure: spindle stopped, out of the centres, back with the driver in the "
                "same slot"
            ),
        ),
    ),
    words.LIFT_OUT_NUT: (
        (
            "end",
            (
                "to try it: spindle stopped, half-nut in, out of the centres, back with the "
                "driver in the same slot"
            ),
        ),
    ),
    words.TO_THE_MATE: (("after", OWN),),
    words.PRESSED: (("after", OWN),),
    words.RUNS_FREE: (("after", OWN),),
    words.CLOSES_IN: (("after", OWN),),
    words.PRESSED_BORE: (("after", OWN),),
    words.STARTED_BY_HAND: (("after", OWN),),
    words.MATE_SLIDES: (("after", OWN),),
    words.AFTER_OUT: (("after", "the length the chuck hides: measure when it is out"),),
    words.NOT_JUDGED: (("after", "no gauge here decides it: see the cover sheet"),),
}
"""The lines of every remark that has its own; the rest is said while cutting, in its own words."""
_BEGINNING: Final[dict[str, Lines]] = {
    "turn the vice": (("before", OWN),),
    mill_words.NAMED.partition("{")[0]: (("after", OWN),),
    "bigger at the tailstock end": (("while", OWN),),
    words.SHIFTED: (
        (
            "while",
            (
                "set over: the same cut again, measure; tool left there, dial to "
                "({start} − reading) / {worth} div: the table holds again, as printed"
            ),
        ),
    ),
    IN_THE_CHUCK.partition("{")[0]: (("before", OWN),),
    MIDDLE_OF_THE_FACE.partition("{")[0]: (("touch", OWN),),
    "belt to ": (("end", OWN),),
    "unlock the ": (("before", OWN),),
}
"""Remarks with a figure of their own, by how they begin."""

_ORDER: Final = {text: place for place, text in enumerate(SAID)}


def lines_of(remark: str) -> Lines:
    """Give the lines of a remark, each with its moment; its own words where none are fewer.

    >>> lines_of("back off every half turn to break the chip")
    (('while', 'back off every half turn'),)
    >>> lines_of("stood on three jacks")
    (('while', 'stood on three jacks'),)
    """
    begun = next((one for one in _BEGINNING if remark.startswith(one)), "")
    found = SAID.get(remark, _BEGINNING.get(begun, (("while", OWN),)))
    return tuple((moment, said or remark) for moment, said in found)


def place_of(remark: str) -> int:
    """Give the place of a remark in the order of the hands; an unknown one comes last.

    The belt is changed before the shoulder is faced, not after.
    """
    return -1 if remark.startswith("belt to ") else _ORDER.get(remark, len(_ORDER))
