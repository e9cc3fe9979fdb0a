"""Bench work on castings: marking out, sawing apart, bolting up, dowels, taking apart."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.drawing.model import OUTWARD, Hole, Joint
from halfthou.planning.cast.pieces import TOGETHER, WHOLE, Pieces
from halfthou.planning.milled import minutes
from halfthou.planning.model import Operation, Verb

MARK: Final = "mark out"
SAW: Final = "saw through"
BOLT: Final = "bolt up"
DOWELS: Final = "fit the dowels"
APART: Final = "take apart"
_MARKING: Final = 15.0
_BOLTING: Final = 6.0
_FITTING: Final = 5.0
_PARTING: Final = 3.0
_EASY_IN_ONE: Final = (
    "tight in the {tight}, easy in the {easy}: what goes through that eased with fine emery until "
    "it enters by hand with no shake; a flat filed along the tight end lets the air out; oiled, "
    "driven home; they are in before the bore is: clearing bolts hold a cap and do not place it"
)
_IN_FIVES: Final = 5.0
_SHORT_OF_THE_END: Final = 3.0


def handwork(pieces: Pieces) -> tuple[Operation, ...]:
    """Give everything done by hand to the castings."""
    return tuple(_handwork(pieces))


def _handwork(pieces: Pieces) -> Iterator[Operation]:
    joint = pieces.joint
    for name in _castings(pieces):
        yield _by_hand(
            f"{MARK} {pieces.part.name if name == WHOLE else name}",
            "mark out",
            name,
            _MARKING,
            tools=("height gauge and scriber",),
            remark="faces chalked or blued; read the height of the datum first, every line so far "
            "over it or under; see that every face cleans up before the first cut",
        )
    if joint is not None:
        yield from _of_joint(pieces, joint)
    edges = sum(pieces.part.blank.size)
    yield _by_hand(
        "deburr",
        "deburr",
        WHOLE,
        minutes.filing(length=edges),
        tools=("file",),
    )


def _castings(pieces: Pieces) -> tuple[str, ...]:
    """Name the castings as they come: the lump to be sawn is one."""
    joint = pieces.joint
    if joint is None or joint.kind == "sawn":
        return (WHOLE,)
    return pieces.names


def _of_joint(pieces: Pieces, joint: Joint) -> Iterator[Operation]:
    if joint.kind == "sawn":
        yield _by_hand(
            f"{SAW} {joint.name}",
            "saw",
            WHOLE,
            4.0 + _section(pieces, joint) / 150.0,
            tools=("hacksaw",),
            feature=joint.name,
            remark="mark both halves first, so that they go together the same way round",
        )
    if dowels_of(pieces):
        yield _by_hand(
            DOWELS,
            "fit dowels",
            TOGETHER,
            _FITTING,
            tools=(f"hammer and soft drift, {_dowels_to_get(pieces)}",),
            remark=_EASY_IN_ONE.format(tight=joint.halves[1], easy=joint.halves[0]),
        )
    yield _by_hand(
        BOLT,
        "bolt up",
        TOGETHER,
        _BOLTING,
        tools=(f"spanner, {_bolts_to_get(pieces, joint)}",),
        feature=joint.name,
        remark=f"joint wiped clean, no burr; {joint.halves[0]} and {joint.halves[1]} by their "
        "marks; bolts drawn down evenly, and not touched again until the bore is done",
    )
    yield _by_hand(
        APART,
        "take apart",
        TOGETHER,
        _PARTING,
        tools=("spanner",),
        feature=joint.name,
        remark="mark the halves first: they go together again one way only",
    )


def _bolts_to_get(pieces: Pieces, joint: Joint) -> str:
    """Name the bolts that draw the halves together: ``2 hexagon bolts 1/4 BSF x 35``."""
    for hole in pieces.part.features:
        if isinstance(hole, Hole) and hole.name == joint.bolts:
            thread = next((s.thread for s in hole.steps if s.thread is not None), None)
            size = thread.designation if thread is not None else f"for the {hole.name} holes"
            return f"{len(hole.entries)} hexagon bolts {size}{_long(hole)}"
    return "bolts"


def _long(hole: Hole) -> str:
    """Give the length of a bolt: the longest in fives that ends 3 short of the thread's end."""
    near = next((s.end for s in hole.steps if s.clears), 0.0)
    end = next((s.end for s in hole.steps if s.thread is not None), 0.0)
    length = (end - _SHORT_OF_THE_END) // _IN_FIVES * _IN_FIVES
    return f" x {length:g}" if near > 0 and length > near else ""


def _dowels_to_get(pieces: Pieces) -> str:
    """Name the pins that place one half on the other: ``2 dowels for 4 H7, 30 long``."""
    names = dowels_of(pieces)
    holes = [f for f in pieces.part.features if isinstance(f, Hole) and f.name in names]
    size = holes[0].steps[0].diameter.text.split(" x ")[0].removesuffix(" through")
    last = holes[0].steps[-1]
    blind = not last.breaks_out and last.end > _IN_FIVES
    long = f", {last.end // 2 * 2 - 2:g} long" if blind else ""
    return f"{sum(len(h.entries) for h in holes)} dowels for {size}{long}"


def _section(pieces: Pieces, joint: Joint) -> float:
    surface = pieces.part.surface(joint.name)
    sizes = sorted(surface.high[i] - surface.low[i] for i in range(3))
    return sizes[1] * sizes[2]


def dowels_of(pieces: Pieces) -> tuple[str, ...]:
    """Name the holes of what places one half on the other: dowels, or fitted bolts."""
    joint = pieces.joint
    if joint is None:
        return ()
    words = joint.located_by.split()
    named = {word.rstrip("s") for word in words} | set(words)
    return tuple(
        f.name
        for f in pieces.part.features
        if isinstance(f, Hole) and (f.name in named or f.name.split("-")[0] in named)
    )


def _by_hand(
    key: str,
    verb: Verb,
    piece: str,
    takes: float,
    *,
    tools: tuple[str, ...],
    feature: str = "",
    remark: str = "",
) -> Operation:
    return Operation(
        key=key,
        verb=verb,
        stage="only",
        feature=feature or piece,
        machine="bench",
        makes=(),
        region=(),
        approach=tuple(OUTWARD.values()),
        tools=tools,
        minutes=takes,
        piece=piece,
        remark=remark,
    )
