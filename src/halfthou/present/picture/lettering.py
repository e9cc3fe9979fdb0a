"""How wide words come out: advance widths of the cards' own type, in 1/1000 of its size.

Fira Sans; taken from the font files that the package brings with it (SIL Open Font License 1.1).
Text whose width is known can be kept clear of lines before anything draws it.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final, Literal, TypeAlias

from halfthou.units import Millimetre

Weight: TypeAlias = Literal["regular", "medium"]

FAMILY: Final = "Fira Sans, DejaVu Sans, Arial, sans-serif"
CAPITAL: Final = 0.69
"""Height of a capital or figure, of the type's size."""
DESCENT: Final = 0.2
"""How far g, p and y hang below the line, of the type's size."""

_REGULAR: Final = {
    132: "⁄",
    219: "'",
    228: "’‘",
    240: ",.:;·",
    241: "!",
    265: " ",
    280: "j",
    282: "i",
    293: "l",
    295: "I",
    300: "`",
    305: "J",
    322: "[]{}",
    324: "()",
    335: "f",
    361: "t",
    386: "r",
    399: '"',
    403: "-|",
    406: "“”",
    433: "1",
    437: "z",
    439: "*",
    444: "7",
    459: "?",
    467: "s",
    478: "c",
    485: "x",
    488: "~≈",
    491: "F",
    492: "vy",
    495: "2",
    498: "L",
    499: "+3",
    500: "<=>±×−≤≥",
    501: "5",
    512: "k",
    517: "T",
    518: "#",
    520: "/\\_g–",
    522: "Z",
    523: "°",
    525: "9",
    531: "$",
    532: "4",
    533: "6",
    535: "E",
    540: "X^",
    544: "a",
    545: "Seé",
    550: "Y",
    551: "8",
    556: "V",
    558: "0",
    560: "C",
    573: "A",
    581: "P",
    582: "u",
    584: "oø",
    586: "hn",
    588: "µ",
    589: "K",
    594: "bp",
    598: "dq",
    605: "R",
    608: "B",
    631: "G",
    644: "D",
    662: "U",
    680: "H",
    683: "N",
    691: "Q",
    692: "OØ",
    717: "w",
    729: "&",
    738: "…",
    778: "M",
    790: "—",
    826: "%W",
    857: "m",
    872: "⅞",
    900: "→←↑↓",
    932: "½¼¾⅛⅜⅝",
    1020: "@",
}
_MEDIUM: Final = {
    152: "⁄",
    230: "'",
    236: "’‘",
    240: ",.:;·",
    241: "!",
    250: " ",
    281: "j",
    282: "i",
    294: "I",
    295: "l",
    312: "J",
    322: "`",
    323: "[]{}",
    324: "()",
    347: "f",
    375: "t",
    388: "|",
    394: "r",
    405: "-",
    421: '"',
    429: "“”",
    444: "*",
    449: "z",
    450: "1",
    457: "7",
    471: "?",
    476: "s",
    478: "c",
    489: "F",
    500: "x",
    502: "~≈",
    504: "v",
    506: "Ly",
    507: "2",
    510: "3<=>×−≤≥",
    516: "+",
    517: "±",
    520: "/5\\_–",
    522: "°",
    530: "ET",
    534: "Zk",
    537: "g",
    539: "#",
    541: "$",
    544: "9",
    546: "a",
    549: "eé",
    550: "46^",
    560: "S",
    562: "X",
    564: "V",
    567: "8",
    568: "C",
    573: "0",
    574: "Y",
    577: "u",
    581: "hn",
    583: "A",
    584: "oø",
    585: "µ",
    591: "P",
    596: "bp",
    599: "dq",
    611: "R",
    613: "BK",
    638: "G",
    648: "D",
    656: "U",
    672: "HN",
    691: "OQØ",
    732: "…",
    734: "w",
    746: "&",
    782: "M",
    793: "—",
    837: "W",
    844: "%",
    850: "m",
    888: "⅞",
    900: "→←↑↓",
    952: "½¼¾⅛⅜⅝",
    1020: "@",
}


def _unfolded(table: dict[int, str]) -> dict[str, float]:
    return {sign: width / 1000 for width, signs in table.items() for sign in signs}


_WIDTHS: Final[dict[Weight, dict[str, float]]] = {
    "regular": _unfolded(_REGULAR),
    "medium": _unfolded(_MEDIUM),
}
_UNKNOWN: Final = 0.7


@lru_cache(maxsize=4096)
def width_of(text: str, *, size: Millimetre, weight: Weight = "regular") -> Millimetre:
    """Length of a line of words set at ``size``; a sign the table lacks counts as a wide one [mm].

    >>> round(width_of("Ø20 H7", size=3.5), 2)
    10.97
    """
    table = _WIDTHS[weight]
    return size * sum(table.get(sign, _UNKNOWN) for sign in text)
