"""Sign in and out, wrong tries, sessions that end, passwords, the first owner."""

import pytest

from roundwright.accounts.account import Role
from roundwright.bootstrap.passwords import ArgonHasher
from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.services.accounts.attempts import MOST_TRIES
from roundwright.services.accounts.signing_in import LEAST_PASSWORD, hashed
from roundwright.web.house.visit import COOKIE
from tests.house.a_house import HALL, PASSWORD, TOOL, a_house


def _try(client, name, password):
    return client.post("/sign-in", data={"sign_in_name": name, "password": password, "then": "/"})


def test_name_and_password_open_the_week(opened):
    client = opened.as_(Role.COACH)
    assert client.get("/").headers["location"] == f"/at/{HALL}/week"
    assert "Tuesday circuit" in client.get(f"/at/{HALL}/week").text


def test_unknown_name_and_wrong_password_say_the_same(opened):
    one, other = _try(opened.visitor(), "coach", "wrong"), _try(opened.visitor(), "who", "wrong")
    assert one.status_code == other.status_code == 401
    assert one.text.replace('value="coach"', "") == other.text.replace('value="who"', "")


def test_the_cookie_is_for_this_site_and_no_script(opened):
    cookie = _try(opened.visitor(), "coach", PASSWORD).headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=lax" in cookie
    assert "secure" not in cookie
    token = cookie.split("=")[1].split(";")[0]
    assert opened.keeping.accounts.session(token) is None
    assert opened.keeping.accounts.session(hashed(token)) is not None


def test_after_too_many_wrong_tries_even_the_right_password_waits(opened):
    for _ in range(MOST_TRIES):
        assert _try(opened.visitor(), "coach", "wrong").status_code == 401
    assert _try(opened.visitor(), "coach", PASSWORD).status_code == 429
    opened.clock.forward(minutes=16)
    assert _try(opened.visitor(), "coach", PASSWORD).status_code == 303


def test_one_address_cannot_try_many_names(opened):
    for number in range(MOST_TRIES):
        _try(opened.visitor(), f"name{number}", "wrong")
    assert _try(opened.visitor(), "owner", PASSWORD).status_code == 429


def test_a_session_ends_by_itself_and_by_signing_out_everywhere(opened):
    one, other = opened.as_(Role.COACH), opened.as_(Role.COACH)
    assert one.get(f"/at/{HALL}/week").status_code == 200
    one.post("/sign-out")
    assert other.get(f"/at/{HALL}/week").status_code == 303
    third = opened.as_(Role.COACH)
    opened.clock.forward(hours=13)
    assert third.get(f"/at/{HALL}/week").status_code == 303


def test_a_new_password_ends_all_other_sessions(opened):
    mine, other = opened.as_(Role.COACH), opened.as_(Role.COACH)
    sent = {"old_password": PASSWORD, "password": "another harbour"}
    assert mine.post(f"/at/{HALL}/settings/password", data=sent).status_code == 303
    assert mine.get(f"/at/{HALL}/week").status_code == 200
    assert other.get(f"/at/{HALL}/week").status_code == 303
    wrong = mine.post(f"/at/{HALL}/settings/password", data=sent)
    assert wrong.status_code == 422
    assert 'id="w-old_password"' in wrong.text


def test_a_closed_account_is_out_at_once(opened):
    coach = opened.as_(Role.COACH)
    account = opened.keeping.accounts.by_sign_in_name("coach")
    owner = opened.as_(Role.OWNER)
    owner.post(f"/at/{HALL}/settings/accounts/{account.account_id}/close")
    assert coach.get(f"/at/{HALL}/week").status_code == 303
    assert _try(opened.visitor(), "coach", PASSWORD).status_code == 401
    mine = opened.keeping.accounts.by_sign_in_name("owner")
    itself = owner.post(f"/at/{HALL}/settings/accounts/{mine.account_id}/close")
    assert itself.status_code == 403


@pytest.mark.parametrize("then", ["//elsewhere.example", "https://elsewhere.example", "/\\else"])
def test_after_the_door_one_stays_in_the_house(opened, then):
    sent = {"sign_in_name": "coach", "password": PASSWORD, "then": then}
    assert opened.visitor().post("/sign-in", data=sent).headers["location"] == "/"


def test_the_first_visitor_makes_the_owner_and_a_hall():
    with a_house(with_hall=False, with_accounts=False) as opened:
        client = opened.visitor()
        assert client.get("/").headers["location"] == "/first"
        short = {"shown_name": "Olwen", "sign_in_name": "olwen", "password": "x" * 9}
        told = client.post("/first", data=short)
        assert (told.status_code, LEAST_PASSWORD) == (422, 10)
        assert 'href="#f-password"' in told.text
        assert client.post("/first", data=short | {"password": PASSWORD}).status_code == 303
        assert client.cookies[COOKIE]
        assert opened.visitor().get("/first").headers["location"] == "/sign-in"
        late = opened.visitor().post("/first", data=short | {"password": PASSWORD})
        assert late.headers["location"] == "/sign-in"
        wrong = {"name": "", "time_zone": "Nowhere", "length": "1", "width": "x", "room": ""}
        told = client.post("/first/hall", data=wrong)
        assert told.status_code == 422
        for field in ("name", "time_zone", "length", "width", "room"):
            assert f'id="w-{field}"' in told.text
        right = {"name": "Pier Hall", "time_zone": "Europe/Lisbon", "units": "kg", "paper": "a4"}
        right |= {"room": "Main room", "length": "12,5", "width": "9"}
        assert client.post("/first/hall", data=right).headers["location"] == "/at/pier_hall/people"
        again = client.post("/first/hall", data=right)
        assert again.headers["location"] == "/at/pier_hall_2/people"
        hall = opened.keeping.halls.opened("pier_hall").hall
        assert (hall.rooms[0].length, hall.settings.time_zone) == (12_500, "Europe/Lisbon")


def test_real_hashes_fit_their_password_alone():
    hasher = ArgonHasher()
    kept = hasher.hash(PASSWORD)
    assert kept.startswith("$argon2id$")
    assert hasher.matches(kept, PASSWORD)
    assert not hasher.matches(kept, PASSWORD + "s")
    assert not hasher.matches("", PASSWORD)


def test_a_forgotten_password_is_set_anew_and_every_session_ends():
    with a_house(with_hall=False) as opened:
        client = opened.as_(Role.OWNER)
        door = opened.house.door
        door.set_password("owner", "another quiet harbour", TOOL)
        assert client.get("/").headers["location"] == "/sign-in"
        sent = {"sign_in_name": "owner", "password": "another quiet harbour", "then": "/"}
        assert opened.visitor().post("/sign-in", data=sent).status_code == 303
        with pytest.raises(NotFoundError):
            door.set_password("nobody", "another quiet harbour", TOOL)
        with pytest.raises(BadInputError):
            door.set_password("owner", "short", TOOL)
