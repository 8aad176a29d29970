"""The page of one class: what to do, who does what, and the sheet to print."""

from collections.abc import Callable
from typing import Literal

from fastapi import FastAPI, Request
from markupsafe import Markup
from starlette.responses import HTMLResponse, JSONResponse, Response

from roundwright.documents.class_sheet_html import class_sheet_html, style_hash
from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.documents.sheet_parts import SheetContent
from roundwright.documents.standing_words import STOP_SIGNS_SOURCE
from roundwright.foundation.errors import NoPlanError, RoundwrightError, UnsafePlanError
from roundwright.foundation.words import say
from roundwright.services.take_way_out import may_be_taken
from roundwright.web.guard import HEADERS, Guard
from roundwright.web.moving_routes import add_moving_routes, strips_of
from roundwright.web.page_state import PageState, Standing
from roundwright.web.planning_desk import PlanningDesk
from roundwright.web.planning_routes import add_planning_routes
from roundwright.web.problem_pages import add_problem_pages
from roundwright.web.static_routes import add_static_routes
from roundwright.web.templating import page
from roundwright.web.texts import words_for
from roundwright.web.verdict_words import verdict_words

MAY_PRESS = "roundwright.may_press"
"""In the scope of a request: whether who looks may press anything; true where it is not said."""
ABOUT_LEAD = "roundwright.about_lead"
"""In the scope of a request: what is to be asked about who leads the class, for who looks."""


def make_application(
    state: PageState,
    desk: PlanningDesk | None = None,
    public_url: str = "",
    changes: Callable[[], object] | None = None,
) -> FastAPI:
    """Make the application that serves one class on loopback, or as a part of a house.

    Parameters
    ----------
    state : PageState
        What it shows; without a desk it never changes while it is served.
    desk : PlanningDesk, optional
        Who has other classes chosen, and holds the one that is shown.
    public_url : str, optional
        The address that people are given, where it is not the loopback one.
    changes : callable, optional
        Gives what the page shows of changes of the plan; without it the plan cannot be changed.
    """
    app = FastAPI(title="Roundwright", docs_url=None, redoc_url=None, openapi_url=None)
    app.add_middleware(Guard, port=state.port, public_url=public_url)
    add_problem_pages(app)
    _add_class_routes(app, state, desk, changes)
    if desk is not None:
        add_planning_routes(app, desk)
    add_moving_routes(app, lambda: (state if desk is None else desk.state).told())
    add_static_routes(app)
    return app


def _add_class_routes(
    app: FastAPI,
    first: PageState,
    desk: PlanningDesk | None,
    changes: Callable[[], object] | None,
) -> None:
    def shown() -> PageState:
        return (first if desk is None else desk.state).told()

    @app.get("/")
    def class_page(request: Request) -> HTMLResponse:
        """Show the class."""
        may_press = bool(request.scope.get(MAY_PRESS, True))
        state, view = shown(), None if desk is None or not may_press else desk.view()
        changed = changes() if changes and may_press else None
        if state.sheet is None:
            takeable = [n for n, way in enumerate(state.ways) if may_press and may_be_taken(way)]
            return page(
                "no_sheet.html",
                _=words_for(request),
                state=state,
                about_lead=request.scope.get(ABOUT_LEAD, ""),
                desk=view,
                changes=changed,
                takeable=takeable,
            )
        return page(
            "class_page.html",
            _=words_for(request),
            state=state,
            about_lead=request.scope.get(ABOUT_LEAD, ""),
            desk=view,
            sheet=state.sheet,
            strips=strips_of(state),
            verdict=verdict_words(state.sheet),
            floor_svg=Markup(floor_plan_svg(state.sheet.floor)),
            stop_source=say(STOP_SIGNS_SOURCE),
            changes=changed,
        )

    @app.get("/sheet.pdf")
    def sheet_pdf(paper: Literal["a4", "letter"] | None = None) -> Response:
        """Give the class sheet as a PDF."""
        state = shown()
        _sheet_of(state)
        if state.pdf is None:
            raise _no_sheet(state)
        chosen = paper or state.paper
        return Response(
            state.pdf(chosen),
            media_type="application/pdf",
            headers={"content-disposition": f'inline; filename="class-sheet-{chosen}.pdf"'},
        )

    @app.get("/sheet.html")
    def sheet_html() -> HTMLResponse:
        """Give the class sheet as one plain page; only its own style is allowed in."""
        state = shown()
        policy = HEADERS["content-security-policy"] + f"; style-src {style_hash(state.paper)}"
        return HTMLResponse(
            class_sheet_html(_sheet_of(state), state.paper),
            headers={"content-security-policy": policy},
        )

    @app.get("/core.json")
    def core_json() -> JSONResponse:
        """Give the core of the plan: no names, no health values."""
        state = shown()
        if state.core is None:
            raise _no_sheet(state)
        return JSONResponse(state.core.model_dump(mode="json", by_alias=True))

    @app.get("/healthz")
    def healthz() -> JSONResponse:
        """Say that the page is served, and how the class stands."""
        return JSONResponse({"serving": True, "standing": shown().standing.value})


def _sheet_of(state: PageState) -> SheetContent:
    if state.sheet is None:
        raise _no_sheet(state)
    return state.sheet


def _no_sheet(state: PageState) -> RoundwrightError:
    if state.standing is Standing.DRAFT:
        return UnsafePlanError("This class is a draft: there is no sheet of it yet.")
    return NoPlanError("There is no plan of this class, so there is no sheet.")
