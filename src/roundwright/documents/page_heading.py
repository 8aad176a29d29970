"""What stands at the head and foot of every printed page of a plan, and who may ask for one."""

from dataclasses import dataclass

from roundwright.documents.plan_view import PlanView, joined_names
from roundwright.documents.spoken import day_words, wall_clock
from roundwright.foundation.errors import UnsafePlanError
from roundwright.foundation.words import say, shown_units
from roundwright.hall.hall import Hall
from roundwright.plan.gate.checked_plan import CheckedPlan


@dataclass(frozen=True, slots=True)
class Heading:
    """Which class a page belongs to, when it was printed, and the mark of its plan.

    Times are local wall clock; `unit` is kg or lb, said once a page.
    """

    hall: str
    title: str
    day: str
    starts: str
    ends: str
    slot_ends: str
    room: str
    unit: str
    printed_at: str
    plan_mark: str


def view_of(checked: CheckedPlan, hall: Hall) -> PlanView:
    """Open a plan that the gate passed, with the names of a hall.

    Raises
    ------
    UnsafePlanError
        When given anything that the gate did not seal in this process.
    ChangedMeanwhileError
        When the plan is no longer what it was when the gate passed it.
    """
    if not isinstance(checked, CheckedPlan):
        raise UnsafePlanError("A page is made only from a plan that the gate has passed.")
    return PlanView(
        document=CheckedPlan.use(checked),
        names=joined_names({p.person_id: p.shown_name for p in hall.people}),
        units=shown_units(hall.settings.units.value),
    )


def heading_of(view: PlanView, hall: Hall, printed_at: str) -> Heading:
    """Say which class it is; `printed_at` is the local day and minute, in words."""
    core = view.core
    start = core.class_.starts_at_local
    return Heading(
        hall=hall.settings.name,
        title=view.problem.spec.name,
        day=day_words(core.class_.starts_on),
        starts=f"{start:%H:%M}",
        ends=wall_clock(start, view.total_s, with_seconds=False),
        slot_ends=wall_clock(start, core.class_.slot_s, with_seconds=False),
        room=view.problem.room.name,
        unit=view.units,
        printed_at=printed_at,
        plan_mark=say(
            "plan {plan}, revision {n}, {digest}",
            plan=core.plan_id[:8],
            n=core.revision,
            digest=core.digest[:10],
        ),
    )
