"""Stated requirements: each ``must`` between two surfaces of the solved part."""

from __future__ import annotations

from collections.abc import Iterator

from halfthou.drawing.built import Built, Solved
from halfthou.drawing.frame import side_of
from halfthou.drawing.meant import datum, on_axis
from halfthou.drawing.model import Hole, Requirement, Surface
from halfthou.drawing.phrases import Must, parse_must
from halfthou.drawing.sizes import band_from
from halfthou.drawing.written import WrittenTable
from halfthou.errors import InputFault


def stated_requirements(
    solved: Solved, built: Built
) -> tuple[list[Requirement], list[InputFault]]:
    """Return all stated requirements, and a fault for each that names no surface."""
    found: list[Requirement] = []
    faults: list[InputFault] = []
    for table in solved.written.features:
        for text in table.texts("must"):
            must = parse_must(text, units=solved.written.units)
            try:
                found += list(_stated(built, table, must))
            except InputFault as fault:
                where = f"{solved.written.file}, {table.place} must"
                faults.append(
                    InputFault(fault.what, where=where, why=fault.why, tries=fault.tries)
                )
    found += list(_rings(solved, built, found))
    return found, faults


def _stated(built: Built, table: WrittenTable, must: Must) -> Iterator[Requirement]:
    to = built.named(must.to.text)
    if to is None and must.axis is not None:
        # a body's middle is held from its low side, as for what is drawn centred
        to = built.named(f"{must.to.text} {side_of(must.axis, 0)}")
    if to is None:
        raise _no_surface(built, must.to.text, must.text)
    for surface in _own(built, table, must):
        yield Requirement(
            kind=must.kind,
            surface=surface.name,
            to=to.name,
            within=must.within,
            text=must.text,
            origin="drawn",
            place=f"{table.place} must",
        )


def _own(built: Built, table: WrittenTable, must: Must) -> list[Surface]:
    words = f"{table.name} {must.own}".strip()
    surface = built.named(words) or built.named(must.own)
    if surface is None:
        raise _no_surface(built, words, must.text)
    if must.own:
        return [surface]
    hole = next((f for f in built.features if isinstance(f, Hole) and f.name == table.name), None)
    if hole is None:
        return [surface]
    names = [table.name, *(f"{table.name} {n}" for n in range(2, len(hole.entries) + 1))]
    return [found for name in names if (found := built.named(name)) is not None]


def _no_surface(built: Built, words: str, text: str) -> InputFault:
    start = words.split(maxsplit=1)[0] if words.split() else ""
    near = sorted(name for name in built.surfaces if name.startswith(start))[:4]
    return InputFault(
        f"'{words}' is no surface of this part",
        why=f"'{text}' is about one surface and another",
        tries=tuple(f"write '{name}'" for name in near) or ("name a feature and its side",),
    )


def _rings(solved: Solved, built: Built, stated: list[Requirement]) -> Iterator[Requirement]:
    """Place of holes on a circle by its general tolerance, where none is stated."""
    main = datum(on_axis(built), stated)
    for feature in built.features:
        if not isinstance(feature, Hole) or feature.ring is None or main is None:
            continue
        if any(one.surface == feature.name and one.kind == "position" for one in stated):
            continue
        text = f"{feature.ring.count} on a circle"
        band = band_from(
            feature.ring.diameter, rule=solved.rule, place=feature.name, text=text,
            written=solved.written,
        )  # fmt: skip
        for number in range(1, feature.ring.count + 1):
            name = feature.name if number == 1 else f"{feature.name} {number}"
            if name in built.surfaces:
                yield Requirement(
                    kind="position",
                    surface=name,
                    to=main.name,
                    within=band.width,
                    text=f"{name} in position to {main.name}, by the general tolerance",
                    origin="general",
                    place=feature.name,
                )
