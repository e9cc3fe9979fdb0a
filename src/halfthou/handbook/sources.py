"""Where a number came from, so that a card can print it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeAlias, get_args

from halfthou.errors import OutOfRangeError
from halfthou.handbook.tables import headers, table_names

Status: TypeAlias = Literal["published", "computed", "recalled", "usual practice"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Source of a table: what it holds, where that was printed, how far to trust it."""

    title: str
    text: str
    status: Status
    notes: tuple[str, ...] = ()

    @property
    def standard(self) -> bool:
        """Whether it may be shown as the standard, not as a default to be edited."""
        return self.status in {"published", "computed"}


@cache
def source_of(name: str) -> Source:
    """Source of the data file ``name``."""
    if name not in table_names():
        raise OutOfRangeError(f"no table is called '{name}'", tries=table_names())
    lines = headers(name)
    found = dict(reversed(lines))
    status = next(each for each in get_args(Status) if each == found["status"])
    return Source(
        title=found["title"],
        text=found["source"],
        status=status,
        notes=tuple(text for key, text in lines if key == "note"),
    )


def all_sources() -> dict[str, Source]:
    """Every table of the handbook with its source."""
    return {name: source_of(name) for name in table_names()}
