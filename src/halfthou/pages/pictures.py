"""Pictures for the pages: made by ``present``, drawn once for each state of a file."""

from __future__ import annotations

from markupsafe import Markup

from halfthou.drawing.model import Part
from halfthou.pages.shelf import Shelf


def part_picture(shelf: Shelf, part: Part) -> Markup:
    """Draw a part with its sizes and what the check noticed."""
    return shelf.once(("drawing", part), lambda: svg_of(_drawn(part)))


def svg_of(picture: str) -> Markup:
    """Mark a picture of our own as safe: its words were escaped when it was drawn."""
    return Markup(picture)  # noqa: S704


def _drawn(part: Part) -> str:
    from halfthou.present.kept_job import finished  # noqa: PLC0415  (OpenCascade, on demand)
    from halfthou.present.picture.drawing import part_drawing  # noqa: PLC0415

    return part_drawing(part, finished(part))
