"""A plan to look at and to print: papers, pictures with their tables, and the rehearsal."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from typing import Annotated, Literal

from fastapi import APIRouter, Depends
from markupsafe import Markup
from starlette.responses import HTMLResponse, JSONResponse, Response

from roundwright.accounts.account import May
from roundwright.bootstrap.printing import Printed, PrintWish, file_name, printed
from roundwright.bootstrap.wiring import PaperSize
from roundwright.documents.class_moment import MomentLine, moments
from roundwright.documents.pictures.balance import Balance, balance_of
from roundwright.documents.pictures.class_timeline import class_timeline
from roundwright.documents.pictures.finishing_times import finishing_times
from roundwright.documents.pictures.ink import Picture
from roundwright.documents.pictures.plan_pictures import plan_pictures
from roundwright.documents.pictures.who_is_where import who_is_where
from roundwright.documents.plan_pages_pdf import CardSize
from roundwright.foundation import shown
from roundwright.foundation.errors import RoundwrightError
from roundwright.rehearsal.play import USUAL_PLAYS
from roundwright.rehearsal.rehearsal_words import lines_of
from roundwright.rehearsal.report import RehearsalReport, rehearse
from roundwright.services.names import names_of
from roundwright.web.house.pages.change_class import AT, ClassVisit
from roundwright.web.house.visit import Needs, Visit

router = APIRouter()
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
MEDIA = {"pdf": "application/pdf", "ics": "text/calendar; charset=utf-8"}
PAPERS: tuple[tuple[Printed, str, str], ...] = (
    (Printed.SHEET, "Class sheet", "Two pages from which a stand-in can teach"),
    (Printed.CARDS, "Station cards", "One for each exercise, with drawings"),
    (Printed.PERSONAL, "Personal sheets", "One for each person"),
    (Printed.ROOM, "Kit and floor plan", "What to set out, and where people stand"),
    (Printed.SCRIPT, "The coach's script", "Five lines an exercise, with the time to say them"),
)
BALANCE_DAYS = 14
"""Days over which balance is judged."""


@router.get(AT + "/papers")
def papers(visit: SeeVisit, class_id: str, on: str) -> HTMLResponse:
    """List what can be printed; where the plan is no longer right today, say why instead."""
    at = ClassVisit(visit, class_id, on)
    wish = PrintWish(what=(Printed.CALENDAR,))
    why: Sequence[str] = ()
    try:
        printed(visit.house.adapters, at.plan.document, at.kept.hall, Printed.CALENDAR, wish)
    except RoundwrightError as error:
        why = error.detail.splitlines()
    say = visit.say
    lines = [(what.value, say(name), say(words)) for what, name, words in PAPERS]
    return at.page("papers.html", lines=lines, why=why, paper=at.kept.hall.settings.paper.value)


@router.get(AT + "/papers/{what}.pdf")
def paper(
    visit: SeeVisit,
    class_id: str,
    on: str,
    what: Literal["sheet", "cards", "personal", "room", "script"],
    paper: Literal["a4", "letter"] | None = None,
    large: bool = False,
) -> Response:
    """Give one document as a PDF; `large` prints a station card on a whole page."""
    at = ClassVisit(visit, class_id, on)
    chosen = Printed(what)
    size: PaperSize = paper or ("letter" if at.kept.hall.settings.paper == "letter" else "a4")
    card = CardSize.WHOLE if large else CardSize.HALF
    wish = PrintWish(what=(chosen,), paper=size, card_size=card)
    data = printed(visit.house.adapters, at.plan.document, at.kept.hall, chosen, wish)
    return _file(data, file_name(chosen, "pdf"), MEDIA["pdf"])


@router.get(AT + "/papers/class.ics")
def calendar(visit: SeeVisit, class_id: str, on: str) -> Response:
    """Give the class as a calendar file, without anybody's name."""
    at = ClassVisit(visit, class_id, on)
    wish = PrintWish(what=(Printed.CALENDAR,))
    adapters, document = visit.house.adapters, at.plan.document
    data = printed(adapters, document, at.kept.hall, Printed.CALENDAR, wish)
    return _file(data, file_name(Printed.CALENDAR, "pdf"), MEDIA["ics"])


@router.get(AT + "/pictures")
def pictures(visit: SeeVisit, class_id: str, on: str) -> HTMLResponse:
    """Show kit over time, hard sets by region, balance over two weeks, and landings."""
    at = ClassVisit(visit, class_id, on)
    drawn = plan_pictures(at.plan.document, at.names, at.view.units, _earlier(at))
    return at.page("pictures.html", pictures=[_shown(one) for one in drawn])


@router.get(AT + "/rehearsal")
def rehearsal(visit: SeeVisit, class_id: str, on: str, minute: str = "") -> HTMLResponse:
    """Show the class played through: who stands where when, who waits, and when it ends."""
    at = ClassVisit(visit, class_id, on)
    report = _played(at)
    document, view = at.plan.document, at.view
    names = names_of(document.problem, at.kept.hall)
    timeline = class_timeline(report, document.core, view.name, names.exercise)
    lines = [*moments(view, report.middle)] if report.middle is not None else []
    last = (report.middle.class_s if report.middle is not None else 0) // 60
    now = min(int(minute), last) if minute.isascii() and minute.isdigit() and len(minute) < 5 else 0
    if report.middle is not None:
        where = who_is_where(document, report.middle, view.names, view.units)
        timeline = replace(timeline, tables=(*timeline.tables, where))
    return at.page(
        "rehearsal.html",
        lines=lines_of(report, names.person, names.exercise, names.movement),
        pictures=[_shown(timeline), _shown(finishing_times(report))],
        now=now,
        last=last,
        clock=shown.clock(now * 60),
        there=[one for one in lines if one.from_s <= now * 60 < one.to_s],
    )


@router.get(AT + "/rehearsal/moments.json")
def moments_json(visit: SeeVisit, class_id: str, on: str) -> JSONResponse:
    """Give everybody's stretches of the typical class, for the slider."""
    at = ClassVisit(visit, class_id, on)
    report = _played(at)
    lines = [*moments(at.view, report.middle)] if report.middle is not None else []
    return JSONResponse({"stretches": [_values(one) for one in lines]})


def _values(one: MomentLine) -> dict[str, object]:
    return {
        "from_s": one.from_s,
        "to_s": one.to_s,
        "name": one.name,
        "place": one.place,
        "doing": one.doing,
    }


def _played(at: ClassVisit) -> RehearsalReport:
    document = at.plan.document
    seed = document.outcome.seed
    return rehearse(document.core, document.problem, seed=seed, plays=USUAL_PLAYS)


def _earlier(at: ClassVisit) -> list[Balance]:
    """Give the balance of the classes of the two weeks before."""
    days = [at.on - timedelta(days=n) for n in range(1, BALANCE_DAYS)]
    return [balance_of(one) for one in at.visit.house.keeping.plans.recent(at.kept.hall_id, days)]


def _shown(picture: Picture) -> dict[str, object]:
    return {"svg": Markup(picture.svg), "title": picture.title, "tables": picture.tables}


def _file(data: bytes, name: str, media_type: str) -> Response:
    disposition = f'inline; filename="{name}"'
    return Response(data, media_type=media_type, headers={"content-disposition": disposition})
