"""The one reader of the data files: rows as text, and the lines that say where they come from."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Final, TypeAlias

Row: TypeAlias = Mapping[str, str]

_DATA: Final = "data"


@cache
def _lines(name: str) -> tuple[str, ...]:
    table = files(__package__).joinpath(_DATA, f"{name}.csv")
    return tuple(table.read_text(encoding="utf-8").splitlines())


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Rows of the data file ``name``, as printed, by the heads of its columns."""
    body = [line for line in _lines(name) if line.strip() and not line.startswith("#")]
    return tuple(MappingProxyType(row) for row in csv.DictReader(body))


@cache
def headers(name: str) -> tuple[tuple[str, str], ...]:
    """Lines above the table as (key, text): title, status, source, note."""
    found = []
    for line in _lines(name):
        if line.startswith("#"):
            key, colon, text = line[1:].strip().partition(": ")
            keyed = colon and key in {"status", "source", "note"}
            found.append((key, text) if keyed else ("title", line[1:].strip()))
    return tuple(found)


@cache
def table_names() -> tuple[str, ...]:
    """Names of all data files."""
    folder = files(__package__).joinpath(_DATA)
    names = (entry.name for entry in folder.iterdir())
    return tuple(sorted(name.removesuffix(".csv") for name in names if name.endswith(".csv")))


def band(
    table: Iterable[Row], size: float, *, over: str = "over", upto: str = "upto"
) -> Row | None:
    """Row whose band, over its first to and including its last figure, holds ``size``."""
    for row in table:
        if float(row[over]) < size <= float(row[upto]):
            return row
    return None


def number(text: str) -> float | None:
    """Figure of a cell; a blank cell is none."""
    return float(text) if text.strip() else None
