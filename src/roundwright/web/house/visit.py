"""One request as a page sees it: who asks, in which hall, at what time, in which words."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated

from fastapi import Depends, Request
from fastapi.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.responses import HTMLResponse

from roundwright.accounts.account import Account, May
from roundwright.bootstrap.hall_archive import MOST_PACKED
from roundwright.foundation.errors import NotFoundError, NotSignedInError
from roundwright.foundation.words import Speech, speak_to
from roundwright.services.accounts.signing_in import actor, require
from roundwright.services.keeping.records import KeptHall
from roundwright.services.keeping.shelves import Actor, TrailEntry
from roundwright.web.templating import page
from roundwright.web.texts import Words, speech_of, words_of

if TYPE_CHECKING:
    from roundwright.web.house.house import House

COOKIE = "roundwright_visit"
MOST_FIELDS = 5_000
"""Fields of a form; our choice."""
MOST_FILES = 4
MOST_BYTES = 8_000_000
"""Files of a form, and bytes that are read of one; our choice."""


@dataclass(frozen=True)
class Visit:
    """Somebody who is signed in and asks for something that they may."""

    house: "House"
    request: Request
    account: Account
    now: datetime
    hall_id: str | None

    @property
    def say(self) -> Words:
        """The words of the account's language."""
        return words_of(self.account.language)

    @property
    def today(self) -> date:
        """The local day."""
        return self.house.today()

    @property
    def by(self) -> Actor:
        """On whose behalf something is kept."""
        return actor(self.account, self.now)

    @property
    def at(self) -> str:
        """How addresses within the hall begin."""
        return f"/at/{self.hall_id}"

    def may(self, right: May) -> bool:
        """Say whether who asks may do something more."""
        return self.account.may(right)

    def kept_hall(self) -> KeptHall:
        """Give the hall that the address names.

        Raises
        ------
        NotFoundError
            There is no such hall.
        """
        if self.hall_id is None:
            raise NotFoundError("The address names no hall.")
        return self.house.keeping.halls.opened(self.hall_id)

    def note(self, what: str, person_id: str | None = None, about: str = "") -> None:
        """Write a line of the trail."""
        entry = TrailEntry(
            at=self.now,
            account_id=self.account.account_id,
            role=self.account.role.value,
            what=what,
            hall_id=self.hall_id,
            person_id=person_id,
            about=about,
        )
        self.house.keeping.trail.add([entry])

    def page(self, template: str, status: int = 200, **values: object) -> HTMLResponse:
        """Fill in a page of the house."""
        halls = self.house.keeping.halls.halls()
        name = next((h.name for h in halls if h.hall_id == self.hall_id), "")
        given: dict[str, object] = {
            "visit": self,
            "_": self.say,
            "may": {right.value: self.may(right) for right in May},
            "hall_name": name,
            "halls": halls,
            **values,
        }
        return page(template, status, **given)


class Needs:
    """The right that a route needs: a dependency that gives the visit, or refuses it."""

    def __init__(self, right: May) -> None:
        self.right = right

    async def __call__(self, request: Request) -> Visit:
        """Give the visit of somebody who has the right; from here on it is spoken to them.

        Raises
        ------
        NotSignedInError
            Nobody is signed in.
        NotAllowedError
            Who is signed in may not.
        """
        visit = await run_in_threadpool(self._visit, request)
        speak_to(speech_to(visit.account))
        return visit

    def _visit(self, request: Request) -> Visit:
        house = house_of(request)
        account = signed_in(request)
        if account is None:
            raise NotSignedInError("Nobody is signed in.")
        require(account, self.right)
        return Visit(house, request, account, house.now(), request.path_params.get("hall_id"))


def speech_to(account: Account) -> Speech:
    """Give the language and units in which an account is spoken to."""
    return speech_of(account.language, account.units)


def signed_in(request: Request) -> Account | None:
    """Give who is signed in; who shows a token is judged by it alone, never by a cookie."""
    house = house_of(request)
    shown = request.headers.get("authorization", "")
    if shown:
        return _of_token(request, house, shown)
    found = house.door.who(request.cookies.get(COOKIE), house.now())
    return found or house.visitor


def _of_token(request: Request, house: "House", shown: str) -> Account | None:
    kind, _, token = shown.partition(" ")
    if kind.lower() != "bearer":
        return None
    address = request.client.host if request.client else ""
    return house.door.who_shows(token.strip(), address, house.now())


def house_of(request: Request) -> "House":
    """Give the house that a request came to."""
    house: House = request.app.state.house
    return house


class Sent(dict[str, str]):
    """The text fields of a form, stripped; of a name given twice the last. Files are in `files`."""

    files: Mapping[str, bytes] = MappingProxyType({})
    lists: Mapping[str, tuple[str, ...]] = MappingProxyType({})

    def text(self, name: str) -> str:
        """Give a field, empty where it is not there."""
        return self.get(name, "")

    def whole(self, name: str) -> int | None:
        """Give a field that is a whole number of at most nine digits, else None."""
        text = self.text(name)
        return int(text) if text.isascii() and text.isdigit() and len(text) <= 9 else None

    def day(self, name: str) -> date | None:
        """Give a field that is a day, None where it is empty or none."""
        try:
            return date.fromisoformat(self.text(name)) if self.text(name) else None
        except ValueError:
            return None


async def read_form(request: Request) -> Sent:
    """Read the form of a request."""
    return await _read(request, MOST_BYTES)


async def read_large_form(request: Request) -> Sent:
    """Read a form with a file as large as a whole hall's archive may be, and a byte more."""
    return await _read(request, MOST_PACKED + 1)


async def _read(request: Request, most_bytes: int) -> Sent:
    sent = Sent()
    files: dict[str, bytes] = {}
    lists: dict[str, tuple[str, ...]] = {}
    async with request.form(max_fields=MOST_FIELDS, max_files=MOST_FILES) as form:
        for name, value in form.multi_items():
            if isinstance(value, UploadFile):
                files[name] = await value.read(most_bytes)
            else:
                sent[name] = value.strip()
                lists[name] = (*lists.get(name, ()), value.strip())
    sent.files, sent.lists = files, lists
    return sent


LargeFormSent = Annotated[Sent, Depends(read_large_form)]
"""The form of a request that brings a whole hall."""
FormSent = Annotated[Sent, Depends(read_form)]
