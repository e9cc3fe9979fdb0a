"""Take the pictures of the documentation from a real run of the program.

Runs the demo and the part of docs/first-part.md with the default workshop, and writes sheets of
their cards and looks at their pages into docs/pictures. `make pictures` starts it.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright
from tools.find_chromium import find
from tools.run_page import run_page

from halfthou.cards.cards import sheets_of
from halfthou.cards.of_plan import views_of
from halfthou.cards.typeset import pages_as_png, typeset
from halfthou.store.plan_file import plan_path, read_plan

ROOT = Path(__file__).parents[1]
TARGET = ROOT / "docs" / "pictures"
MOST_BYTES = 1_500_000
CARD_DOTS = 92.0


def main() -> int:
    """Take all of them, and see that they are not too much to carry."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        demo, own = folder / "demo", folder / "own"
        demo.mkdir()
        own.mkdir()
        # nobody's own workshop file has a say in these pictures
        environment = {**os.environ, "XDG_CONFIG_HOME": str(folder / "none")}
        run = [sys.executable, "-m", "halfthou"]
        subprocess.run([*run, "demo", "--folder", str(demo)], check=True, env=environment)
        run_page((ROOT / "docs" / "first-part.md").read_text("utf-8"), own)
        TARGET.mkdir(parents=True, exist_ok=True)
        cards(demo, own)
        pages(demo, own, environment)
    files = sorted(TARGET.glob("*.png"))
    for each in files:
        print(f"{each.relative_to(ROOT)}: {each.stat().st_size // 1000} kB")
    too_much = sum(each.stat().st_size for each in files) > MOST_BYTES
    if too_much:
        print(f"together they are over {MOST_BYTES // 1000} kB")
    return int(too_much)


def cards(demo: Path, own: Path) -> None:
    """Write a cover, a lathe card, a mill card, and a card of the first part."""
    sheets, first = _sheets(demo / "barrel-end.toml")
    (TARGET / "cover.png").write_bytes(sheets[0])
    (TARGET / "card-lathe.png").write_bytes(sheets[first["lathe"] - 1])
    (TARGET / "card-mill.png").write_bytes(sheets[first["mill"] - 1])
    sheets, first = _sheets(own / "flanged-spacer.toml")
    (TARGET / "flanged-spacer-card.png").write_bytes(sheets[first["lathe"] - 1])


def _sheets(part: Path) -> tuple[tuple[bytes, ...], dict[str, int]]:
    """Sheets of a part's cards; and the sheet on which the last set-up on a machine begins."""
    job = sheets_of(*views_of(read_plan(plan_path(part))))
    titles = [str(card["title"]) for card in job.job["set-ups"]]
    begins = typeset(job.job, job.pictures).first_sheets[-len(titles) :]
    last = {title.split()[-1].lower(): sheet for title, sheet in zip(titles, begins, strict=True)}
    return pages_as_png(job.job, job.pictures, dots_an_inch=CARD_DOTS), last


def pages(demo: Path, own: Path, environment: dict[str, str]) -> None:
    """Look at the pages as a person does, and keep what is seen."""
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=find(), args=["--no-sandbox"])
        with _served(demo, environment) as address:
            _page(browser, f"{address}/part/arbor", "part-page.png")
        with _served(own, environment) as address:
            drawn = f"{address}/part/flanged-spacer"
            _page(browser, drawn, "flanged-spacer-drawing.png", only="figure svg")
        browser.close()


def _page(browser: Browser, address: str, name: str, only: str = "") -> None:
    opened = browser.new_page(viewport={"width": 1100, "height": 1000})
    opened.goto(address)
    target = TARGET / name
    drawing = opened.locator(only or "figure svg").first
    drawing.wait_for()
    if only:
        drawing.screenshot(path=target)
    else:
        opened.screenshot(path=target)
    opened.close()


@contextmanager
def _served(folder: Path, environment: dict[str, str]) -> Iterator[str]:
    """Serve a folder on a free port while its pages are looked at."""
    words = [sys.executable, "-m", "halfthou", "open", str(folder), "--port", "0"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, env=environment) as served:
        said = served.stdout.readline() if served.stdout is not None else ""
        found = re.search(r"http://127\.0\.0\.1:\d+", said)
        if found is None:
            served.terminate()
            raise RuntimeError(f"the pages gave no address: {said}")
        try:
            yield found[0]
        finally:
            served.terminate()


if __name__ == "__main__":
    sys.exit(main())
