"""The class sheet of the hand-written class.

The plan is sealed by hand here: what is tested is what a sheet says of a
plan, not whether the gate passes it.
"""

from collections.abc import Mapping

from roundwright.documents.sheet_content import SheetContent, sheet_of
from roundwright.hall.hall import Hall, HallSettings
from roundwright.people.person import Person
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate import checked_plan
from tests.documents.hand_plans import document, names, problem

PRINTED_AT = "Tuesday 3 March 2026, 17:20"


def a_hall(shown: Mapping[str, str]) -> Hall:
    """Make Tern Quay Hall with the people of the class."""
    asked = problem()
    return Hall(
        settings=HallSettings(name="Tern Quay Hall", time_zone="Europe/London"),
        rooms=(asked.room,),
        kit=asked.kit,
        people=tuple(Person(person_id=p, shown_name=name) for p, name in shown.items()),
        catalogue=asked.library,
    )


def sealed(plan: PlanDocument) -> checked_plan.CheckedPlan:
    """Seal a plan without asking the gate."""
    return checked_plan.CheckedPlan(plan, checked_plan._SEAL)


def a_sheet(
    people: int = 10,
    places: int = 5,
    *,
    in_pairs: bool = False,
    long_names: bool = False,
    shown: Mapping[str, str] | None = None,
) -> SheetContent:
    """Make the sheet of the hand-written class."""
    plan = document(people, places, in_pairs=in_pairs)
    hall = a_hall(shown or names(people, long=long_names))
    return sheet_of(sealed(plan), hall, PRINTED_AT)
