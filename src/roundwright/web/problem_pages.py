"""How a fault is told: a plain page for people, problem details for programs."""

from collections.abc import Mapping

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, Response

from roundwright.foundation.errors import RoundwrightError
from roundwright.foundation.words import speech
from roundwright.web.templating import page
from roundwright.web.texts import Words, say_again

_WORDS = {
    404: ("Not found", "There is no such page here.", "Go back to where you were."),
    405: ("Not done this way", "This address can only be read.", "Go back to where you were."),
    422: (
        "Not understood",
        "A value in the address cannot be.",
        "Use the links on the page.",
    ),
    500: (
        "A fault of ours",
        "Something went wrong inside.",
        "Try again; if it stays, report it with what you did.",
    ),
}


def add_problem_pages(app: FastAPI) -> None:
    """Answer every fault by what the caller accepts."""
    app.add_exception_handler(RoundwrightError, _ours)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(RequestValidationError, _not_understood)
    app.add_exception_handler(Exception, _unexpected)


def _ours(request: Request, error: Exception) -> Response:
    problem = error.as_problem() if isinstance(error, RoundwrightError) else _problem(500)
    return problem_answer(request, problem)


def _http(request: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 500
    return problem_answer(request, _problem(status))


def _not_understood(request: Request, error: Exception) -> Response:
    return problem_answer(request, _problem(422))


def _unexpected(request: Request, error: Exception) -> Response:
    return problem_answer(request, _problem(500))


def _problem(status: int) -> dict[str, object]:
    title, detail, next_step = _WORDS.get(status, _WORDS[422 if status < 500 else 500])
    return {
        "type": "about:blank",
        "title": title,
        "status": status,
        "detail": detail,
        "next_step": next_step,
    }


def problem_answer(request: Request, problem: Mapping[str, object]) -> Response:
    """Answer with a page or with problem details, by what the caller accepts."""
    status = int(str(problem["status"]))
    accept = request.headers.get("accept", "")
    if "json" in accept and "text/html" not in accept:
        return JSONResponse(dict(problem), status, media_type="application/problem+json")
    told = {key: say_again(str(problem[key])) for key in ("title", "detail", "next_step")}
    spoken = speech()
    return page("problem.html", status, _=Words(spoken.language, spoken.texts), problem=told)
