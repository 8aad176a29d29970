"""Every movement has a posture, and each posture agrees with its movement."""

import pytest

from roundwright.body.posture import Posture
from roundwright.body.posture_text import read_postures
from roundwright.bootstrap.shipped_bodies import check_bodies, shipped_bodies
from roundwright.bootstrap.shipped_library import authored_catalogue
from roundwright.foundation.errors import BadInputError
from roundwright.library.movement import KitNeed, Movement
from roundwright.library.posture_rules import disagreements, kit_shown, without_posture
from roundwright.library.vocabulary import KitKind, KitUse, Laterality


def movement(of: str, **changed: object) -> Movement:
    return authored_catalogue().movements[of].model_copy(update=changed)


def posture(slug: str) -> Posture:
    return shipped_bodies().postures[slug]


def told(each: Movement, its: Posture) -> list[str]:
    return [fault.in_words() for fault in disagreements({each.slug: each}, {each.slug: its})]


def test_every_shipped_movement_has_a_posture_that_agrees_with_it() -> None:
    movements, postures = authored_catalogue().movements, shipped_bodies().postures
    assert without_posture(movements, postures) == ()
    assert [fault.in_words() for fault in disagreements(movements, postures)] == []
    assert len(postures) == len(movements)
    check_bodies(movements)


def test_a_movement_without_a_posture_is_refused_by_name() -> None:
    new = movement("goblet_squat", slug="goblet_squat_anew")
    with pytest.raises(BadInputError, match="goblet_squat_anew"):
        check_bodies({**authored_catalogue().movements, new.slug: new})


def test_a_posture_of_no_movement_is_told_with_the_nearest_name() -> None:
    movements = {"goblet_squat": movement("goblet_squat")}
    faults = list(disagreements(movements, {"goblet_squats": posture("goblet_squat")}))
    assert [(f.code, f.nearest) for f in faults] == [("name.unknown", ("goblet_squat",))]


@pytest.mark.parametrize("kind", [KitKind.BENCH, KitKind.BOX, KitKind.CHAIR, KitKind.BAND])
def test_kit_that_the_posture_does_not_show_is_told(kind: KitKind) -> None:
    squat = movement("goblet_squat")
    more = (*squat.kit, KitNeed(item=kind, use=KitUse.SUPPORT))
    (words,) = told(squat.model_copy(update={"kit": more}), posture("goblet_squat"))
    assert "which does not touch it" in words


def test_kit_that_only_the_posture_shows_is_told() -> None:
    (words,) = told(movement("bench_push_up", kit=()), posture("bench_push_up"))
    assert "which touches or shows it" in words


def test_a_bench_of_another_height_is_told() -> None:
    need = KitNeed.model_validate({"item": "bench", "max_height": "40 cm", "use": "under_hands"})
    (words,) = told(movement("bench_push_up", kit=(need,)), posture("bench_push_up"))
    assert "450 mm" in words
    assert "0 to 400 mm" in words


def test_dumbbells_held_are_those_that_are_needed() -> None:
    (words,) = told(movement("dumbbell_squat", kit=()), posture("dumbbell_squat"))
    assert "the dumbbells that the movement needs" in words


def test_a_one_sided_movement_has_two_unlike_sides() -> None:
    one_sided = movement("dumbbell_squat", laterality=Laterality.UNILATERAL)
    assert len(told(one_sided, posture("dumbbell_squat"))) == 1


def test_a_band_from_the_side_is_enough_to_be_one_sided() -> None:
    assert told(movement("seated_press_out"), posture("seated_press_out")) == []


def test_an_arm_at_work_is_the_left_one() -> None:
    text = (
        'schema = "roundwright.posture/1"\n[posture.standing_one_arm_press]\n'
        'like = "other"\n[posture.other]\npath = "hold"\nhold = "right"\n'
        'touch = { foot = "floor" }\nelbow_right = 90\n[[posture.other.key]]\nname = "only"\n'
    )
    postures, _ = read_postures({"probe.toml": text})
    words = told(movement("standing_one_arm_press"), postures["standing_one_arm_press"])
    assert any("the left side works" in each for each in words)


def test_a_listed_bench_that_nothing_touches_is_not_shown() -> None:
    # It is like the push-up on a bench, whose bench stays listed.
    assert posture("high_box_push_up").props.bench is not None
    assert kit_shown(posture("high_box_push_up")) == {KitKind.BOX}
