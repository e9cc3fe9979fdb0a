"""The plan file beside the part file: a plan once made is kept, with what it was made from."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import unified_diff
from pathlib import Path
from typing import Any, Final

import tomlkit
from tomlkit.exceptions import TOMLKitError

from halfthou.drawing.model import Mate
from halfthou.errors import Faults, InputFault
from halfthou.planning.model import Plan
from halfthou.store.plan_json import json_of, json_of_mates, mates_of, plan_of
from halfthou.store.writing import write_whole
from halfthou.workshop.described import tables_of, workshop_from
from halfthou.workshop.model import Workshop

FORMAT: Final = 1
_MOST_BYTES: Final = 16_000_000
_KEYS: Final = frozenset(
    {"format", "part_file", "proof", "plan", "part_text", "workshop_built_in", "workshop"}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPlan:
    """A plan with what it was made from; ``proof`` says how good it is.

    ``mates`` are the fits that the project added to those of the part file.
    """

    part_file: str
    part_text: str
    workshop: Workshop
    proof: str
    plan: Plan
    mates: tuple[Mate, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """What has changed since a plan was made.

    Lines of the part file, figures of the workshop, what the project says the part is made to.
    """

    part: tuple[str, ...] = ()
    workshop: tuple[str, ...] = ()
    project: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.part or self.workshop or self.project)


def plan_path(part: Path) -> Path:
    """Where the plan of a part file is kept: ``arbor.toml`` -> ``arbor.plan.json``."""
    return part.with_name(f"{part.stem}.plan.json")


def plan_text(kept: KeptPlan) -> str:
    """Text of a plan file: the same plan gives the same text, character for character."""
    told = {
        "format": FORMAT,
        "part_file": kept.part_file,
        "proof": kept.proof,
        "plan": json_of(kept.plan),
        "part_text": kept.part_text,
        "mates": json_of_mates(kept.mates),
        "workshop_built_in": kept.workshop.built_in,
        "workshop": tables_of(kept.workshop),
    }
    return json.dumps(told, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def write_plan(kept: KeptPlan, path: Path, *, replace: bool = False) -> None:
    """Keep a plan; one that is kept already gives way only when that is asked for."""
    write_whole(path, plan_text(kept), replace=replace)


def read_plan(path: Path) -> KeptPlan:
    """Read a kept plan.

    Raises
    ------
    Faults
        With all that is wrong in the file.
    """
    return kept_plan(_bytes(path), file=path.name)


def kept_plan(data: bytes, *, file: str) -> KeptPlan:
    """Plan that the bytes of a plan file hold.

    Raises
    ------
    Faults
        With all that is wrong in them.
    """
    told = _json(data, file)
    if told.get("format") != FORMAT:
        raise _alone(
            f"{file} is of plan format {told.get('format')!r}, and this version reads {FORMAT}",
            file,
            "it was written by another version of halfthou, or is no plan file",
        )
    missing = sorted(_KEYS - told.keys())
    if missing:
        raise _alone(f"{file} lacks {', '.join(missing)}", file, "it was changed by hand")
    return KeptPlan(
        part_file=str(told["part_file"]),
        part_text=str(told["part_text"]),
        workshop=workshop_from(
            told["workshop"], file=f"{file}, workshop", built_in=bool(told["workshop_built_in"])
        ),
        proof=str(told["proof"]),
        plan=plan_of(told["plan"], file=file),
        mates=mates_of(told.get("mates", []), file=file),
    )


def changes_since(
    kept: KeptPlan, *, part_text: str, workshop: Workshop, mates: tuple[Mate, ...] = ()
) -> Changes:
    """List what differs from what the plan was made from; remarks and spacing do not count."""
    return Changes(
        part=_changed_lines(kept.part_text, part_text),
        workshop=tuple(_changed_figures(tables_of(kept.workshop), tables_of(workshop))),
        project=tuple(_changed_mates(kept.mates, mates)),
    )


def _changed_mates(before: tuple[Mate, ...], now: tuple[Mate, ...]) -> Iterator[str]:
    yield from (f"− {_made_to(mate)}" for mate in before if mate not in now)
    yield from (f"+ {_made_to(mate)}" for mate in now if mate not in before)


def _made_to(mate: Mate) -> str:
    return f"{mate.surface} made to {mate.text}"


def _changed_lines(before: str, now: str) -> tuple[str, ...]:
    if before == now or _meaning(before) == _meaning(now):
        return ()
    lines = unified_diff(before.splitlines(), now.splitlines(), n=0, lineterm="")
    marks = {"-": "− ", "+": "+ "}
    return tuple(
        marks[line[0]] + line[1:].strip()
        for line in list(lines)[2:]
        if line[0] in marks and line[1:].strip() and not line[1:].lstrip().startswith("#")
    )


def _meaning(text: str) -> object:
    try:
        return tomlkit.parse(text).unwrap()
    except (TOMLKitError, ValueError):
        return text


def _changed_figures(
    before: Mapping[str, Any], now: Mapping[str, Any], place: str = ""
) -> Iterator[str]:
    for key in sorted(before.keys() | now.keys()):
        here = f"{place}, {key}" if place else key
        old, new = before.get(key), now.get(key)
        if old == new:
            continue
        if isinstance(old, Mapping) and isinstance(new, Mapping):
            yield from _changed_figures(old, new, here)
        elif key not in before:
            yield f"+ {here}"
        elif key not in now:
            yield f"− {here}"
        else:
            yield f"{here}: {old} → {new}"


def _bytes(path: Path) -> bytes:
    try:
        if path.stat().st_size > _MOST_BYTES:
            raise _alone(f"{path.name} is too large for a plan", str(path), "it is over 16 MB")
        return path.read_bytes()
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        raise _alone(f"{path.name} cannot be read", str(path), why) from error


def _json(data: bytes, file: str) -> dict[str, Any]:
    try:
        told = json.loads(data.decode("utf-8"))
    except ValueError as error:
        raise _alone(f"{file} is not JSON: {error}", file, "it was changed by hand") from None
    if not isinstance(told, dict):
        raise _alone(f"{file} holds no plan", file, "it was changed by hand")
    return told


def _alone(what: str, where: str, why: str) -> Faults:
    fault = InputFault(
        what, where=where, why=why, tries=("plan again: halfthou plan FILE --again",)
    )
    return Faults(what, [fault])
