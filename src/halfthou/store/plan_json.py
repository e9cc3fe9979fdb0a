"""A plan as plain JSON values and back, nothing lost; field names of lengths carry their unit."""

from __future__ import annotations

from dataclasses import Field, fields, is_dataclass
from typing import Any, Final, TypeAlias, TypeVar

from cattrs import Converter, transform_error
from cattrs.gen import make_dict_structure_fn, make_dict_unstructure_fn, override
from cattrs.strategies import configure_tagged_union

from halfthou.drawing.geometry import Region
from halfthou.drawing.model import Mate
from halfthou.errors import Faults, InputFault
from halfthou.planning.model import Plan

Json: TypeAlias = dict[str, Any]
Value = TypeVar("Value")

_SUFFIXES: Final = {
    "Millimetre": "_mm",
    "Vec3": "_mm",
    "Radian": "_rad",
    "RevPerMinute": "_rev_min",
}
_DIRECTIONS: Final = frozenset({"faces", "across", "direction", "approach"})
"""Unit vectors: of the same type as places, and with no unit."""
_RENAMED: Final = {"bound": "bound_minutes"}


def json_of(plan: Plan) -> Json:
    """Plan as plain values for a JSON file."""
    told: Json = _CONVERTER.unstructure(plan)
    return told


def plan_of(told: object, *, file: str) -> Plan:
    """Plan that plain values tell.

    Raises
    ------
    Faults
        With every place where they tell none.
    """
    return _read(told, Plan, place="plan", file=file)


def json_of_mates(mates: tuple[Mate, ...]) -> list[Json]:
    """Fits to other parts as plain values for a JSON file."""
    return [_CONVERTER.unstructure(mate) for mate in mates]


def mates_of(told: object, *, file: str) -> tuple[Mate, ...]:
    """Fits to other parts that plain values tell.

    Raises
    ------
    Faults
        With every place where they tell none.
    """
    return _read(told, tuple[Mate, ...], place="mates", file=file)


def _read(told: object, kind: type[Value], *, place: str, file: str) -> Value:
    try:
        return _CONVERTER.structure(told, kind)
    except Exception as error:  # noqa: BLE001  (the converter's errors have no one base)
        faults = [_fault(line, file) for line in transform_error(error, path=place)]
        raise Faults(f"{file} cannot be read", faults) from None


def _fault(line: str, file: str) -> InputFault:
    what, _, place = line.partition(" @ ")
    return InputFault(
        f"this is no plan: {what}",
        where=f"{file}, {place}",
        why="it was changed by hand, or written by another version",
        tries=("plan again",),
    )


def _written(field: Field[Any]) -> str:
    """Name a field has in the file."""
    if field.name in _DIRECTIONS:
        return field.name
    for kind, suffix in _SUFFIXES.items():
        if kind in str(field.type) and not field.name.endswith(suffix.lstrip("_")):
            return field.name + suffix
    return _RENAMED.get(field.name, field.name)


def _is_ours(kind: Any) -> bool:  # noqa: ANN401
    return isinstance(kind, type) and is_dataclass(kind)


def _converter() -> Converter:
    converter = Converter(forbid_extra_keys=True)

    def renames(kind: Any) -> dict[str, Any]:  # noqa: ANN401
        return {f.name: override(rename=_written(f)) for f in fields(kind)}

    converter.register_unstructure_hook_factory(
        _is_ours, lambda kind: make_dict_unstructure_fn(kind, converter, **renames(kind))
    )
    converter.register_structure_hook_factory(
        _is_ours,
        lambda kind: make_dict_structure_fn(
            kind, converter, _cattrs_forbid_extra_keys=True, **renames(kind)
        ),
    )
    converter.register_unstructure_hook_func(lambda kind: kind == frozenset[str], sorted)
    converter.register_unstructure_hook(float, float)
    configure_tagged_union(
        Region, converter, tag_name="shape", tag_generator=lambda kind: kind.__name__.lower()
    )
    return converter


_CONVERTER: Final = _converter()
