"""Changes of a kept plan on its page: one person, exercises, people, kit, length; undo and redo."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from starlette.testclient import TestClient

from roundwright.accounts.account import Role
from roundwright.plan.core import CellState
from roundwright.plan.document import PlanDocument
from roundwright.services.keeping.shelves import KeptPlan
from tests.house.a_house import HALL, TUESDAY, AHouse, a_house

AT = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"


@dataclass
class Opened:
    """A house whose Tuesday class has a plan, and a coach who looks at it."""

    house: AHouse
    client: TestClient
    plan_id: str

    @property
    def kept(self) -> KeptPlan:
        return self.house.keeping.plans.opened(HALL, self.plan_id)

    @property
    def document(self) -> PlanDocument:
        return self.kept.document

    def change(self, status: int = 303, base: int | None = None, **fields: str) -> str:
        """Ask for a change and give the page that follows."""
        now = self.document.core.revision if base is None else base
        sent = {"plan": self.plan_id, "base": str(now)} | fields
        answer = self.client.post(AT + "/change", data=sent)
        assert answer.status_code == status, answer.text
        return self.client.get(AT + "/").text if status == 303 else answer.text

    def press(self, what: str, base: int | None = None) -> int:
        now = self.document.core.revision if base is None else base
        sent = {"plan": self.plan_id, "base": str(now)}
        return int(self.client.post(f"{AT}/{what}", data=sent).status_code)

    def does(self, person: str, place: int) -> set[tuple[str, ...]]:
        return {
            c.signature
            for c in self.document.core.cells
            if (c.person_id, c.position) == (person, place) and c.state is not CellState.SIT_OUT
        }


@pytest.fixture(scope="module")
def whole() -> Iterator[Opened]:
    with a_house() as house:
        client = house.as_(Role.COACH)
        client.post(AT + "/fit-as-written")
        rooms = house.house.rooms
        assert rooms is not None
        room = rooms.room(house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)
        assert room.desk.wait(60)
        assert room.plan_id is not None
        yield Opened(house, client, room.plan_id)


@pytest.fixture
def opened(whole: Opened) -> Iterator[Opened]:
    """Give the class, and put it back to the first plan afterwards."""
    yield whole
    while whole.kept.revisions.can_undo:
        assert whole.press("undo") == 303


def _notice(page: str) -> str:
    found = re.search(r'<div class="notice".*?</div>', page, re.S)
    return re.sub(r"<[^>]+>|\s+", " ", found[0]) if found else ""


def test_somebody_rests_at_a_place_and_is_let_go_again(opened: Opened) -> None:
    assert opened.does("p003", 2)
    page = opened.change(change="rest", person="p003", place="2")
    assert "Oona V has nothing to do at one-arm row (place 2)" in _notice(page)
    assert not opened.does("p003", 2)
    assert "Let the tool choose again" in opened.client.get(f"{AT}/cell/p003/2").text
    opened.change(change="free", person="p003", place="2")
    assert opened.does("p003", 2)


def test_a_version_and_a_load_are_fixed_for_one_person(opened: Opened) -> None:
    page = opened.client.get(f"{AT}/cell/p001/3").text
    (versions,) = re.findall(r'<select id="f-version".*?</select>', page, re.S)
    version = re.findall(r'<option value="(\w+)"', versions)[0]
    opened.change(change="cell", person="p001", place="3", version=version)
    assert all(version in signature for signature in opened.does("p001", 3))
    fixed = [k for k in opened.document.problem.spec.keep if k.person == "p001"]
    assert [(k.position, k.version) for k in fixed] == [(3, version)]


def test_only_what_the_person_may_do_is_offered_and_the_rest_is_never_done(
    opened: Opened,
) -> None:
    """Petra must not stand on one leg or jump: no such version by list or by hand."""
    page = opened.client.get(f"{AT}/cell/p006/3").text
    (versions,) = re.findall(r'<select id="f-version".*?</select>', page, re.S)
    offered = set(re.findall(r'<option value="(\w+)"', versions))
    library = opened.document.problem.library
    line = library.lines[opened.document.core.exercises[2].exercise_id]
    beyond = [v for v in line.versions if v not in offered]
    assert offered
    assert beyond
    opened.change(change="cell", person="p006", place="3", version=beyond[-1])
    assert not any(beyond[-1] in signature for signature in opened.does("p006", 3))


def test_exercises_are_moved_swapped_and_put_into_an_order(opened: Opened) -> None:
    def exercises() -> list[str]:
        return [
            e.exercise_id for e in sorted(opened.document.core.exercises, key=lambda e: e.position)
        ]

    first = exercises()
    opened.change(change="later", place="1")
    assert exercises() == [first[1], first[0], *first[2:]]
    opened.change(change="earlier", place="2")
    assert exercises() == first
    opened.change(change="order", order="5 4 3 2 1")
    assert exercises() == first[::-1]
    opened.change(change="swap", place="1", exercise="bridges")
    assert exercises()[0] == "bridges"


def test_people_come_and_go_and_a_walk_in_is_asked_first(opened: Opened) -> None:
    page = opened.change(change="left", person="p002")
    assert "Joss K is out of the class" in _notice(page)
    assert "Emeka J joins" in _notice(opened.change(change="came", newcomer="p016"))
    asked = {"change": "walk-in", "second": "unsure", "third": "yes"}
    told = opened.change(422, first="yes", **asked)
    assert "not in this class today" in told
    assert "walk-in 1 joins" in _notice(opened.change(first="no", **asked))
    newcomer = opened.document.problem.people["walk_in_1"]
    assert newcomer.is_moderate_only
    told = opened.change(422, change="came", newcomer="p012")
    assert "Speak to Dilys R first" in told


def test_kit_length_and_what_hurts(opened: Opened) -> None:
    opened.change(change="kit-lost", kit="m8000", units="2")
    assert "goes easier from here on" in opened.change(change="hurts", person="p003", region="knee")
    page = opened.change(change="drop-round")
    assert opened.document.core.class_.rounds == 2
    assert "Length: " in _notice(page)
    opened.change(change="slot", minutes="50")
    assert opened.document.problem.spec.slot_s == 3000


def test_what_ends_the_class_in_time_is_offered_and_done(opened: Opened) -> None:
    page = opened.client.get(AT + "/finish-by?by=19:02").text
    cuts = re.findall(r'name="cut" value="([^"]+)"', page)
    assert cuts
    was = opened.document.facts.total_s
    opened.change(change="cut", cut=cuts[0].replace("&#34;", '"'))
    assert opened.document.facts.total_s < was
    assert "Nothing needs to be cut" in opened.client.get(AT + "/finish-by?by=19:59").text


def test_undo_redo_and_then_and_now(opened: Opened) -> None:
    first = opened.document.core.digest
    opened.change(change="left", person="p002")
    changed = opened.document.core.digest
    assert opened.press("undo") == 303
    assert opened.document.core.digest == first
    assert opened.press("redo") == 303
    assert opened.document.core.digest == changed
    revision = opened.document.core.revision
    history = opened.client.get(AT + "/revisions").text
    assert "Joss K is out of the class" in history
    compared = opened.client.get(AT + "/revisions/1").text
    assert compared.count('<th scope="row">Joss K</th>') == 5
    assert opened.client.get(f"{AT}/revisions/{revision + 50}").status_code == 404


def test_whoever_changes_an_older_revision_is_told_what_was_done(opened: Opened) -> None:
    base = opened.document.core.revision
    opened.change(change="left", person="p002")
    told = opened.change(409, base, change="drop-round")
    assert "Joss K is out of the class" in told
    assert opened.press("undo", base) == 409
    assert opened.document.core.class_.rounds == 3


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"change": "bribe"},
        {"change": "rest", "person": "nobody", "place": "1"},
        {"change": "rest", "person": "p001", "place": "9" * 40},
        {"change": "cell", "person": "p001", "place": "1"},
        {"change": "cell", "person": "p001", "place": "1", "mass": "-3"},
        {"change": "order", "order": "1 1 1 1 1"},
        {"change": "swap", "place": "1", "exercise": "no_such_line"},
        {"change": "earlier", "place": "1"},
        {"change": "kit-lost", "kit": "m8000", "units": "399"},
        {"change": "kit-lost", "kit": "irobot", "units": "1"},
        {"change": "hurts", "person": "p001", "region": "soul"},
        {"change": "cut", "cut": "{"},
        {"change": "cut", "cut": '{"kind": "rests_cut", "rest_s": 0, "change_s": 0}'},
        {"change": "walk-in", "first": "no"},
        {"change": "slot", "minutes": "\u0663"},
    ],
)
def test_what_cannot_be_is_told_and_nothing_is_changed(
    opened: Opened, fields: dict[str, str]
) -> None:
    before = opened.document.core.digest
    told = opened.change(422, **fields)
    assert "Nothing was changed" in told
    assert opened.document.core.digest == before


def test_an_assistant_looks_and_presses_nothing(whole: Opened) -> None:
    client = whole.house.as_(Role.ASSISTANT)
    page = client.get(AT + "/").text
    assert "Running order" in page
    assert "<button" not in page.replace('<button class="play"', "").replace(
        '<button class="again"', ""
    )
    assert "/cell/" not in page
    assert client.get(AT + "/revisions").status_code == 200
    assert client.get(AT + "/changes").status_code == 403
    assert client.post(AT + "/undo", data={}).status_code == 403


def test_a_class_that_stood_before_stands_again(whole: Opened) -> None:
    """*Back* keeps the earlier class once more, so that it is the one that is found later."""
    client, plans = whole.client, whole.house.keeping.plans
    rooms = whole.house.house.rooms
    assert rooms is not None
    room = rooms.room(whole.house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)
    before = whole.document.core.exercises
    token = room.desk.view().token
    client.post(f"{AT}/class/{token}/another")
    assert room.desk.wait(60)
    assert room.desk.state.core is not None
    assert room.desk.state.core.exercises != before
    client.post(f"{AT}/class/{room.desk.view().token}/back")
    newest = plans.opened(HALL, plans.plans(HALL, [TUESDAY], "tuesday_circuit")[-1].plan_id)
    assert newest.document.core.exercises == before
    assert room.plan_id == newest.document.core.plan_id
