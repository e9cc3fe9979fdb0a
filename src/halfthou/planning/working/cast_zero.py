"""Zeros picked up on the raw faces of a casting, and holes that follow a boss as it was cast."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Boss, Part, Surface
from halfthou.planning.axes import dot
from halfthou.planning.worked import Step, WorkedSetUp, Zero
from halfthou.planning.working.zero import AS_CUT, RAW
from halfthou.planning.working.zero_at_jaw import AT_THE_JAW
from halfthou.units import Millimetre

STILL_OVER: Final = ", metal still over it"
"""How the means of a pick-up end whose face is raw and is cut later: it carries metal."""
_ASKED: Final = (
    "before it is gripped, {from_face} to {to_face} as it is now, by caliper: about {as_is}; "
    "write it here: ________; the zero on {from_face} allows for {share} of what that is over "
    "{drawn}, {over} here"
)
_OTHERWISE: Final = "; measured more or less, by {share} of that more or less"
ON_THE_BOSS: Final = (
    "spot central in the boss as cast, its rim alike all round by caliper within 0.3: the dials "
    "only bring it there"
)
_ROUND: Final = frozenset(("cylinder", "cone"))
_FLAT: Final = 0.99
_NEAR: Final[Millimetre] = 0.01


def over_raw_faces(part: Part, made: set[str], one: WorkedSetUp) -> WorkedSetUp:
    """Give a set-up whose zeros on raw faces carry the metal that is still to come off them.

    The zero lies on the finished line, as the places of holes do; the finder touches outside it.
    """
    if one.zero is None or one.set_up.scheme.machine != "mill":
        return one
    picks: list[tuple[str, str, str, Millimetre]] = []
    notes = []
    for way, name, means, stands in one.zero.pick_up:
        face = next((s for s in part.surfaces if s.name == name), None)
        known = means == AS_CUT or means.endswith((RAW, STILL_OVER))
        if way == "z" or face is None or known or not stands or not _still_over(face, made):
            picks.append((way, name, means, stands))
            continue
        far = _opposite(part, face)
        shared = far is not None and not far[0].raw and far[0].name not in made
        over = part.blank.stock
        outward = math.copysign(1.0, stands) * (-1.0 if means.endswith(AT_THE_JAW) else 1.0)
        picks.append((way, name, f"{means}{STILL_OVER}", stands + outward * over))
        if far is not None:
            notes.append(_told(face, far, over, shared=shared))
    zero = Zero(at=one.zero.at, surfaces=one.zero.surfaces, pick_up=tuple(picks))
    return replace(one, zero=zero, hold_notes=(*one.hold_notes, *notes))


def _still_over(face: Surface, made: set[str]) -> bool:
    return face.kind == "plane" and not face.raw and face.name not in made


def _opposite(part: Part, face: Surface) -> tuple[Surface, Millimetre] | None:
    """Give the face a size is drawn to, right through the metal, and that size."""
    for distance in part.distances:
        pair = {name: part.surface(name) for name in (distance.a, distance.b)}
        other = [s for s in pair.values() if s.name != face.name]
        if len(other) != 1 or other[0].kind != "plane" or other[0].inside:
            continue
        if dot(other[0].direction, face.direction) < -_FLAT:
            return other[0], distance.band.nominal
    return None


def _told(
    face: Surface, far: tuple[Surface, Millimetre], over: Millimetre, *, shared: bool
) -> str:
    """Ask for the thickness as it is: what stands on the face is known from it alone."""
    other, drawn = far
    share = "half" if shared else "all"
    asked = _ASKED.format(
        from_face=f"the {face.name} face",
        to_face=f"the {other.name} face",
        as_is=f"{drawn + over * (2 if shared else 1):g}",
        share=share,
        drawn=f"{drawn:g}",
        over=f"{over:g}",
    )
    return asked + _OTHERWISE.format(share=share)


def on_its_boss(part: Part, step: Step) -> Step:
    """Say of a hole in the middle of a boss that stays as cast: the boss has the last word."""
    op = step.operations[0]
    if op.verb != "spot" or len(op.at) != 1:
        return step
    rounds = [s for s in part.surfaces if s.kind in _ROUND and s.raw and not s.inside]
    bosses = {f.name for f in part.features if isinstance(f, Boss)}
    own = [s for s in rounds if s.feature in bosses and _on_the_line(s, op.at[0])]
    return replace(step, remarks=(*step.remarks, ON_THE_BOSS)) if own else step


def _on_the_line(boss: Surface, spot: tuple[float, float, float]) -> bool:
    apart = tuple(a - b for a, b in zip(spot, boss.point, strict=True))
    along = sum(a * b for a, b in zip(apart, boss.direction, strict=True))
    return math.sqrt(max(0.0, sum(a * a for a in apart) - along**2)) < _NEAR
