"""The buttons of the class page: another class, keep, not this one, back, buying, stop."""

from collections.abc import Callable
from typing import Annotated

from fastapi import Depends, FastAPI, Request
from starlette.responses import RedirectResponse, Response

from roundwright.web.length_choices import Lengths, lengths_sent
from roundwright.web.planning_desk import Chosen, PlanningDesk
from roundwright.web.templating import page
from roundwright.web.texts import words_for

LOOK_AGAIN_S = 1
"""Seconds after which the page that says 'Planning…' looks again; our choice."""
SEE_OTHER = 303
Make = Callable[[], Chosen]
"""Makes a first class; it may take long."""


def add_planning_routes(app: FastAPI, desk: PlanningDesk) -> None:
    """Add the buttons; each one answers at once and sends the browser to a page."""

    @app.post("/class/{token}/another")
    def another(token: str, lengths: Annotated[Lengths, Depends(lengths_sent)]) -> Response:
        """Have another class chosen, with the rounds, work and rest that were taken."""
        desk.another(token, lengths)
        return _after(desk)

    @app.post("/class/{token}/keep/{position}")
    def keep(token: str, position: int) -> Response:
        """Keep the exercise at a place, or let it go again."""
        desk.keep(token, position)
        return RedirectResponse(f"{desk.state.base}/#place-{position}", SEE_OTHER)

    @app.post("/class/{token}/instead/{position}")
    def instead(token: str, position: int) -> Response:
        """Have something else chosen for one place."""
        desk.instead(token, position)
        return _after(desk)

    @app.post("/class/{token}/back")
    def back(token: str) -> Response:
        """Show the class before this one."""
        desk.back(token)
        return RedirectResponse(f"{desk.state.base}/", SEE_OTHER)

    @app.post("/class/{token}/worth-buying")
    def worth_buying(token: str) -> Response:
        """Have it found out what is worth buying for the class."""
        desk.shop(token)
        return _after(desk)

    @app.post("/planning/stop")
    def stop() -> Response:
        """End what is being looked for."""
        desk.stop()
        return _after(desk)

    @app.get("/planning")
    def planning(request: Request) -> Response:
        """Say what is being looked for, and look again until it is there."""
        view = desk.view()
        if not view.is_planning:
            return RedirectResponse(f"{desk.state.base}/", SEE_OTHER)
        answer = page("planning.html", _=words_for(request), state=desk.state.told(), desk=view)
        answer.headers["refresh"] = str(LOOK_AGAIN_S)
        return answer


def add_first_routes(app: FastAPI, desk: PlanningDesk, propose: Make, fit: Make) -> None:
    """Add the buttons of a class without a plan: propose one, or fit it as it is written."""

    @app.post("/propose")
    def propose_class() -> Response:
        """Have a class chosen."""
        desk.fill(propose)
        return _after(desk)

    @app.post("/fit-as-written")
    def fit_class() -> Response:
        """Have the coach's own exercises fitted."""
        desk.fill(fit)
        return _after(desk)


def _after(desk: PlanningDesk) -> Response:
    page_now = "/" if desk.wait() else "/planning"
    return RedirectResponse(f"{desk.state.base}{page_now}", SEE_OTHER)
