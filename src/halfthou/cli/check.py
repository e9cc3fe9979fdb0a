"""``halfthou check``: read a part file, check its drawing, say what is noticed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from halfthou.cli.answer import DONE, FAULT, NO, Answer, Told, fault_lines, fault_told
from halfthou.drawing.model import Finding, Part
from halfthou.store.part_on_disk import PartOnDisk, look_at_part


def check_part(file: Path) -> Answer:
    """Check one part file."""
    on_disk = look_at_part(file)
    if on_disk.part is None:
        return unreadable(on_disk)
    part = on_disk.part
    return Answer(
        lines=tuple(_lines(file, part)),
        told={"file": str(file), "part": part_told(part)},
        status=NO if on_disk.grave else DONE,
    )


def unreadable(on_disk: PartOnDisk) -> Answer:
    """Answer for a part file with faults: all of them together."""
    return Answer(
        lines=fault_lines(on_disk.faults),
        told={
            "file": str(on_disk.path),
            "done": False,
            "faults": [fault_told(fault) for fault in on_disk.faults],
        },
        status=FAULT,
    )


def part_told(part: Part) -> Told:
    """Part and its findings as JSON values."""
    return {
        "name": part.name,
        "material": part.material,
        "units": part.units,
        "blank": part.blank.text,
        "surfaces": len(part.surfaces),
        "findings": [finding_told(each) for each in part.findings],
        "taken_as_meant": list(_meant(part)),
    }


def finding_told(finding: Finding) -> Told:
    """Tell a finding as JSON values."""
    return {
        "what": finding.what,
        "feature": finding.feature,
        "why": finding.why,
        "try": list(finding.tries),
        "grave": finding.grave,
    }


def finding_lines(finding: Finding) -> Iterator[str]:
    """Write a finding as it is printed."""
    yield f"{'to mend' if finding.grave else 'to look at'}: {finding.what}"
    if finding.why:
        yield f"  why: {finding.why}"
    if finding.tries:
        yield f"  try: {', or '.join(finding.tries)}"


def _lines(file: Path, part: Part) -> Iterator[str]:
    metal = f"{part.material}, {part.blank.text}".rstrip(", ")
    yield f"{file}: {part.name} ({metal})"
    meant = _meant(part)
    if meant:
        yield "taken as meant:"
        yield from (f"  {text}" for text in meant)
    for finding in sorted(part.findings, key=lambda each: not each.grave):
        yield ""
        yield from finding_lines(finding)
    if not part.findings:
        yield "every surface is located, once; nothing to mend"


def _meant(part: Part) -> tuple[str, ...]:
    texts = (each.text for each in part.requirements if each.origin == "taken as meant")
    return tuple(dict.fromkeys(texts))
