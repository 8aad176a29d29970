"""What would help where no class is possible: changes that were solved again, kindest first.

Kind is: fewest people disturbed (who sit out, or lose what is kept for them), then the
least change (`changes.KINDS`), then the least price. A change that does not give a plan
when solved is not listed.
"""

from collections.abc import Iterable, Sequence

from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.optimise.fit import fit
from roundwright.optimise.planning.changes import KINDS, Change, Idea, of_fit, of_planning
from roundwright.optimise.planning.clash_members import NEEDS
from roundwright.optimise.planning.exercise_facts import facts_of_exercise
from roundwright.optimise.planning.plan_class import plan_class
from roundwright.optimise.planning.several_ways import several
from roundwright.optimise.planning.sitting_out import sitting_out
from roundwright.plan.core import CellState, Core
from roundwright.plan.outcome import Budget, Clash, Outcome, WayOut
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem

PLAN_ID = "00000000-0000-4000-8000-000000000000"
"""The name of plans that are made to see whether there is one, and thrown away."""
TRIES = {Budget.QUICK: 16, Budget.NORMAL: 60, Budget.THOROUGH: 240}
"""Changes solved for one question; our choice."""


def ways_out(
    question: PlanningProblem | Problem,
    clash: Sequence[Clash],
    seed: int = DEFAULT_SEED,
    budget: Budget = Budget.NORMAL,
) -> tuple[WayOut, ...]:
    """Give changes after which a class is possible, the kindest first.

    Parameters
    ----------
    question : PlanningProblem or Problem
        What was asked: a class to be chosen, or one with its exercises.
    clash : sequence of Clash
        Why there is none, from `why_not.explain` or from a fit's outcome.
    seed : int
        For ties.
    budget : Budget
        How many changes are solved; each of them with the work of a quick search.

    Returns
    -------
    tuple of WayOut
        With price and overrun of the plan that each gives; empty when none was found.
    """
    if isinstance(question, PlanningProblem):
        single = listed(of_planning(question, clash), KINDS, seed, budget)
        return single or _together(question, clash, seed)
    places = sorted({k for c in clash for k in c.positions})
    everywhere = range(1, question.spec.positions + 1)
    resting = sitting_out(question, places, seed) or sitting_out(question, everywhere, seed)
    return listed(of_fit(question, clash), KINDS, seed, budget, more=resting)


def listed(
    ideas: Iterable[Idea],
    kinds: Sequence[str],
    seed: int,
    budget: Budget,
    *,
    on_time: bool = False,
    more: WayOut | None = None,
) -> tuple[WayOut, ...]:
    """Solve ideas, the mildest form of each first, and give those that work, the kindest first.

    Parameters
    ----------
    kinds : sequence of str
        Kinds of ways out, the least change first.
    on_time : bool
        Whether only a plan without overrun will do.
    more : WayOut, optional
        A way that was solved already.
    """
    ranked = sorted(
        (idea for idea in ideas if idea),
        key=lambda idea: (idea[0].disturbed, kinds.index(idea[0].way.kind)),
    )
    tries = TRIES[budget]
    found = [] if more is None else [(len(more.persons), more)]
    for idea in ranked:
        kit = idea[0].way.kind == "more_kit"
        if kit and len(idea) > 1 and tries > 0:
            # More of it never takes a plan away: if the most does not help, less does not.
            tries -= 1
            if _solved(idea[-1], seed)[1] is None:
                continue
        for change in idea[: max(0, tries)]:
            tries -= 1
            problem, core, outcome = _solved(change, seed)
            if problem is None or core is None or (on_time and outcome.overrun_s > 0):
                continue
            resting = _resting(core)
            way = _priced(change.way, problem, outcome, resting)
            found.append((change.disturbed + resting, way))
            break
    found.sort(key=lambda one: (one[0], kinds.index(one[1].kind), one[1].overrun_s, one[1].cost))
    return tuple(way for _, way in found)


def _together(question: PlanningProblem, clash: Sequence[Clash], seed: int) -> tuple[WayOut, ...]:
    """Give changes that only together give a plan, each set as one way out."""
    solved: dict[str, tuple[Problem | None, Core | None, Outcome]] = {}

    def works(asked: PlanningProblem) -> bool:
        name = asked.model_dump_json(by_alias=True)
        if name not in solved:
            solved[name] = _solved(Change(WayOut(kind="several"), asked), seed)
        return solved[name][1] is not None

    found = []
    for one in several(question, clash, works, seed):
        problem, core, outcome = solved[one.question.model_dump_json(by_alias=True)]
        if problem is None or core is None:
            continue
        parts = _kit_summed([step.way for step in one.steps])
        way = WayOut(kind="several", parts=parts) if len(parts) > 1 else parts[0]
        resting = _resting(core)
        disturbed = sum(step.disturbed for step in one.steps) + resting
        found.append((disturbed, _priced(way, problem, outcome, resting)))
    found.sort(key=lambda one: (one[0], len(one[1].parts), one[1].overrun_s, one[1].cost))
    return tuple(way for _, way in found)


def _kit_summed(ways: Sequence[WayOut]) -> tuple[WayOut, ...]:
    """Say once how much more of one kind of kit is needed."""
    summed: dict[tuple[object, ...], WayOut] = {}
    for k, way in enumerate(ways):
        mass_g = way.figures.get("unit_mass_g", 0)
        name = (way.kind, way.item, mass_g) if way.kind == "more_kit" else (k,)
        if name in summed:
            units = summed[name].figures["units"] + way.figures["units"]
            way = way.model_copy(update={"figures": way.figures | {"units": units}})
        summed[name] = way
    return tuple(summed.values())


def _priced(way: WayOut, problem: Problem, outcome: Outcome, resting: int) -> WayOut:
    """Give a way with what its plan costs, how far it overruns and how many sit out."""
    price = {
        "item": _missing(problem) if way.kind == "without_coverage" else way.item,
        "figures": way.figures | ({"sit_out": resting} if resting else {}),
        "cost": outcome.cost or 0,
        "overrun_s": outcome.overrun_s,
    }
    return way.model_copy(update=price)


def _solved(change: Change, seed: int) -> tuple[Problem | None, Core | None, Outcome]:
    """Solve the question that a change leaves."""
    if isinstance(change.question, PlanningProblem):
        planned = plan_class(change.question, seed=seed, budget=Budget.QUICK, plan_id=PLAN_ID)
        return planned.problem, planned.core, planned.outcome
    fitted = fit(change.question, seed=seed, budget=Budget.QUICK, plan_id=PLAN_ID)
    return change.question, fitted.core, fitted.outcome


def _resting(core: Core) -> int:
    """Count the people who sit out somewhere in a plan."""
    return len({c.person_id for c in core.cells if c.state is CellState.SIT_OUT})


def _missing(problem: Problem) -> str:
    """Name what a class does not cover, joined by '+'; what an accessory begins covers nothing."""
    facts = [facts_of_exercise(e.exercise_id, problem.library) for e in problem.spec.exercises]
    patterns = {f.pattern for f in facts if not f.main_accessory}
    return "+".join(name for name, some in NEEDS.items() if not patterns & some)
