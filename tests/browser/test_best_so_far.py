"""The best class so far in a real browser: a class with its people, taken by one press."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from axe_playwright_python.sync_playwright import Axe
from fastapi import FastAPI
from playwright.sync_api import Browser, Page, expect

from roundwright.accounts.account import Role
from roundwright.web.house.house import make_house
from tests.browser.a_browser import WIDTHS, Served, a_browser, a_quiet_page
from tests.house.a_house import PASSWORD, AHouse, a_house
from tests.house.test_best_so_far import AT, Stepwise

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with a_browser() as opened:
        yield opened


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    with a_quiet_page(browser) as opened:
        yield opened


@pytest.fixture
def served(page: Page) -> Iterator[tuple[AHouse, Stepwise, str]]:
    """Serve a house whose searches go on step by step, a coach signed in."""
    with a_house() as opened:
        search = Stepwise()

        def make(port: int) -> FastAPI:
            rooms = opened.house.rooms
            assert rooms is not None
            real = replace(rooms, planner=search, stop=search.stop, port=port)
            return make_house(replace(opened.house, port=port, rooms=real))

        with Served(make) as address:
            page.goto(f"{address}/sign-in")
            page.get_by_label("Name").fill(Role.COACH.value)
            page.get_by_label("Password").fill(PASSWORD)
            page.get_by_role("button", name="Sign in").click()
            page.wait_for_url("**/week")
            yield opened, search, address
            search.stop()
            page.goto("about:blank")


def test_it_is_shown_bettered_without_a_press_and_taken(
    page: Page, served: tuple[AHouse, Stepwise, str]
) -> None:
    _, search, address = served
    page.goto(f"{address}{AT}/")
    page.get_by_role("button", name="Propose a class").click()
    so_far = page.locator("#so-far")
    expect(so_far).to_be_visible(timeout=60_000)
    first = so_far.inner_text()
    search.next()
    expect(so_far).not_to_have_text(first, use_inner_text=True, timeout=10_000)
    for width, height in WIDTHS.items():
        page.set_viewport_size({"width": width, "height": height})
        expect(so_far.locator(".people").first).to_be_visible()
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        for target in page.locator("button, .links a:visible").all():
            box = target.bounding_box()
            assert box is not None
            assert min(box["height"], box["width"]) >= 48
    exercises = so_far.locator("h3").all_inner_texts()
    page.get_by_role("button", name="Take the best so far").click()
    expect(page.locator("#order")).to_be_visible(timeout=30_000)
    taken = page.locator("ol.order h3").all_inner_texts()
    assert [one for one in taken if one in exercises] == exercises
