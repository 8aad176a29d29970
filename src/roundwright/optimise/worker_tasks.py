"""What the planner's process does: each task takes and gives JSON.

With `tells` a task that can tells of each better answer first, as it would answer it.

Nothing here judges a plan; that is for the process that asks.
"""

import json
from collections.abc import Iterable
from typing import Any

from roundwright.foundation.model import Stored
from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.search import answer_tier_one, answer_tier_two, needs_swap
from roundwright.optimise.changing.wire import answer_as_values, asked_of_values
from roundwright.optimise.class_search import ClassSearch
from roundwright.optimise.planning.plan_class import PlanResult
from roundwright.optimise.planning.shelves import Shelves
from roundwright.optimise.worker import Tell
from roundwright.plan.best_so_far import StillOpen
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.change import Harm
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget, Clash
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem

HERE = "roundwright.optimise.worker_tasks"
NAMES = ("plan", "why_not", "find_ways_out", "find_ways_on_time", "shop", "mend", "mend_by_swap")
TASKS = {name: f"{HERE}:{name}" for name in NAMES}
SEARCH = ClassSearch(Shelves())
MAKERS = Makers()
LIBRARIES: dict[str, Catalogue] = {}
MOST_LIBRARIES = 2
"""How many libraries are remembered; our choice."""


def plan(payload: bytes, tell: Tell) -> bytes:
    """Choose, order and fit a class: planning, seed, budget, plan id → problem, core, outcome."""
    asked = json.loads(payload)
    planning = PlanningProblem.model_validate(asked["planning"])

    def better(found: PlanResult, still: StillOpen) -> bool:
        tell(_json(**_found(found), still_open=still.value))
        return True

    found = SEARCH.plan(
        planning,
        seed=int(asked["seed"]),
        budget=Budget(asked["budget"]),
        plan_id=str(asked["plan_id"]),
        on_better=better if asked.get("tells") else None,
    )
    return _json(**_found(found))


def _found(found: PlanResult) -> dict[str, Any]:
    return {
        "problem": _values(found.problem) if found.problem is not None else None,
        "core": _values(found.core) if found.core is not None else None,
        "outcome": _values(found.outcome),
    }


def why_not(payload: bytes) -> bytes:
    """Find the smallest clash: planning, seed, budget → clash."""
    asked = json.loads(payload)
    planning = PlanningProblem.model_validate(asked["planning"])
    return _json(clash=_list(SEARCH.why_not(planning, int(asked["seed"]), Budget(asked["budget"]))))


def find_ways_out(payload: bytes) -> bytes:
    """Find what would help: planning, clash, seed, budget → ways."""
    asked = json.loads(payload)
    planning = PlanningProblem.model_validate(asked["planning"])
    clash = tuple(Clash.model_validate(one) for one in asked["clash"])
    ways = SEARCH.ways_out(planning, clash, int(asked["seed"]), Budget(asked["budget"]))
    return _json(ways=_list(ways))


def find_ways_on_time(payload: bytes) -> bytes:
    """Find what would make a class end on time: problem, seed, budget → ways."""
    asked = json.loads(payload)
    problem = Problem.model_validate(asked["problem"])
    ways = SEARCH.ways_on_time(problem, int(asked["seed"]), Budget(asked["budget"]))
    return _json(ways=_list(ways))


def shop(payload: bytes) -> bytes:
    """Find what is worth buying: problem, core, seed → wishes."""
    asked = json.loads(payload)
    problem = Problem.model_validate(asked["problem"])
    core = Core.model_validate(asked["core"])
    return _json(wishes=_list(SEARCH.shopping(problem, core, int(asked["seed"]))))


def mend(payload: bytes, tell: Tell) -> bytes:
    """Find the least harm of a change: question → answer, and where a swap is called for.

    Each better answer is told as it is found, and what none can be below. The problem of an
    answer is that of the question and left out.
    """
    asked = asked_of_values(json.loads(payload))

    def better(found: Answer) -> None:
        tell(_json(answer=answer_as_values(found, with_problem=False)))

    def bound(least: Harm) -> None:
        tell(_json(answer=None, least=_values(least)))

    answer = answer_tier_one(asked, MAKERS, better, bound)
    return _json(
        answer=answer_as_values(answer, with_problem=False), swap_at=needs_swap(asked, answer)
    )


def mend_by_swap(payload: bytes, tell: Tell) -> bytes:
    """Find the least harm of a change with exercises swapped: question → answer or null, bound.

    The library comes once, and by its digest from then on; an unknown digest is asked for.
    """
    told = json.loads(payload)
    digest = str(told["library_digest"])
    if told.get("library") is not None:
        LIBRARIES[digest] = Catalogue.model_validate(told["library"])
        while len(LIBRARIES) > MOST_LIBRARIES:
            LIBRARIES.pop(next(iter(LIBRARIES)))
    library = LIBRARIES.get(digest)
    if library is None:
        return _json(needs_library=True)

    def better(found: Answer) -> None:
        tell(_json(answer=answer_as_values(found)))

    def bound(least: Harm) -> None:
        tell(_json(answer=None, least=_values(least)))

    swapped = answer_tier_two(
        asked_of_values(told),
        library,
        tuple(told["swap_at"]),
        told["left_out"],
        MAKERS,
        better,
        bound,
    )
    answer, least = swapped.answer, swapped.least
    return _json(
        answer=None if answer is None else answer_as_values(answer),
        least=None if least is None else _values(least),
    )


def _json(**values: object) -> bytes:
    return json.dumps(values).encode()


def _values(model: Stored) -> Any:
    return model.model_dump(mode="json", by_alias=True)


def _list(models: Iterable[Stored]) -> list[Any]:
    return [_values(model) for model in models]
