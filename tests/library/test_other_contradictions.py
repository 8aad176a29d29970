"""Muscles, time, words and lines that cannot be are found; what can be is not."""

import re
from pathlib import Path
from typing import Any

import pytest

from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.library import consistency, line_rules, text_rules
from roundwright.library.consistency import contradictions
from roundwright.library.movement import KitNeed, Movement, MuscleShare
from roundwright.library.rule_exceptions import EXCEPTIONS
from roundwright.library.vocabulary import Demand, KitKind, KitUse, Pattern
from tests.support.builders import a_catalogue, a_line
from tests.support.sound_movements import PLAIN, a_sound_movement

CHAIR = (KitNeed(item=KitKind.CHAIR, use=KitUse.LIE_OR_SIT),)
BENCH = (KitNeed(item=KitKind.BENCH, use=KitUse.LIE_OR_SIT),)


def found(**changes: Any) -> list[tuple[str | int, ...]]:
    library = a_catalogue([a_sound_movement("sit", **changes)], [])
    return [each.path for each in contradictions(library)]


def in_line(*versions: Movement) -> list[tuple[str, str]]:
    line = a_line("sits", *(version.slug for version in versions))
    library = a_catalogue(versions, [line])
    return [(each.code, each.value) for each in contradictions(library)]


def muscles(**shares: tuple[str, float]) -> dict[Muscle, MuscleShare]:
    return {
        Muscle(name): MuscleShare(role=MuscleRole(role), share=share)
        for name, (role, share) in shares.items()
    }


def saying(**words: Any) -> dict[str, Any]:
    return {"teaching": PLAIN.model_copy(update=words)}


@pytest.mark.parametrize(
    ("given", "wrong"),
    [
        (muscles(quads=("prime_mover", 0.6), triceps=("prime_mover", 0.4)), ["triceps"]),
        (muscles(quads=("prime_mover", 0.4), calves=("helper", 0.6)), ["calves"]),
        (muscles(quads=("prime_mover", 0.4), calves=("stabiliser", 0.6)), ["calves"]),
        (muscles(quads=("prime_mover", 0.5), calves=("helper", 0.5)), []),
        (
            muscles(
                quads=("prime_mover", 0.5), glutes=("prime_mover", 0.2), calves=("helper", 0.3)
            ),
            [],
        ),
        (
            muscles(
                quads=("prime_mover", 0.5), glutes=("prime_mover", 0.2), calves=("stabiliser", 0.3)
            ),
            ["calves"],
        ),
    ],
)
def test_muscles_that_oppose_the_pattern_or_their_role_are_found(
    given: dict[Muscle, MuscleShare], wrong: list[str]
) -> None:
    assert found(muscles=given) == [("muscles", name) for name in wrong]


@pytest.mark.parametrize(
    ("seconds", "tempo", "rate", "wrong"),
    [
        (2.0, "2-0-1", None, []),
        (2.0, "2-1-1", None, [("tempo",)]),
        (15.0, "1-9-1", None, []),
        (1.5, "1-0-1", 60, [("rate_a_min",)]),
        (1.5, "1-0-1", 40, []),
        (0.55, "0-0-1", 120, []),
        (3.0, "1-0-1", 10, [("rate_a_min",)]),
    ],
)
def test_a_tempo_or_rate_that_does_not_fit_the_rep_is_found(
    seconds: float, tempo: str, rate: int | None, wrong: list[tuple[str, ...]]
) -> None:
    assert found(seconds_a_rep=seconds, tempo=tempo, rate_a_min=rate) == wrong


@pytest.mark.parametrize(
    ("changes", "wrong"),
    [
        (saying(set_up="Hold the band."), [("teaching", "set_up")]),
        (saying(steps=("Go.", "Touch the bench.")), [("teaching", "steps", 1)]),
        (saying(steps=("Touch the bench.",)) | {"kit": BENCH}, []),
        (saying(cues=("On rails, not on a rope.", "Slow.")), []),
        ({"kit": BENCH} | saying(watch="Stay slow."), [("kit", 0, "item")]),
        (saying(set_up="Lie on your back."), [("teaching", "set_up")]),
        (saying(start="Lying face down."), [("teaching", "start")]),
        (saying(set_up="Kneel on one knee."), [("teaching", "set_up")]),
        (saying(set_up="Kneel on the bench.") | {"kit": BENCH}, []),
        (saying(steps=("Jump up.",)), [("teaching", "steps", 0)]),
        (saying(steps=("Step, no jump.",)), []),
        (saying(end="Arms overhead."), [("teaching", "end")]),
        (saying(start="Standing tall."), [("teaching", "start")]),
        (saying(start="Standing tall.") | {"demands": {Demand.NEEDS_STANDING: 1}}, []),
        (
            {"kit": CHAIR, "demands": {Demand.NEEDS_STANDING: 1}},
            [("demands", "needs_standing")],
        ),
        (
            {"kit": CHAIR, "demands": {Demand.NEEDS_STANDING: 1}} | saying(steps=("Stand up.",)),
            [],
        ),
    ],
)
def test_words_that_do_not_fit_kit_or_demands_are_found(
    changes: dict[str, Any], wrong: list[tuple[str | int, ...]]
) -> None:
    assert found(**changes) == wrong


@pytest.mark.parametrize("field", ["set_up", "start", "end", "feel"])
def test_another_movement_is_named_nowhere_but_in_faults_and_watch(field: str) -> None:
    named = PLAIN.model_copy(update={field: "As in the hip bridge."})
    bridge = a_sound_movement("bridge", name="Hip bridge")
    library = a_catalogue([a_sound_movement("sit", teaching=named), bridge], [])
    (only,) = contradictions(library)
    assert only.path == ("teaching", field)
    watched = PLAIN.model_copy(update={"watch": PLAIN.watch + " Else the hip bridge."})
    library = a_catalogue([a_sound_movement("sit", teaching=watched), bridge], [])
    assert contradictions(library) == ()


def test_a_version_that_asks_less_of_everything_is_found() -> None:
    easy = a_sound_movement("easy", demands={Demand.KNEE: 2, Demand.HIP: 1})
    less = a_sound_movement("less", level=3, demands={Demand.KNEE: 2})
    more = a_sound_movement("more", demands={Demand.KNEE: 1, Demand.BALANCE: 1})
    same = a_sound_movement("same", demands={Demand.KNEE: 2, Demand.HIP: 1})
    assert in_line(easy, less) == [("library.line", "less")]
    assert in_line(easy, more) == []
    assert in_line(easy, same) == []


def test_in_a_line_of_cardio_a_seated_version_may_follow_one_of_its_level() -> None:
    march = a_sound_movement("march", pattern=Pattern.CARDIO, demands={Demand.BALANCE: 1})
    seated = a_sound_movement("seated", pattern=Pattern.CARDIO)
    higher = a_sound_movement("higher", pattern=Pattern.CARDIO, level=3)
    assert in_line(march, seated) == []
    assert in_line(march, higher) == [("library.line", "higher")]


def test_versions_of_another_kind_are_found() -> None:
    sit = a_sound_movement("sit")
    pull = a_sound_movement(
        "pull",
        pattern=Pattern.HORIZONTAL_PULL,
        muscles=muscles(lats=("prime_mover", 1.0)),
        demands={Demand.SHOULDER: 1},
    )
    step = a_sound_movement(
        "step", pattern=Pattern.STEP, demands={Demand.HIP: 1, Demand.NEEDS_BOTH_LEGS: 1}
    )
    assert in_line(sit, pull) == [("library.consistency", "pull (horizontal_pull)")]
    assert in_line(sit, step) == []


def test_each_exception_has_a_reason_and_is_still_needed(monkeypatch: pytest.MonkeyPatch) -> None:
    library = shipped_catalogue()
    monkeypatch.setattr(consistency, "is_excepted", lambda rule, slug: False)
    broken = {each.slug for each in contradictions(library)}
    assert {slug for _, slug in EXCEPTIONS} == broken
    assert all(len(reason) > 20 for reason in EXCEPTIONS.values())


def test_the_page_lists_every_rule_and_no_other() -> None:
    page = Path(__file__).parents[2] / "docs" / "explanation" / "library-consistency.md"
    listed = re.findall(r"^\| `(\w+)` \|", page.read_text(encoding="utf-8"), re.MULTILINE)
    rules = [*consistency.MOVEMENT_RULES, text_rules.teaching_names_another]
    rules += [*line_rules.LINE_RULES, *line_rules.COMBINATION_RULES]
    assert sorted(listed) == sorted(rule.__name__ for rule in rules)
