"""The gate, which reads the definition on its own, finds nothing wrong with the pieces."""

import pytest

from roundwright.people.limitation import Amount, Concern
from roundwright.plan.core import Core
from roundwright.plan.gate.judge import judge
from roundwright.plan.pieces import pieces_for, with_pieces
from roundwright.plan.problem import Problem
from tests.pieces.piece_class import a_class, a_core, jumper, limited
from tests.support.builders import a_person


def rules_about_pieces(problem: Problem, core: Core) -> list[str]:
    """Give the gate's findings about pieces."""
    return [f.rule for f in judge(core, problem).findings if f.rule.startswith("pieces.")]


@pytest.mark.parametrize("amount", list(Amount))
@pytest.mark.parametrize("concern", list(Concern))
def test_no_piece_is_refused_whatever_the_limit(concern: Concern, amount: Amount) -> None:
    people = {
        "p001": limited(concern, amount, level=1),
        "p002": jumper(),
        "p003": a_person(level=1, youngest_age=12),
    }
    problem = a_class(people)
    core = with_pieces(a_core(problem, frozenset({"p002"})), problem)
    assert any(p.why == "landing" for p in core.pieces)
    assert rules_about_pieces(problem, core) == []


def test_the_gate_does_look_at_pieces() -> None:
    people = {"p001": limited(Concern.ONE_LEG), "p002": jumper()}
    problem = a_class(people)
    core = a_core(problem)
    wrong = tuple(
        piece.model_copy(update={"versions": dict.fromkeys(people, "easy_walk")})
        for piece in pieces_for(problem, core)
        if piece.why == "walk"
    )
    assert rules_about_pieces(problem, core.model_copy(update={"pieces": wrong})) == [
        "pieces.forbidden"
    ]
