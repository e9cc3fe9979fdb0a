"""Results kept by what they were made from: made once, at once or in the background."""

from __future__ import annotations

import threading
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any, Final, TypeVar

Drawn = TypeVar("Drawn")
_MOST: Final = 64
_PATIENCE_SECONDS: Final = 0.3
"""How long to wait for something quick before saying that it is being made."""


@dataclass(slots=True)
class _Making:
    """Something made, or being made by the first who asked for it."""

    over: threading.Event = field(default_factory=threading.Event)
    result: Any = None
    error: BaseException | None = None
    put_off: bool = False


class DrawnOnce:
    """What was made for each key; when there are many, the oldest is let go.

    ``late`` counts what has come since someone was told that it was not there yet.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._made: dict[Hashable, _Making] = {}
        self.late = 0

    def now(self, key: Hashable, make: Callable[[], Drawn]) -> Drawn:
        """Give what was made for this key, and wait while it is made."""
        making, first = self._claim(key)
        if first:
            self._fill(making, make)
        making.over.wait()
        result: Drawn = _result(making)
        return result

    def later(self, key: Hashable, make: Callable[[], Drawn]) -> Drawn | None:
        """Give what was made for this key; None while it is being made in the background."""
        making, first = self._claim(key)
        if first:
            threading.Thread(
                target=self._fill, args=(making, make), name="drawing", daemon=True
            ).start()
        making.over.wait(_PATIENCE_SECONDS)
        with self._lock:
            if not making.over.is_set():
                making.put_off = True
                return None
        result: Drawn = _result(making)
        return result

    def _claim(self, key: Hashable) -> tuple[_Making, bool]:
        with self._lock:
            found = self._made.get(key)
            if found is not None:
                return found, False
            while len(self._made) >= _MOST:
                self._made.pop(next(iter(self._made)))
            making = self._made[key] = _Making()
            return making, True

    def _fill(self, making: _Making, make: Callable[[], Any]) -> None:
        try:
            making.result = make()
        except BaseException as error:  # noqa: BLE001  (raised again for everyone who asks)
            making.error = error
        with self._lock:
            making.over.set()
            self.late += making.put_off


def _result(making: _Making) -> Any:  # noqa: ANN401
    if making.error is not None:
        raise making.error
    return making.result
