"""The brute force itself, held to cases worked by hand from the definition page."""

import pytest

from roundwright.body.anatomy import Muscle, Side
from roundwright.goals.class_wish import AfterLastRound, BurstWish, ClassFormat, Count, CountUnit
from roundwright.kit.inventory import KitItem
from roundwright.library.vocabulary import Demand, DoneAs, KitKind, KitUse, Laterality, Pattern
from roundwright.plan.cost_table import CostTable
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_people import dosage, own_counts
from tests.brute_force.oracle_search import best_plan, groupings, space_of
from tests.brute_force.oracle_versions import versions_of
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_side,
    a_spec,
    lifting,
    mover,
    reps,
)
from tests.support.random_library import a_library
from tests.support.worked_count import problem as worked_problem

AROUND_S = 300 + 240 + 300
"""Warm-up, demonstration and cool-down of `a_spec`."""


def least(problem: Problem) -> tuple[int, int]:
    best = best_plan(space_of(problem))
    assert best is not None
    return best.overrun_s, best.price


def _pair_squats(**changes: object) -> Problem:
    library = a_catalogue(
        [a_movement("pair_squat", strength_family="squat", kit=lifting())],
        [a_line("squat_line", "pair_squat")],
    )
    spec = a_spec(("squat_line", reps(10)), **changes)
    people = {p: a_person(p, level=2) for p in ("p001", "p002")}
    return a_problem(spec, library, people, a_kit({8000: 2, 6000: 2}))


def test_one_of_two_takes_the_lighter_pair() -> None:
    # Both aim at 8 kg (chance 1). One pair of 8: the other holds 6: 40 x (8 - 6) / 8 = 10.
    assert least(_pair_squats()) == (0, 10)


def test_a_pair_shares_its_dumbbells_and_takes_two_halves() -> None:
    # 10 x 3 s = 30 s a half, 6 s to swap, 15 s change: 81 s, so 921 s in all; both hold 8 kg.
    pairs = {"format": ClassFormat.PAIRS}
    assert least(_pair_squats(slot_s=AROUND_S + 81, **pairs)) == (0, 0)
    assert least(_pair_squats(slot_s=AROUND_S + 80, **pairs)) == (1, 0)


def test_any_form_takes_less_overrun_before_less_price() -> None:
    # Together lasts 30 + 15 s and costs 10; pairs lasts 81 s and costs 0.
    free = {"format": ClassFormat.ANY}
    assert least(_pair_squats(slot_s=AROUND_S + 81, **free)) == (0, 0)
    assert least(_pair_squats(slot_s=AROUND_S + 80, **free)) == (0, 10)


def test_lifting_nothing_costs_more_where_one_could_lift() -> None:
    # Level 2. One pair of 8 kg for two: the other stays at level 1 (8), could lift (12), and is a
    # further version (10): 30. With a pair of 6 kg for the other: 40 x 2 / 8 = 10.
    library = a_catalogue(
        [
            a_movement("air_squat", level=1),
            a_movement("pair_squat", strength_family="squat", kit=lifting()),
        ],
        [a_line("squat_line", "air_squat", "pair_squat")],
    )
    people = {p: a_person(p, level=2) for p in ("p001", "p002")}
    spec = a_spec(("squat_line", reps(10)))
    assert least(a_problem(spec, library, people, a_kit({8000: 2}))) == (0, 30)
    assert least(a_problem(spec, library, people, a_kit({8000: 2, 6000: 2}))) == (0, 10)
    # Level 1: what lifts is above, and both squat without. No pair at all: nobody could lift.
    firsts = {p: a_person(p, level=1) for p in people}
    assert least(a_problem(spec, library, firsts, a_kit({8000: 4}))) == (0, 0)
    assert least(a_problem(spec, library, people, a_kit({}))) == (0, 16)


def test_a_further_version_is_weighed_against_levels() -> None:
    # Levels 2 and 3; versions of level 1 and 3. Both easy 8 + 16, both hard 20 + 0,
    # each their own 8 + 0 and one further version 10.
    library = a_catalogue(
        [a_movement("easy", level=1), a_movement("hard", level=3)],
        [a_line("both_line", "easy", "hard")],
    )
    people = {"p001": a_person(level=2), "p002": a_person("p002", level=3)}
    problem = a_problem(a_spec(("both_line", reps(5))), library, people)
    assert least(problem) == (0, 18)


def test_a_third_mass_is_avoided_for_a_lighter_load() -> None:
    # Authored 4, 6, 8 kg at three places. All three: 15. The 4 in place of the 6:
    # 40 x 2 / 6 = 13. The 6 in place of the 8: 40 x 2 / 8 = 10.
    movements = [
        a_movement(f"hold_{m}", kit=lifting(1), assumed_load_by_level={"2": m * 1000})
        for m in (4, 6, 8)
    ]
    lines = [a_line(f"line_{m}", f"hold_{m}") for m in (4, 6, 8)]
    spec = a_spec(*((f"line_{m}", reps(5)) for m in (4, 6, 8)))
    kit = a_kit({4000: 9, 6000: 9, 8000: 9})
    problem = a_problem(spec, a_catalogue(movements, lines), {"p001": a_person(level=2)}, kit)
    assert least(problem) == (0, 10)


BOX = KitItem(id="box", kind=KitKind.BOX, count=4, height=300, strength=200_000, stable=True)


def _jumps(places: tuple[str, ...], rounds: int, further: int, classes: int = 30) -> Problem:
    library = a_catalogue(
        [
            a_movement("step", level=2),
            a_movement("jump", level=3, contacts_a_rep=1, pattern=Pattern.JUMP),
            a_movement("hinge", level=3),
        ],
        [a_line("step_line", "step", "jump"), a_line("hinge_line", "hinge")],
    )
    spec = a_spec(*((place, reps(10)) for place in places), rounds=rounds)
    people = {"p001": a_person(level=3, classes_done=classes)}
    return a_problem(spec, library, people, costs=CostTable(further_version=further))


def jumps_alone(rounds: int) -> Problem:
    """Make a class whose first place has a jump and nothing easier."""
    places = ("step_line", "hinge_line")
    problem = _jumps(places, rounds, further=10, classes=4)
    spec = problem.spec.model_copy(update={"ban": ("step",)})
    return problem.model_copy(update={"spec": spec, "substitutes": ("hinge_line",)})


def test_a_jump_at_the_last_place_has_a_tail() -> None:
    # Jump in round 1 and step in round 2: two listings, 10 a further one; step throughout: 8.
    assert least(_jumps(("step_line",), rounds=2, further=10)) == (0, 8)
    assert least(_jumps(("step_line",), rounds=2, further=3)) == (0, 3)
    # One round only: no earlier round for the jump.
    assert least(_jumps(("step_line",), rounds=1, further=3)) == (0, 8)


def test_contacts_are_limited_over_the_class() -> None:
    # 4 classes: 20 contacts. A set of 10 jumps is cut to 8: two rounds are 16, three are 24,
    # so the step (8) it is.
    places = ("step_line", "hinge_line")
    assert least(_jumps(places, rounds=2, further=10, classes=4)) == (0, 0)
    assert least(_jumps(places, rounds=3, further=10, classes=4)) == (0, 8)


def test_what_alone_breaks_the_contact_limit_is_no_option() -> None:
    # Jumps alone in the line, 4 classes: 20 contacts; two rounds of 8 are 16, three are 24.
    for rounds, price in ((2, 0), (3, 120)):
        assert least(jumps_alone(rounds)) == (0, price)


def test_a_set_is_cut_to_eight_landings_and_a_timed_one_is_void() -> None:
    hop = a_movement(
        "hop",
        level=3,
        laterality=Laterality.ALTERNATING,
        contacts_a_rep=1,
        seconds_a_rep=1.5,
    )
    library = a_catalogue([hop], [a_line("hop_line", "hop")])
    people = {"p001": a_person(level=3)}
    problem = a_problem(a_spec(("hop_line", reps(20)), rounds=2), library, people)
    (version,) = versions_of(problem, "p001", "hop_line", reps(20))
    # A pass lands left and right: 4 passes of 8 landings, 8 alternating, 8 x 1.5 s.
    assert version.count == Count(value=8, unit=CountUnit.REPS_ALTERNATING)
    assert (version.contacts, version.seconds) == (8, 12)
    # 12 s hold 4 passes, 8 landings; 15 s hold 5 passes, 10 landings.
    for seconds, found in ((12, 1), (15, 0)):
        wish = Count(value=seconds, unit=CountUnit.SECONDS)
        assert len(versions_of(problem, "p001", "hop_line", wish)) == found


def test_of_two_versions_of_one_level_the_later_is_cheaper() -> None:
    library = a_catalogue(
        [a_movement(name, level=2) for name in ("plain", "fuller", "fullest")],
        [a_line("line", "plain", "fuller", "fullest")],
    )
    people = {"p001": a_person(level=2)}
    # Two later ones of level 2: 12 points; one: 6; none: 0.
    for ban, price in (("fuller", "fullest"), 12), (("fullest",), 6), ((), 0):
        problem = a_problem(a_spec(("line", reps(5)), ban=ban), library, people)
        assert least(problem) == (0, price)


@pytest.mark.parametrize(("wish", "own", "seconds"), [(12, 10, 72), (14, 10, 72), (9, 7, 50)])
def test_a_first_class_is_cut_in_rounds_share_and_lunges(wish: int, own: int, seconds: int) -> None:
    # Cap 6,000 of 3 rounds = 18,000: two rounds at 8,500 (17,000) beat one at 10,000.
    # 12 a side: floor(10.2) = 10; lunges 2 x 10 x 2 = 40, just allowed.
    # 14 a side: floor(11.9) = 11; lunges 44 > 40: floor(11 x 40 / 44) = 10.
    # 9 a side: floor(7.65) = 7. Seconds: value x (3 + 3) x 1.2, half to even (50.4 is 50).
    split = a_movement("split", pattern=Pattern.LUNGE, laterality=Laterality.UNILATERAL)
    library = a_catalogue([split], [a_line("split_line", "split")])
    spec = a_spec(("split_line", a_side(wish)), rounds=3)
    problem = a_problem(spec, library, {"p001": a_person(classes_done=0)})
    assert (dosage(problem, "p001").dose_bp, dosage(problem, "p001").rounds) == (8500, 2)
    (count,) = own_counts(problem, "p001")
    assert count == a_side(own)
    (version,) = versions_of(problem, "p001", "split_line", count)
    assert version.seconds == seconds


def test_someone_without_a_version_takes_a_substitute_or_sits_out() -> None:
    library = a_catalogue(
        [
            a_movement("squat", demands={Demand.KNEE: 2}),
            a_movement("hinge", pattern=Pattern.HINGE),
        ],
        [a_line("squat_line", "squat"), a_line("hinge_line", "hinge")],
    )
    people = {"p001": a_person(level=2, caps={Demand.KNEE: 1})}
    problem = a_problem(a_spec(("squat_line", reps(5))), library, people)
    assert least(problem.model_copy(update={"substitutes": ("hinge_line",)})) == (0, 120)
    assert least(problem) == (0, 1000)


def test_links_are_counted_by_rep_or_by_block_and_by_side() -> None:
    left, right, both = Side.LEFT, Side.RIGHT, Side.BOTH
    split = a_movement("split", laterality=Laterality.UNILATERAL, muscles=mover(Muscle.GLUTES))
    press = a_movement("press", muscles=mover(Muscle.TRICEPS))
    parts = (("split_line", left), ("split_line", right), ("press_line", both))
    library = a_catalogue(
        [split, press],
        [a_line("split_line", "split"), a_line("press_line", "press")],
        [
            a_combination("by_rep", *parts, link_s=0.7),
            a_combination("by_block", *parts, link_s=0.7, done_as=DoneAs.COMPLEX),
            a_combination("one_side", ("split_line", left), ("press_line", both), link_s=0.5),
        ],
    )
    spec = a_spec(("by_rep", reps(8)), side_change_s=4)
    problem = a_problem(spec, library, {"p001": a_person(first_side=right)})
    # 8 x 9 s and 8 x 2 links of 0.7 s = 83.2; as a complex 72 s and 2 links = 73.4.
    # 5 a side of (split, press): 5 x 12 s, 5 links a side of 0.5 s = 65, and 4 s side change.
    found = [
        versions_of(problem, "p001", name, count)[0]
        for name, count in (
            ("by_rep", reps(8)),
            ("by_block", reps(8)),
            ("one_side", a_side(5)),
            ("by_rep", Count(value=30, unit=CountUnit.SECONDS)),
        )
    ]
    assert [v.seconds for v in found] == [83, 73, 69, 30]
    # 30 s hold floor(30 / 10.4) = 2 whole passes.
    assert found[3].passes == 2
    # The right side goes first: the listing is mirrored, then the other side follows.
    assert [s.side for s in found[0].steps] == [right, left, both]
    assert [s.side for s in found[2].steps] == [right, both, left, both]


def test_scarce_ropes_send_one_person_marching() -> None:
    rope = a_movement(
        "rope",
        level=3,
        low_hops_a_rep=1,
        kit=({"item": KitKind.ROPE, "use": KitUse.SKIP},),
    )
    library = a_catalogue(
        [a_movement("squat", level=3), a_movement("march", level=1), rope],
        [a_line("squat_line", "squat"), a_line("burst_line", "march", "rope")],
    )
    burst = BurstWish(line="burst_line", length_s=60, rate_a_min=120)
    spec = a_spec(
        ("squat_line", reps(5)), rounds=3, burst=burst, after_last_round=AfterLastRound.BURST
    )
    people = {p: a_person(p, level=3) for p in ("p001", "p002")}
    one = a_problem(spec, library, people, a_kit({}, KitItem(id="rope", kind="rope", count=1)))
    two = a_problem(spec, library, people, a_kit({}, KitItem(id="rope", kind="rope", count=2)))
    # 3 bursts of 120 hops are 360, the limit of a regular. March: 4 x (3 - 1).
    assert least(one) == (0, 8)
    assert least(two) == (0, 0)


def test_pairs_are_turned_so_that_the_slow_work_in_one_half() -> None:
    # 65 and over take 10 x 3 x 1.4 = 42 s, the others 30 s. Slow in one half, quick in the
    # other: 72 s with 6 s swap and 15 s change; any other way a half more is 42.
    library = a_catalogue([a_movement("squat")], [a_line("squat_line", "squat")])
    people = {
        "p001": a_person(level=2, youngest_age=70, oldest_age=70),
        "p002": a_person("p002", level=2, youngest_age=70, oldest_age=70),
        "p003": a_person("p003", level=2),
        "p004": a_person("p004", level=2),
    }
    for slot, overrun in ((AROUND_S + 93, 0), (AROUND_S + 92, 1)):
        spec = a_spec(("squat_line", reps(10)), format=ClassFormat.PAIRS, slot_s=slot)
        assert least(a_problem(spec, library, people)) == (overrun, 0)


@pytest.mark.parametrize(("people", "ways"), [(1, 1), (2, 2), (3, 3), (4, 12), (5, 60)])
def test_every_grouping_is_met_once(people: int, ways: int) -> None:
    # 4: three pairings, each pair turned either way. 5: ten threes, three middles, two turns.
    assert len(list(groupings(tuple(f"p{n:03d}" for n in range(people))))) == ways


def test_the_worked_count_lasts_2505_seconds() -> None:
    # The step-up, not the box jump, whose sets of 20 landings would be cut to 8.
    problem = worked_problem(people=2)
    for slot, overrun in ((2505, 0), (2504, 1)):
        spec = problem.spec.model_copy(update={"slot_s": slot, "ban": ("box_jump",)})
        assert least(problem.model_copy(update={"spec": spec}))[0] == overrun


def test_a_box_of_the_wrong_sort_makes_no_option() -> None:
    # A jump needs a stable box of at most 45 cm: at 50 cm, loose or unrated the step remains.
    library = a_library()
    spec = a_spec(("step_line", reps(5)), ("squat_line", reps(5)), ban=("box_step",))
    people = {"p001": a_person(level=3)}
    chair = KitItem(id="chair", kind=KitKind.CHAIR, count=1, strength=200_000)
    good = a_problem(spec, library, people, a_kit({8000: 2}, chair, BOX))
    assert least(good) == (0, 0)
    for wrong in ({"height": 500}, {"stable": False}, {"strength": 60_000}, {"room": "annex"}):
        kit = a_kit({8000: 2}, chair, BOX.model_copy(update=wrong))
        assert least(good.model_copy(update={"kit": kit})) == (0, 16)
