"""Sign in, sign out, and accounts: what the house asks before it opens a door.

Passwords are kept as hashes of a slow function; a session is a random token of which only
a hash is kept. Unknown names take as long as wrong passwords, and both say the same.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from hashlib import sha256
from typing import Protocol

from roundwright.accounts.account import Account, May, Role
from roundwright.foundation.errors import (
    BadInputError,
    NotAllowedError,
    NotFoundError,
    NotSignedInError,
    TooManyTriesError,
)
from roundwright.foundation.faults import Fault
from roundwright.services.accounts.attempts import Attempts
from roundwright.services.keeping.shelves import AccountShelf, Actor, Session, Trail, TrailEntry

SESSION_LASTS = timedelta(hours=12)
"""A day's classes; our choice."""
LEAST_PASSWORD = 10
"""Characters; no other rule. Our choice."""
MOST_PASSWORD = 200
"""Characters; our choice."""


class PasswordHasher(Protocol):
    """Who turns passwords into hashes that are slow to guess."""

    def hash(self, password: str) -> str:
        """Give a hash with its own salt."""

    def matches(self, password_hash: str, password: str) -> bool:
        """Say whether a password is the one that was hashed."""


@dataclass(frozen=True, slots=True)
class NewAccount:
    """What is asked for when an account is made. The password never shows in a repr."""

    sign_in_name: str
    shown_name: str
    role: Role
    password: str = field(repr=False)
    units: str = "kg"
    language: str = "en-GB"


@dataclass(frozen=True)
class Door:
    """Lets people in.

    Parameters
    ----------
    accounts, trail
        Where accounts, sessions and the trail are kept.
    hasher : PasswordHasher
        Who hashes passwords.
    new_token : callable
        Gives a fresh random token as text, of at least 128 bits.
    new_id : callable
        Gives a fresh id.
    attempts : Attempts
        Who counts wrong tries.
    """

    accounts: AccountShelf
    trail: Trail
    hasher: PasswordHasher
    new_token: Callable[[], str]
    new_id: Callable[[], str]
    attempts: Attempts = field(default_factory=Attempts)

    @property
    def has_owner(self) -> bool:
        """Whether an owner can sign in."""
        return any(a.role is Role.OWNER and a.closed_at is None for a in self.accounts.accounts())

    def sign_in(self, name: str, password: str, address: str, now: datetime) -> str:
        """Give the token of a new session.

        Raises
        ------
        TooManyTriesError
            Too many wrong tries with this name or from this address.
        NotSignedInError
            Name and password do not belong together, or the account is closed.
        """
        keys = (f"name:{name}", f"address:{address}")
        self._require_no_wait(keys, now)
        account = self.accounts.by_sign_in_name(name)
        kept = account.password_hash if account is not None else self._nobodys_hash()
        fits = self.hasher.matches(kept, password)
        if account is None or not fits or account.closed_at is not None:
            self.attempts.failed(keys, now)
            raise NotSignedInError(
                "Name and password do not belong together.", "Type both again, or ask the owner."
            )
        self.attempts.forget(keys[0])
        self._note(account, "account.signed_in", now)
        return self._begin(account, now)

    def who(self, token: str | None, now: datetime) -> Account | None:
        """Give the account whose session a token opens now."""
        if not token:
            return None
        session = self.accounts.session(hashed(token))
        if session is None or session.ends_at <= now:
            return None
        account = self.accounts.account(session.account_id)
        return account if account is not None and account.closed_at is None else None

    def who_shows(self, token: str, address: str, now: datetime) -> Account | None:
        """Give the account that a shown token opens; wrong ones are counted by address.

        Raises
        ------
        TooManyTriesError
            Too many wrong tokens from this address.
        """
        keys = (f"token {address}",)
        self._require_no_wait(keys, now)
        account = self.who(token, now)
        if account is None:
            self.attempts.failed(keys, now)
        return account

    def make_token(self, account: Account, days: int, now: datetime) -> str:
        """Give a token with which a program may do what the account may, for some days.

        It ends before that when the account signs out everywhere, changes its password or is
        closed. Only its hash is kept.
        """
        token = self.new_token()
        self.accounts.begin_session(
            Session(hashed(token), account.account_id, now, now + timedelta(days=days))
        )
        self._note(account, "account.token_made", now)
        return token

    def sign_out(self, account: Account, now: datetime) -> None:
        """End every session of an account."""
        self.accounts.end_sessions(account.account_id)
        self._note(account, "account.signed_out", now)

    def make_owner(self, wanted: NewAccount, now: datetime) -> str:
        """Make the first owner and give the token of their session.

        Raises
        ------
        NotAllowedError
            There is an owner already.
        BadInputError
            A name or password that cannot be.
        """
        if self.has_owner:
            raise NotAllowedError("This house has an owner already.", "Sign in.")
        tool = Actor(account_id=None, role="tool", at=now)
        account = self._keep_new(wanted, Role.OWNER, tool, now)
        self._note(account, "account.signed_in", now)
        return self._begin(account, now)

    def make_account(self, by: Account, wanted: NewAccount, now: datetime) -> Account:
        """Make an account for somebody.

        Raises
        ------
        NotAllowedError
            Only an owner makes accounts.
        BadInputError
            A name or password that cannot be.
        ChangedMeanwhileError
            The sign-in name is taken.
        """
        require(by, May.MANAGE_ACCOUNTS)
        return self._keep_new(wanted, wanted.role, actor(by, now), now)

    def change_password(self, account: Account, old: str, new: str, now: datetime) -> str:
        """Change one's own password, end all other sessions, and give a fresh token.

        Raises
        ------
        BadInputError
            The old one is wrong or the new one too short.
        """
        if not self.hasher.matches(account.password_hash, old):
            raise BadInputError([_fault("old_password", "the password that holds now")])
        _check_password(new)
        changed = _changed(account, password_hash=self.hasher.hash(new))
        self.accounts.keep_account(changed, actor(account, now))
        self.accounts.end_sessions(account.account_id)
        return self._begin(account, now)

    def set_password(self, name: str, new: str, by: Actor) -> Account:
        """Set a forgotten password anew from the machine itself, and end all sessions.

        Raises
        ------
        NotFoundError
            No open account has this sign-in name.
        BadInputError
            The new one is too short.
        """
        account = self.accounts.by_sign_in_name(name)
        if account is None or account.closed_at is not None:
            raise NotFoundError(f"Nobody signs in as '{name}'.")
        _check_password(new)
        changed = _changed(account, password_hash=self.hasher.hash(new))
        kept = self.accounts.keep_account(changed, by)
        self.accounts.end_sessions(account.account_id)
        return kept

    def close_account(self, by: Account, account_id: str, now: datetime) -> None:
        """Close an account and end its sessions.

        Raises
        ------
        NotAllowedError
            Only an owner closes accounts, and nobody their own.
        """
        require(by, May.MANAGE_ACCOUNTS)
        account = self.accounts.account(account_id)
        if account is None or account.closed_at is not None:
            return
        if account_id == by.account_id:
            raise NotAllowedError("Nobody closes their own account.", "Ask another owner.")
        closed = _changed(account, closed_at=now)
        self.accounts.keep_account(closed, actor(by, now))
        self.accounts.end_sessions(account_id)

    def change_looks(self, account: Account, units: str, language: str, now: datetime) -> Account:
        """Change the units and the language in which an account sees the house."""
        changed = _changed(account, units=units, language=language)
        return self.accounts.keep_account(changed, actor(account, now))

    def _require_no_wait(self, keys: tuple[str, ...], now: datetime) -> None:
        wait = self.attempts.wait(keys, now)
        if wait:
            minutes = -(-int(wait.total_seconds()) // 60)
            raise TooManyTriesError(
                "There were too many wrong tries.", f"Try again in {minutes} minutes."
            )

    def _keep_new(self, wanted: NewAccount, role: Role, by: Actor, now: datetime) -> Account:
        _check_password(wanted.password)
        try:
            account = Account(
                account_id=self.new_id(),
                sign_in_name=wanted.sign_in_name,
                shown_name=wanted.shown_name,
                role=role,
                password_hash=self.hasher.hash(wanted.password),
                units=wanted.units,
                language=wanted.language,
                made_at=now,
            )
        except ValueError as error:
            raise BadInputError(
                [
                    _fault("sign_in_name", "2 to 40 of a-z, digits, dot, - and _"),
                    _fault("shown_name", "1 to 40 characters"),
                ]
            ) from error
        return self.accounts.keep_account(account, by)

    def _begin(self, account: Account, now: datetime) -> str:
        token = self.new_token()
        session = Session(hashed(token), account.account_id, now, now + SESSION_LASTS)
        self.accounts.begin_session(session)
        return token

    def _note(self, account: Account, what: str, now: datetime) -> None:
        self.trail.add(
            [TrailEntry(at=now, account_id=account.account_id, role=account.role.value, what=what)]
        )

    def _nobodys_hash(self) -> str:
        return _hash_of_nobody(self.hasher)


_NOBODY: dict[int, str] = {}


def _hash_of_nobody(hasher: PasswordHasher) -> str:
    """Give a hash that takes as long to compare as anybody's; made once a hasher."""
    if id(hasher) not in _NOBODY:
        _NOBODY[id(hasher)] = hasher.hash("nobody has this password")
    return _NOBODY[id(hasher)]


def hashed(token: str) -> str:
    """Give what is kept of a token."""
    return sha256(token.encode()).hexdigest()


def actor(account: Account, now: datetime) -> Actor:
    """Give on whose behalf an account keeps something."""
    return Actor(account_id=account.account_id, role=account.role.value, at=now)


def require(account: Account, right: May) -> None:
    """Ask whether an account may do something.

    Raises
    ------
    NotAllowedError
        It may not.
    """
    if not account.may(right):
        raise NotAllowedError("Your role does not allow this.", "Ask the owner.")


def _changed(account: Account, **values: object) -> Account:
    """Give the next version of an account, checked."""
    return Account.model_validate(account.model_dump() | {"version": account.version + 1, **values})


def _check_password(password: str) -> None:
    if not LEAST_PASSWORD <= len(password) <= MOST_PASSWORD:
        raise BadInputError([_fault("password", f"{LEAST_PASSWORD} to {MOST_PASSWORD} characters")])


def _fault(field_name: str, expected: str) -> Fault:
    return Fault(code="field.value", file="form", field=field_name, expected=expected)
