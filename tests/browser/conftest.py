"""Pages served on this machine, looked at with a real Chromium."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-sync",
    "--no-first-run",
)


@pytest.fixture(scope="session")
def chromium() -> str:
    named = os.environ.get("HALFTHOU_CHROMIUM") or shutil.which("chromium")
    if not named:
        finder = Path(__file__).parents[2] / "tools" / "find_chromium.py"
        found = subprocess.run(
            [sys.executable, str(finder)], capture_output=True, text=True, check=False
        )
        named = found.stdout.strip()
    if not named:
        pytest.fail("no Chromium: give its path in HALFTHOU_CHROMIUM")
    return named


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Browser]:
    with sync_playwright() as play:
        started = play.chromium.launch(executable_path=chromium, args=list(QUIET))
        yield started
        started.close()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Lay the demo's parts out, unplanned."""
    laid = tmp_path_factory.mktemp("clock")
    for source in files("halfthou.demo").iterdir():
        if source.name in {"arbor.toml", "barrel-end.toml"}:
            (laid / source.name).write_bytes(source.read_bytes())
    return laid


@pytest.fixture(scope="module")
def address(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Start halfthou open as a person does."""
    own = tmp_path_factory.mktemp("own")
    served = subprocess.Popen(
        [sys.executable, "-m", "halfthou", "open", str(folder), "--port", "0"],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "XDG_CONFIG_HOME": str(own)},
    )
    assert served.stdout is not None
    said = served.stdout.readline()
    found = re.search(r"http://127\.0\.0\.1:\d+/", said)
    assert found, said
    yield found[0].rstrip("/")
    served.terminate()
    served.wait(timeout=20)
    served.stdout.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context(viewport={"width": 1100, "height": 900}, reduced_motion="reduce")
    made.set_default_timeout(30_000)
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    """Open a page on which nothing may go wrong unseen."""
    opened = context.new_page()
    wrong: list[str] = []
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    opened.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    yield opened

    assert wrong == []
