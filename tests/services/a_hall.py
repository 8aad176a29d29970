"""A small hall in memory and fakes for what the services need from outside."""

from dataclasses import dataclass, field
from datetime import date, time

from roundwright.foundation.identifiers import SeededIds
from roundwright.goals.class_wish import BurstWish, ClassWish, ExerciseWish
from roundwright.hall.hall import Hall, HallSettings
from roundwright.optimise.fit import fit
from roundwright.people.person import Clearance, Person
from roundwright.plan.core import Core
from roundwright.plan.outcome import Outcome, Status, StoppedBy
from tests.support import worked_count
from tests.support.builders import a_kit, a_room, a_side, reps


def a_hall(**changes):
    wish = ClassWish(
        name="Tuesday circuit",
        weekday="tuesday",
        start=time(18, 0),
        slot_s=2700,
        room="main",
        rounds=2,
        exercise=(
            ExerciseWish(exercise="squat_line", count=reps(8)),
            ExerciseWish(exercise="step_up_line", count=a_side(6)),
        ),
        burst=BurstWish(line="skip_line", length_s=30),
    )
    problem = worked_count.problem()
    values = {
        "settings": HallSettings(name="Tern Quay Hall", time_zone="Europe/London"),
        "rooms": (a_room(),),
        "kit": a_kit({4000: 8, 8000: 8}, *problem.kit.items),
        "people": (
            a_member("p001", "Ines R."),
            a_member("p002", "Olu T."),
        ),
        "classes": {"tuesday": wish},
        "catalogue": worked_count.library(),
    }
    return Hall(**(values | changes))


def a_member(person_id, shown_name, **changes):
    values = {
        "person_id": person_id,
        "shown_name": shown_name,
        "birth_year": 1985,
        "body_mass_g": 70_000,
        "level": 3,
        "classes_done": 30,
        "clearance": Clearance.CLEARED,
    }
    return Person(**(values | changes))


@dataclass
class FixedClock:
    day: date = date(2026, 3, 2)
    steps_ms: list[int] = field(default_factory=lambda: [100, 142])

    def today(self):
        return self.day

    def monotonic_ms(self):
        return self.steps_ms.pop(0)


@dataclass(frozen=True)
class FakeFit:
    core: Core | None
    outcome: Outcome


class RealPlanner:
    """The real search."""

    def fit(self, problem, *, seed, budget, plan_id):
        found = fit(problem, seed=seed, budget=budget, plan_id=plan_id)
        return FakeFit(found.core, found.outcome)


@dataclass
class PlannerThatSays:
    """Gives back what the test wants, and remembers what it was asked."""

    answer: Core | None
    status: Status = Status.PROVEN
    asked: list = field(default_factory=list)

    def fit(self, problem, *, seed, budget, plan_id):
        self.asked.append((problem, seed, budget, plan_id))
        outcome = Outcome(status=self.status, stopped_by=StoppedBy.PROOF, seed=seed, budget=budget)
        return FakeFit(self.answer, outcome)


def adapters(planner, clock=None):
    return {"planner": planner, "clock": clock or FixedClock(), "ids": SeededIds}
