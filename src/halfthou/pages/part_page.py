"""One part as drawn: its picture, what the check noticed, its sizes as one ruled sheet."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from halfthou.drawing.model import Finding, Part
from halfthou.errors import InputFault
from halfthou.pages.pictures import part_picture
from halfthou.pages.shelf import Seen, Shelf
from halfthou.present.drawing_sheet import FeatureRows, drawing_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class PartView:
    """The page of one part. ``old`` says that the drawing shown is from before the faults."""

    name: str
    file: str
    title: str
    facts: tuple[tuple[str, str], ...]
    faults: tuple[InputFault, ...]
    old: bool
    picture: Markup | None
    findings: tuple[Finding, ...]
    sheet: tuple[FeatureRows, ...]
    planned: bool
    stale: bool
    version: str


def view(shelf: Shelf, seen: Seen) -> PartView:
    """Look at one part."""
    version = shelf.version(seen.name)
    part, on_disk = seen.last_good, seen.on_disk
    return PartView(
        name=seen.name,
        file=on_disk.path.name,
        title=part.name if part is not None else seen.name,
        facts=_facts(part) if part is not None else (),
        faults=on_disk.faults,
        old=bool(on_disk.faults) and part is not None,
        picture=part_picture(shelf, part) if part is not None else None,
        findings=on_disk.part.findings if on_disk.part is not None else (),
        sheet=drawing_rows(part) if part is not None else (),
        planned=seen.plan.kept is not None,
        stale=seen.plan.stale,
        version=version,
    )


def _facts(part: Part) -> tuple[tuple[str, str], ...]:
    pairs = (
        ("material", part.material),
        ("blank", part.blank.text),
        ("units", "inches" if part.units == "in" else "millimetres"),
        ("where no limits are given", part.otherwise),
        ("how many", str(part.quantity) if part.quantity > 1 else ""),
        ("notes", "; ".join(part.notes)),
    )
    return tuple((head, body) for head, body in pairs if body)
