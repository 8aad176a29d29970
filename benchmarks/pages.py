"""The coach's pages: how many a second beside a bare page, and from a press to what is painted.

``python -m benchmarks.pages [--label NAME]``. The house is served by the same server in the
same run as a bare page of the same framework that gives back a fixed text of the same length;
requests come one after another. Presses are made in a real browser on the demonstration, with
the real processes behind, and timed inside of it, from the event of the press until what it was
pressed for has been painted. ``--presses`` leaves out the pages a second. The load before and
after says how many programs wanted a processor on average over a minute, this one included.
"""

import argparse
import json
import os
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
from roundwright.foundation.collecting import collect_seldom
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
SO_FAR = "#so-far"
WATCHING = """(() => {
  const now = () => performance.timeOrigin + performance.now();
  const read = (key) => JSON.parse(sessionStorage.getItem(key) || "null");
  const write = (key, value) => sessionStorage.setItem(key, JSON.stringify(value));
  addEventListener("pointerdown", () => { write("pressed", now()); write("painted", {}); }, true);
  const look = () => {
    const pressed = read("pressed"), painted = read("painted");
    if (pressed === null || painted === null || performance.timeOrigin < pressed) return;
    for (const one of read("wanted") || []) {
      if (one in painted || !document.querySelector(one)) continue;
      requestAnimationFrame(() => requestAnimationFrame(() => {
        const known = read("painted");
        if (!(one in known)) write("painted", { ...known, [one]: now() - pressed });
      }));
    }
  };
  new MutationObserver(look).observe(document, { childList: true, subtree: true });
})();"""
"""Notes the press and, for each thing that is waited for, when it was painted, ms."""
ANSWERED = """() => {
  const [page] = performance.getEntriesByType("navigation");
  return performance.timeOrigin + page.redirectEnd - JSON.parse(sessionStorage.getItem("pressed"));
}"""
"""Milliseconds from the press until its answer had come, where that sends on to a page."""
ALL_PAINTED = """() => {
  const painted = JSON.parse(sessionStorage.getItem("painted") || "{}");
  return JSON.parse(sessionStorage.getItem("wanted")).every((one) => one in painted);
}"""


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

        collect_seldom()
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


class Presses:
    """Presses of one browser window, timed inside the browser.

    The press is the browser's own event, before the page does anything with it. What is waited
    for is looked for after each change of the page, and counts when two frames have been drawn
    since: the second begins after the first was painted.
    """

    def __init__(self, page: Page) -> None:
        self.page = page
        page.context.add_init_script(WATCHING)

    def seconds(self, press: str, *until: str) -> list[float]:
        """Press a button and give the seconds until each of some things is painted."""
        self.page.evaluate("wanted => sessionStorage.setItem('wanted', wanted)", json.dumps(until))
        self.page.get_by_role("button", name=press, exact=True).click(no_wait_after=True)
        self.page.wait_for_function(ALL_PAINTED, polling=100, timeout=180_000)
        painted = json.loads(self.page.evaluate("() => sessionStorage.getItem('painted')"))
        return [painted[one] / 1000 for one in until]

    def seconds_to_answer(self) -> float:
        """Give the seconds from the last press until its answer was kept and had come back."""
        answered: float = self.page.evaluate(ANSWERED)
        return answered / 1000


def proposals(presses: Presses, address: str) -> dict[str, list[float]]:
    """Time proposals and, for each, another class: until the best so far, and until the end."""
    found: dict[str, list[float]] = {}

    def note(what: str, press: str, until: str) -> None:
        so_far, ended = presses.seconds(press, SO_FAR + ", " + until, until)
        found.setdefault(what + "_best_so_far", []).append(so_far)
        found.setdefault(what, []).append(ended)

    for class_id, on in CLASSES.items():
        presses.page.goto(f"{address}/at/{HALL}/class/{class_id}/{on}/")
        note("proposal", "Propose a class", "#order")
        note("another_class", "Another class", "#order")
    return found


def changes(presses: Presses, address: str, people: list[str]) -> dict[str, list[float]]:
    """Time changes of one cell, answered and painted: sit out, and choose again, one by one."""
    found: dict[str, list[float]] = {"cell_change_answered": [], "cell_change": []}
    for number in range(PRESSES):
        person, place = people[number // 2 % len(people)], number // 2 % 4 + 1
        presses.page.goto(f"{address}{CLASS}/cell/{person}/{place}")
        press = "Let the tool choose again" if number % 2 else "Let them sit out here"
        if presses.page.get_by_role("button", name=press).count():
            found["cell_change"] += presses.seconds(press, "#changed .notice")
            found["cell_change_answered"].append(presses.seconds_to_answer())
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
    asked.add_argument("--presses", action="store_true")
    given = asked.parse_args()
    label = given.label
    load_before = os.getloadavg()[0]
    with served() as (opened, address), a_browser() as browser:
        page = signed_in(browser, address)
        presses = Presses(page)
        proposed = proposals(presses, address)
        hall = opened.keeping.halls.opened(HALL).hall
        people = [p.person_id for p in hall.people_of(hall.classes["tuesday_circuit"])]
        changed = changes(presses, address, people[2:10])
        account = opened.keeping.accounts.by_sign_in_name(Role.COACH.value)
        assert account is not None
        token = opened.house.door.make_token(account, 30, opened.clock.now())
        rows = [] if given.presses else list(page_rows(address, token))
    told = {
        "machine": machine(),
        "load_before_and_after": [round(load_before, 1), round(os.getloadavg()[0], 1)],
        **{what: spread(seconds) for what, seconds in proposed.items()},
        **{what: spread(seconds) for what, seconds in changed.items()},
        "pages": rows,
    }
    (RESULTS / f"{label}.pages.json").write_text(json.dumps(told, indent=1) + "\n", "utf-8")
    sys.stdout.write(json.dumps(told, indent=1) + "\n")


if __name__ == "__main__":
    main()
