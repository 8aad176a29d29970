"""The buttons of the class page: another class, keep, not this one, back, buying, stop."""

from collections.abc import Callable
from typing import Annotated

from fastapi import Depends, FastAPI, Request
from starlette.responses import RedirectResponse, Response

from roundwright.web.length_choices import Lengths, lengths_sent
from roundwright.web.planning_desk import SHORT_WAIT_S, Chosen, PlanningDesk
from roundwright.web.templating import page
from roundwright.web.texts import words_for

LOOK_AGAIN_S = 2.0
"""Seconds that whoever asks for news waits for them before the page comes as it was; our choice."""
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

    @app.post("/planning/take/{token}")
    def take(token: str) -> Response:
        """End what is being looked for with a class that it has told of."""
        desk.take_so_far(token)
        return _after(desk)

    @app.get("/planning")
    def planning(request: Request, after: int | None = None) -> Response:
        """Show the best class so far; with `after`, once more were told of than that, or soon."""
        if after is not None:
            desk.best_so_far.wait(after, LOOK_AGAIN_S)
        view = desk.view()
        if not view.is_planning:
            return RedirectResponse(f"{desk.state.base}/", SEE_OTHER)
        so_far = None if view.so_far is None else view.so_far.state.told()
        state = desk.state.told()
        return page("planning.html", _=words_for(request), state=state, desk=view, so_far=so_far)


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
    desk.best_so_far.wait(desk.view().news, SHORT_WAIT_S)
    page_now = "/" if desk.wait(0) else "/planning"
    return RedirectResponse(f"{desk.state.base}{page_now}", SEE_OTHER)
