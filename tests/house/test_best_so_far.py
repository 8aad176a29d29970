"""The best class so far: shown with who does what while another is sought, and taken as seen."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from threading import Event

import pytest
from starlette.testclient import TestClient

from roundwright.accounts.account import Role
from roundwright.optimise.class_search import ClassSearch
from roundwright.plan.gate import judged_here
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import StoppedBy
from roundwright.web.house.house import make_house
from tests.house.a_house import HALL, TUESDAY, AHouse, a_house

AT = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"


@dataclass
class Stepwise(ClassSearch):
    """Searches as ever, and waits after each better class until it is let on, or stopped."""

    on_it: Event = field(default_factory=Event)
    waits: Event = field(default_factory=Event)
    is_stopped: bool = False

    def __post_init__(self) -> None:
        super().__init__()

    def plan(self, planning, *, seed, budget, plan_id, on_better=None):
        def told(found, still):
            goes_on = on_better is None or on_better(found, still)
            self.waits.set()
            assert self.on_it.wait(60)
            self.on_it.clear()
            return goes_on and not self.is_stopped

        return super().plan(planning, seed=seed, budget=budget, plan_id=plan_id, on_better=told)

    def next(self) -> None:
        self.waits.clear()
        self.on_it.set()
        assert self.waits.wait(60)

    def stop(self) -> None:
        self.is_stopped = True
        self.on_it.set()


@dataclass
class Searching:
    """A house in which a class is being looked for, step by step."""

    house: AHouse
    client: TestClient
    search: Stepwise

    @property
    def planning(self) -> str:
        answer = self.client.get(AT + "/planning")
        assert answer.status_code == 200
        return answer.text

    @property
    def room(self):
        rooms = self.house.house.rooms
        return rooms.room(self.house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)

    def kept(self):
        plans = self.house.keeping.plans
        return [plans.opened(HALL, e.plan_id).document for e in plans.plans(HALL, [TUESDAY])]


@pytest.fixture
def searching() -> Iterator[Searching]:
    with a_house() as opened:
        search = Stepwise()
        rooms = replace(opened.house.rooms, planner=search, stop=search.stop)
        opened.house = replace(opened.house, rooms=rooms)
        opened.app = make_house(opened.house)
        client = opened.as_(Role.COACH)
        assert client.post(AT + "/propose").headers["location"].endswith("/planning")
        assert search.waits.wait(60)
        yield Searching(opened, client, search)
        search.stop()
        assert opened.house.rooms.room(
            opened.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY
        ).desk.wait(60)


def _taking(page: str) -> str:
    (action,) = re.findall(r'action="([^"]+/planning/take/\w+)"', page)
    return action


def test_it_is_a_class_with_everybody_in_it_and_nothing_is_kept_yet(searching: Searching) -> None:
    page = searching.planning
    so_far = searching.room.desk.view().so_far
    names = {p.shown_name for p in searching.house.keeping.halls.opened(HALL).hall.people}
    there = {n for n in names if n in page}
    assert len(there) == len(so_far.document.core.people)
    assert all(name in page for name in so_far.exercises)
    assert '<ul class="versions">' in page
    assert "Checked." in page
    assert searching.kept() == []


def test_what_was_seen_is_taken_though_a_better_one_was_told_of_since(
    searching: Searching, monkeypatch
) -> None:
    seen = searching.room.desk.view().so_far.document
    press = _taking(searching.planning)
    searching.search.next()
    newer = searching.room.desk.view().so_far.document
    assert newer.core.digest != seen.core.digest
    counted = []
    monkeypatch.setattr(
        judged_here, "judge", lambda core, problem: counted.append(core) or judge(core, problem)
    )
    assert searching.client.post(press).status_code == 303
    assert searching.room.desk.wait(60)
    (kept,) = searching.kept()
    assert kept.core.cells == seen.core.cells
    assert kept.core.exercises == seen.core.exercises
    assert kept.outcome.stopped_by is StoppedBy.CALLER
    assert kept.facts.chance_on_time is not None
    assert any(core.cells == seen.core.cells for core in counted)
    page = searching.client.get(AT + "/").text
    assert 'id="order"' in page


def test_what_the_gate_refuses_is_not_taken(searching: Searching, monkeypatch) -> None:
    press = _taking(searching.planning)
    searching.search.next()

    def refused(core, problem):
        verdict = judge(core, problem)
        never = verdict.findings[0].model_copy(update={"grade": "never"})
        return verdict.model_copy(update={"findings": (never,)})

    monkeypatch.setattr(judged_here, "judge", refused)
    searching.client.post(press)
    assert searching.room.desk.wait(60)
    assert searching.kept() == []
    assert searching.room.desk.state.core is None


def test_a_mark_that_was_never_told_of_takes_nothing_and_the_search_goes_on(
    searching: Searching,
) -> None:
    answer = searching.client.post(AT + "/planning/take/0123456789abcdef")
    assert answer.status_code == 409
    assert searching.room.desk.view().is_planning
    assert searching.client.get(_taking(searching.planning)).status_code == 405
    assistant = searching.house.as_(Role.ASSISTANT)
    assert assistant.post(_taking(searching.planning)).status_code == 403


def test_whoever_asks_for_news_gets_them_as_soon_as_they_are_there(searching: Searching) -> None:
    page = searching.planning
    (where,) = re.findall(r'data-news="([^"]+)"', page)
    searching.search.next()
    now = searching.client.get(where).text
    assert _taking(now) != _taking(page)
    assert where not in now
    searching.search.stop()
    assert searching.room.desk.wait(60)
    assert searching.client.get(where).headers["location"] == AT + "/"
