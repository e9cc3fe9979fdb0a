"""Pictures for the pages: made by ``present``, drawn once for each state of a file."""

from __future__ import annotations

import base64
import hashlib
import re
from typing import Final

from markupsafe import Markup

from halfthou.drawing.model import Part
from halfthou.pages.shelf import Shelf

_INSIDE: Final = re.compile(r'"data:image/png;base64,([^"]+)"')


def part_picture(shelf: Shelf, part: Part) -> Markup:
    """Draw a part with its sizes and what the check noticed."""
    return shelf.drawn.now(("drawing", part), lambda: placed(shelf, _drawn(part)))


def placed(shelf: Shelf, picture: str) -> Markup:
    """Make a picture of our own fit for a page; its words were escaped when it was drawn.

    Shaded views inside it get an address of their own, for a page may show nothing but what
    these pages serve.
    """

    def address(found: re.Match[str]) -> str:
        data = base64.b64decode(found[1])
        name = hashlib.sha256(data).hexdigest()[:20]
        shelf.shaded[name] = data
        return f'"/shaded/{name}.png"'

    return Markup(_INSIDE.sub(address, picture))  # noqa: S704


def _drawn(part: Part) -> str:
    from halfthou.present.picture.drawing import part_drawing  # noqa: PLC0415  (OpenCascade)
    from halfthou.shapes.finished import finished  # noqa: PLC0415

    return part_drawing(part, finished(part))
