"""Work that takes a while: done beside a line of progress, stopped with Ctrl-C.

Work that asks whether to stop ends by itself. Drawing does not ask: it is left behind, and goes
when the program does. So no work done here may write a file of the person's: it gives back what
it made, and that is written by who asked for it, in the main thread, after the work has ended.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final, Protocol, TypeVar

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeElapsedColumn

Result = TypeVar("Result")
Result_co = TypeVar("Result_co", covariant=True)
_QUIET_SECONDS: Final = 1.0
_LOOK_SECONDS: Final = 0.1
_GRACE_SECONDS: Final = 0.7
"""Given to work to end in when it is stopped."""

_NAME: Final = "halfthou at work"


class Work(Protocol[Result_co]):
    """Work that tells how it goes and asks whether to stop."""

    def __call__(
        self, *, on_progress: Callable[[str, float], None], should_stop: Callable[[], bool]
    ) -> Result_co:
        """Do it."""


@dataclass(slots=True)
class _State:
    words: str
    share: float = 0.0
    stop: threading.Event = field(default_factory=threading.Event)
    over: threading.Event = field(default_factory=threading.Event)
    error: BaseException | None = None

    def tell(self, words: str, share: float) -> None:
        self.words, self.share = words, share


def with_progress(doing: str, work: Work[Result]) -> Result:
    """Do the work in a thread of its own, and after a second show on the error stream how it goes.

    Ctrl-C asks the work to stop, and waits a moment for it. The work is to write nothing.
    """
    state = _State(words=doing)
    results: list[Result] = []

    def run() -> None:
        try:
            results.append(work(on_progress=state.tell, should_stop=state.stop.is_set))
        except BaseException as error:  # noqa: BLE001  (raised again below, in the main thread)
            state.error = error
        finally:
            state.over.set()

    thread = threading.Thread(target=run, name=_NAME, daemon=True)
    thread.start()
    if _interrupted(state, doing):
        thread.join(_GRACE_SECONDS)
        raise KeyboardInterrupt
    if state.error is not None:
        raise state.error
    return results[0]


def left_behind() -> bool:
    """Whether work that was stopped has not ended yet."""
    return any(thread.name == _NAME for thread in threading.enumerate())


def _interrupted(state: _State, doing: str) -> bool:
    """Wait for the end; True if the person pressed Ctrl-C."""
    try:
        if not state.over.wait(_QUIET_SECONDS):
            _show(state, doing)
    except KeyboardInterrupt:
        state.stop.set()
        return True
    return False


def _show(state: _State, doing: str) -> None:
    console = Console(stderr=True)
    if not console.is_terminal:
        console.print(f"{doing} (Ctrl-C stops it)", highlight=False)
        while not state.over.wait(_LOOK_SECONDS):
            pass
        return
    columns = (TextColumn("{task.description}", markup=False), BarColumn(), TimeElapsedColumn())
    with Progress(*columns, console=console, transient=True) as progress:
        task: TaskID = progress.add_task(doing, total=1.0)
        while not state.over.wait(_LOOK_SECONDS):
            shown = f"{doing}: {state.words}" if state.words != doing else doing
            progress.update(task, description=shown, completed=state.share)
