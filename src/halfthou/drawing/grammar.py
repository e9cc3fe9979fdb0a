"""What may stand in a part file: each kind of table, each key, and what its text must be.

The reader, the JSON Schema and the documentation all take it from here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Form: TypeAlias = Literal[
    "text", "size", "diameter", "length", "at", "must", "steps", "thread", "copies", "units",
    "yes or no", "chamfer", "taper", "undercut", "bar", "plate", "sides", "surface", "ends",
    "otherwise", "material", "surfaces", "kerf", "count", "casting", "leans", "turned", "joins",
    "axis", "angle", "side", "fixed", "sides of a boss", "names",
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
LEANS: Final = _key("leans", "how far it leans from square, and to which side", "20° to back")
COMES_OFF: Final = _key("yes or no", "metal of the casting alone: a chucking piece", "true")
FILLET: Final = _key("size", "radius of its fillets, left out of the picture", "R3")
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
        "fillet": FILLET,
        "comes_off": COMES_OFF,
        "suits": SUITS,
        "note": NOTE,
    },
)
_BOSS: Final[dict[str, Key]] = {
    "diameter": _key("size", "across", "24", needed=True),
    "long": _key("size", "along its axis", "14"),
    "axis": _key("axis", "the direction it runs in", "front to back"),
    "on": _key("surface", "the face it stands on", "cap top"),
    "draft": _key("angle", "how it widens toward its root", "3°"),
    "at": AT,
    "must": MUST,
    "machined": _key("sides of a boss", "what is cut: its ends, its outside", "front, outside"),
    "fillet": FILLET,
    "comes_off": COMES_OFF,
    "suits": SUITS,
    "note": NOTE,
}
_CUTOUT: Final[dict[str, Key]] = {
    "in": _key("surface", "the face it is cut into", "top", needed=True),
    "wide": _key("size", "left to right (front to back in an end)", "20 H9"),
    "high": _key("size", "bottom to top (front to back in top or bottom)", "14"),
    "thick": THICK,
    "deep": DEEP,
    "corners": _key("size", "radius of the upright corners", "R3"),
    "at": AT,
    "copies": _key("copies", "the same again, in a row", "2 at 40 left to right"),
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
            "treatment": _key("text", "what is done to the metal", "harden, temper to dark straw"),
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
            "casting": _key("casting", "casting: metal left on, draft", "stock 2, draft 1.5°"),
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
    "boss": Kind(meaning="a round body on an axis of its own", keys=_BOSS),
    "ring": Kind(
        meaning="a hollow round body",
        keys={
            "diameter": _BOSS["diameter"],
            "inside": _key("size", "across its bore", "60", needed=True),
            **{key: rule for key, rule in _BOSS.items() if key != "diameter"},
        },
    ),
    "arm": Kind(
        meaning="a flat arm between two bosses, its edges tangent to both",
        keys={
            "joins": _key("joins", "the two bosses", "hub and eye", needed=True),
            "thick": _key("size", "along the bosses' axes", "6"),
            "at": AT,
            "must": MUST,
            "machined": MACHINED,
            "fillet": FILLET,
            "note": NOTE,
        },
    ),
    "hole": Kind(
        meaning="a hole of one or more diameters, entry first",
        keys={
            "in": _key("surface", "the face it goes into", "front", needed=True),
            "size": _key("steps", "one text a diameter", "9 through", many=True, needed=True),
            "at": AT,
            "leans": LEANS,
            "cored": _key("size", "across the hole the casting has there", "16"),
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
            "copies": _key("copies", "the same again along the round", "2 at 40 left to right"),
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
    "face": Kind(
        meaning="a flat face cut on the slant: all metal beyond it goes",
        keys={
            "in": _key("surface", "the side it most nearly faces", "right", needed=True),
            "leans": _key("leans", LEANS.meaning, "15° to top", needed=True),
            "at": _key(
                "at",
                "a line in it: how far along, and how high",
                "level with bottom",
                many=True,
                needed=True,
            ),
            "must": MUST,
            "note": NOTE,
        },
    ),
    "view": Kind(
        meaning="an auxiliary view, for places that are drawn in it",
        keys={
            "turned": _key("turned", "how up in it is turned", "35° anticlockwise", needed=True),
            "of": _key("side", "the side it is seen from: front if left out", "front"),
        },
    ),
    "piece": Kind(
        meaning="some features of another metal, put into the rest",
        keys={
            "material": _key("material", "what it is made of", "phosphor bronze", needed=True),
            "features": _key(
                "names", "its bodies, and the cuts in it alone", "bush", many=True, needed=True
            ),
            "shares": _key("names", "cuts it has together with the rest", "oil", many=True),
            "fixed": _key("fixed", "how it is held", "pressed", needed=True),
            "into": _key("text", "the hole it goes into", "seat"),
            "bar": _key("bar", "the bar it is made from", "round 16 x 40"),
            "plate": _key("plate", "the plate it is made from", "6 x 40 x 40"),
            "note": NOTE,
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
            "moves": _key("text", "which half stands further out before the cut", "cap"),
            "skim": _key("length", "left on each sawn face, to be skimmed", "0.3"),
            "note": NOTE,
        },
    ),
}

LATER: Final = ("taper", "thread")
"""Kinds of table that drawings have and this version cannot yet solve."""

BODIES: Final = frozenset({"round", "block", "plate", "boss", "ring", "arm"})
"""Kinds that are metal; all others cut it or join it."""
BOSSES: Final = frozenset({"boss", "ring"})
"""Round bodies on an axis of their own."""
