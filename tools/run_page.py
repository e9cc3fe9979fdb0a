"""Do what a page of the documentation says: write its files, type its commands.

A fenced block after ``<!-- NAME -->`` is that file; after ``<!-- NAME, goes on -->`` it is added
to the end of that file; after ``<!-- NAME, mended -->`` its one line takes the place of the one
with the same key. In a ``console`` block each line that begins with ``$`` is typed, and
what stands below it is the answer. Named pages are given the answers anew:

    python tools/run_page.py README.md docs/first-part.md
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

FENCED = re.compile(
    r"(?:<!-- (?P<name>[\w.-]+\.toml)(?P<how>, goes on|, mended)? -->\n)?"
    r"```(?P<kind>\w+)\n(?P<text>.*?)```",
    re.DOTALL,
)
PROGRESS = re.compile(r"^.*\(Ctrl-C stops it\)\n", re.MULTILINE)


def run_page(page: str, folder: Path) -> str:
    """Give a page with the answers that its commands give now, each typed in ``folder``."""

    def anew(block: re.Match[str]) -> str:
        if block["name"]:
            _write(folder / block["name"], block["text"], how=block["how"] or "")
        if block["kind"] != "console":
            return block[0]
        typed = [line for line in block["text"].splitlines() if line.startswith("$ ")]
        return (
            "```console\n" + "".join(f"{line}\n{_answer(line, folder)}" for line in typed) + "```"
        )

    return FENCED.sub(anew, page)


def _write(path: Path, text: str, *, how: str) -> None:
    if how == ", goes on":
        text = path.read_text("utf-8") + "\n" + text
    elif how == ", mended":
        key = text.partition("=")[0]
        lines = path.read_text("utf-8").splitlines(keepends=True)
        (place,) = (n for n, line in enumerate(lines) if line.partition("=")[0] == key)
        text = "".join([*lines[:place], text, *lines[place + 1 :]])
    path.write_text(text, "utf-8")


def _answer(line: str, folder: Path) -> str:
    """Type one command, as someone who has no workshop file of their own."""
    words = shlex.split(line.removeprefix("$ "))
    if words[0] != "halfthou":
        raise ValueError(f"not a command of this program: {line}")
    done = subprocess.run(
        [sys.executable, "-m", *words],
        cwd=folder,
        env={**os.environ, "XDG_CONFIG_HOME": str(folder), "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    return PROGRESS.sub("", done.stdout + done.stderr)


def main() -> int:
    """Run the named pages and write them back where their answers have changed."""
    for path in map(Path, sys.argv[1:]):
        page = path.read_text("utf-8")
        with tempfile.TemporaryDirectory() as folder:
            now = run_page(page, Path(folder))
        print(f"{path}: {'as it was' if now == page else 'answers have changed'}")
        if now != page:
            path.write_text(now, "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
