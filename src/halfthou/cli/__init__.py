"""The commands a person types."""

from __future__ import annotations


def main() -> None:
    """Run the command that was typed, and leave with its status."""
    from halfthou.cli.app import run  # noqa: PLC0415  (a room that is asked for is loaded then)

    run()
