"""The page of one class of a kept hall: a room of its own, opened when somebody comes.

A room holds the desk at which the class is chosen; every plan that is chosen there is kept on the
shelf. When the hall changes the room is made anew from the kept plan.
"""

from collections import OrderedDict
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import date
from threading import Lock

from fastapi import FastAPI, Request
from starlette.types import ASGIApp, Receive, Scope, Send

from roundwright.accounts.account import Account, May
from roundwright.bootstrap.wiring import Adapters
from roundwright.foundation.errors import (
    ChangedMeanwhileError,
    NotFoundError,
    NotSignedInError,
    RoundwrightError,
)
from roundwright.plan.build_planning import PlanWishes
from roundwright.services.accounts.signing_in import actor, require
from roundwright.services.keeping.records import KeptHall
from roundwright.services.keeping.shelves import Actor, PlanShelf
from roundwright.services.plan_class import days_looked_back
from roundwright.web.application import make_application
from roundwright.web.class_making import ChosenClass, ClassMaking, PagePlanner
from roundwright.web.guard import READING
from roundwright.web.house.answers import answer_error
from roundwright.web.house.visit import house_of, signed_in
from roundwright.web.page_state import PageState, state_before_planning
from roundwright.web.planning_desk import PlanningDesk
from roundwright.web.planning_routes import add_first_routes

MOST_ROOMS = 40
"""Rooms that are held at once; the one that was left longest is given up. Our choice."""
Key = tuple[str, str, date]
"""Hall, class and day."""


@dataclass
class ClassRoom:
    """The page of one class with its desk; `by` is who pressed last."""

    app: ASGIApp
    desk: PlanningDesk
    hall_version: int
    by: Actor | None = None


@dataclass
class ClassRooms:
    """Opens rooms and keeps what is chosen in them.

    Parameters
    ----------
    adapters, planner, stop
        Who plans, fits and draws, and what ends a search.
    plans : PlanShelf
        Where plans are kept.
    port : int
        The port that is served.
    """

    adapters: Adapters
    planner: PagePlanner
    stop: Callable[[], object]
    plans: PlanShelf
    port: int
    public_url: str = ""
    _rooms: OrderedDict[Key, ClassRoom] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def room(self, kept: KeptHall, class_id: str, on: date) -> ClassRoom:
        """Give the room of a class on a day.

        Raises
        ------
        NotFoundError
            The hall has no such class.
        """
        key = (kept.hall_id, class_id, on)
        with self._lock:
            room = self._rooms.pop(key, None)
            if room is None or (room.hall_version != kept.version and room.desk.wait(0)):
                room = self._made(kept, class_id, on)
            self._rooms[key] = room
            while len(self._rooms) > MOST_ROOMS:
                self._rooms.popitem(last=False)
            return room

    def _made(self, kept: KeptHall, class_id: str, on: date) -> ClassRoom:
        days = days_looked_back(on)
        recent = self.plans.recent(kept.hall_id, days)
        making = ClassMaking(
            self.adapters, kept.hall, class_id, on, recent, self.planner, self.port
        )
        at = f"/at/{kept.hall_id}"
        base = f"{at}/class/{class_id}/{on.isoformat()}"

        def placed(state: PageState) -> PageState:
            return replace(state, base=base, home=f"{at}/week")

        def keeping(chosen: ChosenClass) -> ChosenClass:
            if chosen.document is not None and room.by is not None:
                with suppress(ChangedMeanwhileError):  # the same plan, chosen and kept before
                    self.plans.keep(kept.hall_id, chosen.document, room.by)
            return replace(chosen, state=placed(chosen.state))

        def choose(wishes: PlanWishes) -> ChosenClass:
            return keeping(making.choose(wishes))

        entries = self.plans.plans(kept.hall_id, [on], class_id)
        if entries:
            document = self.plans.opened(kept.hall_id, entries[-1].plan_id).document
            first = placed(making.page_of(document))
        else:
            first = placed(state_before_planning(kept.hall, class_id, on, self.port))
        desk = PlanningDesk(first, choose, self.stop)
        app = make_application(first, desk, self.public_url)
        add_first_routes(
            app,
            desk,
            propose=lambda: keeping(making.first_class()),
            fit=lambda: keeping(making.fitted_class()),
        )
        room = ClassRoom(app, desk, kept.version)
        return room


class ClassDoor:
    """Lets those in who may: `SEE_PLANS` to look, `PLAN` to press anything."""

    right_to_look = May.SEE_PLANS
    right_to_press = May.PLAN

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand a request on to the room of the class that its address names."""
        request = Request(scope, receive)
        try:
            room = self._room(request)
        except RoundwrightError as error:
            await answer_error(request, error)(scope, receive, send)
            return
        await room.app(scope, receive, send)

    def _room(self, request: Request) -> ClassRoom:
        account = self._let_in(request)
        house, names = house_of(request), request.path_params
        try:
            on = date.fromisoformat(names["on"])
        except ValueError as error:
            raise NotFoundError("The address names no day.") from error
        kept = house.keeping.halls.opened(names["hall_id"])
        if house.rooms is None:
            raise NotFoundError("Nobody plans in this house.")
        room = house.rooms.room(kept, names["class_id"], on)
        if request.method not in READING:
            room.by = actor(account, house.now())
        return room

    def _let_in(self, request: Request) -> Account:
        account = signed_in(request)
        if account is None:
            raise NotSignedInError("Nobody is signed in.")
        looking = request.method in READING
        require(account, self.right_to_look if looking else self.right_to_press)
        return account


def mount_class_door(app: FastAPI) -> None:
    """Put the pages of classes into a house."""
    app.mount("/at/{hall_id}/class/{class_id}/{on}", ClassDoor())
