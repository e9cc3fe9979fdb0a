"""What old drawings leave unsaid and everybody reads into them: taken as meant."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.errors import InputFault

MeantKind: TypeAlias = Literal["concentric", "square", "broken edges"]
_MEANT: Final = re.compile(r"not (concentric|square|broken edges)(?:\s*:\s*(.+))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck:
    """Something not taken as meant: of one feature, or of the whole part."""

    kind: MeantKind
    features: tuple[str, ...]


def parse_meant(text: str) -> Struck:
    """Read ``not concentric`` or ``not concentric: tail, end``.

    >>> parse_meant("not square: collar").features
    ('collar',)
    """
    found = _MEANT.fullmatch(text.strip())
    if found is None:
        raise InputFault(
            f"'{text}' does not say what is not meant",
            why="concentric, square and broken edges are taken as meant unless struck out",
            tries=(
                "write it like not concentric: tail",
                "like not square",
                "like not broken edges",
            ),
        )
    kinds: dict[str, MeantKind] = {
        "concentric": "concentric", "square": "square", "broken edges": "broken edges",
    }  # fmt: skip
    names = tuple(name.strip() for name in (found[2] or "").split(",") if name.strip())
    return Struck(kind=kinds[found[1]], features=names)
