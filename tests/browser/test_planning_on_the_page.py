"""Another class, keep and not this one, pressed in a real browser, with and without script."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from roundwright.web.application import make_application
from tests.browser.a_browser import WIDTHS, Served, a_browser, a_quiet_page
from tests.web.a_desk import a_desk, another_class, no_class
from tests.web.page_states import a_ready_state

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with a_browser() as opened:
        yield opened


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    with a_quiet_page(browser) as opened:
        yield opened


class DeskServed(Served):
    """A page with a desk whose choices the test decides."""

    def __init__(self, *answers: object, held: bool = False) -> None:
        def make(port: int) -> object:
            self.desk, self.chooser = a_desk(*answers, held=held, port=port)
            return make_application(self.desk.state, self.desk)

        super().__init__(make)


def button(page: Page, name: str):
    return page.get_by_role("button", name=name, exact=True)


@pytest.mark.parametrize("width", WIDTHS)
def test_the_buttons_fit_are_large_enough_and_accessible(page: Page, width: int) -> None:
    with DeskServed(another_class(), no_class()) as address:
        page.set_viewport_size({"width": width, "height": WIDTHS[width]})
        page.goto(address)
        button(page, "Keep Step-up").click()
        expect(button(page, "Kept Step-up")).to_have_attribute("aria-pressed", "true")
        button(page, "Another class").click()
        expect(button(page, "Back to the one before")).to_be_visible()
        button(page, "Not this one Step-up").click()
        expect(page.get_by_role("status")).to_contain_text("Do not insist on Step-up.")
        for target in page.locator("button, .links a:visible, summary:visible").all():
            box = target.bounding_box()
            assert box is not None
            assert box["height"] >= 48
            assert box["width"] >= 48
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        page.goto("about:blank")


@pytest.mark.parametrize("width", WIDTHS)
def test_what_is_worth_buying_comes_on_the_page_by_one_press(page: Page, width: int) -> None:
    line = "One more pair of 8 kg and six people stop compromising."

    def make(port: int) -> object:
        first = replace(a_ready_state(port=port), worth_buying=lambda: line)
        desk, _ = a_desk(port=port, first=first)
        return make_application(desk.state, desk)

    with Served(make) as address:
        page.set_viewport_size({"width": width, "height": WIDTHS[width]})
        page.goto(address)
        pressed = button(page, "What is worth buying")
        box = pressed.bounding_box()
        assert box is not None
        assert min(box["height"], box["width"]) >= 48
        pressed.click()
        expect(page.get_by_role("status")).to_contain_text(line)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        page.goto("about:blank")


@pytest.mark.parametrize("width", WIDTHS)
def test_planning_is_shown_and_can_be_stopped(page: Page, width: int) -> None:
    served = DeskServed(another_class(), held=True)
    with served as address:
        page.set_viewport_size({"width": width, "height": WIDTHS[width]})
        page.goto(address)
        button(page, "Another class").click()
        expect(page.get_by_role("status")).to_have_text("Planning…")
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        button(page, "Stop planning").click()
        expect(page.get_by_role("status")).to_contain_text("Stopped.")
        assert served.chooser.stops == 1
        page.goto("about:blank")


def test_the_page_looks_again_by_itself_until_the_class_is_there(page: Page) -> None:
    served = DeskServed(another_class("new"), held=True)
    with served as address:
        page.goto(address)
        button(page, "Another class").click()
        expect(page.get_by_role("status")).to_have_text("Planning…")
        served.chooser.let_go.set()
        expect(button(page, "Back to the one before")).to_be_visible(timeout=15_000)
        assert served.desk.state.core is not None
        assert served.desk.state.core.plan_id == "new"
        page.goto("about:blank")


def test_everything_works_without_script(browser: Browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    with DeskServed(another_class("new"), another_class("newer")) as address:
        page = context.new_page()
        page.goto(address)
        button(page, "Another class").click()
        button(page, "Keep Step-up").click()
        expect(button(page, "Kept Step-up")).to_be_visible()
        button(page, "Back to the one before").click()
        expect(button(page, "Keep Step-up")).to_be_visible()
        expect(button(page, "Back to the one before")).to_have_count(0)
        context.close()


def test_a_page_from_elsewhere_cannot_press(browser: Browser) -> None:
    served = DeskServed(another_class())
    with served as address:
        context = browser.new_context()
        page = context.new_page()
        action = f"{address}/class/{served.desk.view().token}/another"
        page.set_content(f'<form method="post" action="{action}"><button>Win</button></form>')
        with page.expect_response(lambda answer: "/another" in answer.url) as told:
            page.get_by_role("button", name="Win").click()
        assert told.value.status == 403
        assert served.chooser.asked == []
        context.close()
