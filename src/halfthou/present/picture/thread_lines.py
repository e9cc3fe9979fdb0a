"""Threads by the convention of ISO 6410: a thin line at a screw's root, in a nut at its top."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from halfthou.drawing.model import Hole, Part, Round
from halfthou.planning.model import Operation
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.sheet import Mark, Path
from halfthou.units import Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadRun:
    """A thread about the axis, from one place to another; ``thin`` is the thin line's diameter."""

    left: Millimetre
    right: Millimetre
    thin: Millimetre
    inside: bool


def threads_of(part: Part) -> tuple[ThreadRun, ...]:
    """Return the threads of a turned part that lie on its axis."""
    found: list[ThreadRun] = []
    for one in part.features:
        if isinstance(one, Round) and one.thread is not None:
            found.append(
                ThreadRun(left=one.left, right=one.right, thin=one.thread.minor, inside=False)
            )
        elif isinstance(one, Hole) and one.on_axis:
            found += _in_hole(one)
    return tuple(found)


def _in_hole(hole: Hole) -> list[ThreadRun]:
    entry, into = hole.entries[0][0], hole.into[0]
    found: list[ThreadRun] = []
    for step in hole.steps:
        if step.thread is None:
            continue
        ends = sorted((entry + into * step.start, entry + into * step.end))
        found.append(ThreadRun(left=ends[0], right=ends[1], thin=step.thread.major, inside=True))
    return found


def threads_cut(operations: Iterable[Operation], *, sense: float) -> tuple[ThreadRun, ...]:
    """Return the threads on the axis that a lathe set-up cuts, in the lathe's own sense."""
    found: list[ThreadRun] = []
    for one in operations:
        if one.thread is None or one.verb not in {"thread", "tap"} or one.starts == one.ends:
            continue
        inside = one.inside or one.verb == "tap"
        thin = one.thread.major if inside else one.thread.minor
        ends = _along(one, sense)
        found.append(ThreadRun(left=ends[0], right=ends[1], thin=thin, inside=inside))
    return tuple(found)


def _along(operation: Operation, sense: float) -> tuple[Millimetre, Millimetre]:
    """Where it lies along the lathe; a hole counts its depth from its entry face."""
    low, high = operation.starts, operation.ends
    if operation.at:
        entry = operation.at[0][0]
        inward = -operation.approach[0][0] if operation.approach else -sense
        low, high = entry + inward * low, entry + inward * high
    one, two = sorted((sense * low, sense * high))
    return one, two


def thread_lines(threads: Iterable[ThreadRun], frame: Frame, *, solid: bool) -> tuple[Mark, ...]:
    """Draw the thin lines: above and below the axis outside, below it in a bore cut open."""
    lines = []
    for run in threads:
        sides = (-1.0,) if run.inside else (1.0, -1.0)
        if run.inside and solid:
            continue
        for side in sides:
            y = side * run.thin / 2
            lines.append((frame.to((run.left, y)), frame.to((run.right, y))))
    return (Path(lines=tuple(lines), style="thread"),) if lines else ()
