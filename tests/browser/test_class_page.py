"""The class page in a real browser: three widths, an accessibility engine, no breach."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from roundwright.web.application import make_application
from tests.browser.a_browser import WIDTHS, Served, a_browser, a_quiet_page
from tests.web.page_states import a_draft_state, a_ready_state, an_impossible_state

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with a_browser() as opened:
        yield opened


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    with Served(lambda port: make_application(a_ready_state(port=port))) as served:
        yield served


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    with a_quiet_page(browser) as opened:
        yield opened


@pytest.mark.parametrize("width", WIDTHS)
def test_the_class_fits_the_screen_and_passes_the_accessibility_engine(
    page: Page, address: str, width: int
) -> None:
    page.set_viewport_size({"width": width, "height": WIDTHS[width]})
    page.goto(address)
    expect(page.get_by_role("heading", level=1)).to_have_text("Tuesday circuit")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.evaluate("document.fonts.load('16px Barlow').then((faces) => faces.length)") > 0
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("width", WIDTHS)
def test_what_can_be_pressed_is_large_enough(page: Page, address: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": WIDTHS[width]})
    page.goto(address)
    for target in page.locator(".links a:visible, summary:visible").all():
        box = target.bounding_box()
        assert box is not None
        assert box["height"] >= 48
        assert box["width"] >= 48


def test_on_a_phone_each_exercise_has_its_versions_and_people(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(address)
    first = page.locator(
        ".order > li", has=page.get_by_role("heading", name="Hinge, row and press")
    )
    expect(first).to_contain_text("With seated press")
    expect(first).to_contain_text("pair 6")
    expect(page.get_by_role("table")).to_have_count(0)
    page.get_by_text("Everyone's own list").click()
    expect(page.get_by_role("heading", name="14 Ned W")).to_be_visible()


def test_on_a_laptop_people_and_exercises_are_one_table(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    page.goto(address)
    expect(page.get_by_role("rowheader", name="1 Ana R")).to_be_visible()
    expect(page.get_by_role("columnheader", name="3 Step-up")).to_be_visible()


def test_the_print_link_gives_a_pdf(page: Page, address: str) -> None:
    page.goto(address)
    link = page.get_by_role("link", name="Print on Letter")
    expect(link).to_have_attribute("href", "/sheet.pdf?paper=letter")
    answer = page.request.get(f"{address}/sheet.pdf?paper=letter")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body().startswith(b"%PDF-")


def test_the_plain_page_keeps_its_style_under_the_policy(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"{address}/sheet.html")
    expect(page.get_by_role("heading", level=1)).to_have_css("margin-top", "0px")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert Axe().run(page).violations_count == 0


@pytest.mark.parametrize("make_state", [a_draft_state, an_impossible_state])
def test_a_class_without_a_sheet_says_so_accessibly(page: Page, make_state: object) -> None:
    with Served(lambda port: make_application(make_state(port=port))) as address:
        page.set_viewport_size({"width": 390, "height": 844})
        page.goto(address)
        shown = make_state()
        expect(page.locator(".stops li")).to_have_count(len(shown.stops or shown.clash))
        expect(page.locator(".lines li")).to_have_count(len(shown.ways_out))
        expect(page.get_by_role("link", name="Print on A4")).to_have_count(0)
        assert Axe().run(page).violations_count == 0
        page.goto("about:blank")


def test_a_page_that_is_not_there_is_a_plain_page(browser: Browser, address: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{address}/nowhere")
    expect(page.get_by_role("heading", level=1)).to_have_text("Not found")
    assert Axe().run(page).violations_count == 0
    context.close()
