"""Names of threads: ``4 BA``, ``1/4 x 40 ME``, ``3/8 BSF``, ``M10 x 1``, ``1/4-20 UNC``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from halfthou.quantities.figure import not_understood, refuse_long

ThreadSeries: TypeAlias = Literal[
    "BA", "BSW", "BSF", "BSP", "BSB", "BSC", "ME", "M", "UNC", "UNF", "UNEF"
]
THREAD_FORMS: Final = (
    "4 BA",
    "3/8 BSF",
    "1/4 BSW",
    "1/4 BSP",
    "1/4 x 40 ME",
    "1/4 x 26 BSB",
    "M5",
    "M10 x 1",
    "1/4-20 UNC",
    "3/8 BSF LH",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadName:
    """A thread by its trade name.

    ``size`` is the figure of the series without unit ("4" BA, "1/4" BSF, "10" for M10),
    ``pitch`` the written pitch in mm, ``tpi`` the written threads per inch.
    """

    series: ThreadSeries
    size: str
    pitch: str | None = None
    tpi: float | None = None
    text: str
    hand: Literal["right", "left"] = "right"

    def write(self) -> str:
        """Give the author's own text back."""
        return self.text


_INCH: Final = r"(?P<size>\d+[ -]\d+/\d+|\d+/\d+|\d+)\s*(?:\"|″|in\.?|inch)?"
_TPI: Final = r"(?:\s*(?:x|×|X|-)\s*(?P<tpi>\d+(?:\.\d+)?)(?:\s*tpi)?)?"
_HAND: Final = re.compile(r"\s+(?:LH|L\.H\.|left hand)$", re.IGNORECASE)
_BA: Final = re.compile(r"(?:No\.?\s*)?(?P<size>\d{1,2})\s*B\.?A\.?", re.IGNORECASE)
_METRIC: Final = re.compile(
    r"[Mm]\s*(?P<size>\d+(?:[.,]\d+)?)(?:\s*[x×X]\s*(?P<pitch>\d*[.,]?\d+))?"
)
_SERIES: Final = re.compile(
    rf"{_INCH}{_TPI}\s*(?P<series>BSW|BSF|BSP|BSB|BSC|ME|brass|UNC|UNF|UNEF|whit\.?|whitworth)",
    re.IGNORECASE,
)
_NUMBERED: Final = re.compile(
    rf"(?:#|No\.?\s*)?(?P<size>\d{{1,2}}){_TPI}\s*(?P<series>UNC|UNF|UNEF)", re.IGNORECASE
)
_WORDS: Final[dict[str, ThreadSeries]] = {
    "BSW": "BSW",
    "WHIT": "BSW",
    "WHITWORTH": "BSW",
    "BSF": "BSF",
    "BSP": "BSP",
    "BSB": "BSB",
    "BRASS": "BSB",
    "BSC": "BSC",
    "ME": "ME",
    "UNC": "UNC",
    "UNF": "UNF",
    "UNEF": "UNEF",
}
_BIG_UNIFIED: Final = 2
_FINE_UNIFIED: Final = 40


def parse_thread(text: str) -> ThreadName:
    """Read the name of a thread.

    >>> parse_thread("1/4 x 40 ME").tpi
    40.0
    """
    refuse_long(text, "a thread")
    body = text.strip()
    left = _HAND.search(body)
    if left:
        body = body[: left.start()]
    name = _ba(body, text) or _metric(body, text) or _inch(body, text)
    if name is None:
        raise not_understood(text, "a thread", THREAD_FORMS, why=_reason(body))
    return _turned(name) if left else name


def _turned(name: ThreadName) -> ThreadName:
    return ThreadName(
        series=name.series,
        size=name.size,
        pitch=name.pitch,
        tpi=name.tpi,
        text=name.text,
        hand="left",
    )


def _ba(body: str, text: str) -> ThreadName | None:
    found = _BA.fullmatch(body)
    return found and ThreadName(series="BA", size=found["size"], text=text)


def _metric(body: str, text: str) -> ThreadName | None:
    found = _METRIC.fullmatch(body)
    if found is None:
        return None
    pitch = found["pitch"]
    return ThreadName(
        series="M",
        size=found["size"].replace(",", "."),
        pitch=pitch.replace(",", ".") if pitch else None,
        text=text,
    )


def _inch(body: str, text: str) -> ThreadName | None:
    found = _NUMBERED.fullmatch(body)
    if found and "#" not in body and not body.startswith(("N", "n")):
        # 1-8 UNC and 2-4.5 UNC are inches, 2-56 and 10-32 are numbers
        coarse = float(found["tpi"] or 0) < _FINE_UNIFIED
        inches = int(found["size"]) <= _BIG_UNIFIED and coarse
        found = None if inches else found
    number = found is not None
    found = found or _SERIES.fullmatch(body)
    if found is None:
        return None
    series = _WORDS[found["series"].upper().rstrip(".")]
    if series == "ME" and not found["tpi"]:
        raise not_understood(
            text, "a thread", ("1/4 x 40 ME", "1/4 x 32 ME"), why="ME has no set pitch for a size"
        )
    size = found["size"].replace("-", " ")
    return ThreadName(
        series=series,
        size=f"#{size}" if number else size,
        tpi=float(found["tpi"]) if found["tpi"] else None,
        text=text,
    )


def _reason(body: str) -> str:
    if re.fullmatch(rf"{_INCH}\s*[x×]\s*\d+", body):
        return "the series is missing"
    return ""
