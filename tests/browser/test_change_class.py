"""A kept plan changed in a real browser, by keyboard, on a phone and on a laptop."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from roundwright.accounts.account import Role
from roundwright.web.house.house import make_house
from tests.browser.a_browser import WIDTHS, Served, a_browser, a_quiet_page
from tests.house.a_house import HALL, PASSWORD, TUESDAY, a_house

pytestmark = pytest.mark.browser
PAGES = ("", "cell/p003/2", "changes", "revisions", "revisions/1", "finish-by?by=19:00")
PAGES += ("rehearsal", "pictures", "papers")
WIDE_PAGES = ("", "changes")
"""Pages that stand otherwise on a laptop; all are looked through by `tools/screenshots.py`."""


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with a_browser() as opened:
        yield opened


@contextmanager
def served() -> Iterator[str]:
    with a_house() as opened:

        def make(port: int):
            rooms = replace(opened.house.rooms, port=port)
            return make_house(replace(opened.house, port=port, rooms=rooms))

        with Served(make) as address:
            yield address


def signed_in(page: Page, address: str) -> str:
    """Sign in as a coach, fit the Tuesday class, and give where its page is."""
    page.goto(f"{address}/sign-in")
    page.get_by_label("Name").fill(Role.COACH.value)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    base = f"{address}/at/{HALL}/class/tuesday_circuit/{TUESDAY}/"
    page.goto(base)
    if page.get_by_role("button", name="Fit it as it is written").count():
        page.get_by_role("button", name="Fit it as it is written").click()
    expect(page.get_by_role("heading", name="Running order")).to_be_visible(timeout=60_000)
    return base


def test_pages_of_changes_are_accessible_and_a_change_is_made_by_keyboard(
    browser: Browser,
) -> None:
    with served() as address, a_quiet_page(browser) as page:
        page.set_viewport_size({"width": 1280, "height": WIDTHS[1280]})
        base = signed_in(page, address)
        page.goto(base + "cell/p003/2")
        page.get_by_role("button", name="Let them sit out here").focus()
        page.keyboard.press("Enter")
        expect(page.locator("#changed")).to_contain_text("Oona V has nothing to do")
        page.goto(base + "changes")
        page.get_by_role("button", name="Later Squat to press").focus()
        page.keyboard.press("Enter")
        expect(page.locator("#changed")).to_contain_text("The order is")
        page.get_by_role("button", name="Undo").focus()
        page.keyboard.press("Enter")
        expect(page.get_by_role("button", name="Redo")).to_be_visible()
        for width in (390, 1280):
            page.set_viewport_size({"width": width, "height": WIDTHS[width]})
            for each in PAGES if width == 390 else WIDE_PAGES:
                page.goto(base + each)
                found = Axe().run(page)
                assert found.violations_count == 0, (each, found.generate_report())
                ids = page.locator("[id]").evaluate_all("all => all.map(one => one.id)")
                assert len(ids) == len(set(ids)), each
                assert page.evaluate("document.documentElement.scrollWidth") <= width, each
                for target in page.locator("main button, .links a, summary, a.cell").all():
                    box = target.bounding_box()
                    assert box is None or box["height"] >= 48, each


def test_exercises_are_dragged_into_another_order(browser: Browser) -> None:
    with served() as address, a_quiet_page(browser) as page:
        page.set_viewport_size({"width": 1280, "height": 1400})
        base = signed_in(page, address)
        page.goto(base + "changes")
        lines = page.locator(".order-list > li")
        last = lines.nth(4).bounding_box()
        assert last is not None
        first = lines.nth(0).locator("strong").inner_text()
        lines.nth(0).drag_to(
            lines.nth(4), target_position={"x": last["width"] / 2, "y": last["height"] - 4}
        )
        page.get_by_role("button", name="Put them in this order").click()
        expect(page.locator("#changed")).to_contain_text("The order is")
        expect(page.locator("#place-5 h3")).to_contain_text(first)


def test_the_slider_shows_another_minute_by_keyboard(browser: Browser) -> None:
    with served() as address, a_quiet_page(browser) as page:
        base = signed_in(page, address)
        page.goto(base + "rehearsal?minute=2")
        expect(page.locator("#there")).to_contain_text("warms up")
        page.get_by_label("Minute of the class").focus()
        for _ in range(12):
            page.keyboard.press("ArrowRight")
        expect(page.locator("#clock")).to_have_text("14:00")
        expect(page.locator("#there")).to_contain_text("One-arm row")
