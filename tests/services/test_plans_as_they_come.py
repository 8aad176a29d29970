"""Better plans are judged here before they are told; what breaks the search leaves the best."""

import pytest

from roundwright.foundation.errors import RoundwrightError, UnsafePlanError
from roundwright.plan.best_so_far import StillOpen
from roundwright.plan.build_planning import PlanWishes
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Status, StoppedBy
from roundwright.services.plan_class import PlanRequest, plan_class
from tests.services.a_hall import FixedClock, a_hall, adapters
from tests.services.test_plan_class import Found, GoneWrong, TakesTheFirst


class TellsThenBreaks(TakesTheFirst):
    """Tells of one class, then ends as it was made to."""

    def __init__(self, ending=None, first=None):
        super().__init__()
        self.ending, self.first = ending, first or TakesTheFirst()

    def plan(self, planning, *, seed, budget, plan_id, on_better):
        how = {"seed": seed, "budget": budget, "plan_id": plan_id}
        found = self.first.plan(planning, **how)
        told = found.outcome.model_copy(
            update={"status": Status.FOUND, "stopped_by": StoppedBy.CALLER, "repeatable": False}
        )
        self.goes_on = on_better(Found(found.problem, found.core, told), StillOpen.PRICE)
        if self.ending is not None:
            raise self.ending
        return found


def _planned(planner, heard, goes_on=True):
    def better(document, still):
        heard.append((document, still))
        return goes_on

    request = PlanRequest("tuesday", wishes=PlanWishes(places=2))
    how = adapters(planner, FixedClock())
    return plan_class(a_hall(), request, **how, on_better=better)


def test_each_better_plan_is_told_with_its_verdict():
    heard = []
    planned = _planned(TellsThenBreaks(), heard)
    ((document, still),) = heard
    assert document.verdict == judge(document.core, document.problem)
    assert still is StillOpen.PRICE
    assert document.core.digest == planned.document.core.digest
    assert (planned.ended, planned.outcome.stopped_by) == ("", StoppedBy.PROOF)


@pytest.mark.parametrize("goes_on", [True, False])
def test_what_the_listener_says_reaches_the_planner(goes_on):
    planner = TellsThenBreaks()
    _planned(planner, [], goes_on)
    assert planner.goes_on is goes_on


@pytest.mark.parametrize(
    ("ending", "words", "by"),
    [
        (RoundwrightError("The planner ended."), "The planner ended.", StoppedBy.GUARD),
        (KeyboardInterrupt(), "", StoppedBy.CALLER),
    ],
)
def test_what_breaks_or_interrupts_the_search_leaves_the_best_so_far(ending, words, by):
    planned = _planned(TellsThenBreaks(ending), heard := [])
    assert planned.document.core.digest == heard[0][0].core.digest
    assert planned.document.verdict == judge(planned.document.core, planned.problem)
    assert (planned.ended, planned.outcome.stopped_by) == (words, by)
    assert not planned.outcome.repeatable


def test_a_search_that_breaks_with_nothing_told_is_told_so():
    class Breaks(TakesTheFirst):
        def plan(self, planning, **how):
            raise RoundwrightError("The planner ended.")

    with pytest.raises(RoundwrightError, match="ended"):
        _planned(Breaks(), [])


def test_a_better_plan_that_the_gate_refuses_is_never_told():
    heard = []
    with pytest.raises(UnsafePlanError):
        _planned(TellsThenBreaks(first=GoneWrong()), heard)
    assert heard == []
