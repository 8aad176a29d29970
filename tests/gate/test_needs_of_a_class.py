"""What meets a class's need of knee, hip, push and pull, and what does not (P2, rule 3)."""

from roundwright.body.anatomy import Muscle
from tests.gate.cases_choice import of_combinations
from tests.gate.small_class import Made, verdict_of, with_movement, with_problem
from tests.support.builders import mover


def missed(made: Made) -> set[object]:
    """Give what is missing where the needs hold from one place on."""
    rules = made.problem.rules.model_copy(update={"least_places_for_four": 1})
    findings = verdict_of(with_problem(made, rules=rules)).findings
    return {f.figures["what"] for f in findings if f.rule == "set.pattern_missing"}


def test_a_combination_that_begins_with_a_line_for_one_muscle_meets_no_need() -> None:
    # squat and row, row and hinge, hinge and squat: what a combination begins with counts
    made = of_combinations(3)
    assert missed(made) == {"push"}
    assert missed(with_movement(made, "row", muscles=mover(Muscle.LATS))) == {"push", "pull"}
