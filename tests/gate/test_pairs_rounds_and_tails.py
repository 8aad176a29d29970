"""Kit in pairs by hand, cells of single rounds, and an easier end after a harder version."""

from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.gate.judge import judge
from tests.gate.cases_class import in_pairs
from tests.gate.cases_kit_and_load import eights, with_rack
from tests.gate.small_class import (
    WINDOWS,
    Made,
    a_class,
    a_dose,
    a_plan,
    a_timeline,
    cells_of,
    newcomer_dose,
    regular,
    steps_of,
    with_core,
    with_line,
    with_movement,
)
from tests.support.builders import reps


def rules_of(made: Made) -> set[str]:
    return {f.rule for f in judge(made.core, made.problem).findings}


def test_partners_share_what_each_needs() -> None:
    made = in_pairs()
    assert "kit.short" not in rules_of(with_rack(made, eights(2)))
    assert "kit.short" in rules_of(with_rack(made, eights(1)))


def test_a_group_of_three_needs_twice_as_much_as_first_and_third_work_at_once() -> None:
    people = {p: regular(p) for p in ("p001", "p002", "p003")}
    problem = a_class(people, format=ClassFormat.PAIRS)
    halves = {k: (w, w) for k, w in enumerate(WINDOWS, start=1)}
    windows = tuple(2 * w + 6 for w in WINDOWS)
    timeline = a_timeline(problem, {1: windows, 2: windows}, halves=halves)
    made = a_plan(problem, timeline=timeline, form=ClassFormat.PAIRS)
    four = with_rack(made, eights(4))
    assert judge(four.core, four.problem).is_clear
    short = [
        f
        for f in judge(made.core, with_rack(made, eights(3)).problem).findings
        if f.rule == "kit.short"
    ]
    assert [(f.positions, f.round) for f in short] == [
        ((k,), r) for k in (1, 2, 3, 4) for r in (1, 2)
    ]
    assert short[0].figures == {"needed": 4, "there": 3, "mass_g": 8000}


def test_who_does_one_round_uses_kit_and_time_in_that_round_only() -> None:
    # cap 60 % of 2 rounds: 10,000 x 1 = 10,000 is less than 6,000 x 2, but it is within the cap
    people = {"p001": regular("p001"), "p002": regular("p002", classes_done=0)}
    problem = a_class(people, warm_up_s=480)
    dose = newcomer_dose("p002", dose_bp=10_000, rounds=(1,))
    cells = cells_of("p001") + cells_of("p002", full=10, side=6)
    # 30 x 1.2 = 36 s, 36 x 1.2 = 43.2 -> 43 s in the first round, the regular's time in the second
    timeline = a_timeline(problem, {1: (36, 36, 36, 36, 43), 2: WINDOWS})
    made = a_plan(problem, cells, [a_dose("p001"), dose], timeline=timeline)
    assert judge(made.core, made.problem).is_clear
    short = [
        f
        for f in judge(made.core, with_rack(made, eights(3)).problem).findings
        if f.rule == "kit.short"
    ]
    assert {f.round for f in short} == {1}


def with_jump_last(tail: bool) -> Made:
    """Let p001 end with ten squat jumps in round 1, and in round 2 with squats or jumps again."""
    made = with_line(a_plan(), "split_line", versions=("air_squat", "squat_jump"))
    jump = {"steps": steps_of("squat_jump"), "count": reps(8), "limited_by": None}
    air = {"steps": steps_of("air_squat"), "count": reps(12)}
    cells = []
    for cell in made.core.cells:
        if cell.position != 5:
            cells.append(cell)
        elif cell.person_id == "p002":
            cells.append(cell.model_copy(update=air))
        else:
            cells.append(cell.model_copy(update=jump | {"round": 1}))
            cells.append(cell.model_copy(update=(air if tail else jump) | {"round": 2}))
    return with_core(with_movement(made, "squat_jump", demands={}), cells=tuple(cells))


def test_a_harder_version_may_stand_last_where_an_easier_one_ends_the_class() -> None:
    made = with_jump_last(tail=True)
    verdict = judge(made.core, made.problem)
    assert verdict.is_clear
    # jump: level 3 for level 2; squats of p002 one level below; two versions; bursts
    assert {line.term: line.points for line in verdict.cost_lines} == {
        "burst_below": 8,
        "further_version": 10,
        "version_above": 20,
        "version_below": 8,
    }
    broken = with_jump_last(tail=False)
    found = [f for f in judge(broken.core, broken.problem).findings if f.rule == "order.last_place"]
    assert [(f.persons, f.positions, f.round) for f in found] == [(("p001",), (5,), 2)]


def test_landings_are_counted_in_the_rounds_in_which_they_are_done() -> None:
    made = with_jump_last(tail=True)
    eleven = with_movement(made, "squat_jump", contacts_a_rep=3)
    found = [
        f for f in judge(eleven.core, eleven.problem).findings if f.rule == "contacts.over_limit"
    ]
    # 8 jumps in one round, three landings each
    assert found[0].figures == {"landings": 24, "most": 20}
