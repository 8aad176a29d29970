"""Movements of the hall's own: written like another one, seen drawn, changed, taken away."""

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Depends
from markupsafe import Markup
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotFoundError
from roundwright.foundation.faults import Fault
from roundwright.hall.hall_text import LIBRARY
from roundwright.library.catalogue_text import read_catalogue
from roundwright.library.spoken_library import spoken
from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand, Pattern
from roundwright.services.check_library import posture_faults
from roundwright.services.keeping.person_form import EXPERIENCE
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.services.write_movement import WrittenMovement, write_movement
from roundwright.web.house.answers import see
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again

router = APIRouter()
NEW = "/at/{hall_id}/new-movement"
OWN = "/at/{hall_id}/own-movements/{key}"
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HALL))]
ASKED = (
    "name",
    "like",
    "pattern",
    "level",
    "seconds_a_rep",
    "easier",
    "harder",
    "line_name",
    "up",
    "down",
    "set_up",
    "steps",
    "cues",
    "watch",
    "posture",
)
"""Fields of the form; everything else is taken from the movement that it is like."""
LONGEST = 20_000
"""Characters of a text; our choice."""


@router.get(NEW)
def new_movement(visit: ChangeVisit, like: str = "") -> HTMLResponse:
    """Ask for a movement, best begun from one that is like it."""
    kept = visit.kept_hall()
    movement = spoken(kept.hall.catalogue).movements.get(like)
    begun = Sent() if movement is None else Sent({"like": movement.name})
    lines = kept.hall.catalogue.lines.values()
    line = next((one for one in lines if like in one.versions), None)
    if line is not None:
        begun |= {"up": "\n".join(line.up), "down": "\n".join(line.down)}
    return _page(visit, kept, begun, None)


@router.post(NEW)
def write(visit: ChangeVisit, sent: FormSent) -> Response:
    """Show every fault, or the movement as it would be; keep it when that is asked for."""
    kept = visit.kept_hall()
    form: dict[str, object] = {name: sent.text(name)[:LONGEST] for name in ASKED}
    demands = {
        d.value: sent.text(f"demand_{d.value}") for d in Demand if sent.text(f"demand_{d.value}")
    }
    if demands:
        form["demands"] = demands
    made = write_movement(form, spoken(kept.hall.catalogue), visit.house.adapters.postures)
    if made.faults or sent.text("keep") != "yes":
        return _page(visit, kept, sent, made, status=422 if made.faults else 200)
    edit = RecordEdit(RecordKey(RecordKind.LIBRARY_TEXT, made.slug), {"text": made.text}, None)
    try:
        visit.house.keeping.halls.edit(kept.hall_id, [edit], visit.by)
    except (BadInputError, ChangedMeanwhileError) as error:
        fault = Fault(
            code="field.value", file="the form", field="name", expected=error.detail[:200]
        )
        return _page(visit, kept, sent, replace(made, faults=(fault,)), status=error.entry.status)
    return see(f"{visit.at}/movements/{made.slug}")


@router.get(OWN)
def own_text(visit: ChangeVisit, key: str) -> HTMLResponse:
    """Show the text of entries of one's own."""
    kept = visit.kept_hall()
    return _text_page(visit, kept, key, _text(kept, key), ())


@router.post(OWN)
def change_text(visit: ChangeVisit, key: str, sent: FormSent) -> Response:
    """Change the text; every fault is told at once, and nothing is kept until it is sound."""
    kept = visit.kept_hall()
    _text(kept, key)
    text = sent.text("text").replace("\r\n", "\n")[:LONGEST] + "\n"
    name = f"{LIBRARY}{key}.toml"
    grown, found = read_catalogue({name: text}, visit.house.adapters.catalogue())
    movements = None if grown is None else grown.movements
    faults = (*found, *posture_faults({name: text}, movements, visit.house.adapters.postures))
    if faults:
        return _text_page(visit, kept, key, text, faults, 422)
    return _edit(visit, kept, key, {"text": text}, sent)


@router.post(OWN + "/remove")
def remove(visit: ChangeVisit, key: str, sent: FormSent) -> Response:
    """Take entries of one's own away; where a class uses them, say which."""
    kept = visit.kept_hall()
    _text(kept, key)
    return _edit(visit, kept, key, None, sent)


def _edit(
    visit: Visit, kept: KeptHall, key: str, values: dict[str, object] | None, sent: Sent
) -> Response:
    where = RecordKey(RecordKind.LIBRARY_TEXT, key)
    edit = RecordEdit(where, values, sent.whole("version"))
    try:
        visit.house.keeping.halls.edit(kept.hall_id, [edit], visit.by)
    except ChangedMeanwhileError as error:
        later = visit.kept_hall()
        told = f"{say_again(error.detail)} {say_again(error.next_step)}"
        return _text_page(visit, later, key, sent.text("text"), (), 409, told)
    except BadInputError as error:
        text = _text(kept, key) if values is None else sent.text("text")
        return _text_page(visit, kept, key, text, tuple(error.faults), 422)
    return see(f"{visit.at}/movements")


def _text(kept: KeptHall, key: str) -> str:
    found = kept.hall.library_texts.get(f"{LIBRARY}{key}.toml")
    if found is None:
        raise NotFoundError("There is no such file of the hall's own movements.")
    return found


def _text_page(
    visit: Visit,
    kept: KeptHall,
    key: str,
    text: str,
    faults: tuple[Fault, ...],
    status: int = 200,
    told: str = "",
) -> HTMLResponse:
    return visit.page(
        "own_text.html",
        status,
        here="movements",
        key=key,
        text=text,
        told=told,
        faults=[f.in_words() for f in faults],
        version=kept.versions.get(RecordKey(RecordKind.LIBRARY_TEXT, key)),
    )


def _page(
    visit: Visit, kept: KeptHall, sent: Sent, made: WrittenMovement | None, status: int = 200
) -> HTMLResponse:
    say = visit.say
    shown: dict[str, str] = {}
    for fault in made.faults if made is not None else ():
        parts = reversed(fault.field.split("."))
        name = next((part for part in parts if part in ASKED), "name")
        shown.setdefault(name, fault.in_words())
    movements = sorted(m.name for m in spoken(kept.hall.catalogue).movements.values())
    return visit.page(
        "new_movement.html",
        status,
        here="movements",
        sent=sent,
        faults=shown,
        made=made,
        pictures=_drawn(visit, kept, made),
        movements=movements,
        patterns=[
            ("", say("as what it is like")),
            *((p.value, say(p.value.replace("_", " "))) for p in Pattern),
        ],
        levels=[("", say("as what it is like")), *((n, say(w)) for n, w in EXPERIENCE)],
        demands=[(d.value, say(d.value.replace("_", " "))) for d in Demand],
        degrees=[
            ("", say("as what it is like")),
            *(
                (str(n), say(words))
                for n, words in zip(
                    range(HIGHEST_DEMAND + 1), ("none", "low", "clear", "high"), strict=True
                )
            ),
        ],
    )


def _drawn(visit: Visit, kept: KeptHall, made: WrittenMovement | None) -> list[Markup]:
    """Draw a movement that is not kept yet, where it has a posture."""
    if made is None or made.faults:
        return []
    name = f"{LIBRARY}{made.slug}.toml"
    grown, faults = read_catalogue({name: made.text}, kept.hall.catalogue)
    if grown is None or faults:
        return []
    texts = {**kept.hall.library_texts, name: made.text}
    hall = kept.hall.model_copy(update={"library_texts": texts, "catalogue": grown})
    pictures = visit.house.adapters.pictures_of(hall).key_pictures(made.slug)
    return [Markup(svg) for svg in pictures]
