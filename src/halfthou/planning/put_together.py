"""Plans of turned work and of what is put into it, one after the other, and the putting together.

Each piece is planned by itself and proved by itself: no set-up holds two of them, so the cheapest
way for all is the cheapest way for each. The seat is made before the piece that goes into it:
the outside is the easier to measure and to ease.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from halfthou.drawing.model import Band, Lump, Part, Piece, Surface
from halfthou.planning.at_bench import bench_scheme
from halfthou.planning.fixed_pieces import APART, TOGETHER
from halfthou.planning.model import Operation, Plan, Reason, SetUp, Verb
from halfthou.planning.rules import rule
from halfthou.planning.solving.problem import Prices
from halfthou.planning.turned.case import bench_vice
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

_TENTHS: Final = 10
REAMED_IN_PLACE: Final = 3.0
"""Minutes for the reamer by hand through a bush that is pressed in (usual practice)."""
IN_PLACE: Final = (
    "pressing closes the bore: the reamer that made it once more right through, by hand in a tap "
    "wrench, turned forward all the while"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """How a piece is put in: the verb, what with, how long, and what the hands must know."""

    verb: Verb
    tools: tuple[str, ...]
    minutes: float
    remark: str


FIXINGS: Final[dict[str, Fixing]] = {
    "pressed": Fixing(
        verb="press",
        tools=("bench vice with soft jaws",),
        minutes=6.0,
        remark="measure both first; edge of the hole broken, a lead eased on the piece, a drop of "
        "oil; square by a block, in one steady push, never by hammer",
    ),
    "retained": Fixing(
        verb="retain",
        tools=("retaining compound",),
        minutes=8.0,
        remark="both free of oil; compound on both, put in with a turn, wiped off outside; leave "
        "it as long as its maker says before it is touched: a night at the least in the cold",
    ),
    "soldered": Fixing(
        verb="solder",
        tools=("torch, flux, solder",),
        minutes=15.0,
        remark="clean and fluxed, a gap the solder can run into; heat the larger piece, let it "
        "cool by itself, wash the flux off",
    ),
    "pinned": Fixing(
        verb="pin",
        tools=("drill, taper pin reamer",),
        minutes=12.0,
        remark="drilled across both together, reamed until the pin stands a little proud, "
        "then driven home",
    ),
    "screwed": Fixing(
        verb="screw in",
        tools=("two nuts locked together",),
        minutes=4.0,
        remark="thread clean and dry; home against its shoulder",
    ),
}
"""What is done for each word of the part file (usual practice)."""


def joined_plan(
    part: Part, main: Plan, own: tuple[tuple[Piece, Plan], ...], workshop: Workshop
) -> Plan:
    """Give one plan: the work, each piece put into it, and the putting together last of all."""
    set_ups = list(main.set_ups)
    reasons = list(main.reasons)
    for piece, plan in own:
        reasons += [replace(r, set_up=r.set_up + len(set_ups)) for r in plan.reasons if r.set_up]
        set_ups += [_of_piece(piece, one) for one in plan.set_ups]
    for piece, plan in own:
        set_ups.append(_fixed(part, piece, plan, workshop))
        reasons.append(Reason(set_up=len(set_ups), text=rule(PRESS_LAST).reason))
    plans = (main, *(plan for _, plan in own))
    extra = _between(main, own, set_ups)
    return replace(
        main,
        set_ups=tuple(set_ups),
        beside=tuple(Lump(name=piece.name, metal=plan.blank) for piece, plan in own),
        minutes=sum(p.minutes for p in plans) + extra,
        bound=sum(p.bound for p in plans) + extra,
        proved=all(p.proved for p in plans),
        up_to_set_ups=min(p.up_to_set_ups for p in plans),
        reasons=tuple(reasons),
        unjudged=tuple(u for p in plans for u in p.unjudged),
    )


PRESS_LAST: Final = "put together when both are finished"


def _between(main: Plan, own: tuple[tuple[Piece, Plan], ...], set_ups: list[SetUp]) -> float:
    """Give the minutes of putting together, and of going from one piece to the next."""
    prices = Prices()
    last = len(set_ups) - len(own)
    starts, at = {last}, len(main.set_ups)
    for _, plan in own:
        starts.add(at)
        at += len(plan.set_ups)
    starts |= set(range(last, len(set_ups)))
    moves = sum(
        prices.move(a.scheme.machine, b.scheme.machine)
        for n, (a, b) in enumerate(pairwise(set_ups), start=1)
        if n in starts
    )
    hand = sum(s.scheme.minutes + sum(op.minutes for op in s.operations) for s in set_ups[last:])
    return hand + moves / _TENTHS


def _of_piece(piece: Piece, set_up: SetUp) -> SetUp:
    """Give a set-up of a piece planned by itself, its names marked with the piece's."""
    scheme = set_up.scheme
    mark = f"{piece.name}: "
    return SetUp(
        scheme=replace(
            scheme,
            key=mark + scheme.key,
            can=frozenset(mark + key for key in scheme.can),
            need=tuple((mark + key, why) for key, why in scheme.need),
            ban=tuple((mark + key, why) for key, why in scheme.ban),
            piece_state=((piece.name, APART),),
        ),
        operations=tuple(
            replace(op, key=mark + op.key, piece=piece.name) for op in set_up.operations
        ),
    )


def _fixed(part: Part, piece: Piece, plan: Plan, workshop: Workshop) -> SetUp:
    """Give the set-up at the bench that puts a piece into its seat, and what follows at once."""
    fixing = FIXINGS[piece.fixed]
    least, most = _over(part, piece)
    op = Operation(
        key=f"{fixing.verb} the {piece.name} into the {piece.into}",
        verb=fixing.verb,
        stage="only",
        feature=piece.name,
        machine="bench",
        makes=(),
        region=(),
        approach=((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)),
        tools=fixing.tools,
        minutes=fixing.minutes,
        cut_size=most,
        from_size=least,
        piece=TOGETHER,
        follows=piece.into,
        remark=fixing.remark,
    )
    operations = (op, *_in_place(piece, plan))
    scheme = bench_scheme(
        bench_vice(workshop),
        key=f"bench vice, the {piece.name} put in",
        can=frozenset(one.key for one in operations),
        pieces=(("whole", TOGETHER), (piece.name, TOGETHER)),
    )
    return SetUp(scheme=scheme, operations=operations)


def _in_place(piece: Piece, plan: Plan) -> Iterator[Operation]:
    """Ream again what was reamed before it was pressed in: the grip of its seat closes it."""
    if piece.fixed != "pressed":
        return
    for set_up in plan.set_ups:
        for op in set_up.operations:
            if op.verb == "ream":
                yield replace(
                    op,
                    key=f"{piece.name}: {op.key} in place",
                    machine="bench",
                    region=(),
                    minutes=REAMED_IN_PLACE,
                    piece=TOGETHER,
                    remark=IN_PLACE,
                )


def _over(part: Part, piece: Piece) -> tuple[Millimetre, Millimetre]:
    """Give by how much a piece is larger than its seat, at least and at most; [mm]."""
    seat = _size(part, (piece.into,), inside=True)
    body = _size(part, piece.features, inside=False)
    if seat is None or body is None:
        return 0.0, 0.0
    return body.low - seat.high, body.high - seat.low


def _size(part: Part, features: tuple[str, ...], *, inside: bool) -> Band | None:
    found = [s for s in part.surfaces if _is_round(s, features, inside=inside)]
    return next((s.size for s in found if s.size is not None), None)


def _is_round(surface: Surface, features: tuple[str, ...], *, inside: bool) -> bool:
    own = surface.feature in features and surface.inside == inside
    return own and surface.kind == "cylinder"
