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
        "open_position": told.open_position,
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
            open_position=values["open_position"],
            rounds_dropped=int(values["rounds_dropped"]),
            counts_cut=bool(values["counts_cut"]),
        ),
        seed=int(values["seed"]),
        budget=Budget(values["budget"]),
    )


def answer_as_values(answer: Answer) -> dict[str, Any]:
    """Give an answer as plain values."""
    return {
        "problem": answer.problem.model_dump(mode="json", by_alias=True),
        "core": answer.core.model_dump(mode="json", by_alias=True),
        "harm": answer.harm.model_dump(mode="json"),
        "tier": answer.tier,
        "outcome": answer.outcome.model_dump(mode="json", by_alias=True),
        "least": None if answer.least is None else answer.least.model_dump(mode="json"),
    }


def answer_of_values(values: dict[str, Any]) -> Answer:
    """Read an answer; nothing in it is judged yet."""
    least = values["least"]
    return Answer(
        problem=Problem.model_validate(values["problem"]),
        core=Core.model_validate(values["core"]),
        harm=Harm.model_validate(values["harm"]),
        tier=int(values["tier"]),
        outcome=Outcome.model_validate(values["outcome"]),
        least=None if least is None else Harm.model_validate(least),
    )


def as_bytes(values: dict[str, Any]) -> bytes:
    """Give values as JSON."""
    return json.dumps(values).encode()
