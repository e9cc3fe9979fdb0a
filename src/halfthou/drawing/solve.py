"""From the part as written to the part with every surface in its place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, Literal

from halfthou.drawing.blank import blank_of
from halfthou.drawing.blocks import build_blocks
from halfthou.drawing.bodies import bodies_of, moved
from halfthou.drawing.bosses import build_bosses, fillet_notes
from halfthou.drawing.built import Built, Solved
from halfthou.drawing.chamfers import build_chamfer
from halfthou.drawing.check import checked
from halfthou.drawing.cutouts import build_cutout
from halfthou.drawing.distances import build_distances
from halfthou.drawing.equations import Linear, Solution, solve_equations
from halfthou.drawing.faces import build_face
from halfthou.drawing.grammar import BODIES
from halfthou.drawing.holes import build_hole, holes_in_order
from halfthou.drawing.joints import build_joint
from halfthou.drawing.keyways import build_keyway
from halfthou.drawing.lump import with_raw_size
from halfthou.drawing.mates import mates_of
from halfthou.drawing.meant import edges_note, taken_as_meant
from halfthou.drawing.metal import Body, RoundBody, reach
from halfthou.drawing.model import Part, Requirement
from halfthou.drawing.pieces import build_pieces, own_metal, own_removed
from halfthou.drawing.requirements import stated_requirements
from halfthou.drawing.rounds import build_rounds
from halfthou.drawing.setting_out import set_out
from halfthou.drawing.sheet import Key, Sheet, belongs
from halfthou.drawing.sizes import as_fault, counted, general_rule
from halfthou.drawing.turned_cuts import build_centres, build_turned_groove
from halfthou.drawing.unlocated import located_findings, loose_features
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import Faults, HalfthouError, InputFault
from halfthou.quantities import parse_length

_ROUNDS_OF_SIDES: Final = 4
_SAME: Final = 1e-7

_BUILDERS: Final[dict[str, Callable[[Solved, Built, WrittenTable], None]]] = {
    "hole": build_hole,
    "step": build_cutout,
    "slot": build_cutout,
    "pocket": build_cutout,
    "keyway": build_keyway,
    "groove": build_turned_groove,
    "centres": build_centres,
    "joint": build_joint,
    "chamfer": build_chamfer,
    "face": build_face,
}


def solve(written: Written) -> Part:
    """Put every feature in its place, and say what the drawing leaves open or says twice.

    Raises
    ------
    Faults
        With every text that cannot be built, each with its place in the file.
    """
    try:
        return _solved(written)
    except HalfthouError as error:
        fault = as_fault(error, where=written.file)
        raise Faults(f"{written.file} has 1 fault", [fault]) from error


def _solved(written: Written) -> Part:
    sheet, solution = _placed(written)
    bodies = bodies_of(written, sheet, solution)
    faults = list(sheet.faults)
    if faults:
        raise Faults(f"{written.file} has {counted(len(faults), 'fault')}", faults)
    solved = _at_origin(written, sheet, solution, bodies)
    built = Built()
    build_rounds(solved, built)
    build_blocks(solved, built)
    build_bosses(solved, built)
    cuts = [table for table in written.features if table.kind in _BUILDERS]
    last = [table for kind in ("chamfer", "face") for table in cuts if table.kind == kind]
    others = [table for table in cuts if table.kind not in {"chamfer", "hole", "face"}]
    for table in (*holes_in_order(written), *others, *last):
        faults += _guarded(solved, built, table)
    stated, more = stated_requirements(solved, built) if not faults else ([], [])
    faults += more
    if faults:
        raise Faults(f"{written.file} has {counted(len(faults), 'fault')}", faults)
    build_distances(solved, built)
    requirements = (*stated, *taken_as_meant(solved, built, stated))
    built.findings[:0] = located_findings(solved, solution)
    part = with_raw_size(_part(solved, built, requirements))
    return checked(part, solved, loose=loose_features(solution))


def _guarded(solved: Solved, built: Built, table: WrittenTable) -> list[InputFault]:
    try:
        _BUILDERS[table.kind](solved, built, table)
        built.claim(table.name)
    except HalfthouError as error:
        return [as_fault(error, where=f"{solved.written.file}, {table.place}")]
    return []


def _placed(written: Written) -> tuple[Sheet, Solution]:
    """Solve, see which bodies make the part's sides, and solve again until they stay."""
    farthest = _first_guess(written)
    for _ in range(_ROUNDS_OF_SIDES):
        sheet = set_out(written, farthest)
        solution = solve_equations(sheet.unknowns, sheet.equations)
        found = _farthest(written, sheet, solution, farthest)
        if found == farthest:
            return sheet, solution
        farthest = found
    sheet = set_out(written, farthest)
    return sheet, solve_equations(sheet.unknowns, sheet.equations)


def _first_guess(written: Written) -> dict[tuple[int, int], str]:
    own = _own_names(written)
    bodies = [table for table in written.features if table.name in own]
    rounds = [table for table in bodies if table.kind == "round"]
    sides = {}
    for axis in range(3):
        for end in (0, 1):
            if rounds:
                sides[axis, end] = rounds[-1 if end and axis == 0 else 0].name
            elif bodies:
                sides[axis, end] = bodies[0].name
    return sides


def _own_names(written: Written) -> list[str]:
    """Names of all metal of the part's own material: the part's sides are theirs."""
    return [
        table.name
        for table in written.features
        if table.kind in BODIES and "" in belongs(written, table.name)
    ]


def _farthest(
    written: Written, sheet: Sheet, solution: Solution, before: dict[tuple[int, int], str]
) -> dict[tuple[int, int], str]:
    found = dict(before)
    names = _own_names(written)
    for (axis, end), held_by in before.items():
        which: Literal["high", "low"] = "high" if end else "low"
        sign = 1.0 if end else -1.0
        best = held_by
        for name in names:
            line = sheet.coordinates.get((name, axis, which))
            held = sheet.coordinates.get((best, axis, which))
            if line is None or held is None:
                continue
            if sign * (line.at(solution.values) - held.at(solution.values)) > _SAME:
                best = name
        found[axis, end] = best
    return found


def _at_origin(
    written: Written, sheet: Sheet, solution: Solution, bodies: tuple[Body, ...]
) -> Solved:
    """Shift the part so that its low corner is zero; the axis of turned work stays at zero."""
    own = [body for body in bodies if "" in belongs(written, body.name)]
    low, _ = reach(own)
    turned = any(isinstance(body, RoundBody) for body in bodies)
    shift = (low[0], 0.0 if turned else low[1], 0.0 if turned else low[2])
    by = (-shift[0], -shift[1], -shift[2])
    lines: dict[Key, Linear] = sheet.coordinates
    return Solved(
        written=written,
        rule=general_rule(written),
        sheet=sheet,
        places={
            key: round(line.at(solution.values) - shift[key[1]], 9) for key, line in lines.items()
        },
        bodies=tuple(moved(body, by) for body in bodies),
    )


def _part(solved: Solved, built: Built, requirements: tuple[Requirement, ...]) -> Part:
    written = solved.written
    bodies = solved.own
    low, high = reach(bodies)
    extent = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
    turned = all(isinstance(body, RoundBody) for body in bodies)
    wall = written.part.text("wall")
    return Part(
        name=written.part.text("name"),
        material=written.part.text("material"),
        units=written.units,
        otherwise=written.part.text("otherwise"),
        blank=blank_of(written.blank, units=written.units, extent=extent, turned=turned),
        features=tuple(built.features),
        surfaces=tuple(built.surfaces.values()),
        distances=tuple(built.distances),
        reference=tuple(built.reference),
        requirements=requirements,
        metal=own_metal(solved),
        removed=own_removed(solved, built),
        findings=tuple(built.findings),
        pieces=build_pieces(solved, built),
        mates=mates_of(written, built),
        wall=None if not wall else _length(wall, written),
        quantity=int(written.part.text("quantity", "1")),
        notes=(*written.part.texts("note"), *fillet_notes(written), *edges_note(solved)),
        aliases=tuple(sorted(built.aliases.items())),
        treatment=written.part.text("treatment"),
        comes_off=tuple(built.comes_off),
    )


def _length(text: str, written: Written) -> float:
    return parse_length(text, units=written.units).value
