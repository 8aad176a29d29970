"""The door: sign in and sign out."""

from fastapi import APIRouter, Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from roundwright.foundation.errors import NotSignedInError, TooManyTriesError
from roundwright.foundation.words import SOURCE_LANGUAGE
from roundwright.services.accounts.signing_in import SESSION_LASTS
from roundwright.web.house.answers import see
from roundwright.web.house.visit import COOKIE, FormSent, house_of, signed_in
from roundwright.web.templating import page
from roundwright.web.texts import say_again, words_of

router = APIRouter()


@router.get("/")
def enter(request: Request) -> RedirectResponse:
    """Send everybody to where they begin: the week of the first hall, or the door."""
    house = house_of(request)
    if not house.door.has_owner and house.visitor is None:
        return see("/first")
    if signed_in(request) is None:
        return see("/sign-in")
    halls = house.keeping.halls.halls()
    return see(f"/at/{halls[0].hall_id}/week" if halls else "/first/hall")


@router.get("/sign-in")
def door(request: Request, then: str = "/") -> Response:
    """Ask for name and password; who comes to a house without an owner begins it."""
    if not house_of(request).door.has_owner:
        return see("/first")
    return _door(request, then, {})


@router.post("/sign-in")
def sign_in(request: Request, sent: FormSent) -> Response:
    """Open a session, or say that name and password do not belong together."""
    house, then = house_of(request), sent.text("then")
    name = sent.text("sign_in_name").lower()
    address = request.client.host if request.client else ""
    try:
        token = house.door.sign_in(name, sent.text("password"), address, house.now())
    except (NotSignedInError, TooManyTriesError) as error:
        words = f"{say_again(error.detail)} {say_again(error.next_step)}"
        return _door(request, then, {"sign_in_name": words}, name, error.entry.status)
    answer = see(_within(then))
    give_cookie(answer, token, is_secure=house.is_secure)
    return answer


@router.post("/sign-out")
def sign_out(request: Request) -> RedirectResponse:
    """End every session of who is signed in."""
    house, account = house_of(request), signed_in(request)
    if account is not None:
        house.door.sign_out(account, house.now())
    answer = see("/sign-in")
    answer.delete_cookie(COOKIE)
    return answer


def give_cookie(answer: Response, token: str, *, is_secure: bool) -> None:
    """Let the browser keep the token of a session: no script and no other site reads it."""
    answer.set_cookie(
        COOKIE,
        token,
        max_age=int(SESSION_LASTS.total_seconds()),
        httponly=True,
        samesite="lax",
        secure=is_secure,
    )


def _within(then: str) -> str:
    """Give an address of this house, never another one's."""
    return then if then.startswith("/") and not then.startswith(("//", "/\\")) else "/"


def _door(
    request: Request, then: str, faults: dict[str, str], name: str = "", status: int = 200
) -> HTMLResponse:
    words = words_of(request.headers.get("accept-language", SOURCE_LANGUAGE)[:5])
    return page("sign_in.html", status, _=words, then=then, faults=faults, name=name, here="")
