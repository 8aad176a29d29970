"""How a fault is told in the house: the door for strangers, a page or problem details."""

from urllib.parse import quote

from fastapi import FastAPI, Request
from starlette.responses import RedirectResponse, Response

from roundwright.foundation.errors import NotSignedInError, RoundwrightError
from roundwright.web.house.visit import house_of
from roundwright.web.problem_pages import add_problem_pages, problem_answer

SEE_OTHER = 303


def add_answers(app: FastAPI) -> None:
    """Answer every fault by what the caller accepts; strangers are shown the door."""
    add_problem_pages(app)
    app.add_exception_handler(NotSignedInError, _to_the_door)


def _to_the_door(request: Request, error: Exception) -> Response:
    wants_page = "text/html" in request.headers.get("accept", "")
    if not isinstance(error, NotSignedInError) or not wants_page or request.method != "GET":
        problem = error.as_problem() if isinstance(error, NotSignedInError) else {"status": 500}
        return problem_answer(request, problem)
    if not house_of(request).door.has_owner:
        return RedirectResponse("/first", SEE_OTHER)
    return RedirectResponse(f"/sign-in?then={quote(request.url.path)}", SEE_OTHER)


def answer_error(request: Request, error: RoundwrightError) -> Response:
    """Answer an error of ours that no route raised."""
    if isinstance(error, NotSignedInError):
        return _to_the_door(request, error)
    return problem_answer(request, error.as_problem())


def see(address: str) -> RedirectResponse:
    """Send the browser to another page after something was done."""
    return RedirectResponse(address, SEE_OTHER)
