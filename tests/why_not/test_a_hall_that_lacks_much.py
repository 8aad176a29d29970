"""The demo hall with two dumbbells of each mass and one of each item: answered, and proven."""

from datetime import date

import pytest

from roundwright.bootstrap.wiring import wired
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from roundwright.kit.inventory import Inventory
from roundwright.optimise.planning import why_not
from roundwright.optimise.planning.why_not import explain, still_clashes
from roundwright.plan.build_planning import PlanWishes, build_planning
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.recent import Recent

MOST_FITS = 40
"""Classes fitted for one answer, a tenth of a second each; before, 385 were not enough."""


def with_at_most(dumbbells: int, items: int) -> PlanningProblem:
    """Ask for the demo hall's circuit with six places and little kit."""
    hall = wired().hall(demo_hall_folder())
    wishes = PlanWishes(places=6)
    asked = build_planning(hall, DEMO_CLASS, date(2026, 3, 3), Recent(), wishes)
    kit = Inventory(
        dumbbells=tuple(
            d.model_copy(update={"count": min(d.count, dumbbells)})
            for d in asked.base.kit.dumbbells
        ),
        items=tuple(
            i.model_copy(update={"count": min(i.count, items)}) for i in asked.base.kit.items
        ),
    )
    return asked.model_copy(update={"base": asked.base.model_copy(update={"kit": kit})})


@pytest.mark.parametrize("dumbbells", [1, 2])
def test_the_clash_is_proven_smallest_with_few_classes_fitted(monkeypatch, dumbbells) -> None:
    planning, fits = with_at_most(dumbbells, 1), []
    fit = why_not.fit

    def counted(*args, **more):
        fits.append(1)
        return fit(*args, **more)

    monkeypatch.setattr(why_not, "fit", counted)
    clash = explain(planning)
    assert len(fits) <= MOST_FITS
    assert "choice" not in {c.kind for c in clash}
    assert {c.kind for c in clash} == {"kept_exercise", "kit", "persons"}
    assert still_clashes(planning, clash, 1)
    for k in range(len(clash)):
        assert not still_clashes(planning, (*clash[:k], *clash[k + 1 :]), 1)
