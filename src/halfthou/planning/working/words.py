"""What the trade says beside a step: plain sentences without figures."""

from __future__ import annotations

from typing import Final

from halfthou.cutting.metals import Metal
from halfthou.planning.model import Operation

EYES: Final = "glasses on; no gloves, no loose sleeve"
TURN_BY_HAND: Final = (
    "turn the work once by hand before switching on: jaws clear of bed, saddle and tool"
)
KEY_OUT: Final = "key out of the chuck"
SCREWED: Final = "screwed nose: no power reverse, no back-turning under cut, brake gently"
BOARD: Final = "board on the bed before a heavy chuck goes on or comes off"
BELTS: Final = "isolate the machine before changing belts"
WHIPS: Final = "bar out of the spindle's back whips: support it, or cut it shorter"
CENTRE: Final = "ease the centre as the work warms"
BALANCE: Final = "balance the plate, start slow, stand out of line with the rim"
DRIVER: Final = "see that the driver clears the saddle and cannot catch a sleeve"
IN_THE_BORE: Final = "no finger, rag or emery in the bore while it turns"
PARTING: Final = "keep fingers from under the piece as it comes off"
SAW_CLIMBS: Final = "a slitting saw climbs: feed against its turning, everything locked"
MILL_HELD: Final = "nothing loose on the table; brush the swarf away with the spindle stopped"
GRABS: Final = "the drill grabs as it breaks through: ease the feed"

FEED_AGAINST: Final = "against the cutter's turning: with backlash the other way snatches"
ONE_WAY: Final = "come up to every place from the same side; gone past, wind back and come again"
CUTTER_GOES: Final = (
    "right and away are ways of the cutter over the work; the table goes the other way"
)
CLEAR_OF_JAWS: Final = (
    "see before cutting that the cutter passes clear of jaws, parallels and packing"
)
IN_BY_WHAT_IS_OVER: Final = (
    "stop at the first setting, measure across, then in by what that is over"
)
SLOT_DRILL: Final = "a slot drill, not an end mill: it has to cut down into the solid"
MOUTH: Final = "just wider than the thread, so that the tap throws up no burr"
TAPS_THROUGH: Final = "taper, second and plug tap in turn, each until full thread is through"
TAPS_BLIND: Final = "taper, second and plug tap in turn, the plug to the bottom"
TAP_STILL: Final = (
    "isolate the machine, spindle in neutral, quill free: the tap is started by hand"
)
ALIKE: Final = (
    "last two cuts alike, measuring after each; the last goes on by what the reading asks"
)
ALIKE_ON_DIAMETER: Final = (
    "last two cuts alike, measuring after each; the dial reads the diameter: put on what is left"
)
SPRING: Final = (
    "before the last cut, and never after it, run through once more at the same setting if the "
    "spring shows"
)
BACK_OFF: Final = "back off every half turn to break the chip"
CLEAR_CHIPS: Final = "draw back and clear the chips at every diameter of depth"
REAM: Final = "once in and once out, turning forward all the while; never turned backward"
STARTED_SQUARE: Final = "taper tap first, held square by the centre; then second and plug"
TAP_IN_SPINDLE: Final = "tap held in the spindle, still over its hole, and turned by hand"
BOTTOMING: Final = "no room below for the tap's lead: finish the thread with a bottoming tap"
DIE: Final = (
    "die held square by the tailstock, chuck turned by hand; opened first, then closed to fit"
)
NOT_OPENED: Final = (
    "do not open the half-nut until the thread is done: the pitch is foreign to the leadscrew"
)
OPENED: Final = (
    "the half-nut may be opened and closed anywhere: the pitch goes into the leadscrew's"
)
DIAL_MARKS: Final = "open the half-nut only at the same mark of the thread dial"
ZERO_RAKE: Final = "no top rake, or it digs in"
DULLED: Final = "lips of the drill dulled with a stone, or it grabs"
BREAK_EDGES: Final = "break every edge this set-up leaves sharp, unless drawn sharp"
RIGHT_ACROSS: Final = "run right across, clear of the work at both ends"
LANES: Final = (
    "the cutter is narrower than the face: every lane at each depth before the next, the slide "
    "locked in each"
)
LANES_FROM_MIDDLE: Final = (
    f"{LANES}; the lanes count from the middle of the work: cutter over it by rule, that dial to 0"
)
OUTSIDE_IN: Final = "from the outside in, each depth right across before the next"
OWN_ZERO: Final = (
    "sideways until the edge cleans up all along; that is the zero of this way, half the cutter "
    "allowed for"
)
HIGHEST: Final = "depth counted from where the cutter touches the highest spot"
CLEAN: Final = "clean up right across, no pip left at the centre"
NOT_CLEAN: Final = (
    "not clean: a little more at a time, as long as the length is left that the other end is "
    "faced from"
)
CLEAN_TO_HOLE: Final = "clean up right across to the hole"
FROM_FACE: Final = "touch the face, top-slide dial to zero"
FROM_TOUCH_ONCE: Final = "touch the work and set the cross-slide dial to zero"
FROM_TOUCH: Final = "touch the work and set the cross-slide dial to zero, for every diameter anew"
FROM_MEASURED: Final = (
    "measure first; touch that size and set the cross-slide dial to zero; add half of what it is "
    "over the size expected to the first cut, or take half of what it is under off it"
)
FROM_MEASURED_BORE: Final = (
    "measure first; touch that size and set the cross-slide dial to zero; take half of what it is "
    "over the size expected off the first cut, or add half of what it is under to it"
)
FROM_MEASURED_ON_DIAMETER: Final = (
    "measure first; touch that size and set the cross-slide dial to zero; it reads the diameter: "
    "add what it is over the size expected to the first cut, or take what it is under off it"
)
FROM_MEASURED_BORE_ON_DIAMETER: Final = (
    "measure first; touch that size and set the cross-slide dial to zero; it reads the diameter: "
    "take what it is over the size expected off the first cut, or add what it is under to it"
)
FROM_MAJOR: Final = "touch the diameter to be threaded with the tip, cross-slide dial to zero"
TIP_AT_THE_FACE: Final = (
    "a pointed tool is not felt for: set its tip level with the face by eye, saddle dial to zero"
)
SADDLE_FREE: Final = "the saddle's lock off before the half-nut goes in"
TOUCH_THE_CORNER: Final = (
    "touch the corner, top-slide dial to zero, then feed on by the leg of the chamfer"
)
LEFT_CORNER: Final = "lengths are of the tool's left corner: touch the zero face with it"
CORNER_AT_SHOULDER: Final = (
    "lengths are of the tool's left corner: touch the zero face with it; at the shoulder it only "
    "just touches"
)
SMALL_END: Final = (
    "the end is small beside the tailstock: its barrel well out and the tool turned clear of it, "
    "or a half centre"
)
SMALL_END_SQUARE: Final = (
    "the end is small and this tool stays square to the work: a half centre, its flat to the "
    "tool, greased; tried clear by hand, the tip where the cut starts, before power"
)
EDGE_BY_JAWS: Final = (
    "no more of the tool's edge past the corner than the chamfer; every jaw turned past it by "
    "hand at the last figure before power"
)
EDGE_AT_CENTRE: Final = (
    "no more of the tool's edge past the face than the chamfer asks: it clears the centre"
)
LIFT_OUT: Final = (
    "for a length from an end: spindle stopped, lift the work out of the centres, measure, put it "
    "back with the driver in the same slot"
)
LIFT_OUT_NUT: Final = (
    "to try the nut: spindle stopped, half-nut left in, lift the work out of the centres and put "
    "it back with the driver in the same slot"
)
CENTRE_BACK: Final = (
    "to measure from the face: spindle stopped, draw the centre back, then up again as it was"
)
FOLLOWS: Final = (
    "a length drawn from the other end governs: from this face it is the length overall as "
    "measured, less that length"
)
STOP_FOR_ABRASIVE: Final = (
    "stop at this figure: the limits are finer than half a division; fine abrasive takes the rest "
    "when all else here is cut"
)
STRIP: Final = (
    "a strip of fine abrasive no wider than 10 mm, oiled, moved to and fro, its edge always 3 mm "
    "clear of jaws, driver and centre, just clear of a shoulder; wipe clean and measure often, "
    "the work cold"
)
LAP: Final = (
    "the split lap on its bar in the tailstock chuck, let out until it just drags, fine paste and "
    "oil; the tailstock slid to and fro by hand, right through each time; wash the bore with "
    "paraffin, measure it cold, let the lap out again"
)
LAP_BLIND: Final = (
    "the split lap on its bar in the tailstock chuck, let out until it just drags, fine paste and "
    "oil; the tailstock slid to and fro by hand, never past the mark: the bore ends in the bar; "
    "wash the bore with paraffin, measure it cold, let the lap out again"
)
TO_THE_MATE: Final = "no gauge here decides it: go on until the mate just goes as its fit asks"
PRESSED: Final = (
    "a press fit: do not try it in its mate; stop when three readings are alike at the aim: its "
    "housing is bored to this reading less the press of the fit"
)
PRESSED_BORE: Final = (
    "a press fit: do not try the shaft in it; stop when three readings are alike at the aim: the "
    "shaft is turned to this reading"
)
RUNS_FREE: Final = (
    "it runs free on its mate, which cannot say the size: stop when three readings are alike at "
    "the aim; the mate is made to this reading, by the clearance"
)
CLOSES_IN: Final = (
    "stop when three readings are alike at the aim; pressing in closes this bore: press the bush "
    "in, measure the bore again, then make the shaft to that, by the clearance"
)
STARTED_BY_HAND: Final = (
    "try the mate out of the machine, wiped and oiled: it starts by hand 3 to 5 mm; no further "
    "until all else on this piece is done; the trial rules, on toward the lower limit but never "
    "under it: there stop, and ease the mate"
)
MATE_SLIDES: Final = (
    "no gauge here decides it: try the mate, wiped and oiled: it enters by hand without shake"
)
STRIP_HELD: Final = (
    "abrasive strip held by its two ends, hands apart, never wrapped round a finger; tool drawn "
    "clear, the bed covered"
)
LAP_HELD: Final = "no finger in the bore; the paste kept off the bed, which is covered"
TIP_AT_FACE: Final = "depth counted from the tip level with the face: lay a rule across the face"
THROUGH_BY_HAND: Final = "throw the feed out as the bore's end is reached, the rest by hand"
POINT_TOUCHES: Final = "depth counted from where the point just touches"
BLIND_BORE: Final = "throw the feed out short of the floor and wind the last by hand"
STICKS_OUT: Final = (
    "the work sticks out further than it likes: light cuts, a keen tool, a centre if it takes one"
)
BREAK_EDGES_OUT: Final = (
    "measure before it is let go; take it out with the spindle stopped, then break every edge "
    "left sharp, unless drawn sharp"
)
SWEPT: Final = (
    "clock held in the spindle and turned by hand, the table moved until it reads alike all round"
)
ALONG_THE_TOP: Final = "clock along the top of the round, the table moving, end to end"
JAW_FIRST: Final = (
    "clock the fixed jaw along the table, and see that the head is square to the table"
)
SQUARED: Final = "try it with a square from the face at the fixed jaw"
WITNESS: Final = "mark the work against No. 1 jaw before it leaves the chuck"
PLUG: Final = "make the go and no-go plug first: its two ends are the two limits"
LONG_BAR: Final = "the bar is out further than it likes: light cuts, and gone through twice"
COME_NEAR: Final = (
    "throw the feed out by the rule, short of the shoulder; at the last cut lock the saddle "
    "there, unlock the top-slide, touch the shoulder with it, dial to zero; measure the length, "
    "and bring on by the top-slide what it still wants, about the figure given, in two or three "
    "cuts, each time winding the cross-slide out to face it; lock the top-slide again"
)
LEFT_LONG: Final = (
    "throw the feed out here: the shoulder is left long, its length is drawn from the other end"
)
BY_WHAT_IT_IS_OVER: Final = (
    "last cut: lock the saddle there, unlock the top-slide, touch the shoulder with it, dial to "
    "zero; measure the length from its own end, that toward the headstock; on by the top-slide "
    "exactly what that is over, "
    "winding the cross-slide out; measure again; lock the top-slide again"
)
STOP_SHORT: Final = "throw the feed out short of the shoulder, by the rule; it is finished later"
ROUGHED_SHOULDER: Final = (
    "throw the feed out at the first saddle figure, by hand to just short of the shoulder as "
    "roughed; only the last cut goes on to the second figure"
)
REAMER_NOSE: Final = "depth counted from the reamer's nose level with the face"
REAMER_SHANK: Final = "a machine reamer, its taper shank in the tailstock"
AGAINST_JAWS: Final = "the larger diameter hard back against the faces of the jaws"
FEED_OUT: Final = "throw the feed out at the first saddle figure, wind on to the second by hand"
FACE_OUT: Final = (
    "then lock the saddle and wind the cross-slide out past the rim: that faces the shoulder"
)
FACE_FLOOR: Final = (
    "then lock the saddle and wind the cross-slide to the middle hole: that faces the floor"
)
FULL_WIDTH: Final = "turned past its end, so that no lip is left there"
TO_THE_JAWS: Final = (
    "the full width: stop by hand just clear of the jaws; try it first, the work turned by hand "
    "past each jaw at the stop"
)
LIP_LEFT: Final = (
    "stop by hand clear of the jaws: the lip left there comes off when the other side is cut; try "
    "it first, the work turned by hand past each jaw at the stop"
)
BAR_GOES_ON: Final = "turned past its end: the bar goes on, and is parted there"
BED_STOP: Final = (
    "clamp the bed stop just past the last figure, so that the tool cannot reach the jaws"
)
MEASURE_BEFORE: Final = (
    "measure the length overall before gripping: what it is over the length wanted, and no more, "
    "comes off by the top-slide; of these settings only those that leave a light last cut, and "
    "with that go on to just what it is over"
)
AFTER_OUT: Final = "the chuck hides the other end of a length: measure that one when it is out"
HOLDER_CLEAR: Final = "see the tool holder clear the larger diameter beside the shoulder"
CENTRE_UP: Final = "bring the tailstock centre up now, greased unless it turns with the work"
ALIGNED: Final = "after the first finishing cut measure close to both ends"


def shift_words(shift: float, apart: float) -> str:
    """Say which way the tailstock goes over, and how far for what two readings differ.

    >>> shift_words(2.22, 22.0)
    'bigger at the tailstock end: clock on its barrel, set over toward you by 2.2 times the \
difference of two readings 22 mm apart; smaller: away'
    """
    return (
        f"bigger at the tailstock end: clock on its barrel, set over toward you by {shift:.1f} "
        f"times the difference of two readings {apart:.0f} mm apart; smaller: away"
    )


SHIFTED: Final = (
    "once it is set over the old zero is gone: the same cut again, measure both ends, and with "
    "the tool left standing set the dial anew from that reading"
)


BLIND_IN_BAR: Final = "the bar goes on behind: the hole ends in it, past where it is parted"
CHUCK_CLEAR: Final = "see the hole of the chuck is clear behind the work"
TAPER_SHANK: Final = "too large for the drill chuck: a taper shank in the tailstock"
SPEED_UP: Final = "change to the faster speed when the diameter has come down to it"
TRY_NUT: Final = (
    "from about nine tenths of the depth try the nut after every cut; stop when it runs; "
    "still tight at full depth: one division at a time, at most three, then look at the tool"
)
RUN_BACK: Final = (
    "at the end of each cut draw the tool out, stop, wind back by the mandrel handle, go in past "
    "the backlash to the next setting"
)
WIDEN: Final = "if the tool binds widen the groove on the chuck's side"
CAUGHT: Final = "a wooden rod in the tailstock chuck, its end in the bore, catches the piece"
CAUGHT_SOLID: Final = "a board with rag on the bed under the piece as it comes off"
LEFT_CORNER_PARTING: Final = (
    "measure the tool's width: the left corner stands at the length left and that width; wider "
    "than listed, so much further"
)
HANDLE_OUT: Final = "mandrel handle OUT of the spindle before the belt is tightened, every cut"
WHEELS_HUNG: Final = "machine isolated: hang the change wheels, guard shut"
WHEELS_OFF: Final = "thread done: machine isolated, change wheels off, feed gear as it was"
IN_UNDERCUT: Final = "the tip stops in the undercut"
BY_MANDREL_HANDLE: Final = (
    "the tip stops in the undercut: the last turns by the mandrel handle, belt slack: there is no "
    "time to stop the motor"
)
START_CLEAR: Final = (
    "before the first cut the saddle back to the right, the tip 3 to 5 mm clear of the face, and "
    "the half-nut in there"
)
RUN_OUT_THREAD: Final = (
    "no undercut: draw the tool out as it comes to the end, at one place always"
)
SIDE_BY_SIDE: Final = (
    "plunges side by side, each the full depth; between them the saddle unlocked, wound on the "
    "same way, locked again"
)
BURR: Final = "it throws a burr into the bore: the reamer once more by hand takes that off"
OTHER_CORNER: Final = "turn the tool round for this corner, its edge into the mouth"
LEG_AFTER: Final = "fed deeper than drawn: what still comes out of the hole takes the rest"
HAND_TIGHT: Final = "draw the tailstock up again part-way: the hole is deeper than its travel"
UNKNOWN_METAL: Final = "speeds are those of mild steel: the drawing's metal is not in the handbook"
NOT_JUDGED: Final = "no gauge here decides this size: see the cover sheet for what would"


def rim_words(speed: float) -> str:
    """Say the slower speed for facing a shoulder whose rim is larger.

    >>> rim_words(210.0)
    'belt to 210 rev/min before the shoulder is faced: its rim is larger'
    """
    return f"belt to {speed:.0f} rev/min before the shoulder is faced: its rim is larger"


def unlock_words(slides: tuple[str, ...]) -> str:
    """Say what the step before left locked and this one moves.

    >>> unlock_words(("cross-slide", "saddle"))
    'unlock the cross-slide and saddle'
    """
    return f"unlock the {' and '.join(slides)}"


def metal_remarks(metal: Metal, operation: Operation) -> tuple[str, ...]:
    """Say what brass and the bronzes ask of the tool."""
    if not metal.yellow:
        return ()
    if operation.verb == "drill":
        return (DULLED,)
    turned = {"turn", "face", "bore", "groove", "part off", "thread", "turn taper"}
    return (ZERO_RAKE,) if operation.machine == "lathe" and operation.verb in turned else ()
