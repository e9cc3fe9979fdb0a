from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

pytestmark = pytest.mark.browser

SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
SMALL_TARGETS = """() => [...document.querySelectorAll('a, button, summary')]
    .filter(each => !each.closest('svg') && each.className !== 'skip')
    .map(each => [each.textContent.trim(), each.getBoundingClientRect().height])
    .filter(([, high]) => high < 47.5)"""
AXE: dict[str, Any] = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "rules": {"color-contrast-enhanced": {"enabled": True}},
}
Saved = Callable[[str], None]


@pytest.fixture
def arbor(folder: Path) -> Iterator[Saved]:
    """Save the arbor's file with other text; put back afterwards what it said."""
    path = folder / "arbor.toml"
    before = path.read_text("utf-8")

    def save(text: str) -> None:
        path.write_text(text, "utf-8")

    yield save
    path.write_text(before, "utf-8")


def said(folder: Path) -> str:
    return (folder / "arbor.toml").read_text("utf-8")


def axe_faults(page: Page) -> list[str]:
    found = Axe().run(page, options=AXE).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['html']}" for each in found]


def test_the_parts_of_the_folder_stand_on_one_sheet_with_their_pictures(
    page: Page, address: str
) -> None:
    page.goto(f"{address}/")

    expect(page.locator(".parts h2")).to_have_text(["winding arbor", "barrel end"])
    expect(page.locator(".parts svg")).to_have_count(2)


def test_a_part_shows_its_drawing_and_its_sizes_in_the_drawings_order(
    page: Page, address: str
) -> None:
    page.goto(f"{address}/part/arbor")

    expect(page.locator("figure svg")).to_be_visible()
    expect(page.locator("tbody th")).to_have_text(
        ["journal", "collar", "seat", "far-journal", "end", "key", "taken as meant"]
    )


def test_the_page_redraws_when_the_file_is_saved(
    page: Page, address: str, folder: Path, arbor: Saved
) -> None:
    page.goto(f"{address}/part/arbor")
    arbor(said(folder).replace('diameter = "1 1/8"', 'diameter = "1 3/16"'))

    expect(page.locator("figure svg")).to_contain_text("1 3/16")
    expect(page.get_by_role("status")).to_have_text("Redrawn.")


def test_faults_are_shown_and_the_last_good_drawing_is_kept(
    page: Page, address: str, folder: Path, arbor: Saved
) -> None:
    page.goto(f"{address}/part/arbor")
    expect(page.locator("figure svg")).to_be_visible()
    good = said(folder)
    arbor(good.replace('in = "seat"', 'in = "saet"'))

    trouble = page.locator(".trouble")
    expect(trouble).to_contain_text("nothing in this file is called 'saet'")
    expect(trouble).to_contain_text("write 'seat'")
    expect(page.locator("figure svg")).to_be_visible()
    expect(page.locator("figcaption")).to_have_text(
        "As it was when arbor.toml could last be read."
    )

    arbor(good)
    expect(page.locator(".trouble")).to_have_count(0)


@pytest.mark.parametrize("path", ["/", "/part/arbor", "/part/barrel-end", "/part/arbor/plan"])
def test_pages_are_accessible_and_reflow_at_320_pixels(
    page: Page, address: str, path: str
) -> None:
    page.goto(address + path)

    assert axe_faults(page) == []
    assert page.evaluate(SMALL_TARGETS) == []

    page.set_viewport_size({"width": 320, "height": 640})
    assert page.evaluate(SIDEWAYS) == 0


def test_pages_take_text_of_twice_the_size(page: Page, address: str) -> None:
    page.goto(f"{address}/part/arbor")
    page.evaluate("document.documentElement.style.fontSize = '200%'")

    assert page.evaluate(SIDEWAYS) == 0


def test_a_part_is_reached_and_left_by_the_keyboard_alone(page: Page, address: str) -> None:
    page.goto(f"{address}/")
    page.locator("#part-arbor").focus()
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text("winding arbor")
    page.keyboard.press("Tab")
    expect(page.locator(".skip")).to_be_focused()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")

    expect(page.locator(".parts")).to_be_visible()


def test_without_script_everything_works_by_links_and_buttons(
    browser: Browser, address: str, folder: Path, arbor: Saved
) -> None:
    plain = browser.new_context(java_script_enabled=False).new_page()
    plain.goto(f"{address}/part/arbor")
    arbor(said(folder).replace('diameter = "1 1/8"', 'diameter = "1 5/32"'))
    plain.get_by_role("link", name="Look again").click()

    expect(plain.locator("figure svg")).to_contain_text("1 5/32")
    plain.context.close()


def test_a_file_taken_away_leaves_a_page_that_says_so(
    page: Page, address: str, folder: Path
) -> None:
    passing = folder / "passing.toml"
    passing.write_text((folder / "barrel-end.toml").read_text("utf-8"), "utf-8")
    page.goto(f"{address}/")
    expect(page.locator("#part-passing")).to_be_visible()
    passing.unlink()

    expect(page.locator("#part-passing")).to_have_count(0)
