"""Sizes that no series lists: drills and bars that would have to be made."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.drawing.meant import is_fit
from halfthou.drawing.model import Finding, Hole, HoleStep, Part
from halfthou.handbook.drills import Drill, ladder
from halfthou.handbook.stock import BarForm, bars
from halfthou.units import MM_PER_INCH, Millimetre

LARGEST_DRILLED: Final = 13.0
"""Above this a hole is bored to any size with the drill chuck of a small shop [mm]."""
_SAME: Final = 0.006


def series_findings(part: Part) -> Iterator[Finding]:
    """Drilled holes and bars of a size that nobody sells."""
    for feature in part.features:
        if isinstance(feature, Hole):
            yield from _holes(feature, part)
    yield from _bar(part)


def _holes(hole: Hole, part: Part) -> Iterator[Finding]:
    for step in hole.steps:
        if not _drilled(step) or step.diameter.nominal > LARGEST_DRILLED:
            continue
        wanted = step.diameter
        near = min(ladder(), key=lambda drill: abs(drill.diameter - wanted.nominal))
        if abs(near.diameter - wanted.nominal) <= _SAME or _within(near, step):
            continue
        yield Finding(
            what=f"no series of drills lists {_shown(wanted.nominal, part)} for {hole.name}",
            feature=hole.name,
            why=f"the nearest is {near.name}, {_shown(near.diameter, part)}",
            tries=(f"draw it {near.name}", "give it a tolerance, and it is bored or reamed"),
            grave=False,
            at=hole.entries[0],
        )


def _drilled(step: HoleStep) -> bool:
    return (
        step.kind == "plain"
        and step.process in {None, "drilled"}
        and step.thread is None
        and step.clears is None
        and not is_fit(step.diameter)
    )


def _within(drill: Drill, step: HoleStep) -> bool:
    return step.diameter.low <= drill.diameter <= step.diameter.high


def _shown(size: Millimetre, part: Part) -> str:
    return f"{size / MM_PER_INCH:.4f} in" if part.units == "in" else f"{size:.2f} mm"


_FORMS: Final[dict[str, BarForm]] = {
    "round bar": "round", "hexagon bar": "hexagon", "square bar": "square",
}  # fmt: skip


def _bar(part: Part) -> Iterator[Finding]:
    form = _FORMS.get(part.blank.form)
    if form is None:
        return
    listed = [*bars(form, "mm"), *bars(form, "in")]
    if any(abs(bar.size.value - part.blank.across) <= _SAME for bar in listed):
        return
    larger = [bar for bar in bars(form, part.units) if bar.size.value > part.blank.across]
    if not larger:
        return
    near = larger[0]
    yield Finding(
        what=f"no usual {part.blank.form} measures {_shown(part.blank.across, part)} across",
        feature="blank",
        why=f"the next larger is {near.size.text}",
        tries=(f"take {near.size.text}", "leave it, if that bar is in the rack"),
        grave=False,
    )
