"""The commands a person types."""

from __future__ import annotations

import sys


def main() -> None:
    """Run the command that was typed, and leave with its status."""
    try:
        from halfthou.cli.app import run  # noqa: PLC0415  (a room asked for is loaded then)

        run()
    except KeyboardInterrupt:  # before any work was begun
        sys.exit(130)
