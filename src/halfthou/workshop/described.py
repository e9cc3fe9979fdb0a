"""A workshop told in plain tables, and back: what a workshop file says, field by field.

Every length carries its unit in the name of its field (``lead_mm``, ``lead_in``), speeds end in
``_rev_min`` and powers in ``_kw``. Nothing here opens a file; ``store`` does that.
"""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, dataclass, fields
from typing import Any, Final, Literal, TypeAlias, get_args, get_origin, get_type_hints

from halfthou.errors import Faults, InputFault
from halfthou.units import MM_PER_INCH
from halfthou.workshop.drawer import written_out
from halfthou.workshop.model import (
    Dial,
    DrillSet,
    Gauge,
    HoldingDevice,
    Lathe,
    Mill,
    Tool,
    Workshop,
)

Table: TypeAlias = Mapping[str, Any]

KINDS: Final[dict[str, type]] = {
    "lathe": Lathe,
    "mill": Mill,
    "holding": HoldingDevice,
    "tool": Tool,
    "gauge": Gauge,
}
_OWN_KEYS: Final = {
    *KINDS,
    "name",
    "saw_kerf_mm",
    "saw_kerf_in",
    "parallels_mm",
    "parallels_in",
} | {
    "drills",
    "cutting_speeds_m_min",
    "balance_weights",
}
_SUFFIX: Final = {"Millimetre": "_mm", "RevPerMinute": "_rev_min", "Kilowatt": "_kw"}
_UNIT: Final = re.compile(r"Millimetre|RevPerMinute|Kilowatt")
_HAS_USUAL: Final = {"lathe", "mill", "holding", "gauge"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Reader:
    """Collects faults on the way; ``file`` names the file in each."""

    file: str
    faults: list[InputFault]

    def fault(self, path: str, what: str, why: str, *tries: str) -> None:
        where = f"{self.file}, {path}" if path else self.file
        self.faults.append(InputFault(what, where=where, why=why, tries=tries))


def workshop_from(data: Table, *, file: str, built_in: bool = False) -> Workshop:
    """Make a workshop from complete tables.

    Raises
    ------
    Faults
        All that is wrong with the tables, each with its place.
    """
    reader = _Reader(file=file, faults=[])
    _unknown(reader, "", data, _OWN_KEYS)
    made = {kind: _things(reader, kind, data.get(kind, {})) for kind in KINDS}
    drills = _drills(reader, data.get("drills", {}))
    speeds = _speeds(reader, data.get("cutting_speeds_m_min", {}))
    kerf = _single(reader, data, "saw_kerf", 1.5)
    parallels = _single(reader, data, "parallels", 0.0)
    _at_least_one(reader, made)
    if reader.faults:
        raise Faults(f"{file} cannot be used", reader.faults)
    return Workshop(
        name=str(data.get("name", "workshop")),
        built_in=built_in,
        lathes=made["lathe"],
        mills=made["mill"],
        holding=made["holding"],
        tools=made["tool"],
        gauges=made["gauge"],
        drills=drills,
        saw_kerf=kerf,
        cutting_speeds=speeds,
        parallels=parallels,
        balance_weights=bool(data.get("balance_weights", False)),
    )


def merged(base: Table, own: Table) -> dict[str, Any]:
    """Lay what a person says over the default.

    Machines the person names replace the default ones, field by field; holding devices, tools
    and gauges are added to or altered by name. ``have = false`` takes one away.
    """
    result: dict[str, Any] = dict(base)
    for key, value in own.items():
        if key in {"lathe", "mill"} and isinstance(value, Mapping):
            result[key] = _machines(base.get(key, {}), _their_own(key, value))
        elif key in KINDS and isinstance(value, Mapping):
            result[key] = _named(base.get(key, {}), _their_own(key, value))
        elif isinstance(value, Mapping) and isinstance(base.get(key), Mapping):
            result[key] = _over(base[key], value)
        else:
            result = _over(result, {key: value})
    return result


def tables_of(workshop: Workshop) -> dict[str, Any]:
    """Tell a workshop in complete tables: the opposite of ``workshop_from``."""
    groups: dict[str, tuple[Any, ...]] = {
        "lathe": workshop.lathes,
        "mill": workshop.mills,
        "holding": workshop.holding,
        "tool": workshop.tools,
        "gauge": workshop.gauges,
    }
    told: dict[str, Any] = {
        "name": workshop.name,
        "saw_kerf_mm": workshop.saw_kerf,
        "parallels_mm": workshop.parallels,
        "balance_weights": workshop.balance_weights,
    }
    for kind, things in groups.items():
        told[kind] = {thing.name: _told(thing, leave_out={"name"}) for thing in things}
    told["drills"] = _told(workshop.drills, leave_out=set())
    told["cutting_speeds_m_min"] = dict(workshop.cutting_speeds)
    return told


def difference(base: Table, told: Table) -> dict[str, Any]:
    """Keep what ``told`` says and ``base`` does not, so that merging gives ``told`` again."""
    result: dict[str, Any] = {}
    for key, value in told.items():
        before = base.get(key)
        if value == before:
            continue
        if key in {"lathe", "mill"} or not isinstance(value, Mapping):
            result[key] = value
            continue
        known: Table = before if isinstance(before, Mapping) else {}
        result[key] = {name: each for name, each in value.items() if each != known.get(name)}
        if key in KINDS:
            result[key] |= {name: {"have": False} for name in known if name not in value}
    return result


def _their_own(kind: str, tables: Table) -> Table:
    """Mark what a person tells of a thing as theirs, no longer usual practice."""
    if kind not in _HAS_USUAL:
        return tables
    return {
        name: {"usual": False, **table} if isinstance(table, Mapping) else table
        for name, table in tables.items()
    }


def _machines(base: Table, own: Table) -> dict[str, Any]:
    first: Table = next(iter(base.values()), {})
    return {
        name: _over(base.get(name, first), value) if isinstance(value, Mapping) else value
        for name, value in own.items()
    }


def _named(base: Table, own: Table) -> dict[str, Any]:
    result = dict(base)
    for name, value in own.items():
        result[name] = _over(base.get(name, {}), value) if isinstance(value, Mapping) else value
    return result


def _over(base: Table, own: Table) -> dict[str, Any]:
    """``own`` over ``base``; a length given in inches takes the place of one in mm."""
    result = dict(base)
    for key, value in own.items():
        for ending, other in (("_in", "_mm"), ("_mm", "_in")):
            twin = key.removesuffix(ending) + other
            if key.endswith(ending) and twin not in own:
                result.pop(twin, None)
        before = result.get(key)
        both = isinstance(value, Mapping) and isinstance(before, Mapping)
        result[key] = _over(before, value) if both else value  # type: ignore[arg-type]
    return result


def _things(reader: _Reader, kind: str, tables: object) -> tuple[Any, ...]:
    if not isinstance(tables, Mapping):
        reader.fault(
            kind,
            f"{kind} is not a table of named things",
            f"each {kind} has a name",
            f'[{kind}."its name"]',
        )
        return ()
    made: list[Any] = []
    for name, table in tables.items():
        path = f'{kind}."{name}"'
        if not isinstance(table, Mapping):
            reader.fault(
                path,
                f"{name} is not a table",
                f"each {kind} is told in fields of its own",
                f"[{path}] and its fields below it",
            )
        elif table.get("have", True):
            thing = _thing(reader, KINDS[kind], path, {"name": name, **table})
            made += [thing] if thing is not None else []
        elif not set(table) - _ONLY_AWAY:
            _not_there(reader, kind, str(name), tuple(str(other) for other in tables))
    return tuple(made)


_ONLY_AWAY: Final = {"have", "usual"}
"""All that is known of a thing that is taken away and was never there."""


def _not_there(reader: _Reader, kind: str, name: str, names: tuple[str, ...]) -> None:
    """Find fault with taking away what there is not: a name written otherwise takes nothing."""
    others = tuple(one for one in names if one != name)
    near = difflib.get_close_matches(name, others, n=1)
    within = [one for one in others if name in one or one in name]
    tries = near or within[:1] or [f"one of: {', '.join(others)}"]
    reader.fault(
        f'{kind}."{name}"',
        f"there is no {kind} called {name} to take away",
        "have = false takes away what the default workshop has by that name",
        *tries,
    )


def _thing(reader: _Reader, kind: type[Any], path: str, table: Table) -> Any:  # noqa: ANN401
    hints = get_type_hints(kind)
    wanted = fields(kind)
    names = {name for field in wanted for name in _keys(field)}
    _unknown(reader, path, table, names | {"have"})
    values: dict[str, Any] = {}
    before = len(reader.faults)
    for field in wanted:
        found = [key for key in _keys(field) if key in table]
        if len(found) > 1:
            reader.fault(
                path,
                f"{field.name} is given twice: {' and '.join(found)}",
                "one size has one figure",
                f"leave out {found[0]}",
            )
        elif found:
            key = found[0]
            values[field.name] = _value(
                reader, hints[field.name], f"{path}, {key}", key, table[key]
            )
        elif field.default is MISSING:
            values[field.name] = _left_out(reader, field, hints[field.name], path)
    if kind is Dial and any(key.endswith("_in") for key in table):
        values.setdefault("units", "in")
    return kind(**values) if len(reader.faults) == before else None


def _left_out(reader: _Reader, field: Field[Any], hint: object, path: str) -> object:
    """Sizes a thing has no use for are 0; what it must have is a fault."""
    if field.name == "name":
        return path.rsplit(", ", maxsplit=1)[-1].replace("_", "-")
    if type(None) in get_args(hint):
        return None
    if hint is float and path.startswith(("holding", "tool")):
        return 0.0
    reader.fault(path, f"{_keys(field)[0]} is missing", "it has no usual value", "add it")
    return None


def _keys(field: Field[Any]) -> tuple[str, ...]:
    unit = _UNIT.search(str(field.type))
    if unit is None:
        return (field.name,)
    ending = _SUFFIX[unit.group()]
    if ending == "_mm":
        return (f"{field.name}_mm", f"{field.name}_in")
    return (field.name if field.name.endswith(ending) else field.name + ending,)


def _value(reader: _Reader, hint: Any, path: str, key: str, value: object) -> object:  # noqa: ANN401
    """One field read as its kind asks; a fault and None if it is of another kind."""
    if type(None) in get_args(hint):
        hint = next(kind for kind in get_args(hint) if kind is not type(None))
    if hint is Dial:
        table = value if isinstance(value, Mapping) else {}
        return _thing(reader, Dial, path, table)
    if get_origin(hint) is Literal:
        return _choice(reader, path, value, get_args(hint))
    if get_origin(hint) is tuple:
        return _several(reader, hint, path, key, value)
    reads: dict[object, Callable[[object], bool]] = {
        str: lambda v: isinstance(v, str),
        bool: lambda v: isinstance(v, bool),
        int: lambda v: isinstance(v, int) and not isinstance(v, bool),
        float: lambda v: isinstance(v, int | float) and not isinstance(v, bool),
    }
    said = {str: "words", bool: "true or false", int: "a whole number", float: "a number"}
    if not reads[hint](value):
        reader.fault(
            path,
            f"{key} is not {said[hint]}: {value!r}",
            f"{key} takes {said[hint]}",
            f"write {said[hint]}",
        )
        return None
    return _number(reader, path, key, value) if hint is float else value


def _number(reader: _Reader, path: str, key: str, value: Any) -> float | None:  # noqa: ANN401
    number = float(value)
    if not math.isfinite(number) or number < 0:
        reader.fault(
            path,
            f"{key} is {value}",
            "it is a size, and sizes are not below nothing",
            "give it as a plain figure",
        )
        return None
    return number * MM_PER_INCH if key.endswith("_in") else number


def _several(reader: _Reader, hint: object, path: str, key: str, value: object) -> object:
    kinds = get_args(hint)
    count = None if kinds[-1] is Ellipsis else len(kinds)
    if not isinstance(value, list | tuple) or (count is not None and len(value) != count):
        asked = "a list" if count is None else f"a list of {count}"
        reader.fault(
            path,
            f"{key} is not {asked}: {value!r}",
            f"{key} takes {asked}",
            "write it in square brackets",
        )
        return ()
    return tuple(_value(reader, kinds[0], path, key, each) for each in value)


def _choice(reader: _Reader, path: str, value: object, among: tuple[str, ...]) -> object:
    if value in among:
        return value
    near = difflib.get_close_matches(str(value), among, n=1)
    tries = (f"{near[0]}",) if near else (f"one of: {', '.join(among)}",)
    reader.fault(
        path, f"{value!r} is not known here", "only these words have a meaning here", *tries
    )
    return None


def _unknown(reader: _Reader, path: str, table: Table, known: set[str]) -> None:
    for key in table:
        if key not in known:
            near = difflib.get_close_matches(key, sorted(known), n=1)
            with_unit = [name for name in sorted(known) if name.startswith(f"{key}_")]
            tries = near or with_unit[:1] or [f"one of: {', '.join(sorted(known))}"]
            reader.fault(path, f"{key} is not a field of this table", "nothing reads it", *tries)


def _drills(reader: _Reader, table: Table) -> DrillSet:
    made = _thing(reader, DrillSet, "drills", table)
    if made is None:
        return DrillSet(drills=(), reamers=(), centre_drills=(), taps=(), dies=())
    drills: list[str] = []
    for text in made.drills:
        try:
            drills += written_out(text)
        except InputFault as fault:
            reader.fault("drills, drills", fault.what, fault.why, *fault.tries)
    return DrillSet(
        drills=tuple(drills),
        reamers=tuple(sorted(made.reamers)),
        centre_drills=made.centre_drills,
        taps=made.taps,
        dies=made.dies,
    )


def _speeds(reader: _Reader, table: Table) -> tuple[tuple[str, float], ...]:
    speeds = []
    for metal, value in table.items():
        number = _value(reader, float, f'cutting_speeds_m_min, "{metal}"', metal, value)
        speeds += [(metal, number)] if isinstance(number, float) else []
    return tuple(speeds)


def _single(reader: _Reader, data: Table, name: str, default: float) -> float:
    for key in (f"{name}_mm", f"{name}_in"):
        if key in data:
            value = _value(reader, float, key, key, data[key])
            return value if isinstance(value, float) else default
    return default


def _at_least_one(reader: _Reader, made: Mapping[str, tuple[Any, ...]]) -> None:
    if not made["lathe"] and not made["mill"] and not reader.faults:
        reader.fault(
            "",
            "no lathe and no mill",
            "there is nothing to plan with",
            "leave lathe or mill out of the file to keep the default one",
        )


def _told(thing: Any, *, leave_out: set[str]) -> dict[str, Any]:  # noqa: ANN401
    told: dict[str, Any] = {}
    for field in fields(thing):
        value = getattr(thing, field.name)
        if field.name in leave_out or value is None:
            continue
        if isinstance(value, Dial):
            value = _told(value, leave_out=set())
        told[_keys(field)[0]] = list(value) if isinstance(value, tuple) else value
    return told
