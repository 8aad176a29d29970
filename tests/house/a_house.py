"""A house in memory with a clock of its own, three accounts, and the demonstration hall."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta

from fastapi import FastAPI
from starlette.testclient import TestClient

from roundwright.accounts.account import Account, Role
from roundwright.bootstrap.keeping import Keeping, keeping_in_memory
from roundwright.bootstrap.planning import class_search
from roundwright.bootstrap.wiring import wired
from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.kit.inventory import Inventory
from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.at_once import answer_at_once
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.class_search import ClassSearch
from roundwright.plan.changing.answer import Answer, Mender
from roundwright.plan.changing.restate import Restated
from roundwright.plan.document import PlanDocument
from roundwright.services.accounts.signing_in import Door, NewAccount
from roundwright.services.changing.at_once_only import AtOnceOnly
from roundwright.services.keeping.shelves import Actor
from roundwright.web.house.class_rooms import ClassRooms
from roundwright.web.house.house import House, make_house

PORT = 8737
ADDRESS = f"http://127.0.0.1:{PORT}"
OURS = {"origin": ADDRESS, "accept": "text/html"}
HALL = "tern_quay"
TUESDAY = date(2026, 3, 3)
PASSWORD = "a quiet harbour"
TOOL = Actor(account_id=None, role="tool", at=datetime(2026, 3, 1, 8, tzinfo=UTC))


class PlainHasher:
    """Hashes at once, for tests alone."""

    def hash(self, password: str) -> str:
        return f"hashed:{password[::-1]}"

    def matches(self, password_hash: str, password: str) -> bool:
        return password_hash == self.hash(password)


@dataclass
class Ticking:
    """A clock that stands until it is put forward."""

    at: datetime = field(default_factory=lambda: datetime(2026, 3, 1, 8, tzinfo=UTC))

    def now(self) -> datetime:
        return self.at

    def today(self) -> date:
        return self.at.date()

    def forward(self, **by: float) -> None:
        self.at += timedelta(**by)


@dataclass
class Counter:
    """Gives names that count up."""

    start: str
    number: int = 0

    def __call__(self) -> str:
        self.number += 1
        return f"{self.start}{self.number}"


@dataclass
class AHouse:
    """The house, its application, and what a test moves it with."""

    house: House
    app: FastAPI
    clock: Ticking

    @property
    def keeping(self) -> Keeping:
        return self.house.keeping

    def visitor(self) -> TestClient:
        """Give a browser in which nobody has signed in."""
        return TestClient(
            self.app, base_url=ADDRESS, headers=OURS, follow_redirects=False,
            raise_server_exceptions=False,
        )  # fmt: skip

    def as_(self, role: Role) -> TestClient:
        """Give a browser in which somebody of a role has signed in."""
        client = self.visitor()
        sent = {"sign_in_name": role.value, "password": PASSWORD, "then": "/"}
        assert client.post("/sign-in", data=sent).status_code == 303
        return client


@contextmanager
def a_house(
    with_hall: bool = True, with_accounts: bool = True, shelves: Keeping | None = None
) -> Iterator[AHouse]:
    """Open a house in memory, or over the shelves of another database."""
    shelves, adapters, clock = shelves or keeping_in_memory(), wired(), Ticking()
    door = Door(shelves.accounts, shelves.trail, PlainHasher(), Counter("token"), Counter("id"))
    rooms = ClassRooms(
        adapters, class_search_as_planner(), lambda: None, shelves.plans, PORT, mender=a_mender()
    )
    house = House(shelves, door, adapters, clock.now, clock.today, PORT, rooms=rooms)
    try:
        if with_hall:
            shelves.halls.begin(HALL, adapters.hall(demo_hall_folder()), TOOL)
        if with_accounts:
            door.make_owner(NewAccount("owner", "Olwen", Role.OWNER, PASSWORD), clock.now())
            owner = shelves.accounts.by_sign_in_name("owner")
            assert isinstance(owner, Account)
            for role in (Role.COACH, Role.ASSISTANT):
                wanted = NewAccount(role.value, role.value.title(), role, PASSWORD)
                door.make_account(owner, wanted, clock.now())
        yield AHouse(house, make_house(house), clock)
    finally:
        shelves.close()


def kit_of(opened: AHouse) -> Inventory:
    """Give what the rack and the store of the demonstration hall hold now."""
    return opened.keeping.halls.opened(HALL).hall.kit


class HereAtOnce:
    """Answers changes at once, in this process: a test needs no other."""

    def __init__(self) -> None:
        self._makers = Makers()

    def at_once(self, before: PlanDocument, asked: Restated, library: Catalogue) -> Answer:
        return answer_at_once(before, asked, self._makers)


def a_mender() -> Mender:
    """Give who answers changes."""
    return AtOnceOnly(HereAtOnce())


def class_search_as_planner() -> ClassSearch:
    """Give who plans: in this process, so that a test needs no other."""
    return class_search()
