"""The moving figure in a real browser: it moves when pressed, pauses, and obeys less motion."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from roundwright.web.application import make_application
from tests.browser.a_browser import Served, a_browser, a_quiet_page
from tests.web.test_moving_pages import LUNGE, OTHER, SQUAT, a_state

pytestmark = pytest.mark.browser
BODY = "#place-1 .moving svg"


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with a_browser() as opened:
        yield opened


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    from dataclasses import replace

    def application(port: int) -> object:
        return make_application(replace(a_state(SQUAT, LUNGE, OTHER), port=port))

    with Served(application) as served:  # type: ignore[arg-type]
        yield served


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    with a_quiet_page(browser) as opened:
        yield opened


def drawn(page: Page) -> str:
    return str(page.locator(BODY).inner_html())


def test_nothing_moves_until_it_is_pressed_and_pause_holds_it(page: Page, address: str) -> None:
    page.goto(address)
    expect(page.locator(BODY)).to_be_hidden()
    page.get_by_role("button", name="Play").first.click()
    expect(page.locator(BODY)).to_be_visible()
    page.wait_for_timeout(300)
    one = drawn(page)
    page.wait_for_timeout(400)
    assert drawn(page) != one
    page.get_by_role("button", name="Pause").first.click()
    held = drawn(page)
    page.wait_for_timeout(400)
    assert drawn(page) == held
    expect(page.locator("#place-1 .now")).to_have_text("Squat with two dumbbells")


def test_it_goes_on_to_the_next_movement_and_begins_again(page: Page, address: str) -> None:
    page.goto(address)
    page.get_by_role("button", name="Play").first.click()
    expect(page.locator("#place-1 .now")).to_have_text("Split squat, left", timeout=9000)
    page.get_by_role("button", name="From the start").first.click()
    expect(page.locator("#place-1 .now")).to_have_text("Squat with two dumbbells")


def test_whoever_wants_less_motion_gets_still_positions(page: Page, address: str) -> None:
    page.emulate_media(reduced_motion="reduce")
    page.goto(address)
    page.get_by_role("button", name="Play").first.click()
    expect(page.locator(BODY)).to_be_visible()
    seen = set()
    for _ in range(20):
        page.wait_for_timeout(150)
        seen.add(drawn(page))
    assert 2 <= len(seen) <= 4


def test_the_page_with_a_moving_figure_passes_the_accessibility_engine(
    page: Page, address: str
) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(address)
    page.get_by_role("button", name="Play").first.click()
    expect(page.locator(BODY)).to_be_visible()
    page.get_by_role("button", name="Pause").first.click()
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
