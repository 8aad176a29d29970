"""Changes taken together, where several clashes stand side by side and no single change helps.

One clash after the other is undone by the kindest change that undoes it, until there is a
plan; what turns out to be needless then is left out again.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from roundwright.optimise.planning.changes import KINDS, Change, of_planning
from roundwright.optimise.planning.why_not import explain, still_clashes
from roundwright.plan.outcome import Budget, Clash, WayOut
from roundwright.plan.planning_problem import PlanningProblem

MOST_TOGETHER = 6
"""So many changes are taken together at most; our choice."""
KIT_FIRST = ("more_kit", *(kind for kind in KINDS if kind != "more_kit"))
"""The other road: more kit before anything that was asked for is given up."""
ALONE = ("format",)
"""Changes of the whole class: they help by themselves or not at all."""
Works = Callable[[PlanningProblem], bool]


@dataclass(frozen=True, slots=True)
class Step:
    """A clash and the change that undoes it."""

    clash: tuple[Clash, ...]
    way: WayOut
    disturbed: int


@dataclass(frozen=True, slots=True)
class Several:
    """Changes that together give a plan, and the question that they leave."""

    steps: tuple[Step, ...]
    question: PlanningProblem


def several(
    planning: PlanningProblem, clash: Sequence[Clash], works: Works, seed: int
) -> tuple[Several, ...]:
    """Give changes to make together: the kindest, and those that ask for more kit first.

    Parameters
    ----------
    works : callable
        Whether a question has a plan; asked again after every step.
    """
    found: dict[frozenset[str], Several] = {}
    for kinds in (KINDS, KIT_FIRST):
        road = _road(planning, tuple(clash), kinds, works, seed)
        if road is None:
            continue
        fewest = _fewest(planning, road, works)
        name = frozenset(s.way.model_dump_json() for s in fewest.steps)
        found.setdefault(name, fewest)
    return tuple(found.values())


def _road(
    planning: PlanningProblem,
    clash: tuple[Clash, ...],
    kinds: Sequence[str],
    works: Works,
    seed: int,
) -> Several | None:
    steps: list[Step] = []
    question = planning
    while clash and len(steps) < MOST_TOGETHER:
        change = _undoing(question, clash, kinds, seed)
        if change is None or not isinstance(change.question, PlanningProblem):
            return None
        steps.append(Step(clash, change.way, change.disturbed))
        question = change.question
        if works(question):
            return Several(tuple(steps), question)
        clash = explain(question, seed, Budget.QUICK)
    return None


def _undoing(
    question: PlanningProblem, clash: tuple[Clash, ...], kinds: Sequence[str], seed: int
) -> Change | None:
    """Give the first change after which the members of a clash can all hold; the most of kit."""
    ideas = sorted(
        (i for i in of_planning(question, clash) if i and i[0].way.kind not in ALONE),
        key=lambda idea: (idea[0].disturbed, kinds.index(idea[0].way.kind)),
    )
    for change in (c for i in ideas for c in (i[-1:] if i[0].way.kind == "more_kit" else i)):
        asked = change.question
        if isinstance(asked, PlanningProblem) and not still_clashes(asked, clash, seed):
            return change
    return None


def _fewest(planning: PlanningProblem, road: Several, works: Works) -> Several:
    """Leave out each change that can be missed, the first first; of kit take what is enough."""
    best = road
    for step in road.steps[:-1]:
        fewer = tuple(s for s in best.steps if s is not step)
        question = _taken(planning, fewer)
        if question is not None and works(question):
            best = Several(fewer, question)
    for place, step in enumerate(best.steps):
        for less in _smaller(planning, best.steps[: place + 1]):
            steps = (*best.steps[:place], replace(step, way=less), *best.steps[place + 1 :])
            question = _taken(planning, steps)
            if question is not None and works(question):
                best = Several(steps, question)
                break
    return best


def _smaller(planning: PlanningProblem, steps: Sequence[Step]) -> tuple[WayOut, ...]:
    """Give less of the last step's kit, the least first."""
    last = steps[-1]
    before = _taken(planning, steps[:-1])
    if last.way.kind != "more_kit" or before is None:
        return ()
    sizes = next(
        (
            [c.way for c in idea]
            for idea in of_planning(before, last.clash)
            if last.way in _ways(idea)
        ),
        [],
    )
    return tuple(way for way in sizes if way.figures["units"] < last.way.figures["units"])


def _ways(idea: Sequence[Change]) -> list[WayOut]:
    return [change.way for change in idea]


def _taken(planning: PlanningProblem, steps: Sequence[Step]) -> PlanningProblem | None:
    """Take the same changes again, one after the other."""
    question = planning
    for step in steps:
        same = [
            change
            for idea in of_planning(question, step.clash)
            for change in idea
            if change.way == step.way
        ]
        if not same or not isinstance(same[0].question, PlanningProblem):
            return None
        question = same[0].question
    return question
