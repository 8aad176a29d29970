"""Who may call what: every operation as stranger, each role, and as a forged request."""

import re
from collections.abc import Iterator

import pytest
from fastapi.routing import APIRoute

from roundwright.accounts.account import ALLOWED, May, Role
from roundwright.web.house.visit import Needs
from roundwright.web.interface.application import AT, ROUTERS
from tests.house.a_house import HALL, AHouse, a_house

GIVEN = {"hall_id": HALL, "on": "2026-03-03", "kind": "room", "way": "undo", "what": "sheet"}
OPERATIONS = [
    (method, route)
    for router in ROUTERS
    for route in router.routes
    if isinstance(route, APIRoute)
    for method in sorted(route.methods)
]


@pytest.fixture(scope="module")
def opened() -> Iterator[AHouse]:
    with a_house() as made:
        yield made


def _address(path: str) -> str:
    return AT + re.sub(r"\{(\w+)\}", lambda m: GIVEN.get(m[1], "nothing"), path)


def _right(route: APIRoute) -> May:
    (right,) = [d.call.right for d in route.dependant.dependencies if isinstance(d.call, Needs)]
    return right


@pytest.mark.parametrize(
    ("method", "route"), OPERATIONS, ids=lambda each: getattr(each, "operation_id", each)
)
def test_the_table_of_roles(opened: AHouse, method: str, route: APIRoute) -> None:
    address, right = _address(route.path), _right(route)
    stranger = opened.visitor()
    answer = stranger.request(method, address, json={} if method in ("POST", "PUT") else None)
    assert answer.status_code == 401
    assert answer.headers["content-type"] == "application/problem+json"
    for role in Role:
        client = opened.as_(role)
        sent = {} if method in ("POST", "PUT") else None
        answer = client.request(method, address, json=sent)
        if right in ALLOWED[role]:
            assert answer.status_code not in (401, 500), (role, answer.text)
        else:
            assert answer.status_code in (403, 422), (role, answer.text)
            assert right not in ALLOWED[role]
    if method != "GET":
        forged = opened.as_(Role.OWNER)
        foreign = {"origin": "https://elsewhere.example", "sec-fetch-site": "cross-site"}
        assert forged.request(method, address, json={}, headers=foreign).status_code == 403


def test_a_refused_caller_learns_nothing_of_the_fields(opened: AHouse) -> None:
    """The right is asked before the body is read."""
    client = opened.as_(Role.ASSISTANT)
    answer = client.post(f"{AT}/halls/{HALL}/people-list", json={"nonsense": 1})
    assert answer.status_code in (403, 422)
    assert "nonsense" not in answer.text or answer.status_code == 422


def test_health_records_are_for_those_who_may(opened: AHouse) -> None:
    assistant, coach = opened.as_(Role.ASSISTANT), opened.as_(Role.COACH)
    kinds = {one["kind"] for one in assistant.get(f"{AT}/halls/{HALL}/records").json()}
    assert kinds & {"limitations", "clearance", "screen", "clearance_record", "person"} == set()
    for kind in ("limitations", "clearance", "person"):
        address = f"{AT}/halls/{HALL}/records/{kind}/p006"
        assert assistant.get(address).status_code == 403
        assert coach.get(address).status_code == 200
    seen = [line.what for line in opened.keeping.trail.entries(HALL, "p006")]
    assert seen.count("health.seen") == 2


def test_a_token_opens_what_its_account_may_and_a_cookie_never_helps_it(opened: AHouse) -> None:
    coach = opened.keeping.accounts.by_sign_in_name("coach")
    assert coach is not None
    token = opened.house.door.make_token(coach, 30, opened.clock.now())
    stranger = opened.visitor()
    shown = {"authorization": f"Bearer {token}", "origin": ""}
    assert stranger.get(f"{AT}/me", headers=shown).json()["role"] == "coach"
    assert stranger.get(f"{AT}/trail", headers=shown).status_code == 403
    owner = opened.as_(Role.OWNER)
    wrong = {"authorization": "Bearer wrong"}
    assert owner.get(f"{AT}/me", headers=wrong).status_code == 401
    for _ in range(10):
        answer = stranger.get(f"{AT}/me", headers=wrong)
    assert answer.status_code == 429
    opened.clock.forward(days=31)
    assert stranger.get(f"{AT}/me", headers=shown).status_code == 401
