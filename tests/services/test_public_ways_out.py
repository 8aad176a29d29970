"""The public functions say what would help where a class is impossible."""

from datetime import date

import roundwright
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from roundwright.hall.hall import Hall
from roundwright.plan.outcome import Budget, Status

DAY = date(2026, 3, 3)
FEW = 6
"""So many of the people of the class: each way out is planned again for all of them."""


def a_bare_hall() -> Hall:
    """Read the demo hall, with one chair left of those that people share."""
    hall = roundwright.read_hall(demo_hall_folder())
    items = tuple(
        i.model_copy(update={"count": min(i.count, 1)}) if i.kind.value == "chair" else i
        for i in hall.kit.items
    )
    wish = hall.classes[DEMO_CLASS]
    few = tuple(p.person_id for p in hall.people_of(wish))[:FEW]
    classes = {**hall.classes, DEMO_CLASS: wish.model_copy(update={"people": few})}
    kit = hall.kit.model_copy(update={"items": items})
    return hall.model_copy(update={"kit": kit, "classes": classes})


def test_an_impossible_fit_comes_with_ways_out() -> None:
    fitted = roundwright.fit(a_bare_hall(), DEMO_CLASS, on=DAY, budget=Budget.QUICK)
    assert fitted.outcome.status is Status.IMPOSSIBLE
    assert {c.item for c in fitted.outcome.clash if c.kind == "kit"} == {"chair"}
    assert fitted.outcome.ways_out


def test_an_impossible_choice_comes_with_its_clash_and_ways_out() -> None:
    planned = roundwright.propose(a_bare_hall(), DEMO_CLASS, on=DAY, budget=Budget.QUICK)
    assert planned.outcome.status is Status.IMPOSSIBLE
    assert {c.kind for c in planned.outcome.clash} == {"kept_exercise", "kit", "persons"}
    assert planned.outcome.ways_out
