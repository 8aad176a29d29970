"""Classes that cannot be, each with what clashes, worked out by hand.

A member of a clash is (kind, item); the people of a clash are only counted, since which
of several alike people are named is a matter of ties.
"""

from dataclasses import dataclass

from roundwright.goals.class_wish import BurstWish, ClassFormat, KeptCell
from roundwright.kit.inventory import KitItem
from roundwright.library.vocabulary import Demand, KitKind
from roundwright.plan.planning_problem import PlanningProblem
from tests.support.builders import a_kit
from tests.why_not.small_menu import a_base, asking, people

NO_COVERAGE = {"least_places_for_four": 99, "least_places_for_trunk": 99}
BOX = KitItem(id="box", kind=KitKind.BOX, count=1)
BENCH = KitItem(id="bench", kind=KitKind.BENCH, count=1)
ROPE = KitItem(id="rope", kind=KitKind.ROPE, count=1)
ROPES = KitItem(id="rope", kind=KitKind.ROPE, count=9)


@dataclass(frozen=True)
class Impossible:
    """A question without an answer, and the members of its clash."""

    name: str
    planning: PlanningProblem
    clash: frozenset[tuple[str, str]]
    people: int = 0


def _case(
    name: str, planning: PlanningProblem, *clash: str | tuple[str, str], people: int = 0
) -> Impossible:
    members = frozenset((c, "") if isinstance(c, str) else c for c in clash)
    return Impossible(name, planning, members, people)


def kept(exercise: str) -> tuple[str, str]:
    """Name a kept exercise as a member."""
    return ("kept_exercise", f"{exercise}_line")


def _of_kit() -> tuple[Impossible, ...]:
    return (
        _case(
            "three people, one bench, a kept row from the bench",
            asking(a_base(people(3), a_kit(None, BENCH)), 2, "lifted_squat", kept=("bench_pull",)),
            kept("bench_pull"),
            ("kit", "bench"),
            people=2,
        ),
        _case(
            "two exercises to choose from, and one needs the bench",
            asking(a_base(people(3), a_kit(None, BENCH)), 2, "lifted_squat", "bench_pull"),
            "places",
            ("kit", "bench"),
            people=2,
        ),
        _case(
            "four people, three dumbbells",
            asking(a_base(people(4), a_kit({8000: 3})), 1, "lifted_squat"),
            ("kit", "8000"),
            people=2,
        ),
        _case(
            "three people, two pairs of two masses",
            asking(a_base(people(3), a_kit({6000: 2, 8000: 2})), 1, "lifted_squat"),
            ("kit", "6000"),
            ("kit", "8000"),
            people=3,
        ),
        _case(
            "three in pairs, where two lift at once, and one pair of dumbbells",
            asking(
                a_base(people(3), a_kit({12_000: 2})),
                1,
                "lifted_squat",
                formats=(ClassFormat.PAIRS,),
            ),
            ("kit", "12000"),
            people=3,
        ),
        _case(
            "two skip in the burst and there is one rope",
            asking(
                a_base(kit=a_kit(None, ROPE), burst=BurstWish(line="skip_line", length_s=20)),
                1,
                "lifted_squat",
            ),
            ("burst", "skip_line"),
            ("kit", "rope"),
            people=2,
        ),
        _case(
            "two who may not push can only row instead, from one bench",
            asking(
                a_base(
                    people(2, caps={Demand.WRIST: 0}),
                    a_kit(None, BENCH),
                    substitutes=("bench_pull_line",),
                ),
                2,
                "lifted_squat",
                kept=("push",),
            ),
            kept("push"),
            ("kit", "bench"),
            people=2,
        ),
    )


def _of_the_choice() -> tuple[Impossible, ...]:
    free = a_base(rules=NO_COVERAGE)
    return (
        _case("three places, two exercises", asking(free, 3, "lifted_squat", "hinge"), "places"),
        _case(
            "two of the four stand on the same line",
            asking(free, 4, "lifted_hinge", "lifted_press", "squat_and_push", "squat_and_pull"),
            "places",
            "same_line",
        ),
        _case(
            "two of the four begin with the same version",
            asking(free, 4, "lifted_hinge", "lifted_press", "squat_and_push", "any_squat_and_pull"),
            "places",
            "same_line",
        ),
        _case(
            "two that work one muscle and one may",
            asking(free, 2, "curl", "side_raise"),
            "places",
            "accessories_cap",
        ),
        _case(
            "two of two pull in some part and one may",
            asking(
                a_base(rules=NO_COVERAGE | {"most_of_a_line": 1}),
                2,
                "hinge_and_pull",
                "any_squat_and_pull",
            ),
            "places",
            "line_cap",
        ),
        _case(
            "two of three are squats and one may be",
            asking(
                a_base(rules=NO_COVERAGE | {"most_of_a_pattern": 1}),
                3,
                "lifted_squat",
                "squat",
                "lifted_hinge",
            ),
            "places",
            ("pattern_cap", "squat"),
        ),
        _case(
            "nothing for the hips",
            asking(a_base(), 4, "lifted_squat", "lifted_press", "pull", "plank", "push"),
            ("coverage", "hip"),
        ),
        _case(
            "nothing that pulls",
            asking(a_base(), 4, "lifted_squat", "lifted_press", "lifted_hinge", "plank", "push"),
            ("coverage", "pull"),
        ),
        _case(
            "nothing that pulls but a curl",
            asking(a_base(), 4, "lifted_squat", "lifted_press", "lifted_hinge", "plank", "curl"),
            ("coverage", "pull"),
        ),
        _case(
            "nothing for the trunk",
            asking(a_base(), 5, "lifted_squat", "lifted_press", "lifted_hinge", "pull", "push"),
            ("coverage", "trunk"),
        ),
        _case(
            "two kept for the knees leave too little room",
            asking(
                a_base(),
                4,
                "lifted_hinge",
                "lifted_press",
                "pull",
                "plank",
                kept=("squat", "lunge"),
            ),
            "places",
            ("coverage", "hip"),
            ("coverage", "push"),
            ("coverage", "pull"),
            kept("squat"),
            kept("lunge"),
        ),
        _case(
            "two that jump and one may",
            asking(
                a_base(rules=NO_COVERAGE | {"most_jumping": 1}),
                4,
                "lifted_squat",
                "lifted_hinge",
                "hop",
                "leap",
            ),
            "places",
            "jumping_cap",
        ),
        _case(
            "one of three lifts and two should",
            asking(free, 3, "lifted_squat", "push", "plank"),
            "places",
            "loaded_least",
        ),
        _case(
            "a combination and none may be",
            asking(
                a_base(rules=NO_COVERAGE | {"most_new_combinations": 0}),
                2,
                "lifted_squat",
                "hinge_and_pull",
            ),
            "places",
            "combinations_cap",
        ),
        _case(
            "the only class was shown before",
            asking(
                free,
                2,
                "lifted_squat",
                "lifted_hinge",
                besides=(("lifted_hinge_line", "lifted_squat_line"),),
            ),
            "places",
            "besides",
        ),
    )


def _of_the_order_and_the_coach() -> tuple[Impossible, ...]:
    free = a_base(rules=NO_COVERAGE)
    return (
        _case(
            "two squats and nothing between",
            asking(free, 2, "lifted_squat", "squat"),
            "places",
            "neighbours",
        ),
        _case(
            "what is kept at the start cannot stand between two squats",
            asking(free, 3, "lifted_squat", "squat", kept=(("lifted_hinge", 1),)),
            "places",
            "neighbours",
            kept("lifted_hinge"),
        ),
        _case(
            "calves first or last, and calves in the burst",
            asking(
                a_base(
                    rules=NO_COVERAGE,
                    kit=a_kit(None, ROPES),
                    burst=BurstWish(line="skip_line", length_s=20),
                ),
                2,
                "lifted_squat",
                "hop",
            ),
            "places",
            ("burst", "skip_line"),
            ("beside_burst", "skip_line"),
        ),
        _case(
            "one of two is not wanted",
            asking(
                a_base(rules=NO_COVERAGE, ban=("lifted_hinge_line", "lifted_hinge")),
                2,
                "lifted_squat",
                "lifted_hinge",
            ),
            "places",
            ("ban", "lifted_hinge_line"),
        ),
        _case(
            "two that are kept land too often for someone in the fifth class",
            asking(
                a_base(people(2) | people(1, classes_done=4), rounds=2),
                3,
                "lifted_squat",
                kept=(("hop", 1), ("leap", 2)),
            ),
            "places",
            "contacts",
            kept("hop"),
            kept("leap"),
            people=1,
        ),
        _case(
            "skipping is kept, and skipped again in the burst",
            asking(
                a_base(
                    kit=a_kit(None, ROPES),
                    burst=BurstWish(line="skip_line", length_s=120, rate_a_min=100),
                ),
                2,
                "lifted_squat",
                kept=(("skip", 1),),
                count=200,
            ),
            "low_hops",
            ("burst", "skip_line"),
            kept("skip"),
            people=1,
        ),
        _case(
            "a mass that is not on the rack is wanted for one person",
            asking(
                a_base(keep=(KeptCell(person="p001", position=1, mass_g=14_000),)),
                1,
                "lifted_squat",
            ),
            "kept",
            people=1,
        ),
    )


def a_bare_hall(*candidates: str) -> PlanningProblem:
    """Four people keep a row, a squat and a lunge; a bench, a box, three dumbbells are there."""
    base = a_base(people(4), a_kit({8000: 3}, BENCH, BOX), rules=NO_COVERAGE)
    return asking(base, 3, *candidates, kept=("bench_pull", "lifted_squat", "prop_lunge"))


def _of_halls_that_lack_many_things() -> tuple[Impossible, ...]:
    return (
        _case(
            "too little for each of three that are kept: dumbbells and bench are let go first",
            a_bare_hall("squat"),
            kept("prop_lunge"),
            ("kit", "box"),
            people=2,
        ),
        _case(
            "one should lift, four people, two pairs, and little of all else",
            asking(
                a_base(people(4), a_kit({6000: 2, 8000: 2}, BENCH, BOX), rules=NO_COVERAGE),
                1,
                "lifted_squat",
                "lifted_hinge",
                "lifted_press",
                "bench_pull",
                "prop_lunge",
            ),
            "loaded_least",
            ("kit", "6000"),
            ("kit", "8000"),
            people=3,
        ),
        _case(
            "five in pairs, one bench and one box, for which three are too many",
            asking(
                a_base(people(5), a_kit(None, BENCH, BOX), rules=NO_COVERAGE),
                2,
                "squat",
                kept=("bench_pull", "prop_lunge"),
                formats=(ClassFormat.PAIRS,),
            ),
            kept("prop_lunge"),
            ("kit", "box"),
            people=3,
        ),
        _case(
            "three at their first class, whose lunges are capped over the class, and one box",
            asking(
                a_base(people(3, classes_done=0), a_kit(None, BOX), rules=NO_COVERAGE),
                2,
                "lunge",
                "lifted_squat",
                "push",
                kept=("prop_lunge",),
            ),
            kept("prop_lunge"),
            ("kit", "box"),
            people=2,
        ),
    )


CASES = (
    *_of_halls_that_lack_many_things(),
    *_of_kit(),
    *_of_the_choice(),
    *_of_the_order_and_the_coach(),
)
