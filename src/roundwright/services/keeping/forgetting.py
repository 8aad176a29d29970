"""What is left of a person in classes and kept plans when they leave for good: the id alone."""

from collections.abc import Mapping, Sequence

from roundwright.people.person import Person
from roundwright.people.strength_prior import body_mass_g
from roundwright.plan.changing.change import PersonCame, PersonLimited
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.document import PlanDocument
from roundwright.plan.problem import ProblemPerson
from roundwright.services.keeping.records import Plain, Record, RecordKey, RecordKind


def classes_without(records: Mapping[RecordKey, Record], person_id: str) -> dict[RecordKey, Plain]:
    """Give the classes that name a person, as they are without them."""
    changed: dict[RecordKey, Plain] = {}
    for where, record in records.items():
        if where.kind is not RecordKind.CLASS:
            continue
        people, kept = record.values.get("people"), record.values.get("keep")
        others = [one for one in people if one != person_id] if isinstance(people, list) else people
        cells = [one for one in _tables(kept) if one.get("person") != person_id]
        if others != people or len(cells) != len(_tables(kept)):
            changed[where] = {**record.values, "people": others, "keep": cells}
    return changed


def emptied_plan(document: PlanDocument, person_id: str) -> PlanDocument | None:
    """Empty a person's entries in a plan's problem; None where it has none.

    What is left says nothing of the person: first level, nothing known, the body mass that is
    taken for anybody. Core, verdict and digests stay.
    """
    problem = document.problem
    worked = {p: muscles for p, muscles in problem.recent.worked.items() if p != person_id}
    keep = tuple(cell for cell in problem.spec.keep if cell.person != person_id)
    people = dict(problem.people)
    if person_id in people:
        people[person_id] = nobody_in_particular(person_id)
    emptied = problem.model_copy(
        update={
            "people": people,
            "spec": problem.spec.model_copy(update={"keep": keep}),
            "recent": problem.recent.model_copy(update={"worked": worked}),
        }
    )
    return None if emptied == problem else document.model_copy(update={"problem": emptied})


def emptied_revisions(revisions: Revisions, person_id: str) -> Revisions | None:
    """Empty what changes of a plan knew of a person; None where there is nothing of the kind."""
    told = tuple(
        one.model_copy(update={"change": None})
        if isinstance(one.change, PersonCame | PersonLimited) and one.change.person == person_id
        else one
        for one in revisions.revisions
    )
    if told == revisions.revisions:
        return None
    return revisions.model_copy(update={"revisions": told})


def nobody_in_particular(person_id: str) -> ProblemPerson:
    """Give what planning may know of somebody of whom nothing is kept."""
    mass_g, assumed = body_mass_g(Person(person_id=person_id, shown_name="-"))
    return ProblemPerson(
        level=1, classes_done=None, body_mass_g=mass_g, body_mass_assumed=assumed,
        clearance=Person(person_id=person_id, shown_name="-").clearance,
    )  # fmt: skip


def _tables(value: object) -> Sequence[Mapping[str, object]]:
    return value if isinstance(value, list) else []
