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
from roundwright.foundation.words import ENGLISH, spoken_to
from roundwright.hall.hall import Hall
from roundwright.plan.best_so_far import StillOpen
from roundwright.plan.build_planning import PlanWishes
from roundwright.plan.changing.answer import Mender
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget
from roundwright.services.accounts.signing_in import actor, require
from roundwright.services.changing.change_plan import Changing
from roundwright.services.judged_plan import judged_plan
from roundwright.services.keeping.records import KeptHall
from roundwright.services.keeping.shelves import Actor, PlanShelf
from roundwright.services.plan_class import days_looked_back
from roundwright.web.application import ABOUT_LEAD, MAY_PRESS, make_application
from roundwright.web.class_making import ChosenClass, ClassMaking, PagePlanner
from roundwright.web.guard import READING
from roundwright.web.house.answers import answer_error
from roundwright.web.house.change_desk import ChangeDesk
from roundwright.web.house.changes_view import ChangesView, changes_view
from roundwright.web.house.plan_in_hand import PlanInHand
from roundwright.web.house.planned import about_lead, remember
from roundwright.web.house.visit import house_of, signed_in, speech_to
from roundwright.web.page_state import PageState, state_before_planning
from roundwright.web.planning_desk import PlanningDesk
from roundwright.web.planning_routes import add_first_routes
from roundwright.web.texts import LANGUAGE

MOST_ROOMS = 40
"""Rooms that are held at once; the one that was left longest is given up. Our choice."""
Key = tuple[str, str, date]
"""Hall, class and day."""


@dataclass
class ClassRoom:
    """The page of one class with its desks; `by` is who pressed last."""

    desk: PlanningDesk
    changes: ChangeDesk
    in_hand: PlanInHand
    hall: Hall
    page_of: Callable[[PlanDocument], PageState]
    make_first: Callable[[], ChosenClass]
    make_fitted: Callable[[], ChosenClass]
    app: ASGIApp | None = None
    by: Actor | None = None

    def propose(self) -> None:
        """Have a class chosen where there is none yet."""
        self.desk.fill(self.make_first)

    def fit(self) -> None:
        """Have the coach's own exercises fitted where there is no plan yet."""
        self.desk.fill(self.make_fitted)

    def anew(self, *, as_written: bool) -> None:
        """Have the class made anew after it is asked for otherwise: fitted, or chosen."""
        self.desk.anew(self.make_fitted if as_written else self.make_first)

    @property
    def plan_id(self) -> str | None:
        """The plan that is shown."""
        core = self.desk.state.core
        return None if core is None else core.plan_id


@dataclass
class ClassRooms:
    """Opens rooms and keeps what is chosen in them.

    Parameters
    ----------
    adapters, planner, stop, mender
        Who plans, fits and draws, what ends a search, and who answers changes.
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
    mender: Mender | None = None
    _rooms: OrderedDict[Key, ClassRoom] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def room(self, kept: KeptHall, class_id: str, on: date) -> ClassRoom:
        """Give the room of a class on a day, at the revision that is kept.

        Raises
        ------
        NotFoundError
            The hall has no such class.
        """
        key = (kept.hall_id, class_id, on)
        with self._lock:
            room = self._rooms.pop(key, None)
            if room is not None and room.hall is not kept.hall:
                room.in_hand.let_go()
            if room is None or (room.hall is not kept.hall and room.desk.wait(0)):
                room = self._made(kept, class_id, on)
            self._rooms[key] = room
            while len(self._rooms) > MOST_ROOMS:
                self._rooms.popitem(last=False)
            _show_what_is_kept(room)
            return room

    def using(self, kept: KeptHall) -> Changing:
        """Give what changes of a hall's plans are answered with.

        Raises
        ------
        NotFoundError
            Nobody answers changes in this house.
        """
        if self.mender is None:
            raise NotFoundError("Nobody answers changes here.")
        return Changing(
            library=kept.hall.catalogue,
            mender=self.mender,
            rehearse=self.adapters.rehearse,
            units=kept.hall.settings.units.value,
        )

    def _made(self, kept: KeptHall, class_id: str, on: date) -> ClassRoom:
        days = days_looked_back(on)
        recent = self.plans.recent(kept.hall_id, days)
        making = ClassMaking(
            self.adapters, kept.hall, class_id, on, recent, self.planner, self.port
        )
        in_hand = PlanInHand(self.plans, kept.hall_id, class_id, on)
        at = f"/at/{kept.hall_id}"
        base = f"{at}/class/{class_id}/{on.isoformat()}"

        def placed(state: PageState) -> PageState:
            return replace(state, base=base, home=f"{at}/week")

        def keeping(chosen: ChosenClass) -> ChosenClass:
            if chosen.document is not None and room.by is not None:
                with suppress(ChangedMeanwhileError):  # the same plan, chosen and kept before
                    in_hand.hold(self.plans.keep(kept.hall_id, chosen.document, room.by))
            return replace(chosen, state=placed(chosen.state))

        def better(found: PlanDocument, _: StillOpen) -> bool:
            return room.desk.best_so_far.tell(making.so_far(found))

        def taken(chosen: ChosenClass) -> ChosenClass:
            return keeping(making.taken(chosen, room.desk.best_so_far.taken))

        def choose(wishes: PlanWishes) -> ChosenClass:
            return taken(making.choose(wishes, better))

        def page_of(document: PlanDocument) -> PageState:
            return placed(making.page_of(document))

        def again(state: PageState) -> PageState:
            """Keep the class before once more, so that it is the one that stands now."""
            if state.core is None or room.by is None:
                return state
            old = self.plans.opened(kept.hall_id, state.core.plan_id).document
            count = len(in_hand.entries())
            ids = self.adapters.ids(old.outcome.seed, f"again:{state.core.plan_id}:{count}")
            fresh = {"plan_id": ids.new_id(), "revision": 1, "parent_revision": None}
            document = judged_plan(
                old.core.model_copy(update=fresh),
                old.problem,
                old.outcome,
                old.outcome.seed,
                self.adapters.rehearse,
            )
            in_hand.hold(self.plans.keep(kept.hall_id, document, room.by))
            return page_of(document)

        entries = in_hand.entries()
        if entries:
            first = page_of(in_hand.opened(entries[-1].plan_id).document)
        else:
            first = placed(state_before_planning(kept.hall, class_id, on, self.port))
        desk = PlanningDesk(first, choose, self.stop, again=again)
        room = ClassRoom(
            desk=desk,
            changes=ChangeDesk(self.plans, kept.hall_id, in_hand),
            in_hand=in_hand,
            hall=kept.hall,
            page_of=page_of,
            make_first=lambda: taken(making.first_class(Budget.QUICK, better)),
            make_fitted=lambda: keeping(making.fitted_class()),
        )

        def changes() -> ChangesView | None:
            if room.plan_id is None or self.mender is None:
                return None
            return changes_view(in_hand.opened(room.plan_id), kept.hall, room.changes.view())

        room.app = make_application(first, desk, self.public_url, changes)
        add_first_routes(room.app, desk, propose=room.make_first, fit=room.make_fitted)
        return room


def _show_what_is_kept(room: ClassRoom) -> None:
    """Bring the page to the revision that the shelf points to now."""
    shown = room.desk.state.core
    if shown is None or room.in_hand.entry(shown.plan_id) is None:
        return
    document = room.in_hand.opened(shown.plan_id).document
    if document.core.revision != shown.revision:
        room.desk.take(room.page_of(document))


class ClassDoor:
    """Lets those in who may: `SEE_PLANS` to look, `PLAN` to press anything."""

    right_to_look = May.SEE_PLANS
    right_to_press = May.PLAN

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand a request on to the room of the class that its address names."""
        request = Request(scope, receive)
        account = signed_in(request)
        with spoken_to(ENGLISH if account is None else speech_to(account)):
            try:
                room = self._room(request)
                about = self._about(request, account, room)
            except RoundwrightError as error:
                await answer_error(request, error)(scope, receive, send)
                return
            if room.app is not None:
                await room.app({**scope, **about}, receive, send)

    def _room(self, request: Request) -> ClassRoom:
        account = self._let_in(request)
        house, names = house_of(request), request.path_params
        try:
            on = date.fromisoformat(names["on"])
        except ValueError as error:
            raise NotFoundError("The address names no day.") from error
        kept = house.keeping.halls.opened(names["hall_id"])
        if house.rooms is None:
            raise NotFoundError("Nobody plans here.")
        room = house.rooms.room(kept, names["class_id"], on)
        if request.method not in READING:
            room.by = actor(account, house.now())
        return room

    def _about(
        self, request: Request, account: Account | None, room: ClassRoom
    ) -> dict[str, object]:
        """Give what the page must know of who looks: what they may, and their language."""
        if account is None:
            return {MAY_PRESS: False}
        may = {MAY_PRESS: account.may(self.right_to_press), LANGUAGE: account.language}
        if request.method != "GET" or not request.url.path.endswith("/"):
            return may
        house, names = house_of(request), request.path_params
        hall_id, class_id, on = names["hall_id"], names["class_id"], date.fromisoformat(names["on"])
        hall = house.keeping.halls.opened(hall_id).hall
        plans = room.in_hand.entries()
        if plans and plans[-1].plan_id == room.plan_id:
            remember(house, room.in_hand.opened(plans[-1].plan_id).document)
        asked = about_lead(house, hall_id, hall, hall.classes[class_id], on, plans, account)
        return {**may, ABOUT_LEAD: asked}

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
