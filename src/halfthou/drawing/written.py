"""The part as written: the tables of a part file as plain values, the author's text kept."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from halfthou.quantities import DrawingUnits

TableKind: TypeAlias = str


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One key of a table with its text, or its texts where a list is written."""

    key: str
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenTable:
    """One table: ``[hole.bore]`` is of kind ``hole`` and has the name ``bore``."""

    kind: TableKind
    name: str
    entries: tuple[Entry, ...]

    @property
    def place(self) -> str:
        """How the file names this table: ``hole.bore``."""
        return f"{self.kind}.{self.name}" if self.name else self.kind

    def has(self, key: str) -> bool:
        """Whether the key is written."""
        return any(entry.key == key for entry in self.entries)

    def texts(self, key: str) -> tuple[str, ...]:
        """All texts of a key; none if it is not written."""
        for entry in self.entries:
            if entry.key == key:
                return entry.texts
        return ()

    def text(self, key: str, otherwise: str = "") -> str:
        """Return the one text of a key, or ``otherwise`` if it is not written."""
        texts = self.texts(key)
        return texts[0] if texts else otherwise


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A whole part file. ``source`` is its text, character for character.

    ``unread`` are names of tables that could not be understood: they exist, so that measuring
    from one is no second fault.
    """

    file: str
    source: str
    part: WrittenTable
    blank: WrittenTable
    features: tuple[WrittenTable, ...]
    unread: tuple[str, ...] = ()

    @property
    def units(self) -> DrawingUnits:
        """Units of bare figures."""
        return "in" if self.part.text("units") == "in" else "mm"

    def feature(self, name: str) -> WrittenTable | None:
        """Return the feature of that name, if there is one; a piece is no feature."""
        for table in self.features:
            if table.name == name and table.kind != "piece":
                return table
        return None
