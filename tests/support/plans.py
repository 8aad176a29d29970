"""A plan of the demo class, fitted once for all tests that only need some real plan."""

from datetime import date
from functools import cache

from roundwright.bootstrap.wiring import wired
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from roundwright.hall.hall import Hall
from roundwright.plan.document import PlanDocument
from roundwright.services.fit_class import FitRequest, fit_class

DEMO_DAY = date(2026, 3, 3)


@cache
def the_demo_hall() -> Hall:
    """Read Tern Quay Hall."""
    return wired().hall(demo_hall_folder())


@cache
def a_fitted_plan() -> PlanDocument:
    """Fit the demo class on a Tuesday in March."""
    adapters = wired()
    request = FitRequest(DEMO_CLASS, DEMO_DAY)
    fitted = fit_class(
        the_demo_hall(),
        request,
        planner=adapters.planner,
        clock=adapters.clock,
        ids=adapters.ids,
    )
    assert fitted.document is not None
    return fitted.document
