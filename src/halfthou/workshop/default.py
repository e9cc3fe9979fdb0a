"""The default workshop: a small home workshop, built in and always shown as a default."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from halfthou.workshop.described import workshop_from
from halfthou.workshop.model import Workshop


def default_tables() -> dict[str, Any]:
    """Read the default workshop as it is told in its file."""
    text = files("halfthou.workshop").joinpath("default.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@cache
def default_workshop() -> Workshop:
    """Give the workshop that is planned for when the person has told nothing of theirs.

    >>> default_workshop().built_in
    True
    """
    return workshop_from(default_tables(), file="default workshop", built_in=True)
