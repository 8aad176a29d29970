"""``roundwright house``: the coach's pages over the database, until they are stopped."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Annotated

import typer
from starlette.types import ASGIApp

from roundwright.accounts.account import Account, Role
from roundwright.bootstrap.changing import mender_process
from roundwright.bootstrap.house import door_of
from roundwright.bootstrap.keeping import Keeping, keeping, keeping_in_memory
from roundwright.bootstrap.planning import planner_process
from roundwright.bootstrap.settings import Settings, host_fault, read_settings
from roundwright.bootstrap.wiring import Adapters, wired
from roundwright.cli.served_pages import serve_pages
from roundwright.demo.answers import answered
from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.plan.changing.answer import Mender
from roundwright.services.keeping.shelves import Actor
from roundwright.web.class_making import PagePlanner
from roundwright.web.house.class_rooms import ClassRooms
from roundwright.web.house.first_look import BEGIN_AT, FirstLook
from roundwright.web.house.house import House, make_house

DEMO_HALL = "tern_quay"


def house(
    demo: Annotated[
        bool,
        typer.Option("--demo", help="Only the invented hall: nothing is kept, nobody signs in."),
    ] = False,
    host: Annotated[
        str | None, typer.Option(metavar="HOST", help="An address; 127.0.0.1 when left out.")
    ] = None,
    port: Annotated[
        int | None, typer.Option(metavar="PORT", help="The port; 8737 when left out.")
    ] = None,
    no_open: Annotated[bool, typer.Option("--no-open", help="Do not open the browser.")] = False,
) -> None:
    """Open the coach's pages: week, people, kit, classes, on the database."""
    settings = read_settings({"host": host, "port": port})
    if demo and not settings.is_loopback:
        raise host_fault(settings, "a loopback address: in the demonstration nobody signs in")
    with planner_process() as (worker, planner), mender_process() as mender:
        worker.start()
        making = _Making(settings, wired(), planner, worker.stop, mender)
        with making.demonstration_only() if demo else making.own_house() as (application, name):
            serve_pages(application, settings, name, open_it=not no_open)


@dataclass(frozen=True)
class _Making:
    """Makes the applications that are served."""

    settings: Settings
    adapters: Adapters
    planner: PagePlanner
    stop: Callable[[], object]
    mender: Mender

    @contextmanager
    def demonstration_only(self) -> Iterator[tuple[ASGIApp, str]]:
        """Give the invented hall in memory."""
        shelves = keeping_in_memory()
        try:
            yield self._demonstration(shelves, begin_at=""), "Tern Quay Hall, the demonstration"
        finally:
            shelves.close()

    @contextmanager
    def own_house(self) -> Iterator[tuple[ASGIApp, str]]:
        """Give the house on its database; before it has an owner the invented hall is shown."""
        shelves = keeping(self.settings)
        invented = keeping_in_memory()
        try:
            own = self._house(shelves)
            application: ASGIApp = make_house(own)
            name = "The house"
            if not own.door.has_owner:
                if not self.settings.is_loopback:
                    expected = "a loopback address until the house has an owner: open it here first"
                    raise host_fault(self.settings, expected)
                shown = self._demonstration(invented, begin_at=BEGIN_AT)
                application = FirstLook(shown, application, own.door)
                name = "An invented hall, and the way to your own"
            yield application, name
        finally:
            invented.close()
            shelves.close()

    def _demonstration(self, shelves: Keeping, *, begin_at: str) -> ASGIApp:
        return make_house(self._house(shelves, _demo_visitor(shelves, self.adapters), begin_at))

    def _house(self, shelves: Keeping, visitor: Account | None = None, begin_at: str = "") -> House:
        settings, clock = self.settings, self.adapters.clock
        rooms = ClassRooms(
            self.adapters,
            self.planner,
            self.stop,
            shelves.plans,
            settings.port,
            settings.public_url,
            self.mender,
        )
        return House(
            keeping=shelves,
            door=door_of(shelves),
            adapters=self.adapters,
            now=clock.instant,
            today=clock.today,
            port=settings.port,
            is_secure=settings.tls_cert is not None,
            public_url=settings.public_url,
            visitor=visitor,
            begin_at=begin_at,
            rooms=rooms,
        )


def _demo_visitor(shelves: Keeping, adapters: Adapters) -> Account:
    """Bring the invented hall into memory, and give who looks at it: its owner."""
    now = adapters.clock.instant()
    hall = answered(adapters.hall(demo_hall_folder()), adapters.clock.today())
    shelves.halls.begin(DEMO_HALL, hall, Actor(account_id=None, role="tool", at=now))
    account = Account(
        account_id="demonstration",
        sign_in_name="visitor",
        shown_name="Visitor",
        role=Role.OWNER,
        password_hash="",
        made_at=now,
    )
    return shelves.accounts.keep_account(account, Actor(account_id=None, role="tool", at=now))
