"""``roundwright change``: who is there, and what somebody must avoid now."""

from typing import Annotated

import typer

from roundwright.cli.change_desk import ChangeDesk, PersonArgument
from roundwright.cli.change_options import OpenDesk
from roundwright.foundation.errors import NoPlanError
from roundwright.people.walk_in import QUESTIONS, Reply, ThreeReplies
from roundwright.plan.changing import change as c
from roundwright.plan.outcome import NotToday
from roundwright.services.changing.people_today import HURTS, hurts_now, somebody_joins, walk_in
from roundwright.services.changing.said_words import not_today_words, with_names


def left(
    open_desk: OpenDesk,
    person: PersonArgument,
) -> None:
    """Take somebody out who does not take part any more."""
    desk = open_desk()
    desk.answer(c.PersonLeft(person=desk.person(person)))


def came(
    open_desk: OpenDesk,
    person: PersonArgument,
) -> None:
    """Let somebody of the hall join, with what is known of them."""
    desk = open_desk()
    problem = desk.opened.document.problem
    desk.answer(_joining(desk, somebody_joins(desk.hall, desk.person(person), problem)))


def walked_in(
    open_desk: OpenDesk,
    doctor_first: Annotated[Reply, typer.Option("--first", help=QUESTIONS[0])],
    within_a_year: Annotated[Reply, typer.Option("--second", help=QUESTIONS[1])],
    active: Annotated[Reply, typer.Option("--third", help=QUESTIONS[2])],
) -> None:
    """Let somebody join who came without booking; ask the three questions first.

    Light to moderate work only. The replies are not kept.
    """
    desk = open_desk()
    replies = ThreeReplies(doctor_first, within_a_year, active)
    taken = [str(getattr(one.change, "person", "")) for one in desk.opened.revisions.revisions]
    joining = walk_in(desk.hall, desk.opened.document.problem, replies, taken)
    desk.answer(_joining(desk, joining))


def hurts(
    open_desk: OpenDesk,
    person: PersonArgument,
    region: Annotated[
        str,
        typer.Argument(metavar="REGION", help=f"One of {', '.join(r.value for r in HURTS)}."),
    ],
) -> None:
    """Avoid a region that hurts somebody now, for the rest of this class.

    Sharp, swelling, giving way, numb, head, chest or dizzy: out of the class, use left.
    """
    desk = open_desk()
    desk.answer(hurts_now(desk.person(person), region))


def _joining(desk: ChangeDesk, joining: c.PersonCame | NotToday) -> c.PersonCame:
    """Give the change, or say with kind words and without a reason that it is not today."""
    if isinstance(joining, NotToday):
        names = {joining.person_id: "them"} | desk.everyone()
        raise NoPlanError(
            with_names(not_today_words(joining.person_id), names), "The plan stays as it is."
        )
    return joining
