"""Pictures of every page from the demonstration, at phone and laptop size, each looked through.

``python -m tools.screenshots [--to FOLDER] [--only WORDS] [--language TAG]`` serves the invented
hall on a free port of this machine, visits every page that the application has, and writes
``<page>-<width>.png``. A page that scrolls sideways, has two things of one id, or that the
accessibility engine objects to makes the exit status 1. The folder is not kept.
"""

import argparse
import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from fastapi import FastAPI
from fastapi.routing import APIRoute
from playwright.sync_api import Page
from tests.browser.a_browser import WIDTHS, Served, a_browser
from tests.house.a_house import HALL, PASSWORD, TUESDAY, AHouse, a_house

from roundwright.accounts.account import Role
from roundwright.web.house.house import ROUTERS, make_house

SIZES = (390, 1280)
CLASS = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"
GIVEN = {
    "hall_id": HALL,
    "person_id": "p003",
    "class_id": "tuesday_circuit",
    "on": TUESDAY.isoformat(),
    "place": "2",
    "number": "1",
    "room_id": "main_floor",
    "movement_id": "goblet_squat",
}
MORE = {"finish-by": "?by=19:00", "compare-movements": "?one=wall_sit&other=goblet_squat"}
NO_PAGE = ("own-movements", ".pdf", ".ics", ".svg", ".json", "/first", "/sign-in")


def addresses() -> Iterator[str]:
    """Give every page once, those of the class too."""
    yield "/sign-in"
    for router in ROUTERS:
        for route in router.routes:
            if isinstance(route, APIRoute) and "GET" in (route.methods or ()) and route.path != "/":
                path = re.sub(r"\{(\w+)\}", lambda m: GIVEN.get(m[1], "x"), route.path)
                if not any(part in path for part in NO_PAGE):
                    yield path + MORE.get(path.rsplit("/", 1)[-1], "")
    yield CLASS + "/"


def faults_of(page: Page, width: int) -> list[str]:
    """Give what is wrong with a page as it stands."""
    found = []
    if page.evaluate("document.documentElement.scrollWidth") > width:
        found.append("scrolls sideways")
    ids = page.locator("[id]").evaluate_all("all => all.map(one => one.id)")
    if len(ids) != len(set(ids)):
        found.append("has two things of one id")
    seen = Axe().run(page)
    if seen.violations_count:
        found.append(seen.generate_report())
    return found


def scrolled_through(page: Page) -> None:
    """Have everything brought that comes when somebody scrolls there, and go back to the top."""
    page.evaluate(
        """async () => {
          const next = () => new Promise(requestAnimationFrame);
          const there = (one) => one.complete || new Promise((done) => {
            one.onload = one.onerror = done;
          });
          for (let y = 0; y < document.body.scrollHeight; y += innerHeight / 2) {
            scrollTo(0, y);
            await next();
          }
          for (const one of document.images) one.loading = "eager";
          await Promise.all([...document.images].map(there));
          scrollTo(0, 0);
        }"""
    )
    if page.locator("[data-beneath]").count():
        page.wait_for_selector("[data-brought]")


def looked_through(opened: AHouse, folder: Path, only: str, language: str = "en-GB") -> int:
    """Visit every page at each size, write its picture, and give how many have a fault."""
    folder.mkdir(parents=True, exist_ok=True)
    wrong = 0

    def make(port: int) -> FastAPI:
        rooms = opened.house.rooms
        assert rooms is not None
        return make_house(replace(opened.house, port=port, rooms=replace(rooms, port=port)))

    with Served(make) as address, a_browser() as browser:
        for width in SIZES:
            page = browser.new_context(
                viewport={"width": width, "height": WIDTHS[width]}
            ).new_page()
            page.goto(f"{address}/sign-in")
            page.get_by_label("Name").fill(Role.OWNER.value)
            page.get_by_label("Password").fill(PASSWORD)
            page.get_by_role("button", name="Sign in").click()
            page.wait_for_url("**/week")
            page.goto(address + CLASS + "/")
            fit = page.get_by_role("button", name="Fit it as it is written")
            if fit.count():
                fit.click()
                page.wait_for_selector("#order", timeout=60_000)
            page.goto(f"{address}/at/{HALL}/settings")
            page.locator("select[name=language]").select_option(language)
            with page.expect_navigation():
                page.locator("form:has(select[name=language]) button").click()
            for path in addresses():
                if only not in path:
                    continue
                page.goto(address + path)
                scrolled_through(page)
                name = re.sub(r"\W+", "-", path.split("?")[0].removeprefix(f"/at/{HALL}")).strip(
                    "-"
                )
                page.screenshot(path=folder / f"{name}-{width}.png", full_page=True)
                faults = faults_of(page, width)
                wrong += bool(faults)
                sys.stdout.write(f"{width:5} {path}: {'; '.join(faults) or 'fine'}\n")
                sys.stdout.flush()
    return wrong


def main() -> int:
    """Look through every page."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--to", type=Path, default=Path("build/screenshots"))
    asked.add_argument("--only", default="")
    asked.add_argument("--language", default="en-GB")
    given = asked.parse_args()
    with a_house() as opened:
        return 1 if looked_through(opened, given.to, given.only, given.language) else 0


if __name__ == "__main__":
    sys.exit(main())
