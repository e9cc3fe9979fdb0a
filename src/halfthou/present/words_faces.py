"""The faces of a block by their names: which goes where before the first cut, raw or milled."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import OUTWARD, Block, Part, Side
from halfthou.planning.axes import cross, other_side, side_toward
from halfthou.planning.milled.lump import SIDES, lump_of
from halfthou.present.numbers import joined
from halfthou.present.words_held import NOTHING, Held
from halfthou.present.words_surfaces import surface_words

STOCK: Final = "stock"
"""How the name of a raw surface begins."""


def called_words(name: str, held: Held) -> str:
    """Call a face of a block by its name and state: raw, milled, or as bought."""
    said = surface_words(name, held.part, held.units)
    if name.startswith(STOCK) or not from_the_solid(held.part):
        return said
    face = next((s for s in held.part.surfaces if s.name == name), None)
    if face is None or face.kind != "plane" or not said.startswith("the "):
        return said
    cut = lump_of(held.part).over(side_toward(face.direction)) > NOTHING
    return f"the {'milled' if cut else 'bought'} {said.removeprefix('the ')}"


def from_the_solid(part: Part) -> bool:
    """Tell whether a part is cut out of a bar or plate, face by face."""
    blocks = any(isinstance(feature, Block) for feature in part.features)
    return blocks and not part.turned and part.blank.form != "casting"


def names_words(held: Held) -> str:
    """Say which name goes on which raw face, before the first cut: they are called by it after.

    Empty where anything is cut already.
    """
    scheme = held.scheme
    raw = [name.startswith(STOCK) for name in (*scheme.grips, *scheme.seats)]
    if not raw or not all(raw) or not from_the_solid(held.part):
        return ""
    right, away = scheme.across, cross(scheme.faces, scheme.across)
    up, to_right, far = (side_toward(one) for one in (scheme.faces, right, away))
    hidden = joined(tuple(other_side(one).upper() for one in (up, to_right, far)))
    return (
        f"Felt pen first, the names on the raw faces: {up.upper()} up, {to_right.upper()} to the "
        f"right, {far.upper()} away from you, {hidden} opposite them{_ways_of_the_lump(held.part)}"
        "; every new face gets its name again. "
    )


def _ways_of_the_lump(part: Part) -> str:
    """Say how the lump lies in its names: longest and thinnest, or where it is sawn."""
    lump = lump_of(part)
    if part.blank.form.endswith("bar"):
        ends = f"{SIDES[2 * lump.long]} and {SIDES[2 * lump.long + 1]}".upper()
        return f" ({ends.replace('AND', 'and')} are the ends of the bar)"
    sizes = {side: lump.raw.length(OUTWARD[side]) for side in SIDES[::2]}
    most, least = max(sizes, key=sizes.__getitem__), min(sizes, key=sizes.__getitem__)
    return f" (longest {_from_to(most)}, thinnest {_from_to(least)})"


def _from_to(side: Side) -> str:
    return f"{side} to {other_side(side)}"
