from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

pytestmark = [pytest.mark.browser, pytest.mark.slow]

A_WHILE = 120_000
SPACER = """
[part]
name = "spacer"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"

[blank]
bar = "round 25 x 60"

[round.body]
diameter = "20"
long = "12"
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Make a folder in which each test lays a small part of its own, planned quickly."""
    return tmp_path_factory.mktemp("small-parts")


def lay(folder: Path, name: str) -> Path:
    path = folder / f"{name}.toml"
    path.write_text(SPACER.replace("spacer", name), "utf-8")
    return path


def test_a_part_is_planned_on_its_page_and_the_plan_is_kept(
    page: Page, address: str, folder: Path
) -> None:
    lay(folder, "spacer")
    page.goto(f"{address}/part/spacer/plan")
    page.get_by_role("button", name="Plan this part").click()
    expect(page.get_by_role("heading", name="The way through")).to_be_visible(timeout=A_WHILE)

    set_ups = page.locator("article.set-up")
    assert set_ups.count() == page.locator(".way li").count()
    assert (folder / "spacer.plan.json").exists()

    axe = Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]})
    assert [each["id"] for each in axe.response["violations"]] == []

    cards = page.request.get(f"{address}/part/spacer/cards.pdf")
    assert cards.body().startswith(b"%PDF")

    page.set_viewport_size({"width": 320, "height": 640})
    wider = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(wider) == 0


def test_a_changed_drawing_is_said_on_the_plan_and_planning_again_takes_it_in(
    page: Page, address: str, folder: Path
) -> None:
    path = lay(folder, "collar")
    page.goto(f"{address}/part/collar/plan")
    page.get_by_role("button", name="Plan this part").click()
    expect(page.get_by_role("heading", name="The way through")).to_be_visible(timeout=A_WHILE)
    path.write_text(path.read_text("utf-8").replace('long = "12"', 'long = "13"'), "utf-8")

    stale = page.locator(".trouble")
    expect(stale).to_contain_text("This plan is from before the last change")
    expect(stale).to_contain_text('+ long = "13"')

    page.get_by_role("button", name="Plan again").click()
    expect(page.locator(".trouble")).to_have_count(0, timeout=A_WHILE)


def test_without_script_a_part_is_planned_by_the_button(
    browser: Browser, address: str, folder: Path
) -> None:
    lay(folder, "washer")
    plain = browser.new_context(java_script_enabled=False).new_page()
    plain.goto(f"{address}/part/washer/plan")
    plain.get_by_role("button", name="Plan this part").click()

    expect(plain.get_by_role("heading", name="The way through")).to_be_visible(timeout=A_WHILE)
    assert (folder / "washer.plan.json").exists()
    plain.context.close()


def test_planning_is_stopped_on_the_page_and_keeps_nothing(
    page: Page, address: str, folder: Path
) -> None:
    (folder / "arbor.toml").write_bytes(files("halfthou.demo").joinpath("arbor.toml").read_bytes())
    page.goto(f"{address}/part/arbor/plan")
    page.get_by_role("button", name="Plan this part").click()
    page.get_by_role("button", name="Stop").click()

    expect(page.locator(".trouble")).to_contain_text("was stopped", timeout=A_WHILE)
    assert not (folder / "arbor.plan.json").exists()
