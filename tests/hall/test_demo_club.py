"""Every class of Tern Quay Hall: it fits, nothing stops it, it ends on time."""

from datetime import date
from functools import cache

import pytest

from roundwright.bootstrap.wiring import wired
from roundwright.goals.class_wish import ClassFormat, Pace
from roundwright.hall.hall import Hall
from roundwright.people.limitation import Concern
from roundwright.people.person import Clearance
from roundwright.plan.core import CellState
from roundwright.plan.document import PlanDocument
from roundwright.plan.verdict import Grade
from roundwright.rehearsal.report import rehearse
from roundwright.services.fit_class import FitRequest, fit_class
from tests.support.plans import the_demo_hall

CLASSES = (
    "friday_heavy",
    "monday_seated",
    "saturday_staggered",
    "thursday_stations",
    "tuesday_circuit",
    "wednesday_pairs",
)
MONDAY = date(2026, 3, 2)


@pytest.fixture(scope="module")
def hall() -> Hall:
    return the_demo_hall()


@cache
def _plan(class_id: str) -> PlanDocument:
    """Fit a class with its warm-up and cool-down, once for all tests."""
    adapters = wired()
    fitted = fit_class(
        the_demo_hall(),
        FitRequest(class_id, MONDAY),
        planner=adapters.planner,
        clock=adapters.clock,
        ids=adapters.ids,
    )
    assert fitted.document is not None, fitted.outcome
    return fitted.document


def test_the_week_has_six_classes_of_every_kind(hall: Hall) -> None:
    assert tuple(sorted(hall.classes)) == CLASSES
    wishes = hall.classes.values()
    assert len({wish.weekday for wish in wishes}) == 6
    assert {wish.format for wish in wishes} == set(ClassFormat) - {ClassFormat.ANY}
    assert {wish.pace for wish in wishes} == set(Pace)
    assert {wish.room for wish in wishes} == {room.id for room in hall.rooms}


def test_people_differ_as_those_of_a_club_do(hall: Hall) -> None:
    assert {p.clearance for p in hall.people} == set(Clearance)
    assert {p.level for p in hall.people} >= {1, 2, 3, 4, 5}
    born = [p.birth_year for p in hall.people if p.birth_year]
    assert min(born) < 1950
    assert max(born) > 2005
    assert len({row.concern for row in hall.limitations}) >= 20
    assert sum(bool(p.own_kit) for p in hall.people) >= 7
    assert Concern.PREGNANCY in {row.concern for row in hall.limitations}


def test_all_but_one_come_to_a_class(hall: Hall) -> None:
    """The one-armed person waits for counts of one side only."""
    come = {p.person_id for wish in hall.classes.values() for p in hall.people_of(wish)}
    absent = [p.shown_name for p in hall.people if p.person_id not in come]
    assert absent == ["Nell G"]


@pytest.mark.parametrize("class_id", CLASSES)
def test_a_class_fits_and_nothing_stops_it(class_id: str) -> None:
    plan = _plan(class_id)
    findings = plan.verdict.findings
    assert [f for f in findings if f.grade is not Grade.ADVISE] == []
    assert not any(cell.state is CellState.SIT_OUT for cell in plan.core.cells)
    assert not any(f.rule == "substitute.many" for f in findings)


@pytest.mark.parametrize("class_id", CLASSES)
def test_a_class_ends_on_time_nine_times_in_ten(class_id: str) -> None:
    plan = _plan(class_id)
    report = rehearse(plan.core, plan.problem, seed=1, plays=1000)
    assert report.on_time.chance_bp >= 9000


def test_in_the_seated_class_nobody_stands() -> None:
    plan = _plan("monday_seated")
    movements = {step for cell in plan.core.cells for step in cell.signature}
    movements |= {dose.burst for dose in plan.core.people if dose.burst}
    movements |= {slug for piece in plan.core.pieces for slug in piece.versions.values()}
    assert plan.core.pieces
    assert all(slug.startswith("seated_") for slug in movements)


def test_the_heavy_class_is_heavy() -> None:
    plan = _plan("friday_heavy")
    loads = [c.unit_mass_g for c in plan.core.cells if c.person_id in ("p002", "p009", "p028")]
    assert min(loads) >= 10_000
    assert max(loads) >= 20_000
    assert plan.problem.spec.rest_s >= 180
    assert all(e.count.value <= 6 for e in plan.core.exercises)
