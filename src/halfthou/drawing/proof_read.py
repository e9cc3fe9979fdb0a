"""Proof-reading a written part: every text in its form, every name known, before any solving."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Final

from halfthou.drawing.blank import parse_bar, parse_plate
from halfthou.drawing.edges import parse_chamfer, parse_kerf, parse_undercut
from halfthou.drawing.frame import SIDES
from halfthou.drawing.grammar import BODIES, KINDS, Form
from halfthou.drawing.leanings import (
    FIXED,
    parse_axis,
    parse_casting,
    parse_joins,
    parse_leans,
    parse_turned,
)
from halfthou.drawing.mates import parse_suits
from halfthou.drawing.meant import parse_meant
from halfthou.drawing.model import Side
from halfthou.drawing.phrases import (
    Reference,
    parse_copies,
    parse_must,
    parse_place,
    parse_reference,
)
from halfthou.drawing.sizes import as_fault, named_thread, parse_taper, round_diameters
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import HalfthouError, InputFault
from halfthou.handbook.centre_drills import find_centre_drill
from halfthou.handbook.general_tolerance import parse_otherwise
from halfthou.handbook.materials import material
from halfthou.handbook.names import near_names
from halfthou.handbook.size_limits import size_limits
from halfthou.handbook.threads import thread
from halfthou.quantities import (
    DrawingUnits,
    parse_angle,
    parse_hole_step,
    parse_length,
    parse_size,
)

_WHOLE: Final = "outside"
_OF_FEATURE: Final = re.compile(r"( \d+)?( step \d+)?( undercut| far side)?$")
"""What may follow a feature's name: which copy, which step, which of its own surfaces."""


def proof_read(written: Written) -> list[InputFault]:
    """Every text that cannot be read in its form, and every name that nothing carries."""
    faults = list(_names(written))
    tables = (written.part, written.blank, *written.features)
    for table in tables:
        for entry in table.entries:
            for text in entry.texts:
                where = f"{written.file}, {table.place} {entry.key}"
                fault = _read(written, table, entry.key, text, where)
                if fault is not None:
                    faults.append(fault)
    if not faults and written.part.text("units") in _CHOICES["units"]:
        faults += _rounds(written)
    faults += _blank(written)
    if not any(table.kind in BODIES for table in written.features) and not written.unread:
        faults.append(
            InputFault(
                f"{written.file} has no metal",
                where=written.file,
                why="rounds, blocks and plates are metal; all else cuts it",
                tries=("add [round.NAME] with diameter and long", "add [block.NAME]"),
            )
        )
    return faults


def _read(
    written: Written, table: WrittenTable, key: str, text: str, where: str
) -> InputFault | None:
    form = KINDS[table.kind].keys[key].form
    units = _readable_in(form, table, key, text, written)
    try:
        _check_form(form, table, key, text, units)
    except HalfthouError as error:
        rule = KINDS[table.kind].keys[key]
        why = error.why or f"{key} is {rule.meaning}"
        tries = error.tries or (f'write it like {key} = "{rule.example}"',)
        return InputFault(error.what, where=where, why=why, tries=tries)
    for to in _references(form, key, text, units):
        fault = _unknown_name(written, table, to, text, where)
        if fault is not None:
            return fault
    return None


def _readable_in(
    form: Form, table: WrittenTable, key: str, text: str, written: Written
) -> DrawingUnits:
    """Units to read a text in; while a fault leaves them open, those in which it can be read.

    So one misspelt unit is one fault, and not one a fraction.
    """
    said = written.part.text("units")
    if said in _CHOICES["units"]:
        return written.units
    try:
        _check_form(form, table, key, text, written.units)
    except HalfthouError:
        return "mm" if written.units == "in" else "in"
    return written.units


def _size(text: str, units: DrawingUnits) -> None:
    """Read a size, and see that its fit exists at that size."""
    if text.startswith("as "):
        return
    size = parse_size(text, units=units)
    if not size.nominal.value:
        raise InputFault(
            f"'{text}' is a size of nothing", tries=("give it some size", "leave the feature out")
        )
    size_limits(size, otherwise=None)


def _diameters(text: str, units: DrawingUnits) -> None:
    for one in text.split(" to "):
        _size(one, units)


def _steps(text: str, units: DrawingUnits) -> None:
    step = parse_hole_step(text, units=units)
    if step.diameter is not None and not step.diameter.nominal.value:
        raise InputFault(f"'{text}' is a hole of no diameter", tries=("give it some diameter",))
    if step.diameter is not None:
        size_limits(step.diameter, otherwise=None, inside=True)
    if step.thread is not None:
        thread(step.thread)


_FORMS: Final[dict[Form, Callable[[str, DrawingUnits], object]]] = {
    "size": _size,
    "diameter": _diameters,
    "length": lambda text, units: parse_length(text, units=units),
    "at": lambda text, units: parse_place(text, units=units),
    "must": lambda text, units: parse_must(text, units=units),
    "steps": _steps,
    "thread": lambda text, _: named_thread(text),
    "copies": lambda text, units: parse_copies(text, units=units),
    "chamfer": lambda text, units: parse_chamfer(text, units=units),
    "taper": lambda text, _: parse_taper(text),
    "undercut": lambda text, units: parse_undercut(text, units=units),
    "kerf": lambda text, units: parse_kerf(text, units=units),
    "bar": lambda text, units: parse_bar(text, units=units),
    "plate": lambda text, units: parse_plate(text, units=units),
    "casting": lambda text, units: parse_casting(text, units=units),
    "leans": lambda text, _: parse_leans(text),
    "turned": lambda text, _: parse_turned(text),
    "joins": lambda text, _: parse_joins(text),
    "axis": lambda text, _: parse_axis(text),
    "angle": lambda text, _: parse_angle(text),
    "otherwise": lambda text, units: parse_otherwise(text, units=units),
    "material": lambda text, _: material(text),
}


def _check_form(  # noqa: C901  (one branch a form)
    form: Form, table: WrittenTable, key: str, text: str, units: DrawingUnits
) -> None:
    if not text.strip():
        raise InputFault(f"'{key}' is empty", tries=("give it a text", "leave it out"))
    if form in _FORMS:
        _FORMS[form](text, units)
    elif form in _CHOICES:
        _one_of(key, text, _CHOICES[form])
    elif form in _SIDES_OF:
        for part in text.split(","):
            _one_of(key, part.strip().removesuffix("clean up").strip(), _SIDES_OF[form])
    elif table.kind == "centres" and form == "text":
        find_centre_drill(text)
    elif key == "suits":
        parse_suits(text, surface=table.name, units=units)
    elif table.kind == "part" and key == "meant":
        parse_meant(text)


_CHOICES: Final[dict[Form, tuple[str, ...]]] = {
    "units": ("mm", "in"),
    "ends": ("round", "square"),
    "side": SIDES,
    "fixed": FIXED,
}
_SIDES_OF: Final[dict[Form, tuple[str, ...]]] = {
    "sides": (*SIDES, _WHOLE),
    "sides of a boss": (*SIDES, _WHOLE, "inside"),
}


def _one_of(key: str, text: str, choices: tuple[str, ...]) -> None:
    if text not in choices:
        near = near_names(text, choices)
        raise InputFault(
            f"'{key}' is '{text}'",
            why=f"it may be {', '.join(choices)}",
            tries=tuple(f"write '{name}'" for name in near[:1] or choices[:2]),
        )


def _references(  # noqa: C901  (one case a form)
    form: Form, key: str, text: str, units: DrawingUnits
) -> Iterator[Reference]:
    """Names that a text refers to; the text is known to be readable."""
    match form:
        case "at":
            place = parse_place(text, units=units)
            yield place.to
            if place.view:
                yield _plain(place.view)
        case "must":
            must = parse_must(text, units=units)
            yield must.to
            if (own := parse_reference(must.own)).feature:
                yield own
        case "surface":
            yield parse_reference(text)
        case "surfaces":
            yield from map(_without_second_side, text.split(","))
        case "steps":
            step = parse_hole_step(text, units=units)
            yield from (_plain(name) for name in (step.to, step.beyond) if name)
        case _:
            if form == "size" and text.startswith("as "):
                yield _plain(text.removeprefix("as "))
            elif form == "joins":
                yield from map(_plain, parse_joins(text))
            elif form == "names":
                yield from (_plain(name) for name in text.split(","))
            elif key in {"bolts", "into"}:
                yield _plain(text)


def _plain(name: str) -> Reference:
    return Reference(feature=name.strip(), side=None)


def _without_second_side(text: str) -> Reference:
    """Edges are named by two sides: ``plate top left``."""
    to = parse_reference(text.strip())
    if to.side is None:
        return to
    inner = parse_reference(to.feature)
    return Reference(feature=inner.feature, side=to.side)


def _unknown_name(
    written: Written, table: WrittenTable, to: Reference, text: str, where: str
) -> InputFault | None:
    names = {feature.name for feature in written.features if feature.name}
    if to.feature == table.name and table.name and table.kind != "piece":
        return InputFault(
            f"'{text}' places {table.name} from itself",
            where=where,
            why="a feature cannot be the place it is measured from",
            tries=("name another feature", "name a side of the part"),
        )
    start = _OF_FEATURE.sub("", to.feature)
    if not start or start in names or start in written.unread:
        return None
    near = near_names(to.feature, (*names, *SIDES))
    tail = f" {to.side}" if to.side else ""
    return InputFault(
        f"nothing in this file is called '{to.feature}'",
        where=where,
        why=f"'{text}' refers to it",
        tries=tuple(f"write '{name}{'' if name in SIDES else tail}'" for name in near[:1])
        or (f"the names are {', '.join(sorted(names))}",),
    )


def _names(written: Written) -> Iterator[InputFault]:
    seen: dict[str, str] = {}
    sides: tuple[Side, ...] = SIDES
    for table in written.features:
        where = f"{written.file}, {table.place}"
        if table.kind == "piece":
            continue  # a piece may be called as the body it consists of
        if table.name and table.name in seen:
            yield InputFault(
                f"'{table.name}' names two features: {seen[table.name]} and {table.place}",
                where=where,
                why="others are measured from it by its name alone",
                tries=("give one of the two another name",),
            )
        elif table.name in (*sides, "part", _WHOLE):
            yield InputFault(
                f"'{table.name}' cannot be the name of a {table.kind}",
                where=where,
                why="it is a word for a side of the part",
                tries=(f"call it '{table.name}-{table.kind}'",),
            )
        seen.setdefault(table.name, table.place)


def _rounds(written: Written) -> Iterator[InputFault]:
    """Find rounds whose diameters do not follow from what is written."""
    for table in written.features:
        if table.kind == "round":
            try:
                round_diameters(written, table)
            except HalfthouError as error:
                yield as_fault(error, where=f"{written.file}, {table.place}")


def _blank(written: Written) -> Iterator[InputFault]:
    forms = [key for key in ("bar", "plate", "casting") if written.blank.has(key)]
    if len(forms) != 1 and written.blank.entries:
        yield InputFault(
            f"the blank is {' and '.join(forms) if forms else 'not described'}",
            where=f"{written.file}, blank",
            why="the part is made from one lump: a bar, a plate or a casting",
            tries=('write bar = "round 25 x 60"', 'write plate = "12 x 110 x 90"'),
        )
