"""Planning that goes on while the pages are looked at: one run a part, stopped on wish."""

from __future__ import annotations

import threading
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, replace
from typing import Protocol

from halfthou.errors import Faults, HalfthouError


class Work(Protocol):
    """Planning of one part; gives what is different from the plan before."""

    def __call__(
        self, *, on_progress: Callable[[str, float], None], should_stop: Callable[[], bool]
    ) -> tuple[str, ...]:
        """Do it."""


@dataclass(slots=True)
class Run:
    """One run: how far it is, or how it ended; ``about`` is what was planned."""

    entry: str
    about: Hashable = None
    words: str = "looking at the blanks"
    share: float = 0.0
    over: bool = False
    difference: tuple[str, ...] = ()
    error: HalfthouError | Faults | None = None
    stop: threading.Event = field(default_factory=threading.Event)

    @property
    def stamp(self) -> str:
        """Changes whenever there is something new to see."""
        return f"{self.entry} {self.words} {self.share:.2f} {self.over}"


class Runs:
    """The last run of each part."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._runs: dict[str, Run] = {}

    def of(self, name: str) -> Run | None:
        """Give the run of a part, if there was one."""
        return self._runs.get(name)

    def start(self, name: str, *, entry: str, work: Work, about: Hashable = None) -> None:
        """Start a run, unless one goes on or this entry has been seen: a retry counts once."""
        with self._lock:
            last = self._runs.get(name)
            if last is not None and (not last.over or last.entry == entry):
                return
            run = self._runs[name] = Run(entry=entry, about=about)
        threading.Thread(target=_go, args=(run, work), name=f"plan {name}", daemon=True).start()

    def let_go(self, name: str, *, about: Hashable) -> None:
        """Say no more of how a run ended, if what it was about has changed since."""
        with self._lock:
            run = self._runs.get(name)
            if run is not None and run.over and run.about != about:
                self._runs[name] = replace(run, error=None, difference=())

    def stop(self, name: str) -> None:
        """Ask the run of a part to stop."""
        run = self._runs.get(name)
        if run is not None:
            run.stop.set()

    def stop_all(self) -> None:
        """Ask every run to stop."""
        for name in tuple(self._runs):
            self.stop(name)


def _go(run: Run, work: Work) -> None:
    def tell(words: str, share: float) -> None:
        run.words, run.share = words, share

    try:
        run.difference = work(on_progress=tell, should_stop=run.stop.is_set)
    except (HalfthouError, Faults) as error:
        run.error = error
    except BaseException as error:
        run.error = HalfthouError(
            "planning broke off: a fault of the program",
            why=f"{type(error).__name__}: {error}",
            tries=("report it with the part file",),
        )
        raise
    finally:
        run.over = True
