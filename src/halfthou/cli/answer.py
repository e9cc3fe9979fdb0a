"""What a command has to say: in words, as JSON, and as the status it leaves with."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Final, TypeAlias

from halfthou.errors import Faults, HalfthouError, InputFault

DONE: Final = 0
NO: Final = 1
FAULT: Final = 3
STOPPED: Final = 130

Told: TypeAlias = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """Words for the person, values for a program, and the status to leave with."""

    lines: tuple[str, ...]
    told: Told = field(default_factory=dict)
    status: int = DONE


def give(command: str, work: Callable[[], Answer], *, as_json: bool) -> int:
    """Do the work of a command, say what came of it, and give the status to leave with.

    Errors of ours are said as they are; anything else is a fault of the program and passes.
    """
    try:
        answer = work()
    except (HalfthouError, Faults) as error:
        return _refuse(command, error, as_json=as_json)
    except KeyboardInterrupt:
        print("stopped; nothing is left half-written", file=sys.stderr)  # noqa: T201
        return STOPPED
    if as_json:
        told = {"command": command, "done": answer.status == DONE, "faults": []}
        _print_json({**told, **answer.told})
    else:
        for line in answer.lines:
            print(line)  # noqa: T201
    return answer.status


def say(text: str) -> None:
    """Say a part of the answer at once."""
    print(text, flush=True)  # noqa: T201


def remark(text: str) -> None:
    """Say something beside the answer: on the error stream, so that JSON stays JSON."""
    print(text, file=sys.stderr)  # noqa: T201


def fault_told(fault: HalfthouError) -> Told:
    """Error as JSON values."""
    return {
        "what": fault.what,
        "where": fault.where,
        "why": fault.why,
        "try": list(fault.tries),
    }


def fault_lines(faults: Sequence[HalfthouError]) -> tuple[str, ...]:
    """Errors as they are printed, a blank line between them."""
    return tuple("\n\n".join(str(fault) for fault in faults).splitlines())


def _refuse(command: str, error: HalfthouError | Faults, *, as_json: bool) -> int:
    faults = _flat(error)
    status = FAULT if all(isinstance(f, InputFault) for f in faults) else NO
    if as_json:
        _print_json({"command": command, "done": False, "faults": [fault_told(f) for f in faults]})
    else:
        remark("\n\n".join(str(fault) for fault in faults))
    return status


def _flat(error: HalfthouError | ExceptionGroup[InputFault]) -> tuple[HalfthouError, ...]:
    if isinstance(error, HalfthouError):
        return (error,)
    return tuple(f for each in error.exceptions for f in _flat(each))


def _print_json(told: Told) -> None:
    print(json.dumps(told, indent=2))  # noqa: T201
    sys.stdout.flush()
