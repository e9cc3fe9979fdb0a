"""Rules of order and of holding, each by its name, with the reason in the trade's words.

Hard rules forbid, soft ones cost; any can be switched off for one part, and the card says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal, TypeAlias

from halfthou.errors import OutOfRangeError

Kind: TypeAlias = Literal["order", "holding"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule of the trade."""

    name: str
    kind: Kind
    reason: str
    hard: bool = True
    source: str = "usual practice"


def _order(name: str, reason: str, *, hard: bool = True, source: str = "usual practice") -> Rule:
    return Rule(name=name, kind="order", reason=reason, hard=hard, source=source)


def _holding(name: str, reason: str) -> Rule:
    return Rule(name=name, kind="holding", reason=reason)


RULES: tuple[Rule, ...] = (
    _order(
        "raw faces locate the first cut, each once",
        "machined faces then meet cast ones evenly, and a rough seat never repeats",
    ),
    _order(
        "rough everywhere before finishing",
        "metal moves when its skin goes",
    ),
    _order(
        "slacken and seat again before finishing",
        "what the grip and the heavy cuts bent springs back first",
    ),
    _order(
        "cut a face before locating from it",
        "work sits on a raw face differently each time",
    ),
    _order("saw the blank first", "the blank comes off the bar before anything holds it"),
    _order(
        "first skim, then the finished face",
        "the skim takes off the saw marks, the last cut leaves it true",
    ),
    _order(
        "measure from a faced end",
        "lengths, shoulders and depths count from a clean finished face",
    ),
    _order("face before centring", "a centre drill wanders on a slope or a sawn end"),
    _order("centre before drilling", "a drill follows the slope it starts on"),
    _order(
        "drill before boring or reaming",
        "a bar needs a hole to start in, and a reamer only sizes one",
    ),
    _order(
        "through hole first",
        "the boring tool needs a hole to go in by, on the same axis",
    ),
    _order("hole before its seat", "the seat's cutter is guided by the hole"),
    _order("pilot before a large drill", "the web of a drill over Ø8 does not cut"),
    _order(
        "bore before reaming where place matters",
        "a reamer sizes a hole but never moves it",
    ),
    _order(
        "drill square faces before sloping ones are cut",
        "a drill skids on a slope; else spot-face first",
    ),
    _order(
        "true together at one setting",
        "what is cut without letting go of the work shares one axis",
    ),
    _order(
        "bore first, outside from the bore",
        "a thin ring cut on a mandrel runs true to the hole it will run on",
    ),
    _order(
        "cross-hole before the last cut of the bore",
        "the last cut takes off the burr and the bruise",
    ),
    _order(
        "keyway and thread after their diameter",
        "their depth is measured from the finished diameter",
    ),
    _order(
        "edges and grooves after their diameter",
        "they are measured from the finished diameter",
    ),
    _order(
        "undercut and lead before the thread",
        "the tool, the die or the tap needs room to start and stop",
    ),
    _order("break edges last", "the edge is where two finished cuts meet"),
    _order(
        "bore and ream at one setting",
        "a reamer sizes a hole but never moves it: the boring before it says where it lies",
    ),
    _order(
        "drill and ream at one setting",
        "a reamer brought back over a drilled hole starts askew, and reams it large at the mouth",
    ),
    _order(
        "mouth before reaming",
        "the reamer starts fair in it, and no burr is thrown into the finished hole",
    ),
    _order("deburr last", "every cut leaves a burr"),
    _order(
        "largest diameter first",
        "the work stays stiff while the heavy cuts are taken",
    ),
    _order(
        "tailstock centre before turning",
        "the tailstock holds the end up, and the axis is fixed by it",
    ),
    _order(
        "centres stay until nothing hangs on them",
        "work once off its centres does not go back on the same axis",
    ),
    _order(
        "part off before the far end",
        "the chucking piece hides that end until it is parted off",
    ),
    _order(
        "key bright bar before its last cut",
        "cutting a keyway lets out the stress of drawn bar and bows it",
        hard=False,
    ),
    _order(
        "joint holes before sawing, or in the faced halves clamped",
        "the bolt holes must meet when the halves are put together again",
    ),
    _order(
        "bore after bolting up",
        "two half bores cut apart never make one round one",
    ),
    _order(
        "see that every face cleans up before cutting one",
        "while nothing is cut the marking can still be shifted",
        source="Ahrons, and usual practice",
    ),
    _order(
        "the seat first, everything else from it",
        "a rough casting rocks; from a machined seat it lies the same way each time",
        source="W. J. Lineham, A Text-Book of Mechanical Engineering, p. 264",
    ),
    _order(
        "the joint is cut before it is closed",
        "the halves close on the faces, and every size across the joint holds closed",
        source="W. J. Lineham, A Text-Book of Mechanical Engineering, p. 230",
    ),
    _order(
        "placed by dowel or register before the bore",
        "bolts in clearing holes hold a cap but do not place it",
    ),
    _order(
        "what lies across a joint is cut bolted up",
        "a face or bore cut in two halves never meets at the joint",
    ),
    _order(
        "saw apart before the joint is faced",
        "the saw leaves the faces rough, and takes its kerf",
    ),
    _order(
        "what weakens or lets go comes last",
        "slit, thinned or parted work can no longer be held as it was",
    ),
    _order(
        "square sides before the slant",
        "a slant is set over from true sides, and runs out at a corner that has its size",
    ),
    _order(
        "use a side before the slant takes it",
        "what is placed from it can be neither picked up nor measured once it is gone",
    ),
    _order("countersink before tapping", "the tap starts straight and throws up no burr"),
    _order(
        "deburr before a face becomes a seat",
        "a burr under the work tilts it",
    ),
    _order("harden before the last size", "hardening makes steel grow and bend"),
    _order(
        "cut everything before hardening",
        "hardened steel takes no file, drill or tap",
    ),
    _order("temper at once", "glass-hard steel cracks by itself, or at the first knock"),
    _order(
        "put together when both are finished",
        "what is put in cannot be held apart again, and a seat is measured empty",
    ),
    Rule(
        name="bore first, what is set off from it after",
        kind="order",
        reason="the throw is measured from the finished bore, and lies true to it",
        source="W. J. Lineham, A Text-Book of Mechanical Engineering: eccentric sheave",
    ),
    Rule(
        name="make the seat first, fit the piece to it",
        kind="order",
        reason="an outside is easier to measure and to ease than a hole",
        source="J. S. Zerbe, Practical Mechanics for Boys",
    ),
    Rule(
        name="ream after pressing in",
        kind="order",
        reason="a press fit closes the bore by about as much as it is tight",
        source="common practice, told by several who do it",
    ),
    _order("lap to the mate as made", "a lapped fit is made to the other part, not to a figure"),
    _order(
        "square a block from its best face",
        "each face is only as square as the one that was against the fixed jaw",
    ),
    _order(
        "one head height on a round column",
        "the head swings when it is raised, and the place is lost",
    ),
    _holding(
        "grip long enough, stick out little",
        "short grips let go, and long overhangs bend",
    ),
    _holding(
        "short and wide sits back against a face",
        "jaws alone let short work rock; there they only drive",
    ),
    _holding(
        "no second grip in three jaws where it must run true",
        "a three-jaw chuck never takes the same work twice in the same place",
    ),
    _holding("clock two places", "one reading cannot tell off-centre from askew"),
    _holding(
        "collets take only round, right-sized, full-length work",
        "a collet closed on the wrong size holds at one end",
    ),
    _holding(
        "best face to the fixed jaw",
        "the moving jaw lifts; a round bar there and a knock down seat the work",
    ),
    _holding(
        "raw faces on three points",
        "a rough face rocks on four, and clamps off the points bend the work",
    ),
    _holding(
        "no hard jaws on finished metal, no thin ring in three jaws",
        "jaws mark the one and leave the other three-cornered",
    ),
    _holding(
        "clamp stud nearer the work than the heel",
        "else the clamp presses the packing and not the work",
    ),
    _holding(
        "faceplate with three holds and a stop, balanced",
        "an unbalanced plate shakes, and work with two holds turns under the cut",
    ),
    _holding(
        "hold by what is there",
        "a surface can hold the work only once it has been cut",
    ),
    _holding(
        "keep what is held",
        "what the work is held by must not be cut away before",
    ),
)


def rule(name: str) -> Rule:
    """Find a rule by its name."""
    for one in RULES:
        if one.name == name:
            return one
    raise OutOfRangeError(
        f'no rule is called "{name}"',
        why="rules are known by the names listed in planning",
        tries=get_close_matches(name, [one.name for one in RULES]),
    )
