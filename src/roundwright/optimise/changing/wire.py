"""How a change goes to the warm process and its answer comes back: JSON, read again as models."""

import json
from typing import Any

from roundwright.optimise.changing.asked import Asked
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.change import Harm
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget, Outcome
from roundwright.plan.problem import Problem


def asked_as_values(asked: Asked) -> dict[str, Any]:
    """Give a question as plain values."""
    told = asked.restated
    return {
        "before": asked.before.model_dump(mode="json", by_alias=True),
        "overrun_s": asked.overrun_s,
        "problem": told.problem.model_dump(mode="json", by_alias=True),
        "came_from": sorted(told.came_from.items()),
        "persons": sorted(told.persons),
        "positions": sorted(told.positions),
        "open_positions": list(told.open_positions),
        "rounds_dropped": told.rounds_dropped,
        "counts_cut": told.counts_cut,
        "seed": asked.seed,
        "budget": asked.budget.value,
    }


def asked_of_values(values: dict[str, Any]) -> Asked:
    """Read a question."""
    return Asked(
        before=Core.model_validate(values["before"]),
        overrun_s=int(values["overrun_s"]),
        restated=Restated(
            problem=Problem.model_validate(values["problem"]),
            came_from={int(new): int(old) for new, old in values["came_from"]},
            persons=frozenset(values["persons"]),
            positions=frozenset(values["positions"]),
            open_positions=tuple(values["open_positions"]),
            rounds_dropped=int(values["rounds_dropped"]),
            counts_cut=bool(values["counts_cut"]),
        ),
        seed=int(values["seed"]),
        budget=Budget(values["budget"]),
    )


def answer_as_values(answer: Answer, *, with_problem: bool = True) -> dict[str, Any]:
    """Give an answer as plain values; its problem may be left out where whoever asks has it."""
    problem = answer.problem.model_dump(mode="json", by_alias=True) if with_problem else None
    return {
        "problem": problem,
        "core": answer.core.model_dump(mode="json", by_alias=True),
        "harm": answer.harm.model_dump(mode="json"),
        "tier": answer.tier,
        "outcome": answer.outcome.model_dump(mode="json", by_alias=True),
        "least": answer.least.model_dump(mode="json"),
    }


def answer_of_values(values: dict[str, Any], problem: Problem) -> Answer:
    """Read an answer; nothing in it is judged yet.

    Parameters
    ----------
    problem : Problem
        What was asked; it stands where the answer brings no problem of its own.
    """
    own = values["problem"]
    return Answer(
        problem=problem if own is None else Problem.model_validate(own),
        core=Core.model_validate(values["core"]),
        harm=Harm.model_validate(values["harm"]),
        tier=int(values["tier"]),
        outcome=Outcome.model_validate(values["outcome"]),
        least=Harm.model_validate(values["least"]),
    )


def as_bytes(values: dict[str, Any]) -> bytes:
    """Give values as JSON."""
    return json.dumps(values).encode()
