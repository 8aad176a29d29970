"""The house in a real browser: begun and used by keyboard alone, every page accessible."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from roundwright.accounts.account import Role
from roundwright.web.house.house import make_house
from tests.browser.a_browser import WIDTHS, Served, a_browser, a_quiet_page
from tests.house.a_house import HALL, PASSWORD, a_house

pytestmark = pytest.mark.browser
PAGES = ("week", "people", "people/p001", "people/p001/screen", "movements", "room", "settings")
PAGES += ("movements/goblet_squat", "new-class", "classes", "classes/tuesday_circuit", "walk-in")
PAGES += (
    "../../api",
    "people-list",
    "people/p006",
    "people/p002/agreements",
    "people/p002/clearance",
)


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with a_browser() as opened:
        yield opened


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    with a_quiet_page(browser) as opened:
        yield opened


@contextmanager
def served(*, is_empty: bool = False) -> Iterator[str]:
    with a_house(not is_empty, not is_empty) as opened:

        def make(port: int):
            rooms = replace(opened.house.rooms, port=port)
            return make_house(replace(opened.house, port=port, rooms=rooms))

        with Served(make) as address:
            yield address


def on_keys(page: Page, name: str, role: str) -> None:
    """Go on with the tabulator until something of a name has the focus."""
    wanted = page.get_by_role(role, name=name, exact=True).first
    expect(wanted).to_be_attached(timeout=3_000)
    for _ in range(120):
        page.keyboard.press("Tab")
        if wanted.evaluate("one => one === document.activeElement"):
            return
    raise AssertionError(f"{name} is not reached by keyboard")


def typed(page: Page, fields: dict[str, str], press: str) -> None:
    """Type into fields in their order and press a button, by keyboard alone."""
    for name, text in fields.items():
        on_keys(page, name, "textbox")
        page.keyboard.press("Control+A")
        page.keyboard.type(text)
    on_keys(page, press, "button")
    page.keyboard.press("Enter")


def is_accessible(page: Page) -> None:
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("width", [390, 1280])
def test_every_page_is_accessible_and_does_not_scroll_sideways(page: Page, width: int) -> None:
    page.set_viewport_size({"width": width, "height": WIDTHS[width]})
    with served() as address:
        page.goto(f"{address}/sign-in")
        is_accessible(page)
        typed(page, {"Name": Role.OWNER.value, "Password": PASSWORD}, "Sign in")
        expect(page).to_have_url(f"{address}/at/{HALL}/week")
        for each in PAGES:
            page.goto(f"{address}/at/{HALL}/{each}")
            is_accessible(page)
            ids = page.locator("[id]").evaluate_all("all => all.map(one => one.id)")
            assert len(ids) == len(set(ids)), each
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, each
            for target in page.locator("main button, .links a, summary").all():
                box = target.bounding_box()
                assert box is None or (box["height"] >= 48 and box["width"] >= 44), each


def test_a_house_is_begun_and_a_class_planned_by_keyboard_alone(page: Page) -> None:
    with served(is_empty=True) as address:
        page.goto(address)
        own = {"Your name, as others see it": "Olwen", "Name to sign in with": "olwen"}
        typed(page, own | {"Password": PASSWORD}, "Go on to the hall")
        typed(page, {"Name of the hall": "Pier Hall"}, "Go on to the people")
        for name in ("Ada", "Ben", "Cleo"):
            typed(page, {"Name, as it stands on the sheet": name}, "Add them")
            on_keys(page, "People", "link")
            page.keyboard.press("Enter")
        on_keys(page, "Room and kit", "link")
        page.keyboard.press("Enter")
        rack = {"Weight of one (kg)": "4", "How many single ones": "6"}
        typed(page, rack, "Put on the rack")
        on_keys(page, "Week", "link")
        page.keyboard.press("Enter")
        on_keys(page, "Write a new class", "link")
        page.keyboard.press("Enter")
        wanted = {"Name of the class": "First class", "Rounds": "2", "Exercises a round": "3"}
        typed(page, wanted, "Put it into the week")
        on_keys(page, "First class", "link")
        page.keyboard.press("Enter")
        on_keys(page, "Propose a class", "button")
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", name="Running order")).to_be_visible(timeout=60_000)
        on_keys(page, "Print on A4", "link")


def test_a_door_is_moved_along_its_wall_by_keyboard_and_by_dragging(page: Page) -> None:
    page.set_viewport_size({"width": 1280, "height": 900})
    with served() as address:
        page.goto(f"{address}/sign-in")
        typed(page, {"Name": Role.OWNER.value, "Password": PASSWORD}, "Sign in")
        expect(page).to_have_url(f"{address}/at/{HALL}/week")
        page.goto(f"{address}/at/{HALL}/room/main_floor")
        handle = page.locator(".handle").nth(1)
        at = page.locator('[data-fixture="1"] [name="at"]')
        wall = page.locator('[data-fixture="1"] [name="wall"]')
        before = float(at.input_value())
        handle.focus()
        page.keyboard.press("ArrowUp")
        page.keyboard.press("ArrowUp")
        with page.expect_navigation():
            page.keyboard.press("Enter")
        expect(at).to_have_value(f"{before - 0.2:g}")
        box = page.locator("[data-floor] svg").bounding_box()
        mine = page.locator(".handle").nth(1).bounding_box()
        assert box is not None
        assert mine is not None
        page.mouse.move(mine["x"] + mine["width"] / 2, mine["y"] + mine["height"] / 2)
        page.mouse.down()
        page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] - 8, steps=6)
        with page.expect_navigation():
            page.mouse.up()
        expect(wall).to_have_value("back")
