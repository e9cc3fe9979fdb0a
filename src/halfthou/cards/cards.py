"""Job cards of one part: a cover sheet, then one set-up a card, as one PDF."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from itertools import takewhile
from typing import Any, Final, Literal, TypeAlias

from halfthou.cards.typeset import Typeset, typeset
from halfthou.present.card_view import CoverView, SetUpView, StripView

Paper: TypeAlias = Literal["A4", "A5", "Letter"]
_SHORT: Final = 3
"""Steps of bench work that need no sheet of their own."""
_PAPERS: Final[dict[Paper, str]] = {"A4": "a4", "A5": "a5", "Letter": "us-letter"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """What the typesetter takes: the words as plain data, and the pictures by name."""

    job: dict[str, Any]
    pictures: dict[str, str]


def set_cards(
    cover: CoverView | None, set_ups: tuple[SetUpView, ...], *, paper: Paper = "A4"
) -> Typeset:
    """Set a part's cover and cards as one PDF."""
    sheets = sheets_of(cover, set_ups, paper=paper)
    return typeset(sheets.job, sheets.pictures)


def sheets_of(
    cover: CoverView | None, set_ups: tuple[SetUpView, ...], *, paper: Paper = "A4"
) -> Sheets:
    """Lay the views out as the typesetter takes them; a picture used twice goes in once."""
    shelf = _Shelf(pictures={})
    short = _first_at_bench(set_ups) if cover is not None else ()
    part = cover.part if cover is not None else set_ups[0].part if set_ups else ""
    job = {
        "title": f"Job cards: {part}",
        "paper": _PAPERS[paper],
        "cover": None if cover is None else _cover(cover, short, shelf),
        "set-ups": _cards(set_ups[len(short) :], shelf),
    }
    return Sheets(job=job, pictures=dict(shelf.pictures))


def _is_short(one: SetUpView) -> bool:
    return one.at_the_bench and len(one.steps) <= _SHORT


def _first_at_bench(set_ups: tuple[SetUpView, ...]) -> tuple[SetUpView, ...]:
    """Set-ups before the first machine that need no sheet of their own: sawing the metal off."""
    return tuple(takewhile(_is_short, set_ups))


def _cards(set_ups: tuple[SetUpView, ...], shelf: _Shelf) -> list[dict[str, Any]]:
    """Lay out each set-up; a little bench work goes at the foot of the card before it."""
    laid: list[dict[str, Any]] = []
    for one in set_ups:
        if laid and _is_short(one):
            laid[-1]["then"].append(_set_up(one, shelf))
        else:
            laid.append(_set_up(one, shelf) | {"then": []})
    return laid


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shelf:
    """Pictures by name; the same picture has one name."""

    pictures: dict[str, str]

    def put(self, svg: str) -> str:
        if not svg:
            return ""
        for name, held in self.pictures.items():
            if held == svg:
                return name
        name = f"picture-{len(self.pictures) + 1}"
        self.pictures[name] = svg
        return name


def _hyphened(value: Any) -> Any:  # noqa: ANN401
    """Python's names in the typesetter's spelling."""
    if isinstance(value, dict):
        return {key.replace("_", "-"): _hyphened(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_hyphened(each) for each in value]
    return value


def _strip(strip: tuple[StripView, ...], shelf: _Shelf) -> list[dict[str, Any]]:
    return [
        {"picture": shelf.put(one.svg), "number": one.number, "words": one.words, "now": one.now}
        for one in strip
    ]


def _cover(cover: CoverView, short: tuple[SetUpView, ...], shelf: _Shelf) -> dict[str, Any]:
    words: dict[str, Any] = _hyphened(asdict(cover))
    words["picture"] = shelf.put(cover.picture)
    words["way"] = _strip(cover.way, shelf)
    words["first"] = [_set_up(one, shelf) for one in short]
    return words


def _set_up(card: SetUpView, shelf: _Shelf) -> dict[str, Any]:
    words: dict[str, Any] = _hyphened(asdict(card))
    words["picture"] = shelf.put(card.picture)
    words["strip"] = _strip(card.strip, shelf)
    return words
