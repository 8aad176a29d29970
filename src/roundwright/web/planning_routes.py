"""The buttons of the class page: another class, keep, not this one, back, buying, stop."""

from typing import Annotated

from fastapi import Depends, FastAPI
from starlette.responses import RedirectResponse, Response

from roundwright.web.length_choices import Lengths, lengths_sent
from roundwright.web.planning_desk import PlanningDesk
from roundwright.web.templating import page

LOOK_AGAIN_S = 2
"""Seconds after which the page that says 'Planning…' looks again; our choice."""
SEE_OTHER = 303


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
        return RedirectResponse(f"/#place-{position}", SEE_OTHER)

    @app.post("/class/{token}/instead/{position}")
    def instead(token: str, position: int) -> Response:
        """Have something else chosen for one place."""
        desk.instead(token, position)
        return _after(desk)

    @app.post("/class/{token}/back")
    def back(token: str) -> Response:
        """Show the class before this one."""
        desk.back(token)
        return RedirectResponse("/", SEE_OTHER)

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
    def planning() -> Response:
        """Say what is being looked for, and look again until it is there."""
        view = desk.view()
        if not view.is_planning:
            return RedirectResponse("/", SEE_OTHER)
        answer = page("planning.html", state=desk.state, desk=view)
        answer.headers["refresh"] = str(LOOK_AGAIN_S)
        return answer


def _after(desk: PlanningDesk) -> Response:
    return RedirectResponse("/" if desk.wait() else "/planning", SEE_OTHER)
