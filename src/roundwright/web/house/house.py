"""What the pages of the house work with, and the application that serves them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from importlib.metadata import version

from fastapi import APIRouter, FastAPI

from roundwright.accounts.account import Account
from roundwright.bootstrap.keeping import Keeping
from roundwright.bootstrap.wiring import Adapters
from roundwright.services.accounts.signing_in import Door
from roundwright.web.guard import Guard
from roundwright.web.house.answers import add_answers
from roundwright.web.house.class_rooms import ClassRooms, mount_class_door
from roundwright.web.house.held_archive import HeldArchive
from roundwright.web.house.pages import (
    agreements,
    change_class,
    change_history,
    class_card,
    class_views,
    clearance,
    first_start,
    hall_folder,
    interface_page,
    movements,
    new_class,
    one_room,
    own_movements,
    people,
    people_list,
    person,
    room,
    settings,
    sign_in,
    staff,
    walk_ins,
    way_out,
    week,
)
from roundwright.web.house.planned import Planned
from roundwright.web.interface.application import AT as INTERFACE_AT
from roundwright.web.interface.application import make_interface
from roundwright.web.static_routes import add_static_routes

ROUTERS: tuple[APIRouter, ...] = (
    sign_in.router,
    first_start.router,
    week.router,
    people.router,
    person.router,
    agreements.router,
    clearance.router,
    walk_ins.router,
    people_list.router,
    movements.router,
    own_movements.router,
    room.router,
    one_room.router,
    staff.router,
    new_class.router,
    class_card.router,
    change_class.router,
    change_history.router,
    class_views.router,
    way_out.router,
    settings.router,
    hall_folder.router,
    interface_page.router,
)
"""Every page's routes; a page is added here."""


@dataclass(frozen=True)
class House:
    """Everything that a page may reach.

    Attributes
    ----------
    keeping : Keeping
        The shelves.
    door : Door
        Who lets people in.
    adapters : Adapters
        Who plans, draws, prints.
    now, today : callable
        The instant in UTC, and the local day.
    port : int
        The port that is served.
    is_secure : bool
        Whether cookies go over TLS only.
    public_url : str
        The address that is printed; empty where there is none but the loopback one.
    visitor : Account or None
        Who is taken to be signed in where nobody is: in the demonstration alone.
    begin_at : str
        Where somebody who looks at the demonstration begins their own house; empty: nowhere.
    rooms : ClassRooms or None
        Where the classes are planned.
    planned : dict
        Of revisions that were looked at: who is in them, what stops them, what they ask.
    held : dict
        By account: an archive that was looked at, until it is taken in.
    """

    keeping: Keeping
    door: Door
    adapters: Adapters
    now: Callable[[], datetime]
    today: Callable[[], date]
    port: int
    is_secure: bool = False
    public_url: str = ""
    visitor: Account | None = None
    begin_at: str = ""
    rooms: ClassRooms | None = None
    planned: dict[tuple[str, int], Planned] = field(default_factory=dict)
    held: dict[str, HeldArchive] = field(default_factory=dict)


def make_house(house: House, more: Sequence[APIRouter] = ()) -> FastAPI:
    """Make the application of a house.

    Parameters
    ----------
    house : House
        What its pages work with.
    more : sequence of APIRouter, optional
        Routes beside those of the pages.
    """
    app = FastAPI(title="Roundwright", docs_url=None, redoc_url=None, openapi_url=None)
    app.state.house = house
    app.add_middleware(Guard, port=house.port, public_url=house.public_url)
    add_answers(app)
    for router in (*ROUTERS, *more):
        app.include_router(router)
    mount_class_door(app)
    interface = make_interface(version("roundwright"))
    interface.state.house = house
    app.mount(INTERFACE_AT, interface)
    add_static_routes(app)
    return app
