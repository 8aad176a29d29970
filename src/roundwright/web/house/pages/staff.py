"""Who teaches: certificates and their ends, what each may teach, and what is to be asked."""

from typing import Annotated

from fastapi import APIRouter, Depends
from pydantic import ValidationError
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotFoundError
from roundwright.people.staff import (
    Certificate,
    CertificateKind,
    StaffMember,
    Teaches,
    staff_due,
)
from roundwright.services.keeping.new_hall import free_slug, slug_of
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.web.house.answers import see
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again

router = APIRouter()
AT = "/at/{hall_id}/staff"
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HALL))]


@router.get(AT)
def staff(visit: SeeVisit) -> HTMLResponse:
    """List who teaches, and what is to be asked."""
    return _page(visit, visit.kept_hall(), Sent(), {})


@router.post(AT)
def add_member(visit: ChangeVisit, sent: FormSent) -> Response:
    """Add somebody."""
    kept = visit.kept_hall()
    taken = [member.id for member in kept.hall.staff]
    staff_id = free_slug(slug_of(sent.text("name"), "staff"), taken)
    return _keep(visit, kept, {"id": staff_id, "certificate": []}, sent, None)


@router.post(AT + "/{staff_id}")
def change_member(visit: ChangeVisit, staff_id: str, sent: FormSent) -> Response:
    """Change a name, a role, or what somebody may teach."""
    kept = visit.kept_hall()
    values = _member(kept, staff_id).model_dump(mode="json")
    return _keep(visit, kept, values, sent, sent.whole("version"))


@router.post(AT + "/{staff_id}/certificates")
def add_certificate(visit: ChangeVisit, staff_id: str, sent: FormSent) -> Response:
    """Write a certificate down."""
    kept, say = visit.kept_hall(), visit.say
    member = _member(kept, staff_id)
    days = ("issued_on", "expires_on")
    faults = {
        name: say("Expected: {what}.", what=say("a day such as 2026-03-03"))
        for name in days
        if sent.text(name) and sent.day(name) is None
    }
    if sent.text("kind") not in list(CertificateKind) or len(sent.text("given_by")) > 80:
        faults["kind"] = say("Choose one of the list.")
    if faults:
        return _page(visit, kept, sent, faults, 422)
    made = Certificate.model_validate(
        {"kind": sent.text("kind"), "given_by": sent.text("given_by")}
        | {name: sent.day(name) for name in days}
    )
    later = member.model_copy(update={"certificate": (*member.certificate, made)})
    return _edit(visit, kept, staff_id, later.model_dump(mode="json"), sent)


@router.post(AT + "/{staff_id}/remove")
def remove_member(visit: ChangeVisit, staff_id: str, sent: FormSent) -> Response:
    """Take somebody off the list."""
    kept = visit.kept_hall()
    _member(kept, staff_id)
    return _edit(visit, kept, staff_id, None, sent)


def _keep(
    visit: Visit, kept: KeptHall, values: dict[str, object], sent: Sent, version: int | None
) -> Response:
    values |= {
        "name": sent.text("name"),
        "role": sent.text("role") or "coach",
        "may_teach": [t.value for t in Teaches if t.value in sent.lists.get("may_teach", ())],
    }
    try:
        StaffMember.model_validate(values)
    except ValidationError:
        words = visit.say("Expected: {what}.", what=visit.say("1 to 80 characters"))
        return _page(visit, kept, sent, {"name": words}, 422)
    return _edit(visit, kept, str(values["id"]), values, sent, version)


def _edit(
    visit: Visit,
    kept: KeptHall,
    staff_id: str,
    values: dict[str, object] | None,
    sent: Sent,
    version: int | None = None,
) -> Response:
    where = RecordKey(RecordKind.STAFF, staff_id)
    base = version if version is not None else sent.whole("version")
    try:
        visit.house.keeping.halls.edit(kept.hall_id, [RecordEdit(where, values, base)], visit.by)
    except ChangedMeanwhileError as error:
        words = {"changed": f"{say_again(error.detail)} {say_again(error.next_step)}"}
        return _page(visit, visit.kept_hall(), sent, words, 409)
    except BadInputError as error:
        return _page(visit, kept, sent, {"changed": say_again(error.detail)}, 422)
    return see(f"{visit.at}/staff")


def _member(kept: KeptHall, staff_id: str) -> StaffMember:
    found = next((one for one in kept.hall.staff if one.id == staff_id), None)
    if found is None:
        raise NotFoundError("There is no such member of staff.")
    return found


def _page(
    visit: Visit, kept: KeptHall, sent: Sent, faults: dict[str, str], status: int = 200
) -> HTMLResponse:
    say, hall = visit.say, kept.hall
    due = [
        f"{one.name}, {say(one.kind.value.replace('_', ' '))}: {say(one.words)}"
        if one.kind
        else (f"{one.name}: {say(one.words)}" if one.name else say(one.words))
        for one in staff_due(hall.staff, visit.today)
    ]
    return visit.page(
        "staff.html",
        status,
        here="room",
        members=[
            (member, kept.versions.get(RecordKey(RecordKind.STAFF, member.id)))
            for member in hall.staff
        ],
        due=due,
        today=visit.today,
        teaches=[(t.value, say(t.value.replace("_", " "))) for t in Teaches],
        kinds=[(k.value, say(k.value.replace("_", " "))) for k in CertificateKind],
        roles=[("coach", say("coach")), ("assistant", say("assistant"))],
        sent=sent,
        faults=faults,
    )
