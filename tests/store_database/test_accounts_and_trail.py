"""Accounts, sessions and the trail on every database."""

from datetime import timedelta

import pytest

from roundwright.accounts.account import Account, Role
from roundwright.foundation.errors import ChangedMeanwhileError, StoreError
from roundwright.services.keeping.shelves import Session, TrailEntry
from tests.store_database.a_kept_hall import BEGUN, by

SECRET = "hash-canary-8812"


def an_account(name="maren", account_id="a1", **more):
    return Account(
        account_id=account_id,
        sign_in_name=name,
        shown_name="Maren T",
        role=Role.COACH,
        password_hash=SECRET,
        made_at=BEGUN,
        **more,
    )


def test_an_account_comes_back_as_it_was(kept):
    account = kept.accounts.keep_account(an_account(), by("owner"))
    assert kept.accounts.account("a1") == account == an_account()
    assert kept.accounts.by_sign_in_name("maren") == account
    assert kept.accounts.account("a2") is None
    assert kept.accounts.by_sign_in_name("Maren") is None
    assert SECRET not in repr(account)


def test_accounts_are_listed_by_name_closed_ones_too(kept):
    kept.accounts.keep_account(an_account("sunny", "a2", closed_at=BEGUN), by("owner"))
    kept.accounts.keep_account(an_account(), by("owner"))
    assert [one.sign_in_name for one in kept.accounts.accounts()] == ["maren", "sunny"]


def test_a_change_names_the_version_that_was_seen(kept):
    kept.accounts.keep_account(an_account(), by("owner"))
    kept.accounts.keep_account(an_account(version=2, units="lb"), by("owner"))
    with pytest.raises(ChangedMeanwhileError, match="changed meanwhile"):
        kept.accounts.keep_account(an_account(version=2, units="kg"), by("owner"))
    with pytest.raises(ChangedMeanwhileError, match="changed meanwhile"):
        kept.accounts.keep_account(an_account(account_id="a7", version=2), by("owner"))
    assert kept.accounts.account("a1").units == "lb"


def test_a_sign_in_name_is_taken_once(kept):
    kept.accounts.keep_account(an_account(), by("owner"))
    kept.accounts.keep_account(an_account("sunny", "a2"), by("owner"))
    with pytest.raises(ChangedMeanwhileError, match="sign-in name") as caught:
        kept.accounts.keep_account(an_account("maren", "a3"), by("owner"))
    assert SECRET not in str(caught.value)
    with pytest.raises(ChangedMeanwhileError, match="sign-in name"):
        kept.accounts.keep_account(an_account("maren", "a2", version=2), by("owner"))
    assert [one.account_id for one in kept.accounts.accounts()] == ["a1", "a2"]


def a_session(token, account_id="a1", hours=12):
    return Session(token, account_id, BEGUN, BEGUN + timedelta(hours=hours))


def test_sessions_are_kept_and_ended(kept):
    kept.accounts.keep_account(an_account(), by("owner"))
    kept.accounts.keep_account(an_account("sunny", "a2"), by("owner"))
    for token, account in (("t1", "a1"), ("t2", "a1"), ("t3", "a1"), ("t4", "a2")):
        kept.accounts.begin_session(a_session(token, account))
    assert kept.accounts.session("t1") == a_session("t1")
    assert kept.accounts.session("t9") is None
    assert kept.accounts.end_sessions("a1", but="t2") == 2
    assert kept.accounts.session("t1") is None
    assert kept.accounts.session("t2") == a_session("t2")
    assert kept.accounts.end_sessions("a1") == 1
    assert kept.accounts.end_sessions("a1") == 0
    assert kept.accounts.session("t4") is not None


def test_a_session_belongs_to_an_account(kept):
    with pytest.raises(StoreError):
        kept.accounts.begin_session(a_session("t1", "nobody"))


def test_the_newest_lines_come_first_of_a_hall_or_a_person(kept):
    lines = [
        TrailEntry(BEGUN + timedelta(minutes=n), "a1", "coach", f"thing.{n}", hall, person, "x")
        for n, (hall, person) in enumerate(
            [("one", "p001"), ("one", None), ("two", "p001"), (None, None)]
        )
    ]
    kept.trail.add(lines[:2])
    kept.trail.add(lines[2:])
    kept.trail.add([])
    assert kept.trail.entries() == tuple(reversed(lines))
    assert kept.trail.entries("one") == (lines[1], lines[0])
    assert kept.trail.entries(person_id="p001") == (lines[2], lines[0])
    assert kept.trail.entries("two", "p001") == (lines[2],)
    assert kept.trail.entries(most=1) == (lines[3],)


def test_an_instant_without_a_zone_is_never_kept(kept):
    with pytest.raises(ValueError, match="zone"):
        kept.trail.add([TrailEntry(BEGUN.replace(tzinfo=None), None, "coach", "x")])
    assert kept.trail.entries() == ()
