"""Nobody gets a piece that they may not do; who lands practises landing, the others do not."""

import pytest

from roundwright.library.vocabulary import Demand
from roundwright.people.limitation import Amount, Concern
from roundwright.people.person import Clearance
from roundwright.plan.core import Piece
from roundwright.plan.pieces import pieces_for
from roundwright.plan.problem import ProblemPerson
from tests.pieces.piece_class import LIBRARY, a_class, a_core, forbidden, jumper, limited, made
from tests.support.builders import a_person

OTHERS = {f"p1{k:02d}": a_person() for k in range(3)}


def alone(person: ProblemPerson) -> dict[str, str]:
    """Give one person's version of each line, among three regulars."""
    people = {"p001": person, **OTHERS}
    pieces = made(people)
    assert forbidden(pieces, people) == []
    return {p.line_id: p.versions["p001"] for p in pieces if "p001" in p.versions}


def landing(pieces: tuple[Piece, ...]) -> Piece | None:
    """Give the landing practice, if there is one."""
    return next((p for p in pieces if p.why == "landing"), None)


@pytest.mark.parametrize("amount", list(Amount))
@pytest.mark.parametrize("concern", list(Concern))
def test_every_limit_has_something_to_do_and_nothing_forbidden(
    concern: Concern, amount: Amount
) -> None:
    mine = alone(limited(concern, amount))
    assert {"pulse_raisers", "easy_walks", "hip_circles", "thigh_stretches"} <= set(mine)


def test_a_painful_knee_sits_for_the_thigh_stretch_and_bends_little() -> None:
    mine = alone(limited(Concern.KNEE))
    assert mine["thigh_stretches"] == "seated_heel_tuck"
    assert mine["squats"] == "chair_sit_to_stand"
    assert all(LIBRARY.movements[m].demand(Demand.KNEE) <= 1 for m in mine.values())


def test_pregnancy_neither_lies_down_nor_stands_on_one_leg() -> None:
    mine = alone(limited(Concern.PREGNANCY))
    assert mine["balance_stands"] == "seated_side_lean"
    assert mine["hip_circles"] == "seated_hip_tilt"
    assert not any(LIBRARY.movements[m].demand(Demand.ON_BACK) for m in mine.values())


def test_a_walk_in_is_kept_to_light_pieces() -> None:
    mine = alone(a_person(level=1, classes_done=None, clearance=Clearance.UNKNOWN))
    assert mine["pulse_raisers"] == "step_touch"
    assert all(LIBRARY.movements[m].level <= 2 for m in mine.values())
    assert all(LIBRARY.movements[m].demand(Demand.IMPACT) == 0 for m in mine.values())


def test_with_one_leg_everything_is_seated() -> None:
    mine = alone(limited(Concern.ONE_LEG))
    assert mine["pulse_raisers"] == mine["easy_walks"] == "seated_arm_swing"
    done = {slug: LIBRARY.movements[slug] for slug in mine.values()}
    assert all(movement.demand(Demand.NEEDS_BOTH_LEGS) == 0 for movement in done.values())
    assert {s for s, m in done.items() if m.demand(Demand.NEEDS_STANDING)} <= {"wall_push_up"}
    assert "squats" not in mine


def test_a_child_and_a_person_of_seventy_lift_nothing() -> None:
    for ages in ({"youngest_age": 12, "oldest_age": 13}, {"youngest_age": 70, "oldest_age": 71}):
        mine = alone(a_person(level=1, **ages))
        assert mine["pulse_raisers"] == "step_touch"
        assert all(LIBRARY.movements[m].dumbbells_needed == 0 for m in mine.values())


def test_jumpers_practise_landing_and_others_raise_their_heels() -> None:
    people = {
        "p001": jumper(),
        "p002": a_person(),
        "p003": limited(Concern.ONE_LEG),
        "p004": a_person(clearance=Clearance.UNKNOWN, classes_done=None),
    }
    pieces = made(people, frozenset({"p001"}))
    practice = landing(pieces)
    assert practice is not None
    assert practice.versions == {
        "p001": "drop_and_hold",
        "p002": "wall_heel_raise",
        "p003": "seated_heel_raise",
        "p004": "wall_heel_raise",
    }
    assert forbidden(pieces, people) == []


def test_without_jumps_there_is_no_landing_practice() -> None:
    assert landing(made({"p001": jumper(), "p002": a_person()})) is None


def test_the_practice_counts_within_the_limit_of_landings() -> None:
    # Five jumps and five landings: 10 are within 20 (level 3, 8 classes), not within 9.
    eight_classes = jumper(level=3, classes_done=8)
    within = landing(made({"p001": eight_classes}, frozenset({"p001"})))
    assert within is not None
    problem = a_class({"p001": eight_classes})
    rules = problem.rules
    tight = rules.model_copy(
        update={"contacts": tuple(r.model_copy(update={"limit": 9}) for r in rules.contacts)}
    )
    tight_problem = problem.model_copy(update={"rules": tight})
    assert landing(pieces_for(tight_problem, a_core(problem, frozenset({"p001"})))) is None


def test_a_person_without_any_allowed_version_rests() -> None:
    lame = a_person(caps={Demand.HIP: 0, Demand.KNEE: 0})
    pieces = made({"p001": lame, **OTHERS})
    hips = next(p for p in pieces if p.line_id == "hip_circles")
    assert "p001" not in hips.versions
    assert set(hips.versions) == set(OTHERS)


def test_chairs_go_first_to_those_who_have_nothing_else() -> None:
    people = {f"p00{k}": a_person() for k in range(1, 5)} | {"p009": limited(Concern.ONE_LEG)}
    pieces = made(people, chairs=1)
    pulse = next(p for p in pieces if p.why == "pulse")
    assert pulse.versions["p009"] == "seated_arm_swing"
    assert pulse.versions["p001"] == "step_touch"
    squat = next(p for p in pieces if p.line_id == "squats")
    assert len(squat.versions) == 1


def test_a_chair_that_is_not_rated_for_the_person_is_not_used() -> None:
    pieces = made({"p001": limited(Concern.ONE_LEG, body_mass_g=151_000), **OTHERS})
    assert all("p001" not in p.versions for p in pieces)


def test_what_the_class_bans_is_not_in_the_warm_up() -> None:
    pieces = made(dict(OTHERS), ban=("step_touch", "hip_circles"))
    assert {m for p in pieces for m in p.versions.values()} & {"step_touch"} == set()
    assert "hip_circles" not in {p.line_id for p in pieces}
