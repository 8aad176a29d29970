"""Checking again: by the plan's own problem, or by the hall as it is now."""

import pytest

from roundwright.foundation.errors import NotFoundError
from roundwright.kit.inventory import Dumbbells, Inventory
from roundwright.people.person import Clearance
from roundwright.plan.document import ChanceOnTime
from roundwright.plan.verdict import Verdict
from roundwright.services.check_plan import check_plan
from roundwright.services.count_plan import count_plan
from roundwright.services.fit_class import FitRequest, fit_class
from tests.services.a_hall import RealPlanner, a_hall, a_member, adapters


@pytest.fixture(scope="module")
def document():
    return fit_class(a_hall(), FitRequest("tuesday"), **adapters(RealPlanner())).document


def test_a_good_plan_passes_by_itself_and_by_the_hall_of_the_day(document):
    alone = check_plan(document)
    today = check_plan(document, a_hall())
    assert (alone.against, today.against) == ("plan", "today")
    assert alone.refusal is None
    assert today.refusal is None
    assert alone.verdict == today.verdict


def test_a_class_that_ends_in_time_too_seldom_is_found_by_the_plan_and_by_today(document):
    late = ChanceOnTime(chance_bp=8600, seed=1, plays=10)
    facts = document.facts.model_copy(update={"chance_on_time": late})
    played = document.model_copy(update={"facts": facts})
    for checked in (check_plan(played), check_plan(played, a_hall())):
        (found,) = [f for f in checked.verdict.findings if f.rule == "slot.chance"]
        assert found.figures == {"chance_bp": 8600, "asked_bp": 9000}
        assert checked.refusal is None
    assert "slot.chance" not in {f.rule for f in check_plan(document).verdict.findings}


def test_a_stored_verdict_is_not_believed(document):
    cells = tuple(
        c.model_copy(update={"units": 2, "unit_mass_g": 60_000}) for c in document.core.cells
    )
    core = document.core.model_copy(update={"cells": cells})
    tampered = document.model_copy(update={"core": core, "verdict": Verdict()})
    checked = check_plan(tampered)
    assert checked.verdict.is_refused
    assert checked.refusal is not None
    assert checked.refusal.exit_code == 4


def test_someone_who_is_no_longer_cleared_is_found_today(document):
    people = (a_member("p001", "Ines R.", clearance=Clearance.NOT_CLEARED), a_hall().people[1])
    checked = check_plan(document, a_hall(people=people))
    assert check_plan(document).refusal is None
    assert checked.verdict.is_refused
    assert any("p001" in f.persons for f in checked.verdict.findings)


def test_kit_that_is_gone_is_found_today(document):
    rack = Inventory(dumbbells=(Dumbbells(unit_mass_g=1000, count=2),), items=a_hall().kit.items)
    assert check_plan(document, a_hall(kit=rack)).refusal is not None


def test_a_class_that_is_gone_is_not_found(document):
    with pytest.raises(NotFoundError):
        check_plan(document, a_hall(classes={}))


def test_a_count_is_made_afresh(document):
    stale = document.model_copy(update={"facts": document.facts.model_copy(update={"total_s": 1})})
    assert count_plan(stale) == count_plan(document)
    assert count_plan(stale).total_s == document.verdict.total_s
