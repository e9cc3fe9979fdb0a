"""``python -m halfthou`` is ``halfthou``."""

from halfthou.cli import main

main()
