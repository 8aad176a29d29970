"""Problem details (RFC 9457) for programs: one form for every fault, with our codes."""

from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from pydantic import BaseModel, Field
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, Response

from roundwright.foundation.errors import BadInputError, RoundwrightError
from roundwright.foundation.faults import HIDDEN, Fault

MEDIA_TYPE = "application/problem+json"
_TITLES = {
    400: ("Not understood", "The body is no JSON in UTF-8.", "Send JSON in UTF-8."),
    404: ("Not found", "There is nothing at this address.", "See /api/v1/openapi.json."),
    405: ("Not done this way", "The address does not take this method.", "See the allow header."),
    413: ("Too much", "The body is too large.", "Send less at once."),
}


class Problem(BaseModel):
    """What went wrong, and what to do."""

    type: str = Field(description="urn:roundwright: and the code, or about:blank")
    title: str
    status: int
    detail: str
    next_step: str
    faults: list[Fault] = []


def answers(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """Give the problem responses of an operation; those that any may give are always there."""
    words = {
        400: "The body is no JSON in UTF-8",
        401: "Nobody is signed in",
        403: "The role does not allow it, or the request comes from a foreign page",
        404: "There is no such thing",
        409: "Changed meanwhile: with what was done since",
        413: "The body is too large",
        422: "What is asked cannot be: every fault at once",
        429: "Too many tries",
        503: "The database cannot be reached or written",
    }
    return {
        status: {
            "description": words[status],
            "content": {MEDIA_TYPE: {"schema": {"$ref": "#/components/schemas/Problem"}}},
        }
        for status in sorted({400, 401, 403, 404, 422, 503, *statuses})
    }


def add_problems(app: FastAPI) -> None:
    """Answer every fault with problem details."""
    app.add_exception_handler(RoundwrightError, _ours)
    app.add_exception_handler(RequestValidationError, _not_understood)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(Exception, _unexpected)


def problem_response(problem: dict[str, object]) -> JSONResponse:
    """Give a problem as an answer."""
    return JSONResponse(problem, int(str(problem["status"])), media_type=MEDIA_TYPE)


def _ours(_: Request, error: Exception) -> Response:
    assert isinstance(error, RoundwrightError)
    return problem_response(error.as_problem())


def _not_understood(_: Request, error: Exception) -> Response:
    """Tell every fault of a request; values are never repeated, as they may be health."""
    assert isinstance(error, RequestValidationError)
    faults = [
        Fault(
            code="field.value",
            file=str(each["loc"][0]),
            field=".".join(str(part) for part in each["loc"][1:])[:200],
            value=HIDDEN,
            expected=str(each["msg"])[:200],
        )
        for each in error.errors()
    ]
    return problem_response(BadInputError(faults).as_problem())


def _http(_: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    status = error.status_code
    title, detail, next_step = _TITLES.get(status, _TITLES[400])
    problem = {"type": "about:blank", "title": title, "status": status}
    answer = problem_response(problem | {"detail": detail, "next_step": next_step})
    answer.headers.update(error.headers or {})
    return answer


def _unexpected(_: Request, __: Exception) -> Response:
    return problem_response(
        {
            "type": "urn:roundwright:inside.fault",
            "title": "A fault of ours",
            "status": 500,
            "detail": "Something went wrong inside.",
            "next_step": "Report it with what you did; nothing was changed.",
        }
    )
