"""Before there is an owner the invented hall is shown; from then on only the house."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from roundwright.accounts.account import Account, Role
from roundwright.web.house.first_look import BEGIN_AT, FirstLook
from roundwright.web.house.house import make_house
from tests.house.a_house import ADDRESS, HALL, OURS, PASSWORD, TOOL, a_house

OWNER = {"shown_name": "Olwen", "sign_in_name": "owner", "password": PASSWORD}


@pytest.fixture
def browser() -> Iterator[TestClient]:
    with a_house(with_accounts=False) as shown, a_house(False, False) as own:
        visitor = Account(
            account_id="demonstration",
            sign_in_name="visitor",
            shown_name="Visitor",
            role=Role.OWNER,
            password_hash="",
            made_at=shown.clock.now(),
        )
        kept = shown.keeping.accounts.keep_account(visitor, TOOL)
        looked_at = replace(shown.house, visitor=kept, begin_at=BEGIN_AT)
        app = FirstLook(make_house(looked_at), own.app, own.house.door)
        yield TestClient(app, base_url=ADDRESS, headers=OURS, follow_redirects=False)


def test_the_invented_hall_is_shown_first_and_says_what_it_is(browser: TestClient) -> None:
    assert browser.get("/").headers["location"] == f"/at/{HALL}/week"
    week = browser.get(f"/at/{HALL}/week").text
    assert "An invented hall; nothing is kept." in week
    assert f'href="{BEGIN_AT}"' in week
    assert "Sign out" not in week


def test_from_the_first_owner_on_the_invented_hall_is_gone(browser: TestClient) -> None:
    assert browser.get("/sign-in").headers["location"] == BEGIN_AT
    assert browser.post(BEGIN_AT, data=OWNER).headers["location"] == "/first/hall"
    assert browser.get(f"/at/{HALL}/week").status_code == 404
    stranger = TestClient(
        browser.app, base_url=ADDRESS, headers=OURS, follow_redirects=False
    )  # no cookie of the owner's
    assert stranger.get(f"/at/{HALL}/week").headers["location"].startswith("/sign-in")
