"""Options that are remembered from change to change are those that would be made afresh."""

from itertools import product

import pytest

from roundwright.foundation.errors import BadInputError
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.instance import RowMaker, row_makers
from roundwright.plan.changing import change as c
from roundwright.plan.changing.restate import restate
from roundwright.plan.document import PlanDocument
from roundwright.plan.problem import Problem
from tests.support.plans import a_fitted_plan, the_demo_hall
from tests.support.random_changes import a_plan_of, drawn_changes
from tests.support.random_halls import Dice, a_drawn_person, a_middling_hall

ROLES = tuple(product((False, True), repeat=2))


def differs(problem: Problem, makers: Makers) -> list[tuple[str, int]]:
    """Give people and places whose remembered options are not those of a fresh maker."""
    fresh: dict[str, RowMaker] = dict(zip(problem.taking_part, row_makers(problem), strict=True))
    mine = makers.of(problem)
    return [
        (person, at)
        for person in problem.taking_part
        for at, role in product(range(problem.spec.positions + 1), ROLES)
        if mine.maker(person).at(at, role) != fresh[person].at(at, role)
    ]


def problems_of(plan: PlanDocument, changes: list[c.Change]) -> list[Problem]:
    found = [plan.problem]
    library = the_demo_hall().catalogue if plan is a_fitted_plan() else plan.problem.library
    for change in changes:
        try:
            found.append(restate(plan.problem, plan.core, change, library).problem)
        except BadInputError:
            continue
    return [problem for problem in found if problem.taking_part]


def more_of_kit_and_bans(plan: PlanDocument) -> list[c.Change]:
    """What the remembered keys leave out as long as it does not matter."""
    kit, library = plan.problem.kit, plan.problem.library
    changes: list[c.Change] = []
    for stock in kit.dumbbells:
        losses = sorted({1, stock.count - 1, stock.count} - {0})
        changes += [c.KitLost(unit_mass_g=stock.unit_mass_g, units=n) for n in losses]
    for item in kit.items:
        changes += [c.KitLost(item_id=item.id, units=n) for n in {1, item.count} if n]
    changes += [c.Banned(slug=slug) for slug in sorted(library.movements)[::15]]
    changes += [c.Banned(slug=slug) for slug in sorted(library.lines)[::15]]
    return changes


@pytest.mark.parametrize("seed", [0, 1])
def test_drawn_classes_with_every_kind_of_change(seed: int) -> None:
    plan = a_plan_of(a_middling_hall(seed, most_people=5), seed)
    assert plan is not None
    stranger = a_drawn_person(Dice(seed, "stranger"), "p999")
    changes = [*drawn_changes(plan, seed, stranger), *more_of_kit_and_bans(plan)]
    makers = Makers()
    for problem in problems_of(plan, changes):
        assert differs(problem, makers) == []


def test_the_demo_class_with_less_kit_and_bans() -> None:
    plan, makers = a_fitted_plan(), Makers()
    changes = more_of_kit_and_bans(plan)
    problems = problems_of(plan, changes[:: max(1, len(changes) // 6)])
    assert len(problems) >= 5
    for problem in problems:
        assert differs(problem, makers) == []


def test_a_ban_is_never_answered_from_memory() -> None:
    plan, makers = a_fitted_plan(), Makers()
    assert differs(plan.problem, makers) == []
    done = sorted({s.movement_id for cell in plan.core.cells for s in cell.steps})
    assert len(done) >= 5
    for slug in done[:5]:
        change = c.Banned(slug=slug)
        (now,) = problems_of(plan, [change])[1:]
        mine = makers.of(now)
        for person, at in product(now.taking_part, range(now.spec.positions)):
            for option in mine.maker(person).at(at, (False, False)):
                main = getattr(option.what, "main", None)
                assert main is None or slug not in {s.movement_id for s in main.steps}


def test_a_movement_that_was_changed_is_never_answered_from_memory() -> None:
    plan, makers = a_fitted_plan(), Makers()
    assert differs(plan.problem, makers) == []
    library = plan.problem.library
    done = sorted({s.movement_id for cell in plan.core.cells for s in cell.steps})
    for slug in done[:5]:
        harder = library.movements[slug].model_copy(update={"level": 5})
        movements = {**library.movements, slug: harder}
        now = plan.problem.model_copy(
            update={"library": library.model_copy(update={"movements": movements})}
        )
        assert differs(now, makers) == []
