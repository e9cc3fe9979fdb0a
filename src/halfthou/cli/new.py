"""``halfthou new``: a commented part file to start from."""

from __future__ import annotations

import re
from importlib.resources import files
from pathlib import Path
from typing import Final

from halfthou.cli.answer import Answer
from halfthou.errors import InputFault
from halfthou.store.writing import write_whole

_NAME: Final = re.compile(r"[^\W_][\w \-.]*")


def start_part(name: str, *, milled: bool) -> Answer:
    """Write a starting file for a part of that name; never over another."""
    path = _path(name)
    title = path.stem.replace("-", " ").replace("_", " ")
    write_whole(path, starting_text(title, milled=milled))
    return Answer(
        lines=(
            f"{path} is written: {'a block' if milled else 'a turned part'} to change into yours",
            f"  look at it while you write:  halfthou open {path.parent}",
            f"  check it:                    halfthou check {path}",
            f"  plan it:                     halfthou plan {path}",
        ),
        told={"file": str(path)},
    )


def starting_text(title: str, *, milled: bool) -> str:
    """Text of a starting file."""
    kind = "milled" if milled else "turned"
    text = files("halfthou.cli").joinpath("starting", f"{kind}.toml").read_text("utf-8")
    return text.replace('name = "spacer"', f'name = "{title}"')


def _path(name: str) -> Path:
    path = Path(name if name.endswith(".toml") else f"{name}.toml")
    if not _NAME.fullmatch(path.stem):
        raise InputFault(
            f"'{name}' cannot be the name of a part file",
            where="halfthou new NAME",
            why="a name begins with a letter or figure, then letters, figures, spaces and hyphens",
            tries=("give a name such as spacer or winding-arbor",),
        )
    return path
