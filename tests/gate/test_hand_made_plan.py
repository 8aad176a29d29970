from roundwright.plan.gate.judge import judge
from tests.gate.small_class import a_plan


def test_the_hand_made_plan_passes_without_a_finding() -> None:
    made = a_plan()
    verdict = judge(made.core, made.problem)
    assert verdict.findings == ()


def test_its_price_and_length_are_those_reckoned_by_hand() -> None:
    made = a_plan()
    verdict = judge(made.core, made.problem)
    # two marches of level 1 for level 2: 2 x 4 points
    assert verdict.cost == 8
    assert [(line.term, line.points) for line in verdict.cost_lines] == [("burst_below", 8)]
    assert verdict.total_s == 1482
