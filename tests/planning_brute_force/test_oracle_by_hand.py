"""The brute force of planning itself, held to cases worked by hand from the page."""

import pytest

from roundwright.body.anatomy import Muscle, Side
from roundwright.goals.class_wish import BurstWish, ClassFormat
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, Pattern
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.plan.recent import Recent, RecentExercise
from roundwright.plan.rule_table import RuleTable
from tests.planning_brute_force.oracle_arrangements import arrangements, even_groups
from tests.planning_brute_force.oracle_class_price import class_price
from tests.planning_brute_force.oracle_fit import best_fit
from tests.planning_brute_force.oracle_planning import BestClass, best_class
from tests.planning_brute_force.small_planning import (
    AROUND_S,
    LIBRARY,
    a_planning,
    loaded,
)
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    mover,
    reps,
)

STATIONS = (ClassFormat.STATIONS,)


def sought(planning: PlanningProblem) -> BestClass:
    best = best_class(planning)
    assert best is not None
    return best


def names(best: BestClass) -> tuple[str, ...]:
    return tuple(e.removesuffix("_line") for e in best.exercise_ids)


def test_push_is_balanced_with_pull_and_ties_go_to_the_smaller_names() -> None:
    # push and press: 2 x 6 = 12; either with pull: 0.
    best = sought(a_planning("push", "press", "pull"))
    assert (best.value, names(best)) == ((0, 0), ("press", "pull"))
    assert sought(a_planning("push", "press")).value == (0, 12)


def test_what_was_done_before_counts_in_the_balance_and_against_the_exercise() -> None:
    # Push and pull alone: 0. A push two days ago and one 14 days ago: balance 2 x 6, used once
    # in the last week: 8. One 15 days ago is forgotten.
    recent = Recent(
        exercises=tuple(
            RecentExercise(exercise_id="push_line", days_ago=days) for days in (2, 14, 15)
        )
    )
    assert sought(a_planning("push", "pull", recent=recent)).value == (0, 20)


def test_an_exercise_unknown_to_the_library_is_left_out_of_the_balance() -> None:
    # A press two days ago: one push more, 6. An exercise that the library has lost: nothing.
    for name, price in (("press_line", 6), ("long_gone", 0)):
        recent = Recent(exercises=(RecentExercise(exercise_id=name, days_ago=2),))
        assert sought(a_planning("push", "pull", recent=recent)).value == (0, price)


def test_muscles_that_are_not_fresh_are_counted_by_person() -> None:
    # Two people's chest, one person's lats: push + pull = 3 x 3.
    worked = {"p001": (Muscle.CHEST, Muscle.LATS), "p002": (Muscle.CHEST,)}
    planning = a_planning("push", "pull", people=2, recent=Recent(worked=worked))
    assert sought(planning).value == (0, 9)


def test_one_muscle_may_not_be_next_to_itself_and_a_turn_closes_the_round() -> None:
    # Squat and lunge (quads) must be parted by the pull; where groups take turns they meet.
    # Knee 2, hip 0: 12; pull 1: 6.
    best = sought(a_planning("squat", "lunge", "pull", places=3))
    assert (best.value, names(best)) == ((0, 18), ("lunge", "pull", "squat"))
    turning = a_planning("squat", "lunge", "pull", places=3, people=3, formats=STATIONS)
    assert best_class(turning) is None


def test_the_burst_is_a_neighbour_of_both_ends() -> None:
    burst = BurstWish(line="skip_burst_line", length_s=30)
    spec = {"burst": burst, "rounds": 2}
    assert best_class(a_planning("squat", "hinge", spec=spec)) is None
    # Balanced knee and hip; pull adds 6, and pull beside hinge shares nothing.
    best = sought(a_planning("squat", "hinge", "pull", places=3, spec=spec))
    assert names(best) == ("hinge", "squat", "pull")
    assert best.value == (0, 6)
    # With one person there is one station group: it starts at place 1 and ends at the last.
    one = a_planning("squat", "hinge", "pull", places=3, spec=spec, formats=STATIONS)
    assert sought(one).value == (0, 6)
    two = a_planning("squat", "hinge", "pull", places=3, people=2, spec=spec, formats=STATIONS)
    # Groups at 1 (ends 3) and 2 (ends 1): every place is first or last of a round.
    assert best_class(two) is None


def test_four_places_need_knee_hip_push_and_pull() -> None:
    # Hinge beside row: both ask for the low back (6), unless kept apart.
    best = sought(a_planning("squat", "lunge", "hinge", "push", "press", "row", places=4))
    assert best.value == (0, 0)
    assert {"hinge", "row"} < set(names(best))
    assert best_class(a_planning("squat", "lunge", "push", "press", "row", places=4)) is None
    lower = RuleTable(least_places_for_four=5)
    assert best_class(a_planning("squat", "push", "press", "row", places=4, rules=lower))


def with_others(*movements: Movement, **lines: tuple[str, ...]) -> Catalogue:
    """The small library with more movements, each a line of its own, and further lines."""
    return a_catalogue(
        [*LIBRARY.movements.values(), *movements],
        [
            *LIBRARY.lines.values(),
            *(a_line(f"{m.slug}_line", m.slug) for m in movements),
            *(a_line(name, *versions) for name, versions in lines.items()),
        ],
    )


def test_an_accessory_meets_no_need_and_there_is_one_at_most() -> None:
    curl = loaded("curl", Pattern.ELBOW_FLEXION, Muscle.LATS)
    fly = loaded("fly", Pattern.HORIZONTAL_PUSH, Muscle.CHEST).model_copy(
        update={"muscles": mover(Muscle.CHEST)}
    )
    library = with_others(curl, fly)
    # two movers of an elbow pattern, one mover of a push: both are accessories
    assert (
        best_class(a_planning("squat", "hinge", "push", "curl", places=4, library=library)) is None
    )
    assert best_class(a_planning("squat", "hinge", "fly", "row", places=4, library=library)) is None
    assert sought(a_planning("squat", "hinge", "push", "row", places=4, library=library))
    # a combination that begins with an accessory is none, but is no pull either
    pressed = a_combination("curl_press", ("curl_line", Side.BOTH), ("press_line", Side.BOTH))
    combined = library.model_copy(update={"combinations": {"curl_press": pressed}})
    some = a_planning("squat", "hinge", "push", places=4, library=combined)
    choice = (*some.candidates, Candidate(exercise_id="curl_press", count=reps(10)))
    assert best_class(some.model_copy(update={"candidates": choice})) is None
    three = some.model_copy(update={"candidates": choice[1:], "places": 3})
    assert sought(three).exercise_ids == ("curl_press", "hinge_line", "push_line")
    # push 1, pull 1: nothing; but two accessories are one too many
    assert best_class(a_planning("fly", "curl", library=library)) is None
    two = RuleTable(most_accessories=2)
    assert sought(a_planning("fly", "curl", library=library, rules=two)).value == (0, 0)
    kept = tuple(KeptExercise(exercise_id=f"{n}_line", count=reps(10)) for n in ("fly", "curl"))
    assert sought(a_planning(library=library, kept=kept))


def test_a_version_is_in_the_class_once_unless_both_lines_are_kept() -> None:
    # the press with a push before it, so that someone could have the push twice
    library = with_others(eased_line=("push", "press"))
    names_of = ("push", "eased", "pull")
    assert best_class(a_planning(*names_of, places=3, library=library)) is None
    assert sought(a_planning("push", "eased", "pull", library=library))
    kept = tuple(KeptExercise(exercise_id=f"{n}_line", count=reps(10)) for n in ("push", "eased"))
    assert sought(a_planning("pull", places=3, library=library, kept=kept))
    assert best_class(a_planning("eased", "pull", places=3, library=library, kept=kept[:1])) is None


def test_a_trunk_exercise_is_needed_from_its_number_of_places() -> None:
    rules = RuleTable(least_places_for_trunk=2)
    best = sought(a_planning("squat", "push", "plank", rules=rules))
    # Plank with push or squat: 6 either way.
    assert (best.value, names(best)) == ((0, 6), ("plank", "push"))
    assert best_class(a_planning("squat", "push", rules=rules)) is None


def test_half_of_the_places_are_loaded() -> None:
    # Sit-up and bridge alone cost 6 (hip), but one of two places must be loaded.
    assert names(sought(a_planning("bridge", "sit_up", "squat"))) == ("bridge", "squat")
    assert best_class(a_planning("bridge", "sit_up")) is None


def test_cardio_what_is_banned_and_what_was_shown_are_not_chosen() -> None:
    assert best_class(a_planning("march", "squat")) is None
    assert best_class(a_planning("hinge", "squat", spec={"ban": ("hinge_line",)})) is None
    shown = a_planning("hinge", "squat", "pull", besides=(("squat_line", "hinge_line"),))
    # Without that set: squat or hinge with pull, 12.
    assert (sought(shown).value, names(sought(shown))) == ((0, 12), ("hinge", "pull"))


def test_another_class_has_two_others_where_one_can() -> None:
    shown = {"besides": (("squat_line", "hinge_line"),), "others": 2}
    # squat and hinge cost 0; with two others: push and pull, 0. One other would cost 12.
    two = a_planning("squat", "hinge", "push", "pull", **shown)
    assert (sought(two).value, names(sought(two))) == ((0, 0), ("pull", "push"))
    one = a_planning("squat", "hinge", "pull", **shown)
    assert (sought(one).value, names(sought(one))) == ((0, 12), ("hinge", "pull"))
    assert best_class(a_planning("squat", "hinge", **shown)) is None
    # two others are too long for the slot, one other is not: 15 s for a sit-up's change
    spec = {"slot_s": AROUND_S + 2 * (30 + 15)}
    slow = loaded("slow_push", Pattern.HORIZONTAL_PUSH, Muscle.CHEST, seconds_a_rep=5.0)
    library = with_others(slow)
    late = a_planning("squat", "hinge", "slow_push", "pull", spec=spec, library=library, **shown)
    assert (sought(late).value, names(sought(late))) == ((0, 12), ("hinge", "pull"))


def test_a_hip_exercise_without_a_load_costs_by_who_is_strong() -> None:
    # Bridge alone: 6 for the hip, and 2 for each of level 3 or more; a hinge is loaded.
    rules = RuleTable(least_places_for_four=9)
    for level, price in ((2, 6), (3, 10)):
        one = a_planning("bridge", "push", "pull", places=3, people=2, rules=rules)
        people = {p: v.model_copy(update={"level": level}) for p, v in one.base.people.items()}
        assert class_price(concrete_of(one, people)) == price


def concrete_of(planning: PlanningProblem, people: dict[str, ProblemPerson]) -> Problem:
    """The class of all candidates in their order, as the tool's choice, for other people."""
    base = planning.base.model_copy(update={"people": people})
    chosen = planning.model_copy(update={"base": base})
    return chosen.concrete(planning.candidates, ClassFormat.TOGETHER, 1)


def test_a_line_is_in_two_exercises_at_most_as_a_part_too() -> None:
    pairs = {
        f"{name}_pull": a_combination(
            f"{name}_pull", (f"{name}_line", Side.BOTH), ("pull_line", Side.BOTH)
        )
        for name in ("squat", "hinge")
    }
    library = LIBRARY.model_copy(update={"combinations": pairs})
    some = a_planning("pull", "push", places=3, library=library)
    choice = (*some.candidates, *(Candidate(exercise_id=c, count=reps(10)) for c in pairs))
    three = some.model_copy(update={"candidates": choice})
    # with all three that pull no push is left out: one of them must give way
    assert len({"pull_line", *pairs} & set(sought(three).exercise_ids)) == 2
    assert best_class(three.model_copy(update={"candidates": (choice[0], *choice[2:])})) is None
    kept = tuple(KeptExercise(exercise_id=e, count=reps(10)) for e in ("pull_line", *pairs))
    assert sought(three.model_copy(update={"kept": kept}))


def test_a_kept_exercise_is_in_the_class_and_stays_at_its_place() -> None:
    kept = KeptExercise(exercise_id="march_line", count=reps(10), position=2)
    best = sought(a_planning("pull", "push", kept=(kept,)))
    assert (best.value, names(best)) == ((0, 6), ("pull", "march"))
    free = kept.model_copy(update={"position": None})
    assert names(sought(a_planning("pull", "push", kept=(free,)))) == ("march", "pull")


def test_neighbours_are_priced_by_their_reference_versions() -> None:
    low = {Demand.FLOOR_RISE: 2}
    movements = [
        loaded("floor_press", Pattern.HORIZONTAL_PUSH, Muscle.CHEST, demands=low),
        loaded("hold", Pattern.CARRY, Muscle.FOREARMS, demands={Demand.GRIP: 2}),
        loaded("hang", Pattern.VERTICAL_PULL, Muscle.LATS, demands={Demand.GRIP: 2}),
        a_movement("hang_hard", level=4, pattern=Pattern.VERTICAL_PULL, demands=low),
    ]
    lines = [
        a_line("floor_press_line", "floor_press"),
        a_line("hold_line", "hold"),
        a_line("hang_line", "hang", "hang_hard"),
    ]
    library = a_catalogue(movements, lines)
    # Orders: hold beside hang 4 (grip), floor press beside either 2 (down and up). The hard
    # version is above level 3 and no reference. Ends: 2 + 4, or press in the middle: 2 + 2.
    planning = a_planning("floor_press", "hold", "hang", places=3, library=library)
    assert (sought(planning).value, names(sought(planning))[1]) == ((0, 4), "floor_press")
    # At stations all three meet: 2 + 4 + 2.
    turning = planning.model_copy(update={"formats": STATIONS})
    assert sought(turning).value == (0, 8)


def test_stations_let_two_people_share_one_dumbbell() -> None:
    # One dumbbell, one loaded place of two, two people: together someone is left without.
    library = a_catalogue(
        [
            loaded("push", Pattern.HORIZONTAL_PUSH, Muscle.CHEST),
            a_movement("sit_up", pattern=Pattern.TRUNK_FLEXION, muscles=mover(Muscle.ABDOMINALS)),
        ],
        [a_line("push_line", "push"), a_line("sit_up_line", "sit_up")],
    )
    planning = a_planning("push", "sit_up", people=2, units=1, library=library)
    assert best_class(planning) is None
    forms = (ClassFormat.TOGETHER, ClassFormat.STAGGERED, ClassFormat.STATIONS)
    turning = planning.model_copy(update={"formats": forms})
    best = sought(turning)
    # Push alone: 6. Both formats give it; the earlier in the list is taken.
    assert (best.value, best.format) == ((0, 6), ClassFormat.STAGGERED)
    # An interval lasts as long as its slowest: 30 s each, 15 s to change.
    short = turning.base.spec.model_copy(update={"slot_s": AROUND_S + 89})
    late = turning.model_copy(update={"base": turning.base.model_copy(update={"spec": short})})
    assert sought(late).value == (1, 6)


def test_the_group_that_ends_with_the_jump_has_a_tail() -> None:
    library = a_catalogue(
        [
            a_movement("step", level=2),
            a_movement("jump", level=3, contacts_a_rep=1, pattern=Pattern.JUMP),
            a_movement("hinge", level=3, seconds_a_rep=5.0),
        ],
        [a_line("step_line", "step", "jump"), a_line("hinge_line", "hinge")],
    )
    people = {p: a_person(p, level=3) for p in ("p001", "p002")}
    for form, price, seconds in (
        (ClassFormat.TOGETHER, 0, 2 * (24 + 15 + 50 + 15)),
        # Group 2 ends with the jump: a step in the last round, 10 for a further version.
        # Every interval holds the hinge: 50 s.
        (ClassFormat.STATIONS, 10, 4 * (50 + 15)),
    ):
        slot = AROUND_S + seconds + 60
        spec = a_spec(
            ("step_line", reps(8)), ("hinge_line", reps(10)), rounds=2, format=form, slot_s=slot
        )
        best = best_fit(a_problem(spec, library, people), form)
        assert best is not None
        assert best.value == (0, price)
        tight = spec.model_copy(update={"slot_s": slot - 1})
        late = best_fit(a_problem(tight, library, people), form)
        assert late is not None
        assert late.value == (1, price)


@pytest.mark.parametrize(
    ("people", "groups", "ways"), [(2, 2, 2), (3, 2, 6), (3, 3, 6), (4, 2, 6), (4, 3, 36)]
)
def test_every_grouping_of_even_groups_is_met_once(people: int, groups: int, ways: int) -> None:
    # 3 in 2: three ways to choose the pair, two numberings. 4 in 3: six pairs, six numberings.
    found = list(even_groups(tuple(f"p{n:03d}" for n in range(people)), groups))
    assert len(found) == len(set(found)) == ways


def test_every_offset_of_staggered_groups_is_met() -> None:
    planning = a_planning("push", "pull", "squat", places=3, people=3)
    spec = a_spec(("push_line", reps(5)), ("pull_line", reps(5)), ("squat_line", reps(5)))
    problem = planning.base.model_copy(update={"spec": spec})
    found = [a.offsets for a in arrangements(problem, ClassFormat.STAGGERED)]
    # Two groups: 6 groupings, offset 1 or 2; three groups: 6 groupings, two orders.
    assert [len([o for o in found if len(o) == n]) for n in (2, 3)] == [12, 12]
    assert set(found) == {(0, 1), (0, 2), (0, 1, 2), (0, 2, 1)}
