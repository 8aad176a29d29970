"""The plan file: core, the problem it answers, outcome, verdict, facts."""

from pydantic import Field

from roundwright.foundation.model import Stored
from roundwright.plan.core import Core
from roundwright.plan.outcome import Outcome
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Verdict

PLAN_SCHEMA = "roundwright.plan/1"


class PersonFacts(Stored):
    """Totals of one person over the class."""

    person_id: str
    reps_by_movement: dict[str, int] = Field(default_factory=dict)
    contacts: int = 0
    low_hops: int = 0
    tonnage_g: int = 0


class ChanceOnTime(Stored):
    """How often the class ends within its slot when it is played through."""

    chance_bp: int
    seed: int
    plays: int
    typical_s: int = Field(default=0, description="median length of the class, s")
    late_s: int = Field(default=0, description="length that one class in ten exceeds, s")


class HoldsFor(Stored):
    """For how many people the plan holds, whoever of them comes (C9 of *How a plan is changed*)."""

    fewest: int | None = Field(description="head count; none: for no head count often enough")
    most: int | None
    least_bp: int = Field(description="of the rosters of each of these head counts, 1/10,000")
    held_bp: int = Field(description="share of all drawn rosters that it held for, 1/10,000")
    rosters: int
    seed: int


class Facts(Stored):
    """Totals that follow from the core; expected where seconds were turned into reps."""

    total_s: int = 0
    chance_on_time: ChanceOnTime | None = None
    people: tuple[PersonFacts, ...] = ()
    holds_for: HoldsFor | None = None


class PlanDocument(Stored):
    """What plans/<plan_id>.r<revision>.json holds."""

    schema_: str = Field(default=PLAN_SCHEMA, alias="schema")
    core: Core
    problem: Problem
    outcome: Outcome
    verdict: Verdict
    facts: Facts
