"""Ways to end on time do; what is worth buying makes the plan better for those it names."""

from typing import Any

import pytest

from roundwright.goals.class_wish import AfterLastRound, BurstWish
from roundwright.kit.inventory import KitItem
from roundwright.library.vocabulary import KitKind
from roundwright.optimise.fit import fit
from roundwright.optimise.planning.on_time import ways_on_time
from roundwright.optimise.planning.shopping import shopping_list
from roundwright.plan.outcome import WayOut
from roundwright.plan.problem import Problem
from roundwright.plan.rule_table import WorkRest
from tests.optimise.small_classes import a_squat_line, an_assumed_lift, core_of, fitted
from tests.support.builders import a_catalogue, a_kit, a_line, a_movement, a_problem, a_spec, reps
from tests.why_not.every_class import PLAN_ID
from tests.why_not.small_menu import people, the_library

BURST = BurstWish(line="march_line", length_s=60)


def _class(slot_s: int, **spec: Any) -> Problem:
    # 300 + 240 + 3 × (24 + 15) + 3 × 60 + 2 × 60 + 300 = 1257 s
    values = {"rounds": 3, "burst": BURST, "slot_s": slot_s}
    return a_problem(a_spec(("squat_line", reps(8)), **(values | spec)), the_library(), people(2))


def _on_time(problem: Problem) -> dict[str, WayOut]:
    return {w.kind: w for w in ways_on_time(problem)}


def test_a_class_that_ends_on_time_needs_nothing() -> None:
    assert ways_on_time(_class(1257)) == ()


def test_a_few_seconds_are_found_in_the_changes() -> None:
    ways = _on_time(_class(1240))
    assert next(iter(ways)) == "faster_change"
    assert ways["faster_change"].figures == {"change_s": 8}
    assert all(w.overrun_s == 0 for w in ways.values())
    assert ways["longer_slot"].figures == {"minutes": 1}


def test_what_is_not_enough_is_not_listed() -> None:
    # 21 s from changes, 60 s from rests, 81 s from both, 60 s from the last burst
    ways = _on_time(_class(1257 - 70))
    assert "faster_change" not in ways
    assert "shorter_rest" not in ways
    assert "no_last_burst" not in ways
    assert ways["shorter_rest_and_change"].figures == {"change_s": 8, "rest_s": 30}
    assert ways["round_less"].figures == {"rounds": 2}


def test_rest_and_change_at_their_floors_are_not_shortened() -> None:
    ways = _on_time(_class(900, change_s=8, rest_s=30))
    assert not {"faster_change", "shorter_rest", "shorter_rest_and_change"} & ways.keys()


def test_the_last_rest_goes_before_the_last_burst() -> None:
    spec = {"after_last_round": AfterLastRound.BURST_AND_REST}
    ways = list(_on_time(_class(1257, **spec)))
    assert ways.index("no_last_rest") < ways.index("no_last_burst")


def _taken(problem: Problem, way: WayOut) -> Problem:
    spec: dict[str, Any] = dict(way.figures)
    if way.kind == "fewer_reps":
        share = spec["per_cent"]
        spec = {
            "exercises": tuple(
                e.model_copy(update={"count": reps(e.count.value * share // 100)})
                for e in problem.spec.exercises
            )
        }
    elif way.kind == "longer_slot":
        spec = {"slot_s": problem.spec.slot_s + 60 * spec["minutes"]}
    elif way.kind == "no_burst":
        spec = {"burst": None}
    elif way.kind == "no_last_burst":
        spec = {"after_last_round": AfterLastRound.NOTHING}
    elif way.kind == "shorter_burst":
        spec = {"burst": BURST.model_copy(update={"length_s": spec["seconds"]})}
    return problem.model_copy(update={"spec": problem.spec.model_copy(update=spec)})


@pytest.mark.parametrize("short_s", [10, 40, 70, 150])
def test_taking_any_of_them_ends_on_time(short_s: int) -> None:
    problem = _class(1257 - short_s)
    ways = ways_on_time(problem)
    assert ways
    for way in ways:
        outcome = fit(_taken(problem, way), plan_id=PLAN_ID).outcome
        assert (outcome.overrun_s, outcome.cost) == (0, way.cost), way


def test_one_more_pair_and_who_stops_compromising() -> None:
    # four who would lift 12 kg, two pairs of them, and 8 kg for the others
    problem = a_problem(
        a_spec(("squat_line", reps(8))), a_squat_line(), people(4), a_kit({8000: 20, 12_000: 4})
    )
    core = core_of(fitted(problem))
    (wish,) = shopping_list(problem, core)
    assert (wish.figures["unit_mass_g"], wish.figures["units"]) == (12_000, 2)
    assert len(wish.persons) == 1
    assert wish.figures["price_before"] > wish.cost
    after = a_problem(
        a_spec(("squat_line", reps(8))), a_squat_line(), people(4), a_kit({8000: 20, 12_000: 6})
    )
    assert fitted(after).outcome.cost == wish.cost


def test_enough_of_all_leaves_nothing_to_buy() -> None:
    problem = a_problem(a_spec(("squat_line", reps(8))), a_squat_line(), people(4), a_kit())
    assert shopping_list(problem, core_of(fitted(problem))) == ()


def test_one_more_item_brings_somebody_nearer_their_level() -> None:
    from roundwright.library.movement import KitNeed
    from roundwright.library.vocabulary import KitUse

    prop = (KitNeed(item=KitKind.BOX, use=KitUse.SUPPORT),)
    library = a_catalogue(
        [a_movement("sit", level=1), a_movement("prop", level=3, kit=prop)],
        [a_line("sit_line", "sit", "prop")],
    )
    box = KitItem(id="box", kind=KitKind.BOX, count=1)
    problem = a_problem(a_spec(("sit_line", reps(8))), library, people(3), a_kit(None, box))
    (wish,) = shopping_list(problem, core_of(fitted(problem)))
    assert (wish.item, wish.figures["units"], len(wish.persons)) == ("box", 1, 1)


def test_a_mass_that_helps_nobody_is_not_wished_for() -> None:
    lift = an_assumed_lift("carry", 8)
    library = a_catalogue([lift], [a_line("carry_line", "carry")])
    problem = a_problem(
        a_spec(("carry_line", reps(8))), library, people(2), a_kit({2000: 1, 8000: 2})
    )
    assert shopping_list(problem, core_of(fitted(problem))) == ()


def test_a_chosen_pair_of_work_and_rest_keeps_its_change() -> None:
    pair = WorkRest(room="trained", work_s=45, rest_s=15)
    ways = _on_time(_class(1240, work_rest=pair))
    assert not {"faster_change", "shorter_rest_and_change"} & ways.keys()
    assert ways["shorter_rest"].figures == {"rest_s": 30}
