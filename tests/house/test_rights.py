"""Who may open what: every route of the house by role, strangers and forged requests."""

import re

import pytest
from fastapi.routing import APIRoute

from roundwright.accounts.account import ALLOWED, May, Role
from roundwright.web.house.class_rooms import ClassDoor
from roundwright.web.house.visit import Needs
from tests.house.a_house import HALL, a_house

OPEN_TO_ALL = {
    ("GET", "/"),
    ("GET", "/sign-in"),
    ("POST", "/sign-in"),
    ("POST", "/sign-out"),
    ("GET", "/first"),
    ("POST", "/first"),
    ("GET", "/static/{name}.css"),
    ("GET", "/static/{name}.js"),
    ("GET", "/static/fonts/{name}"),
    ("GET", "/favicon.svg"),
    ("GET", "/favicon.ico"),
}


@pytest.fixture(scope="module")
def opened():
    with a_house() as made:
        yield made


def _right_of(route):
    stated = [d.call.right for d in route.dependant.dependencies if isinstance(d.call, Needs)]
    return stated[0] if len(stated) == 1 else None


def _routes(app):
    for top in app.routes:
        within = top.original_router.routes if hasattr(top, "original_router") else [top]
        for route in within:
            if isinstance(route, APIRoute):
                for method in sorted(route.methods):
                    yield method, route.path, _right_of(route)


def _address(path):
    given = {"hall_id": HALL, "account_id": "nobody", "person_id": "p001"}
    return re.sub(r"\{(\w+)\}", lambda m: given.get(m[1], "x"), path)


def test_every_route_states_one_right_or_is_open_by_name(opened):
    found = list(_routes(opened.app))
    assert {(m, p) for m, p, right in found if right is None} == OPEN_TO_ALL
    assert len(found) > len(OPEN_TO_ALL) + 5


def test_the_table_of_roles(opened):
    for role in (None, *Role):
        client = opened.visitor() if role is None else opened.as_(role)
        for method, path, right in _routes(opened.app):
            if right is None:
                continue
            answer = client.request(method, _address(path), data={} if method == "POST" else None)
            if role is None:
                assert answer.status_code in (303, 401), (method, path)
                if answer.status_code == 303:
                    assert answer.headers["location"].startswith("/sign-in")
            elif right in ALLOWED[role]:
                assert answer.status_code not in (401, 403), (role, method, path)
                assert answer.status_code < 500, (role, method, path)
            else:
                assert answer.status_code == 403, (role, method, path)


def test_a_button_of_another_site_does_nothing_whoever_is_signed_in(opened):
    client = opened.as_(Role.OWNER)
    for method, path, _ in _routes(opened.app):
        if method == "GET":
            continue
        for headers in (
            {"origin": "http://elsewhere.example"},
            {"origin": ""},
            {"origin": "http://127.0.0.1:8737", "sec-fetch-site": "cross-site"},
        ):
            assert client.request(method, _address(path), headers=headers).status_code == 403


def test_another_host_is_not_answered(opened):
    for _, path, _ in _routes(opened.app):
        answer = opened.visitor().get(_address(path), headers={"host": "elsewhere.example"})
        assert answer.status_code == 400


def test_the_class_page_asks_for_rights_too(opened):
    at = f"/at/{HALL}/class/tuesday_circuit/2026-03-03/"
    assert opened.visitor().get(at).headers["location"].startswith("/sign-in")
    assert opened.as_(Role.ASSISTANT).get(at).status_code == 200
    assert opened.as_(Role.ASSISTANT).post(at + "propose").status_code == 403
    assert (ClassDoor.right_to_look, ClassDoor.right_to_press) == (May.SEE_PLANS, May.PLAN)
    for wrong in ("tuesday_circuit/monday/", "nothing/2026-03-03/"):
        assert opened.as_(Role.COACH).get(f"/at/{HALL}/class/{wrong}").status_code == 404
