"""Whether whoever leads a class may teach what it holds, and who else of the staff could.

Advice for whoever arranges the week: it never blocks a class. Local law, the coach's licence and
the insurer's words go first. A certificate that has run out, and anything unknown, means 'ask',
never permission. Which of these a class asks of its lead: common practice, no source.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from roundwright.foundation.words import listed, say
from roundwright.goals.class_wish import ClassWish
from roundwright.hall.hall import Hall
from roundwright.library.vocabulary import Demand
from roundwright.people.limitation import Concern
from roundwright.people.person import Person
from roundwright.people.staff import CertificateKind, StaffMember, Teaches
from roundwright.plan.core import CellState
from roundwright.plan.document import PlanDocument

UNDER, OVER = 16, 65
"""Ages under which, and from which, teaching is a matter of its own."""
CLEAR_OVERHEAD = 2
"""The degree of *overhead* from which a load counts as overhead."""
OF_PEOPLE: dict[Teaches, frozenset[Concern]] = {
    Teaches.PREGNANT_AND_POSTNATAL: frozenset({Concern.PREGNANCY, Concern.POSTNATAL}),
    Teaches.UNDER_16: frozenset({Concern.UNDER_16}),
    Teaches.OVER_65: frozenset({Concern.AGE_65_UP}),
    Teaches.SEATED_AND_ADAPTED: frozenset({Concern.ONE_ARM, Concern.ONE_LEG, Concern.LOW_VISION}),
}
"""What limitations of people ask of whoever leads; each tells something of somebody's health."""


class LeadAsk(StrEnum):
    """What is to be asked about who leads a class."""

    NOBODY_NAMED = "nobody_named"
    NOT_OF_THE_STAFF = "not_of_the_staff"
    ASSISTANT = "assistant"
    NO_COACHING = "no_coaching"
    BEYOND = "beyond"


@dataclass(frozen=True, slots=True)
class LeadAdvice:
    """What to ask about who leads: of whom, what they may not teach, and who may."""

    what: LeadAsk
    name: str = ""
    beyond: tuple[Teaches, ...] = ()
    others: tuple[str, ...] = ()


def needs_of_people(hall: Hall, people: Iterable[Person], on: date) -> frozenset[Teaches]:
    """Give what people ask of whoever leads them on a date.

    Notes
    -----
    Of an age only the year of birth is known: who may still be 15, or already 65, counts.
    """
    found: set[Teaches] = set()
    for person in people:
        concerns = {row.concern for row in hall.limitations_of(person.person_id)}
        found |= {teaches for teaches, members in OF_PEOPLE.items() if concerns & members}
        if not person.classes_done:
            found.add(Teaches.NEWCOMERS)
        if person.birth_year is not None:
            if on.year - person.birth_year - 1 < UNDER:
                found.add(Teaches.UNDER_16)
            if on.year - person.birth_year >= OVER:
                found.add(Teaches.OVER_65)
    return frozenset(found)


def needs_of_plan(document: PlanDocument) -> frozenset[Teaches]:
    """Give what the exercises of a plan ask of whoever shows them."""
    core, library = document.core, document.problem.library
    movements = library.movements
    found: set[Teaches] = set()
    for cell in core.cells:
        if cell.state is CellState.SIT_OUT:
            continue
        done = [movements[m] for m in cell.signature]
        if any(m.contacts_a_rep for m in done):
            found.add(Teaches.JUMPS)
        if cell.units and any(m.demand(Demand.OVERHEAD) >= CLEAR_OVERHEAD for m in done):
            found.add(Teaches.OVERHEAD_LOADS)
    if any(movements[d.burst].contacts_a_rep for d in core.people if d.burst):
        found.add(Teaches.JUMPS)
    known = {e.exercise_id for e in document.problem.recent.exercises}
    placed = {e.exercise_id for e in core.exercises}
    if any(e in library.combinations and e not in known for e in placed):
        found.add(Teaches.NEW_COMBINATIONS)
    return frozenset(found)


def lead_advice(
    hall: Hall, wish: ClassWish, on: date, of_plan: frozenset[Teaches] = frozenset()
) -> LeadAdvice | None:
    """Say what is to be asked about who leads a class; None: nothing, or no staff is written down.

    Parameters
    ----------
    of_plan : frozenset of Teaches
        What the exercises of its plan ask (`needs_of_plan`); without a plan only people count.
    """
    if not hall.staff:
        return None
    needs = needs_of_people(hall, hall.people_of(wish), on) | of_plan
    able = tuple(m.name for m in hall.staff if m.id != wish.lead and may_lead(m, needs, on))
    if wish.lead is None:
        return LeadAdvice(LeadAsk.NOBODY_NAMED, others=able)
    lead = next((m for m in hall.staff if m.id == wish.lead), None)
    if lead is None:
        return LeadAdvice(LeadAsk.NOT_OF_THE_STAFF, others=able)
    if lead.role != "coach":
        return LeadAdvice(LeadAsk.ASSISTANT, lead.name, others=able)
    if not lead.holds(CertificateKind.COACHING, on):
        return LeadAdvice(LeadAsk.NO_COACHING, lead.name, others=able)
    beyond = tuple(one for one in Teaches if one in needs and one not in lead.may_teach)
    return LeadAdvice(LeadAsk.BEYOND, lead.name, beyond, able) if beyond else None


def may_lead(member: StaffMember, needs: frozenset[Teaches], on: date) -> bool:
    """Say whether a coach holds a coaching certificate on a date and may teach all of something."""
    is_coach = member.role == "coach" and member.holds(CertificateKind.COACHING, on)
    return is_coach and needs <= frozenset(member.may_teach)


ASKED = {
    LeadAsk.NOBODY_NAMED: "Nobody is named who leads it.",
    LeadAsk.NOT_OF_THE_STAFF: "Whoever was to lead it is not of the staff.",
    LeadAsk.ASSISTANT: "{name} is to lead it, but is an assistant.",
    LeadAsk.NO_COACHING: "{name} is to lead it: ask for a coaching certificate that holds then.",
    LeadAsk.BEYOND: "{name} is to lead it: ask about {beyond}.",
}
"""What is said of each ask."""
UNSAID = "some of what it holds"
"""In the place of what would tell something of somebody's health."""


def lead_words(advice: LeadAdvice, *, with_health: bool) -> str:
    """Say what is to be asked; who may not see health is not told what people ask of a lead."""
    told = [
        say(one.value.replace("_", " "))
        for one in advice.beyond
        if with_health or one not in OF_PEOPLE
    ]
    if len(told) < len(advice.beyond):
        told.append(say(UNSAID))
    words = say(ASKED[advice.what], name=advice.name, beyond=listed(told))
    if advice.others:
        return f"{words} " + say("Could lead it: {names}.", names=", ".join(advice.others))
    return f"{words} " + say("Nobody of the staff is written down who may teach all of it.")
