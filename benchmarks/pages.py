"""The coach's pages: how many a second beside a bare page, and from a press to what is painted.

``python -m benchmarks.pages [--label NAME]``. The house is served by the same server in the
same run as a bare page of the same framework that gives back a fixed text of the same length;
requests come one after another. Presses are made in a real browser on the demonstration, with
the real processes behind: wall seconds until the answer is loaded and two frames are painted.
"""

import argparse
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter  # noqa: TID251 - wall time is what is measured

import httpx2 as httpx
from fastapi import FastAPI
from playwright.sync_api import Browser, Page
from starlette.responses import HTMLResponse
from tests.browser.a_browser import Served, a_browser
from tests.house.a_house import HALL, PASSWORD, TUESDAY, AHouse, a_house

from benchmarks.machine import machine
from roundwright.accounts.account import Role
from roundwright.bootstrap.changing import mender_process
from roundwright.bootstrap.planning import planner_process
from roundwright.web.house.house import make_house

RESULTS = Path(__file__).parent / "results"
CLASS = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"
PAGES = (
    f"/at/{HALL}/week",
    f"/at/{HALL}/people",
    f"/at/{HALL}/people/p003",
    f"/at/{HALL}/movements",
    f"/at/{HALL}/room",
    CLASS + "/",
    CLASS + "/pictures",
    f"/api/v1/halls/{HALL}/people",
)
REQUESTS = 60
PRESSES = 30
CLASSES = {
    "monday_seated": "2026-03-02",
    "tuesday_circuit": "2026-03-03",
    "wednesday_pairs": "2026-03-04",
    "thursday_stations": "2026-03-05",
}
PAINTED = "() => new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)))"


@contextmanager
def served() -> Iterator[tuple[AHouse, str]]:
    """Serve the demonstration with the real processes behind it."""
    with (
        a_house() as opened,
        planner_process() as (worker, planner),
        mender_process() as mender,
    ):
        worker.start()

        def make(port: int) -> FastAPI:
            rooms = opened.house.rooms
            assert rooms is not None
            real = replace(rooms, planner=planner, stop=worker.stop, port=port, mender=mender)
            return make_house(replace(opened.house, port=port, rooms=real))

        with Served(make) as address:
            yield opened, address


def seconds_each(get: Callable[[], httpx.Response]) -> list[float]:
    """Time requests, after a few that are not counted."""
    for _ in range(5):
        get()
    found = []
    for _ in range(REQUESTS):
        begun = perf_counter()
        assert get().status_code == 200
        found.append(perf_counter() - begun)
    return found


def bare_seconds(length: int) -> float:
    """Give the median seconds of a bare page of a length, of the same framework and server."""
    text = "x" * length

    def make(_: int) -> FastAPI:
        app = FastAPI(openapi_url=None)

        @app.get("/")
        def bare() -> HTMLResponse:
            return HTMLResponse(text)

        return app

    with Served(make) as address, httpx.Client(base_url=address) as client:
        return median(seconds_each(lambda: client.get("/")))


def page_rows(address: str, token: str) -> Iterator[dict[str, object]]:
    """Time each page beside a bare one of its length."""
    headers = {"authorization": f"Bearer {token}", "accept": "text/html"}
    with httpx.Client(base_url=address, headers=headers) as client:
        for path in PAGES:
            get = partial(client.get, path)
            length = len(get().content)
            ours, bare = median(seconds_each(get)), bare_seconds(length)
            yield {
                "page": path,
                "bytes": length,
                "a_second": round(1 / ours, 1),
                "bare_a_second": round(1 / bare, 1),
                "ratio": round(ours / bare, 1),
            }


def signed_in(browser: Browser, address: str) -> Page:
    """Open a browser window in which a coach has signed in."""
    page = browser.new_context(viewport={"width": 1280, "height": 900}).new_page()
    page.goto(f"{address}/sign-in")
    page.get_by_label("Name").fill(Role.COACH.value)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/week")
    return page


def painted_after(page: Page, press: str, until: str) -> float:
    """Give the wall seconds from a press until something is there and painted."""
    begun = perf_counter()
    page.get_by_role("button", name=press, exact=True).click()
    page.wait_for_selector(until, timeout=180_000)
    page.evaluate(PAINTED)
    return perf_counter() - begun


def proposals(page: Page, address: str) -> list[float]:
    """Time proposals, from the press to the first painted plan."""
    found = []
    for class_id, on in CLASSES.items():
        page.goto(f"{address}/at/{HALL}/class/{class_id}/{on}/")
        found.append(painted_after(page, "Propose a class", "#order"))
    return found


def changes(page: Page, address: str, people: list[str]) -> list[float]:
    """Time changes of one cell: rest, and let go again, of one person after the other."""
    found = []
    for number in range(PRESSES):
        person, place = people[number // 2 % len(people)], number // 2 % 4 + 1
        page.goto(f"{address}{CLASS}/cell/{person}/{place}")
        press = "Let it go again" if number % 2 else "Let them rest here"
        if page.get_by_role("button", name=press).count():
            found.append(painted_after(page, press, "#changed .notice"))
    return found


def spread(seconds: list[float]) -> dict[str, float]:
    """Give the median and the 95th percentile, ms."""
    ordered = sorted(seconds)
    most = ordered[min(len(ordered) - 1, round(0.95 * len(ordered)))]
    return {
        "number": len(ordered),
        "median_ms": round(1000 * median(ordered), 1),
        "p95_ms": round(1000 * most, 1),
    }


def main() -> None:
    """Measure, print and keep."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--label", default="0.1.0")
    label = asked.parse_args().label
    with served() as (opened, address), a_browser() as browser:
        page = signed_in(browser, address)
        proposed = proposals(page, address)
        hall = opened.keeping.halls.opened(HALL).hall
        people = [p.person_id for p in hall.people_of(hall.classes["tuesday_circuit"])]
        changed = changes(page, address, people[2:10])
        account = opened.keeping.accounts.by_sign_in_name(Role.COACH.value)
        assert account is not None
        token = opened.house.door.make_token(account, 30, opened.clock.now())
        rows = list(page_rows(address, token))
    told = {
        "machine": machine(),
        "proposal": spread(proposed),
        "cell_change": spread(changed),
        "pages": rows,
    }
    (RESULTS / f"{label}.pages.json").write_text(json.dumps(told, indent=1) + "\n", "utf-8")
    sys.stdout.write(json.dumps(told, indent=1) + "\n")


if __name__ == "__main__":
    main()
