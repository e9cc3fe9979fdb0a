"""Why a set-up is as it is, in words of surfaces and not of the part file."""

from __future__ import annotations

import re
from typing import Final

from halfthou.drawing.model import Hole, Part
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units, joined, sentence
from halfthou.present.words_surfaces import shop_name, surface_words

_TOGETHER: Final = re.compile(r"^(?P<names>.+) at one setting, so they are true to each other.*$")
_SAID_ABOVE: Final = (
    "soft pads under the jaws",
    "a round bar at the moving jaw",
    "the best raw face goes to the fixed jaw",
    "which is the one that is true",
    "is clocked level along the table",
    "is brought over the middle with a clock",
    "started square with the tap",
    "too wide for the vice",
    "so the best",
)
"""What the holding and the truing say already."""


def why_words(worked: WorkedSetUp, part: Part, units: Units) -> str:
    """Say why this is done here and so; the members of a pattern are named once, together."""
    copies = [
        hole.name for hole in part.features if isinstance(hole, Hole) and len(hole.entries) > 1
    ]
    texts = []
    for reason in worked.reasons:
        text = reason.text
        for name in copies:
            text = re.sub(rf"\b{re.escape(name)} \d+\b", name, text)
        if any(said in text for said in _SAID_ABOVE):
            continue
        together = _TOGETHER.match(text)
        if together:
            text = _together(together["names"], worked, part, units)
        else:
            text = _named(text, part, units)
        texts.append(text)
    return " ".join(dict.fromkeys(sentence(text) for text in texts if text))


def _together(names: str, worked: WorkedSetUp, part: Part, units: Units) -> str:
    """Say what is finished here at one setting: only surfaces that are made here."""
    made = {name for op in worked.set_up.operations for name in op.makes}
    found = [name.strip() for name in re.split(r", | and ", names) if name.strip() in made]
    if len(found) < 2:  # noqa: PLR2004
        return ""
    words = joined(tuple(surface_words(name, part, units) for name in found))
    return f"{words} at one setting: true to each other without clocking"


def _named(text: str, part: Part, units: Units) -> str:
    """Put surfaces into words where a reason names them as the part file does."""
    names = sorted(
        (s.name for s in part.surfaces if " " in s.name and not s.name[-1].isdigit()),
        key=len,
        reverse=True,
    )
    for name in names:
        text = re.sub(rf"\b(?:the )?{re.escape(name)}\b", surface_words(name, part, units), text)
    first = next((s.name for s in part.surfaces if text.startswith(f"{s.name} ")), "")
    return shop_name(f"the {text}" if first else text)
