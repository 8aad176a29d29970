"""A class of the week as it is asked for: when, where, who, how long; changed or taken out."""

from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotFoundError
from roundwright.goals.class_wish import ClassWish
from roundwright.library.spoken_library import spoken
from roundwright.services.keeping.class_form import class_of_form, fields_of
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.web.house.answers import see
from roundwright.web.house.pages.class_choices import class_choices
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again, told

router = APIRouter()
AT = "/at/{hall_id}/classes"
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
PlanVisit = Annotated[Visit, Depends(Needs(May.PLAN))]


@router.get(AT)
def classes(visit: SeeVisit) -> HTMLResponse:
    """List every class of the hall, whether it comes this week or not."""
    hall = visit.kept_hall().hall
    lines = [
        (class_id, wish, visit.say(wish.weekday.title()) if wish.weekday else str(wish.on))
        for class_id, wish in sorted(hall.classes.items(), key=lambda each: each[1].name.lower())
    ]
    return visit.page("classes.html", here="week", lines=lines)


@router.get(AT + "/{class_id}")
def class_card(visit: PlanVisit, class_id: str) -> HTMLResponse:
    """Show what is asked of a class."""
    kept = visit.kept_hall()
    wish = _wish(kept, class_id)
    people = () if wish.people == "all" else wish.people
    return _page(visit, kept, class_id, _sent(fields_of(wish), people), {})


@router.post(AT + "/{class_id}")
def change_class(visit: PlanVisit, class_id: str, sent: FormSent) -> Response:
    """Change what is asked of a class; plans that were kept stay as they are."""
    kept = visit.kept_hall()
    was = _wish(kept, class_id)
    try:
        wish = class_of_form(sent, sent.lists.get("people", ()), kept.hall, was)
    except BadInputError as error:
        return _page(visit, kept, class_id, sent, told(visit.say, error), 422)
    values = wish.model_dump(mode="json", by_alias=True)
    return _kept(visit, kept, class_id, values, sent)


@router.post(AT + "/{class_id}/remove")
def remove_class(visit: PlanVisit, class_id: str, sent: FormSent) -> Response:
    """Take a class out of the week; plans that were kept stay."""
    kept = visit.kept_hall()
    _wish(kept, class_id)
    return _kept(visit, kept, class_id, None, sent)


def _kept(
    visit: Visit, kept: KeptHall, class_id: str, values: dict[str, object] | None, sent: Sent
) -> Response:
    edit = RecordEdit(RecordKey(RecordKind.CLASS, class_id), values, sent.whole("version"))
    try:
        visit.house.keeping.halls.edit(kept.hall_id, [edit], visit.by)
    except ChangedMeanwhileError as error:
        words = {"changed": f"{say_again(error.detail)} {say_again(error.next_step)}"}
        return _page(visit, visit.kept_hall(), class_id, sent, words, 409)
    except BadInputError as error:
        return _page(visit, kept, class_id, sent, {"name": say_again(error.detail)}, 422)
    return see(f"{visit.at}/week")


def _wish(kept: KeptHall, class_id: str) -> ClassWish:
    wish = kept.hall.classes.get(class_id)
    if wish is None:
        raise NotFoundError("There is no such class in this hall.")
    return wish


def _sent(values: dict[str, str], people: tuple[str, ...]) -> Sent:
    sent = Sent(values)
    sent.lists = {"people": people}
    return sent


def _page(
    visit: Visit,
    kept: KeptHall,
    class_id: str,
    sent: Sent,
    faults: dict[str, str],
    status: int = 200,
) -> HTMLResponse:
    wish = _wish(kept, class_id)
    return visit.page(
        "class_card.html",
        status,
        here="week",
        class_id=class_id,
        wish=wish,
        exercises=[
            spoken(kept.hall.catalogue).exercise_name(one.exercise) for one in wish.exercise
        ],
        version=kept.versions.get(RecordKey(RecordKind.CLASS, class_id)),
        sent=sent,
        faults=faults,
        **class_choices(visit, kept.hall, sent),
    )
