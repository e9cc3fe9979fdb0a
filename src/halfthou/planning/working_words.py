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

FEED_AGAINST: Final = "feed against the cutter's turning: with backlash the other way snatches"
ONE_WAY: Final = "come up to every place from the same side; gone past, wind back and come again"
CUTTER_GOES: Final = (
    "right and away are ways of the cutter over the work; the table goes the other way"
)
ALIKE: Final = (
    "last two cuts alike, measuring after each; put on only what the measuring says is left"
)
SPRING: Final = "run through once more at the same setting if the spring shows"
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
OUTSIDE_IN: Final = "from the outside in, each depth right across before the next"
OWN_ZERO: Final = (
    "sideways until the edge cleans up all along; that is the zero of this way, half the cutter "
    "allowed for"
)
HIGHEST: Final = "depth counted from where the cutter touches the highest spot"
FROM_FACE: Final = "counted from where the tool first touches the face"
FROM_TOUCH: Final = "cross-slide counted from where the tool first touches"
FROM_MEASURED: Final = "measure first; cross-slide counted from where the tool touches that size"
TIP_AT_FACE: Final = "depth counted from the tip level with the face: lay a rule across the face"
TIP_BESIDE: Final = "depth counted from the tip touching the face beside the hole"
BLIND_BORE: Final = "throw the feed out short of the floor and wind the last by hand"
STICKS_OUT: Final = (
    "the work sticks out further than it likes: light cuts, a keen tool, a centre if it takes one"
)
WITNESS: Final = "mark the work against No. 1 jaw before it leaves the chuck"
PLUG: Final = "make the plug pair first: its two ends are the two limits"
LONG_BAR: Final = "the bar is out further than it likes: light cuts, and gone through twice"
COME_NEAR: Final = (
    "saddle to a little short by rule; then lock it, and bring the shoulder to length with the "
    "top-slide, measuring"
)
STOP_SHORT: Final = "stop the feed by rule before the shoulder; it is finished later"
HAND_TIGHT: Final = "draw the tailstock up again part-way: the hole is deeper than its travel"
UNKNOWN_METAL: Final = "speeds are those of mild steel: the drawing's metal is not in the handbook"
NOT_JUDGED: Final = "no gauge here decides this size: see the cover sheet for what would"


def metal_remarks(metal: Metal, operation: Operation) -> tuple[str, ...]:
    """Say what brass and the bronzes ask of the tool."""
    if not metal.yellow:
        return ()
    if operation.verb == "drill":
        return (DULLED,)
    turned = {"turn", "face", "bore", "groove", "part off", "thread", "turn taper"}
    return (ZERO_RAKE,) if operation.machine == "lathe" and operation.verb in turned else ()
