"""How a surface is called on a card: by its size and its name on the drawing."""

from __future__ import annotations

import re
from typing import Final

from halfthou.drawing.model import Band, Part, Surface
from halfthou.present.numbers import Units, nominal

_STOCK: Final = "stock"
_ROUGHED: Final = " as roughed"
_SIDES: Final = ("left", "right", "top", "bottom", "front", "back")
_SIZED: Final = ("cylinder", "thread")


def metal_word(part: Part) -> str:
    """Name the lump in one word: bar, plate, casting."""
    form = part.blank.form
    if form.endswith("bar"):
        return "bar"
    return form


def shop_name(name: str) -> str:
    """Write a name of the part file as it is spoken.

    >>> shop_name("left-shoulder floor")
    'left shoulder floor'
    """
    return re.sub(r"(?<=[a-z])-(?=[a-z])", " ", name)


def surface_words(name: str, part: Part, units: Units) -> str:
    """Call a surface as one would across the bench, with its article.

    A raw one is the bar or plate itself; a round goes by diameter and name; a face by where it is.
    """
    if name in ("blank", "saw"):
        return f"the {metal_word(part)}"
    if name.endswith(_ROUGHED):
        return f"the roughed {shop_name(name.removesuffix(_ROUGHED))}"
    if name.startswith(_STOCK):
        return _raw(name.removeprefix(_STOCK).strip(), part)
    surface = _found(name, part)
    return f"the {shop_name(_end(name))}" if surface is None else _by_its_size(surface, units)


def _by_its_size(surface: Surface, units: Units) -> str:
    if surface.kind in _SIZED and surface.size is not None:
        sign = "" if surface.kind == "thread" else f"Ø{_across(surface.size, units)} "
        return f"the {sign}{shop_name(surface.feature)}"
    if surface.kind == "cone":
        return f"the taper of the {shop_name(surface.feature)}"
    return f"the {shop_name(_face(surface.name))}"


def _across(size: Band, units: Units) -> str:
    """Write a diameter; one drawn in millimetres on an inch drawing as it is drawn."""
    if units == "in" and "mm" in size.text:
        return f"{nominal(size, 'mm')} mm"
    return nominal(size, units)


def _found(name: str, part: Part) -> Surface | None:
    return next((s for s in part.surfaces if s.name == name), None)


def _raw(where: str, part: Part) -> str:
    metal = metal_word(part)
    if where in ("", "outside"):
        return f"the {metal}"
    if where in ("left", "right") and part.turned:
        return f"the sawn {where} end"
    return f"the raw {where} face" if where in _SIDES else f"the raw {where}"


def _end(name: str) -> str:
    return f"{name} end" if name in ("left", "right") else name


def _face(name: str) -> str:
    """``collar left`` is the left face of the collar; ``right`` alone the right end."""
    if name in _SIDES:
        return f"{name} face"
    words = name.split()
    if words[-1] in _SIDES:
        return f"{words[-1]} face of the {' '.join(words[:-1])}"
    if words[-1] == "floor":
        return f"floor of the {' '.join(words[:-1])}"
    return name
