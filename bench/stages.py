"""Where the time goes, by room: run one command under the profiler and share its seconds out.

A room's time is what passes between a call into it from elsewhere and its return, less the time it
spends in other rooms; libraries count to the room that called them. The rest is starting up:
imports and the command line itself (the interpreter has started by then).
"""

from __future__ import annotations

import cProfile
import json
import pstats
import sys
import time
from collections.abc import Callable
from pathlib import Path

Place = tuple[str, int, str]
START = "start"


def room_of(place: Place) -> str | None:
    """Room a function belongs to; None for libraries and for the loading of a module."""
    path, _, name = place
    parts = Path(path).parts
    if "halfthou" not in parts or name == "<module>":
        return None
    below = parts[len(parts) - 1 - parts[::-1].index("halfthou") + 1 :]
    return below[0] if len(below) > 1 else None


def by_room(stats: pstats.Stats, *, whole: float) -> dict[str, float]:
    """Seconds spent in each room, other rooms left out."""
    seconds: dict[str, float] = {}
    entries = stats.stats  # type: ignore[attr-defined]  # documented, but not in the stubs
    for place, (_, _, _, _, callers) in entries.items():
        room = room_of(place)
        if room is None:
            continue
        for caller, (_, _, _, inclusive) in callers.items():
            calling = room_of(caller)
            if calling == room:
                continue
            seconds[room] = seconds.get(room, 0.0) + inclusive
            if calling is not None:
                seconds[calling] = seconds.get(calling, 0.0) - inclusive
    seconds = {room: max(spent, 0.0) for room, spent in seconds.items() if room != "cli"}
    return {START: max(whole - sum(seconds.values()), 0.0), **seconds}


def shares(path: Path) -> dict[str, float]:
    """Seconds by room that a run under the profiler left in a file."""
    found: dict[str, float] = json.loads(path.read_text("utf-8"))
    return found


def in_this_thread(_doing: str, work: Callable[..., object]) -> object:
    """Do at once what the command line would do in a thread of its own."""
    return work(on_progress=lambda *_: None, should_stop=lambda: False)


def main() -> int:
    """Run ``halfthou`` with every word but the first, which is the file to write."""
    target, sys.argv = Path(sys.argv[1]), ["halfthou", *sys.argv[2:]]
    started = time.perf_counter()
    profile = cProfile.Profile()
    status = 0
    profile.enable()
    try:
        from halfthou.cli import main as run  # noqa: PLC0415  (importing is part of the time)
        from halfthou.cli import patience  # noqa: PLC0415

        # the profiler sees only the thread it is in
        patience.with_progress = in_this_thread  # type: ignore[assignment]
        run()
    except SystemExit as end:
        status = end.code if isinstance(end.code, int) else 0
    finally:
        profile.disable()
    whole = time.perf_counter() - started
    target.write_text(json.dumps(by_room(pstats.Stats(profile), whole=whole)), "utf-8")
    return status


if __name__ == "__main__":
    sys.exit(main())
