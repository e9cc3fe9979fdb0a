"""Typesetting: words and pictures in memory to PDF or PNG, the same bytes each time."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any, Final

import typst

from halfthou.errors import HalfthouError

_REMEMBERED: Final = 10
"""Documents the typesetter keeps all workings of, for setting nearly the same again: some
hundred megabytes each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Typeset:
    """A typeset job: the document, and the sheet on which each card begins."""

    pdf: bytes
    sheets: int
    first_sheets: tuple[int, ...]


@cache
def _fonts() -> typst.Fonts:
    with as_file(files("fontpkg_fira_sans") / "files") as folder:
        return typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[Path(folder)]
        )


@cache
def _sheet() -> bytes:
    return files("halfthou.cards").joinpath("sheet.typ").read_bytes()


def compiler_for(job: Mapping[str, Any], pictures: Mapping[str, str]) -> typst.Compiler:
    """Put words and pictures before the typesetter, in memory; a compiler serves one call."""
    sources = {"main.typ": _sheet(), "job.json": json.dumps(job, sort_keys=True).encode()}
    sources |= {f"{name}.svg": drawn.encode() for name, drawn in pictures.items()}
    # the library's own annotations know of file names only; it takes named sources as well
    return typst.Compiler(input=sources, font_paths=_fonts())  # type: ignore[type-var]


def typeset(job: Mapping[str, Any], pictures: Mapping[str, str]) -> Typeset:
    """Set a job as PDF.

    Raises
    ------
    HalfthouError
        If the typesetter has anything to say: a letter the type lacks, a picture it cannot read.
    """
    compiler = compiler_for(job, pictures)
    try:
        pdf, warnings = compiler.compile_with_warnings(format="pdf", timestamp=0)
    except typst.TypstError as error:
        raise _fault(str(error)) from error
    if warnings:
        raise _fault("; ".join(str(one) for one in warnings))
    found = _value(compiler_for(job, pictures), "<sheets>")
    _forget()
    first = tuple(int(sheet) for sheet in found["first-sheets"])
    if not isinstance(pdf, bytes):
        raise _fault("it gave back no document")
    return Typeset(pdf=pdf, sheets=int(found["sheets"]), first_sheets=first)


def pages_as_png(
    job: Mapping[str, Any], pictures: Mapping[str, str], *, dots_an_inch: float = 110.0
) -> tuple[bytes, ...]:
    """Set a job as pictures, one a sheet: to look at, and for the pages."""
    drawn = compiler_for(job, pictures).compile(format="png", ppi=dots_an_inch)
    _forget()
    if isinstance(drawn, list):
        return tuple(drawn)
    return (drawn,) if drawn is not None else ()


def _forget() -> None:
    """Let the typesetter go on to empty sheets until it has let go of what it set before.

    It is not to be told so otherwise, and pages that stay open all day would fill the machine.
    """
    for _ in range(_REMEMBERED + 1):
        empty = {"main.typ": b""}
        typst.Compiler(input=empty, font_paths=_fonts()).compile(  # type: ignore[type-var]
            format="pdf", timestamp=0
        )


def _value(compiler: typst.Compiler, label: str) -> Any:  # noqa: ANN401
    return json.loads(compiler.query(label, field="value", one=True))


def _fault(said: str) -> HalfthouError:
    return HalfthouError(
        "the card could not be set in type",
        why=said,
        tries=("report this with the part file: it is a fault of the program",),
    )
