"""Ways to end on time: what shortens a class that overruns, fitted again before it is listed.

Nothing here cuts warm-up, cool-down, or a change or rest below its floor.
"""

from collections.abc import Iterator

from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.goals.class_wish import AfterLastRound
from roundwright.optimise.fit import fit
from roundwright.optimise.planning.changes import Change, Idea, of_effort, with_spec
from roundwright.optimise.planning.ways_out import PLAN_ID, listed
from roundwright.plan.outcome import Budget, WayOut
from roundwright.plan.problem import Problem

A_MINUTE_S = 60
ON_TIME_KINDS = (
    "faster_change",
    "shorter_rest",
    "no_last_rest",
    "no_last_burst",
    "shorter_rest_and_change",
    "fewer_reps",
    "shorter_burst",
    "no_burst",
    "round_less",
    "longer_slot",
)
"""Ways to end on time, the least change first; our choice."""


def ways_on_time(
    problem: Problem, seed: int = DEFAULT_SEED, budget: Budget = Budget.QUICK
) -> tuple[WayOut, ...]:
    """Give what would make a class end within its slot, the least change first.

    Parameters
    ----------
    problem : Problem
        A class with its exercises.
    seed, budget
        As for the fit; every way is fitted with them.

    Returns
    -------
    tuple of WayOut
        Each was fitted and ends on time; empty when the class does so already or has no plan.
    """
    now = fit(problem, seed=seed, budget=budget, plan_id=PLAN_ID)
    if now.core is None or now.outcome.overrun_s == 0:
        return ()
    ideas = _ideas(problem, now.outcome.overrun_s)
    return listed(ideas, ON_TIME_KINDS, seed, budget, on_time=True)


def _ideas(problem: Problem, overrun_s: int) -> Iterator[Idea]:
    spec, rules = problem.spec, problem.rules
    rest_s = min(spec.rest_s, max(rules.rest_floor_s, rules.walk_after_burst_s))
    floor_s = spec.change_s if spec.work_rest is not None else rules.change_floor_s
    change_s = min(spec.change_s, floor_s)
    shorter: dict[str, dict[str, int]] = {}
    if change_s < spec.change_s:
        shorter["faster_change"] = {"change_s": change_s}
    if rest_s < spec.rest_s:
        shorter["shorter_rest"] = {"rest_s": rest_s}
    if len(shorter) > 1:
        shorter["shorter_rest_and_change"] = {"change_s": change_s, "rest_s": rest_s}
    for kind, changes in shorter.items():
        way = WayOut(kind=kind, figures=changes)
        yield (Change(way, with_spec(problem, **changes)),)
    if spec.after_last_round is AfterLastRound.BURST_AND_REST:
        ended = with_spec(problem, after_last_round=AfterLastRound.BURST)
        yield (Change(WayOut(kind="no_last_rest"), ended),)
    yield from of_effort(problem)
    minutes = -(-overrun_s // A_MINUTE_S)
    longer = with_spec(problem, slot_s=spec.slot_s + minutes * A_MINUTE_S)
    yield (Change(WayOut(kind="longer_slot", figures={"minutes": minutes}), longer),)
