"""What may stand in a part file: each kind of table, each key, and what its text must be.

The reader, the JSON Schema and the documentation all take it from here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Form: TypeAlias = Literal[
    "text", "size", "diameter", "length", "at", "must", "steps", "thread", "copies", "units",
    "yes or no", "chamfer", "taper", "undercut", "bar", "plate", "sides", "surface", "ends",
    "otherwise", "material", "surfaces", "kerf", "count",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key of a table. ``many``: a list may be written in place of one text."""

    form: Form
    meaning: str
    example: str
    many: bool = False
    needed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of table. ``named``: the table carries a name, as ``[hole.bore]`` does."""

    meaning: str
    keys: dict[str, Key]
    named: bool = True


def _key(
    form: Form, meaning: str, example: str, *, many: bool = False, needed: bool = False
) -> Key:
    return Key(form=form, meaning=meaning, example=example, many=many, needed=needed)


AT: Final = _key("at", "where it is, from another surface", "12 right of left", many=True)
MUST: Final = _key("must", "what must hold", "run-out to journal within 0.02", many=True)
SUITS: Final = _key(
    "text", "the mate in another part it is made to", "journal of arbor, 0.02 to 0.04 free"
)
MACHINED: Final = _key("sides", "the sides that are cut", "top, left")
NOTE: Final = _key("text", "a remark that is printed with the feature", "scrape to blue")
COPIES: Final = _key("copies", "the same again", "6 on 52 circle, first at top")
THICK: Final = _key("size", "front to back", "10")
WIDE: Final = _key("size", "left to right", "52 ±0.1")
HIGH: Final = _key("size", "bottom to top", "22")
DEEP: Final = _key("size", "from the face it is cut into", "3")

_BLOCK: Final = Kind(
    meaning="a six-sided body of metal",
    keys={
        "wide": WIDE,
        "high": HIGH,
        "thick": THICK,
        "at": AT,
        "must": MUST,
        "machined": MACHINED,
        "suits": SUITS,
        "note": NOTE,
    },
)
_CUTOUT: Final[dict[str, Key]] = {
    "in": _key("surface", "the face it is cut into", "top", needed=True),
    "wide": _key("size", "left to right (front to back in an end)", "20 H9"),
    "high": _key("size", "bottom to top (front to back in top or bottom)", "14"),
    "thick": THICK,
    "deep": DEEP,
    "corners": _key("size", "radius of the upright corners", "R3"),
    "at": AT,
    "must": MUST,
    "suits": SUITS,
    "note": NOTE,
}

KINDS: Final[dict[str, Kind]] = {
    "part": Kind(
        meaning="the part as a whole",
        named=False,
        keys={
            "name": _key("text", "what the part is called", "winding arbor", needed=True),
            "material": _key("material", "what it is made of", "EN8", needed=True),
            "units": _key("units", "units of bare figures: mm or in", "mm", needed=True),
            "otherwise": _key(
                "otherwise", "tolerance of sizes that give none", "ISO 2768-mK", needed=True
            ),
            "wall": _key("length", "the thinnest wall allowed", "2"),
            "meant": _key("text", "what is not taken as meant", "not concentric: tail", many=True),
            "quantity": _key("count", "how many are wanted", "1"),
            "note": _key(
                "text", "a remark printed on the cover", "from the 1904 sheet", many=True
            ),
        },
    ),
    "blank": Kind(
        meaning="the lump it is made from, nominal sizes",
        named=False,
        keys={
            "bar": _key("bar", "bar: section and length", "round 1 1/4 in x 7 3/4"),
            "plate": _key("plate", "plate or sawn block, three sizes", "12 x 110 x 90"),
            "casting": _key("text", "casting: metal left on, draft", "stock 2, draft 1.5°"),
            "black": _key("yes or no", "hot rolled, with its skin", "true"),
        },
    ),
    "round": Kind(
        meaning="turned metal; several stand left to right in file order",
        keys={
            "diameter": _key("diameter", "one size, or two for a taper", "3/4 f7"),
            "long": _key("size", "left to right", "1 1/2"),
            "thread": _key("thread", "a thread over the whole length", "1/2 BSF"),
            "taper": _key("taper", "on diameter", "1 in 12"),
            "undercut": _key("undercut", "diameter x width, at a side", ".375 x 3/32 at left"),
            "at": AT,
            "must": MUST,
            "machined": _key("sides", "the surfaces that are cut", "outside"),
            "suits": SUITS,
            "note": NOTE,
        },
    ),
    "block": _BLOCK,
    "plate": Kind(meaning="a flat body of metal", keys=_BLOCK.keys),
    "hole": Kind(
        meaning="a hole of one or more diameters, entry first",
        keys={
            "in": _key("surface", "the face it goes into", "front", needed=True),
            "size": _key("steps", "one text a diameter", "9 through", many=True, needed=True),
            "at": AT,
            "must": MUST,
            "copies": COPIES,
            "suits": SUITS,
            "note": NOTE,
        },
    ),
    "pocket": Kind(meaning="a recess with flat walls all round", keys=_CUTOUT),
    "slot": Kind(meaning="a channel; it runs out where no side is given", keys=_CUTOUT),
    "step": Kind(meaning="a rebate; it runs out where no side is given", keys=_CUTOUT),
    "groove": Kind(
        meaning="a turned groove",
        keys={
            "in": _key("surface", "the round or hole it is cut into", "seat", needed=True),
            "wide": _key("size", "left to right", "3", needed=True),
            "diameter": _key("size", "across its floor", "18"),
            "deep": DEEP,
            "at": AT,
            "must": MUST,
            "note": NOTE,
        },
    ),
    "keyway": Kind(
        meaning="a keyway along a round",
        keys={
            "in": _key("surface", "the round it is cut into", "seat", needed=True),
            "wide": _key("size", "across", "6 P9", needed=True),
            "leaves": _key("size", "floor to the far side of the round", "19.1 mm"),
            "deep": DEEP,
            "long": _key("size", "over all, round ends included", "1"),
            "ends": _key("ends", "round or square", "round"),
            "at": _key("at", "along the round, and the side it faces", "top", many=True),
            "must": MUST,
            "note": NOTE,
        },
    ),
    "chamfer": Kind(
        meaning="edges taken off",
        keys={
            "on": _key("surfaces", "the edges", "left, right", needed=True),
            "size": _key("chamfer", "leg, and angle to the axis", "1 x 45°", needed=True),
            "note": NOTE,
        },
    ),
    "centres": Kind(
        meaning="centre holes in the ends of turned work",
        named=False,
        keys={
            "both": _key("text", "centre drill, both ends", "BS 1/8"),
            "left": _key("text", "centre drill, left end only", "A2.5"),
            "right": _key("text", "centre drill, right end only", "A2.5"),
            "left_in": _key("yes or no", "whether they stay in the finished part", "true"),
        },
    ),
    "joint": Kind(
        meaning="where one piece becomes two, or two are put together",
        keys={
            "at": AT,
            "cut": _key("kerf", "saw and its kerf, or two castings", "saw 1.2", needed=True),
            "halves": _key("text", "piece above, piece below", "cap", many=True, needed=True),
            "bolts": _key("text", "the hole that bolts them", "stud"),
            "located_by": _key("text", "what brings them back to place", "2 dowels"),
            "note": NOTE,
        },
    ),
}

LATER: Final = ("ring", "boss", "arm", "taper", "thread", "face", "view")
"""Kinds of table that drawings have and this version cannot yet solve."""

BODIES: Final = frozenset({"round", "block", "plate"})
"""Kinds that are metal; all others cut it or join it."""
