"""The first start: on an empty database the first visitor makes the owner, then the first hall."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request
from pydantic import ValidationError
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May, Role
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotAllowedError
from roundwright.foundation.words import SOURCE_LANGUAGE
from roundwright.services.accounts.signing_in import NewAccount
from roundwright.services.keeping.new_hall import NewHall, hall_id_of, new_hall
from roundwright.web.house.answers import see
from roundwright.web.house.pages.sign_in import give_cookie
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit, house_of
from roundwright.web.templating import page
from roundwright.web.texts import Words, told, words_of

router = APIRouter()
OwnerVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HALL))]


@router.get("/first")
def ask_owner(request: Request) -> Response:
    """Ask who owns this house."""
    if house_of(request).door.has_owner:
        return see("/sign-in")
    return _owner_page(request, Sent(), {})


@router.post("/first")
def make_owner(request: Request, sent: FormSent) -> Response:
    """Make the owner and let them in."""
    house = house_of(request)
    wanted = NewAccount(
        sign_in_name=sent.text("sign_in_name").lower(),
        shown_name=sent.text("shown_name"),
        role=Role.OWNER,
        password=sent.text("password"),
    )
    try:
        token = house.door.make_owner(wanted, house.now())
    except BadInputError as error:
        return _owner_page(request, sent, told(_words(request), error), 422)
    except NotAllowedError:
        return see("/sign-in")
    answer = see("/first/hall")
    give_cookie(answer, token, is_secure=house.is_secure)
    return answer


@router.get("/first/hall")
def ask_hall(visit: OwnerVisit) -> HTMLResponse:
    """Ask for the first few things of a hall."""
    return _hall_page(visit, Sent({"time_zone": "Europe/London", "length": "12", "width": "9"}), {})


@router.post("/first/hall")
def make_hall(visit: OwnerVisit, sent: FormSent) -> Response:
    """Keep a new hall and go to its people."""
    try:
        hall = new_hall(
            NewHall(
                name=sent.text("name"),
                time_zone=sent.text("time_zone"),
                units=sent.text("units") or "kg",
                paper=sent.text("paper") or "a4",
                room=sent.text("room"),
                length_m=sent.text("length"),
                width_m=sent.text("width"),
            ),
            visit.house.adapters.catalogue(),
        )
        hall_id = hall_id_of(
            sent.text("name"), [h.hall_id for h in visit.house.keeping.halls.halls()]
        )
        is_first = not visit.house.keeping.halls.halls()
        visit.house.keeping.halls.begin(hall_id, hall, visit.by)
        if is_first:
            looks = (hall.settings.units.value, visit.account.language)
            visit.house.door.change_looks(visit.account, *looks, visit.now)
    except BadInputError as error:
        return _hall_page(visit, sent, told(visit.say, error), 422)
    except (ChangedMeanwhileError, ValidationError):
        return _hall_page(visit, sent, {"name": visit.say("This name is taken.")}, 422)
    return see(f"/at/{hall_id}/people")


def _words(request: Request) -> Words:
    return words_of(request.headers.get("accept-language", SOURCE_LANGUAGE)[:5])


def _owner_page(
    request: Request, sent: Sent, faults: dict[str, str], status: int = 200
) -> HTMLResponse:
    return page("first_owner.html", status, _=_words(request), sent=sent, faults=faults, here="")


def _hall_page(visit: Visit, sent: Sent, faults: dict[str, str], status: int = 200) -> HTMLResponse:
    return visit.page("first_hall.html", status, sent=sent, faults=faults, here="")
