"""The metal itself: the blank as a solid, what each set-up leaves, and the proof at the end.

After the last operation the blank less every removed region must be the part as drawn, neither
more nor less; a plan that fails this is refused whatever the solver says of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.geometry import RegionSet
from halfthou.drawing.model import Lump, Part
from halfthou.errors import HalfthouError
from halfthou.planning.fixed_pieces import held_piece, main_part
from halfthou.planning.model import Plan, SetUp
from halfthou.shapes.solids import Solid, cut, fuse, solid_of, together, volume
from halfthou.units import Millimetre

SAME: Final = 1e-4
"""Share of the part's volume by which the metal may differ: the solids' own error."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """The work before and after one set-up."""

    before: Solid
    after: Solid
    removed: Millimetre


def solid_of_all(regions: RegionSet) -> Solid:
    """Union of regions as one solid."""
    solids = [solid_of(r) for r in regions]
    return solids[0] if len(solids) == 1 else fuse(solids)


def finished(part: Part) -> Solid:
    """Give the part as drawn."""
    metal = solid_of_all(part.metal)
    return cut(metal, [solid_of(r) for r in part.removed]) if part.removed else metal


def stages(blank: RegionSet, set_ups: tuple[SetUp, ...]) -> tuple[Metal, ...]:
    """Give the work before and after every set-up, and the volume [mm³] that came off."""
    now = solid_of_all(blank)
    answer = []
    for set_up in set_ups:
        tools = [solid_of(r) for op in set_up.operations for r in op.region]
        after = cut(now, tools) if tools else now
        answer.append(Metal(before=now, after=after, removed=volume(now) - volume(after)))
        now = after
    return tuple(answer)


def stages_by_piece(
    lumps: tuple[Lump, ...], set_ups: tuple[SetUp, ...]
) -> tuple[dict[str, Solid], ...]:
    """Give every piece of a casting before the first set-up and after each."""
    now = {lump.name: _start(lump) for lump in lumps}
    answer = [now]
    for set_up in set_ups:
        after = {}
        for name, work in now.items():
            tools = [
                solid_of(r)
                for op in set_up.operations
                if op.piece in {name, "together", "whole"}
                for r in op.region
            ]
            after[name] = cut(work, tools) if tools else work
        now = after
        answer.append(now)
    return tuple(answer)


def held_stages(part: Part, plan: Plan) -> tuple[Metal, ...]:
    """Give what each set-up holds, before and after it: of a casting only the pieces held."""
    if plan.beside:
        return _piece_by_piece(part, plan)
    if not plan.lumps:
        return stages(plan.blank, plan.set_ups)
    every = stages_by_piece(plan.lumps, plan.set_ups)
    whole = before_the_saw(plan)
    answer = []
    for number, set_up in enumerate(plan.set_ups):
        held = [n for n, _ in set_up.scheme.piece_state if n in every[0]] or list(every[0])
        before, after = (
            whole[n] if n < len(whole) else _as_one(every[n], held) for n in (number, number + 1)
        )
        answer.append(Metal(before=before, after=after, removed=volume(before) - volume(after)))
    return tuple(answer)


def _piece_by_piece(part: Part, plan: Plan) -> tuple[Metal, ...]:
    """Give each piece where it is held by itself; once put in, the work with it."""
    starts = {"": plan.blank, **{lump.name: lump.metal for lump in plan.beside}}
    own = {
        name: iter(stages(metal, tuple(s for s in plan.set_ups if _by_itself(s, name))))
        for name, metal in starts.items()
    }
    work = finished(main_part(part))
    answer = []
    for set_up in plan.set_ups:
        name = next((n for n in starts if _by_itself(set_up, n)), None)
        if name is not None:
            answer.append(next(own[name]))
            continue
        put_in = set_up.scheme.piece_state[-1][0]
        piece = next(p for p in part.pieces if p.name == put_in)
        after = fuse([work, _start(piece.lump)])
        answer.append(Metal(before=work, after=after, removed=0.0))
        work = after
    return tuple(answer)


def _by_itself(set_up: SetUp, name: str) -> bool:
    together = len(set_up.scheme.piece_state) > 1
    return not together and held_piece(set_up.scheme) == name


def before_the_saw(plan: Plan) -> list[Solid]:
    """Give the one casting at the start and after every set-up before it is sawn apart."""
    sawn = [
        number
        for number, set_up in enumerate(plan.set_ups)
        if any(op.verb == "saw" for op in set_up.operations)
    ]
    if not plan.uncut or not sawn:
        return []
    now = fuse([_start(lump) for lump in plan.uncut])
    found = [now]
    for set_up in plan.set_ups[: sawn[0]]:
        tools = [solid_of(r) for op in set_up.operations for r in op.region]
        now = cut(now, tools) if tools else now
        found.append(now)
    return found


def _as_one(pieces: dict[str, Solid], names: list[str]) -> Solid:
    found = [pieces[name] for name in names]
    return found[0] if len(found) == 1 else together(found)


def _start(lump: Lump) -> Solid:
    metal = solid_of_all(lump.metal)
    return cut(metal, [solid_of(r) for r in lump.removed]) if lump.removed else metal


def prove_pieces(part: Part, lumps: tuple[Lump, ...], set_ups: tuple[SetUp, ...]) -> None:
    """Check that the plan leaves every piece of a casting as drawn.

    Raises
    ------
    HalfthouError
        If metal is left on a piece, or taken off that should stay.
    """
    left = stages_by_piece(lumps, set_ups)[-1]
    for piece in part.pieces:
        if piece.name in left:
            _prove_one(f"{piece.name} of the {part.name}", left[piece.name], _start(piece.lump))


def prove(part: Part, blank: RegionSet, set_ups: tuple[SetUp, ...]) -> None:
    """Check that the plan leaves the part as drawn.

    Raises
    ------
    HalfthouError
        If metal is left on, or taken off that should stay.
    """
    _prove_one(part.name, stages(blank, set_ups)[-1].after, finished(part))


def _prove_one(name: str, left: Solid, want: Solid) -> None:
    wanted = volume(want)
    over = volume(cut(left, [want]))
    under = volume(cut(want, [left]))
    if max(over, under) > SAME * wanted:
        raise HalfthouError(
            f"the plan does not leave the {name} as drawn",
            why=f"{over:.1f} mm³ too much metal and {under:.1f} mm³ too little, of {wanted:.0f}",
            tries=("report this with the part file: it is a fault of the program",),
        )
